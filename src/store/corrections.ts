// From what a probe said to what it meant: the calibration that holds for a run, applied on reading back. Raw values are never
// changed.

import type { Calibration } from "./records.ts";

/**
 * Per probe: its newest calibration made before the run began; failing that the first made after, which is better than none.
 *
 * @param calibrations in any order
 */
export function calibrationsFor(
  startedUnixMs: number,
  calibrations: readonly Calibration[],
): ReadonlyMap<string, Calibration> {
  const oldestFirst = calibrations.toSorted((a, b) => a.madeUnixMs - b.madeUnixMs);
  const perProbe = Map.groupBy(oldestFirst, ({ probeId }) => probeId);
  return new Map(
    Array.from(perProbe, ([probeId, ofProbe]) => [
      probeId,
      ofProbe.findLast(({ madeUnixMs }) => madeUnixMs <= startedUnixMs) ?? ofProbe[0],
    ]),
  );
}

/** One value by the polynomial of the calibration; itself when there is none. */
export const correctedValue = (raw: number, calibration: Calibration | undefined): number =>
  calibration === undefined
    ? raw
    : calibration.coefficients.reduceRight((sum, coefficient) => sum * raw + coefficient, 0);

/** The polynomial of the calibration over all values; the values themselves when there is none. */
export function corrected(raw: Float64Array, calibration: Calibration | undefined): Float64Array {
  return calibration === undefined ? raw : raw.map((value) => correctedValue(value, calibration));
}
