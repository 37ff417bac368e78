// Hot days: from the given runs to the settled cabinet at a chosen ambient, and hour by hour through a trip. This file only
// joins: the law of depths is in depth-law.ts, one source in hot-day-source.ts, a trip in trip.ts.

import { type Forecast, type HeatSource, heatSources, type Recording } from "../../schema/index.ts";
import { type RunEvidence, runEvidence } from "../evidence/run-evidence.ts";
import { estimate } from "../numbers/estimate.ts";
import { fridgeNumbers } from "./fridge-numbers.ts";
import { hotDayAdvice } from "./hot-day-advice.ts";
import type { HotDay, Load } from "./hot-day-findings.ts";
import type { MarchSetting } from "./hot-day-marches.ts";
import { sourceOnHotDay } from "./hot-day-source.ts";
import { tripThrough } from "./trip.ts";

export interface HotDayOptions {
  /** °C; of a trip, its warmest unless stated. */
  readonly ambient?: number | undefined;
  readonly forecast?: Forecast | undefined;
  /** Unless stated that of the newest stretch; of a trip the one it runs on longest. */
  readonly source?: HeatSource | undefined;
  /** Goods put in at the start. */
  readonly load?: Load | undefined;
  /** Cabinet as the trip begins, °C; found from the logs unless stated. */
  readonly begin?: number | undefined;
  /** Of the draws behind the bands: another seed moves them by less than they are read to. */
  readonly seed?: number | undefined;
}

/** How much warmer top shelf and door are than mid-cabinet, K. Common practice, no source. */
const topShelf = estimate("K", 3, 2, 4);

/**
 * Predicts the cabinet on a hot day or through a trip.
 *
 * @param logs runs of one fridge, in any order; at least one.
 * @throws RangeError when neither an ambient nor a forecast is given.
 */
export function hotDay(logs: readonly Recording[], options: HotDayOptions): HotDay {
  const { forecast = null, load = null, begin = null, seed = 1 } = options;
  const ambient = options.ambient ?? (forecast === null ? Number.NaN : warmestOf(forecast));
  if (!Number.isFinite(ambient)) throw new RangeError("a hot day needs an ambient or a forecast");
  const runs = logs.map(runEvidence);
  const setting: MarchSetting = { fridge: fridgeNumbers(runs), load, seed };
  const asked = options.source ?? (forecast === null ? newestSource(runs) : longestSource(forecast, runs));
  const others = [...setting.fridge.sources.keys()].filter((source) => source !== asked);
  const sources = [asked, ...others].map((source) => sourceOnHotDay(source, ambient, setting));
  const trip = forecast === null ? null : tripThrough(forecast, runs, setting, begin);
  const advice = hotDayAdvice(sources[0], trip, forecast, load);
  return { ambient, source: asked, sources, trip, load, topShelf, advice };
}

const warmestOf = ({ rows }: Forecast) => Math.max(...rows.map((row) => row.ambient));

/** The source of the newest heated stretch; null when it has no name or there is none. */
function newestSource(runs: readonly RunEvidence[]): HeatSource | null {
  const heated = runs.flatMap((run) => run.stretches).filter(({ stretch }) => stretch.heated);
  return heated.toSorted((a, b) => b.stretch.startMs - a.stretch.startMs)[0]?.source ?? null;
}

function longestSource({ rows }: Forecast, runs: readonly RunEvidence[]): HeatSource | null {
  const lengthOn = (source: HeatSource) =>
    rows.slice(1).reduce((sum, next, i) => sum + (rows[i].source === source ? next.unixMs - rows[i].unixMs : 0), 0);
  const [longest] = heatSources.toSorted((a, b) => lengthOn(b) - lengthOn(a));
  return lengthOn(longest) > 0 ? longest : newestSource(runs);
}
