// Whether the heat goes on while cooling pauses, as a probe at the boiler or in the flue shows: most thermostats leave a
// small flame when they hold; after a flame that died both cool away.

import { msPerMinute } from "../../../schema/index.ts";
import type { Series } from "../series.ts";
import { medianBetween } from "../smoothing.ts";
import type { CoolingPause } from "./cooling-pauses.ts";

/** What is heated is so far above ambient, K. Common practice, no source. */
const leastKelvin = 40;
/** In so long, ms, */
const watchedMs = 20 * msPerMinute;
/** what is heated falls by less than this share of its warmth above ambient. Without heat the simulated boilers lose 12 %. */
const leastLoss = 0.04;
/** A median over so long stands for a moment, ms. */
const momentMs = 5 * msPerMinute;

/** Whether boiler or flue has stayed warm up to the pause's end; false without such a probe, or without an ambient one. */
export const isStillHeated = (series: Series, pause: CoolingPause): boolean =>
  staysWarm(series, pause, "boiler") || staysWarm(series, pause, "flue");

/** Since the pause began it had cooled to less than this share of its warmth: heat that comes back, not heat that went on. */
const cooledShare = 0.7;

/** Whether boiler or flue had cooled in the pause and is hot again at its end. */
export const isHeatedAgain = (series: Series, pause: CoolingPause): boolean =>
  hasCooledAndCome(series, pause, "boiler") || hasCooledAndCome(series, pause, "flue");

function hasCooledAndCome({ unixMs, columns }: Series, pause: CoolingPause, position: "boiler" | "flue"): boolean {
  const { [position]: values, ambient } = columns;
  if (values === undefined || ambient === undefined) return false;
  const warmthAt = (row: number) => {
    const at = (column: Float64Array) => medianBetween(unixMs, column, unixMs[row] - momentMs, unixMs[row], row);
    return at(values) - at(ambient);
  };
  const now = warmthAt(pause.to - 1);
  if (!(now >= leastKelvin)) return false;
  for (let row = pause.from; row < pause.to; row++) if (warmthAt(row) < cooledShare * now) return true;
  return false;
}

function staysWarm({ unixMs, columns }: Series, pause: CoolingPause, position: "boiler" | "flue"): boolean {
  const { [position]: values, ambient } = columns;
  if (values === undefined || ambient === undefined) return false;
  const end = pause.to - 1;
  const endMs = unixMs[end];
  const begin = endMs - watchedMs;
  const at = (column: Float64Array, ms: number) => medianBetween(unixMs, column, ms - momentMs, ms, end);
  const warmth = at(values, endMs) - at(ambient, endMs);
  // The probe's own fall: an ambient probe that falls as well must not make a cooling boiler look warm.
  const fall = at(values, begin) - at(values, endMs);
  return warmth >= leastKelvin && fall <= leastLoss * warmth && !standsStill(unixMs, values, begin, end);
}

/** To the last digit, as a probe does that is stuck: it shows nothing. */
function standsStill(unixMs: Float64Array, values: Float64Array, fromMs: number, end: number): boolean {
  for (let row = end; row >= 0 && unixMs[row] >= fromMs; row--)
    if (Number.isFinite(values[row]) && values[row] !== values[end]) return false;
  return true;
}
