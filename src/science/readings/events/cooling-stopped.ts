// Cooling stopped while the source says on: a flame that went out, a supply that was lost.

import { isElectric, msPerHour, msPerMinute } from "../../../schema/index.ts";
import type { RunEvent } from "../../findings.ts";
import type { StopDoubt } from "../../sayings.ts";
import { heatSourceOf, type Series, type Stretch } from "../series.ts";
import { movingMedian } from "../smoothing.ts";
import type { CoolingPause } from "./cooling-pauses.ts";
import { hasLeftCycle, heldBefore, longestThermostatPauseMs, mayHaveThermostat } from "./cycling.ts";
import { isHeatedAgain, isStillHeated } from "./still-heated.ts";

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

/** When a stretch's cooling stopped and did not come back, though no thermostat explains it, ms; null where it went on. */
export function stoppedForGood(events: readonly RunEvent[], { startMs, endMs }: Stretch): number | null {
  const stop = events.find(
    (event) =>
      event.reason.code === "cooling-stopped" &&
      (event.reason.doubt === null || event.reason.doubt === "heat-goes-on") &&
      event.startMs >= startMs &&
      event.endMs === endMs,
  );
  return stop?.startMs ?? null;
}

/**
 * Pauses of cooling that no thermostat explains.
 *
 * A single pause that ended by itself may be a thermostat's first: it counts as stopped only when it lasted too long for
 * that, or when the cabinet later went well below the level of the pause, or where there is no thermostat.
 *
 * @param pauses all of the stretch.
 * @param ofCycling those that belong to a cycling.
 */
export function findCoolingStopped(
  series: Series,
  stretch: Stretch,
  pauses: readonly CoolingPause[],
  ofCycling: readonly CoolingPause[],
): RunEvent[] {
  const { log, unixMs } = series;
  const longestCyclePauseMs = Math.max(0, ...ofCycling.map((pause) => lastedMs(series, pause)));
  const isStop = (pause: CoolingPause) =>
    pause.hasResumed
      ? isStopThatEnded(series, stretch, pause)
      : isOpenStop(series, stretch, pause, pauses, longestCyclePauseMs);
  return pauses
    .filter((pause) => !ofCycling.includes(pause) && isGone(pause) && isStop(pause))
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
        doubt: doubtOf(series, stretch, pause, pauses),
      },
    }));
}

const lastedMs = ({ unixMs }: Series, pause: CoolingPause) => unixMs[pause.to - 1] - unixMs[pause.from];

const isGone = ({ signLeast, signBefore }: CoolingPause) => signLeast <= goneShare * signBefore;

/** @param pauses all of the stretch. */
function isOpenStop(
  series: Series,
  stretch: Stretch,
  pause: CoolingPause,
  pauses: readonly CoolingPause[],
  longestCyclePauseMs: number,
): boolean {
  const lasted = lastedMs(series, pause);
  if (!mayBeThermostat(series, stretch, pause)) return lasted >= leastOpenWithoutThermostatMs;
  // Heat that goes on is no dead flame: only what no thermostat explains has then stopped.
  if (isStillHeated(series, pause)) return lasted > longestThermostatPauseMs;
  const least = isElectric(heatSourceOf(stretch)) ? leastOpenMs.supply : leastOpenMs.flame;
  return lasted >= Math.max(least, timesLonger * longestCyclePauseMs) || hasLeftCycle(series.unixMs, pause, pauses);
}

function doubtOf(series: Series, stretch: Stretch, pause: CoolingPause, pauses: readonly CoolingPause[]): StopDoubt {
  // No thermostat holds for so long, or so warm, or otherwise than it did before.
  if (pause.hasResumed) return null;
  if (isHeatedAgain(series, pause)) return "heat-came-back";
  if (isStillHeated(series, pause)) return "heat-goes-on";
  return lastedMs(series, pause) <= longestThermostatPauseMs &&
    mayBeThermostat(series, stretch, pause) &&
    heldBefore(pause, pauses).length === 0
    ? "first-hold"
    : null;
}

function isStopThatEnded(series: Series, stretch: Stretch, pause: CoolingPause): boolean {
  const lasted = lastedMs(series, pause);
  if (!mayBeThermostat(series, stretch, pause)) return lasted >= leastOpenWithoutThermostatMs;
  return lasted > longestThermostatPauseMs || lowestAfter(series, stretch, pause) < pause.levelAtStop - wentFurther;
}

const mayBeThermostat = (series: Series, stretch: Stretch, pause: CoolingPause) =>
  mayHaveThermostat(stretch) && !(hasCabinet(series) && pause.levelAtStop > warmestSetPoint);

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
