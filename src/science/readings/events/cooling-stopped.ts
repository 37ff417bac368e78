// Cooling stopped while the source says on: a flame that went out, a supply that was lost.

import { isElectric, msPerHour, msPerMinute } from "../../../schema/index.ts";
import type { RunEvent } from "../../findings.ts";
import { heatSourceOf, type Series, type Stretch } from "../series.ts";
import { movingMedian } from "../smoothing.ts";
import type { CoolingPause } from "./cooling-pauses.ts";
import { longestThermostatPauseMs, mayHaveThermostat } from "./cycling.ts";

/** Down to this share of what it was, the sign of cooling is gone. */
const goneShare = 0.5;
/**
 * A pause that has not ended with the stretch must be this old, or the thermostat may have made it: the first hold of a
 * simulated thermostat lasts 48 min in the middle. A dead flame is told earlier, at the price of more false alarms, than a
 * supply that was lost (tests/bench/stop-study.ts).
 */
const leastOpenMs = { flame: 42 * msPerMinute, supply: 60 * msPerMinute } as const;
const leastOpenWithoutThermostatMs = 25 * msPerMinute;
/** Where the thermostat is known to cycle: as many times as long as its pauses. */
const timesLonger = 1.6;
/** A cabinet that later went this much further down, K, was not held by a thermostat. */
const wentFurther = 0.6;
const levelMinutes = 11;
/** No thermostat holds a cabinet warmer than this, °C. Common practice, no source. */
const warmestSetPoint = 11;

/** Cooling that stopped while a source said on, among a run's events, with that source. */
export const stopsOf = (events: readonly RunEvent[]) =>
  events.flatMap(({ reason, startMs, endMs }) =>
    reason.code === "cooling-stopped" ? [{ source: reason.source, startMs, endMs }] : [],
  );

/**
 * Pauses of cooling that no thermostat explains.
 *
 * A single pause that ended by itself may be a thermostat's first: it counts as stopped only when it lasted too long for
 * that, or when the cabinet later went well below the level of the pause, or where there is no thermostat.
 *
 * @param pauses those that belong to no cycling.
 * @param longestCyclePauseMs the longest pause the thermostat made in this stretch; 0 where none cycled.
 */
export function findCoolingStopped(
  series: Series,
  stretch: Stretch,
  pauses: readonly CoolingPause[],
  longestCyclePauseMs: number,
): RunEvent[] {
  const { log, unixMs } = series;
  return pauses
    .filter((pause) => isStop(series, stretch, pause, longestCyclePauseMs))
    .map((pause) => ({
      log,
      kind: "cooling-stopped",
      startMs: unixMs[pause.from],
      endMs: pause.hasResumed ? unixMs[pause.to] : stretch.endMs,
      position: null,
      size: (unixMs[pause.to - 1] - unixMs[pause.from]) / msPerHour,
      sizeUnit: "h",
      reason: {
        code: "cooling-stopped",
        source: heatSourceOf(stretch),
        finDifferenceBefore: pause.signBefore,
        finDifferenceAfter: pause.signLeast,
      },
    }));
}

function isStop(series: Series, stretch: Stretch, pause: CoolingPause, longestCyclePauseMs: number): boolean {
  const { unixMs } = series;
  const lasted = unixMs[pause.to - 1] - unixMs[pause.from];
  if (!(pause.signLeast <= goneShare * pause.signBefore)) return false;
  const isThermostat = mayHaveThermostat(stretch) && !(hasCabinet(series) && pause.levelAtStop > warmestSetPoint);
  if (!isThermostat) return lasted >= leastOpenWithoutThermostatMs;
  const least = isElectric(heatSourceOf(stretch)) ? leastOpenMs.supply : leastOpenMs.flame;
  if (!pause.hasResumed) return lasted >= Math.max(least, timesLonger * longestCyclePauseMs);
  return lasted > longestThermostatPauseMs || lowestAfter(series, stretch, pause) < pause.levelAtStop - wentFurther;
}

const hasCabinet = ({ columns }: Series) => columns.cabinet?.some(Number.isFinite) ?? false;

/** The lowest level of the cabinet (else the evaporator) in the rest of the stretch, freed of noise. */
function lowestAfter({ unixMs, columns }: Series, stretch: Stretch, pause: CoolingPause): number {
  const values = columns.cabinet?.some(Number.isFinite) ? columns.cabinet : columns.evaporator;
  if (values === undefined) return Infinity;
  const level = movingMedian(
    unixMs.subarray(pause.to, stretch.to),
    values.subarray(pause.to, stretch.to),
    levelMinutes,
  );
  return level.reduce((lowest, value) => (Number.isNaN(value) ? lowest : Math.min(value, lowest)), Infinity);
}
