// What the studies of a dead flame share: a night's probes and doors, and the night looked at every two minutes, as the recorder
// does: when it first is told that cooling has stopped.

import { msPerHour, msPerMinute } from "../../../src/schema/index.ts";
import { findEvents } from "../../../src/science/readings/events/find-events.ts";
import type { Series } from "../../../src/science/readings/series.ts";
import { findStretches } from "../../../src/science/readings/stretches.ts";

/** Makes the probes of one night: equally noisy, each with a memory and a lag of its own. */
export function probesOfNight(random: () => number) {
  const noiseKelvin = [0.05, 0.1, 0.2, 0.3][Math.floor(4 * random())];
  return () => ({
    noiseKelvin,
    noiseMemory: [0, 0.6, 0.9][Math.floor(3 * random())],
    lagSeconds: 30 + 90 * random(),
  });
}

export const doorsOfNight = (random: () => number) =>
  Array.from({ length: Math.floor(6 * random()) }, () => ({
    atHours: 1 + 10 * random(),
    seconds: 8 + 60 * random() ** 2,
  })).toSorted((a, b) => a.atHours - b.atHours);

const lookEveryMs = 2 * msPerMinute;

/** @param deadMs when the heat failed for good; null on a night on which it did not. */
export function watchedNight(whole: Series, deadMs: number | null) {
  const endMs = whole.unixMs[whole.unixMs.length - 1];
  let firstFalseMs: number | null = null;
  for (let at = whole.unixMs[0] + msPerHour; at <= endMs; at += lookEveryMs) {
    // Between a false alarm and the failure nothing new is learnt.
    if (firstFalseMs !== null && (deadMs === null || at < deadMs)) continue;
    if (!isStopped(until(whole, at))) continue;
    if (deadMs !== null && at >= deadMs) return { firstFalseMs, seenMs: at };
    firstFalseMs = at;
  }
  return { firstFalseMs, seenMs: null };
}

/** The series up to an instant. */
function until(series: Series, unixMs: number): Series {
  const found = series.unixMs.findIndex((at) => at > unixMs);
  const rows = found < 0 ? series.unixMs.length : found;
  const columns = Object.entries(series.columns).map(([position, values]) => [position, values.subarray(0, rows)]);
  return {
    ...series,
    unixMs: series.unixMs.subarray(0, rows),
    columns: Object.fromEntries(columns),
    sourceCodes: series.sourceCodes?.subarray(0, rows) ?? null,
  } as Series;
}

/** Whether cooling is said to have stopped, and not to have come back, at the end of these readings. */
function isStopped(series: Series): boolean {
  const last = series.unixMs[series.unixMs.length - 1];
  return findEvents(series, findStretches(series, [])).some(
    ({ kind, endMs }) => kind === "cooling-stopped" && endMs >= last,
  );
}

/** A quantile of minutes as text. */
export const quantile = (values: readonly number[], share: number) =>
  values.length === 0
    ? "–"
    : values.toSorted((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))].toFixed(0);
