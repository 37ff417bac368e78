// From what a probe said to what it meant: its curve where it sent no °C, then the calibration that holds for a run, both applied
// on reading back. Raw values are never changed.

import type { ProbeCurve } from "../schema/index.ts";
import { isSameCurve, sensorCelsius, sensorUnits } from "../science/sensors/index.ts";
import type { Calibration, Probe, SeriesPart } from "./records.ts";

/** What decides how a raw value is corrected. */
export type RawOrigin = Pick<SeriesPart, "probeId" | "unit">;

/** °C of a raw value (V for the supply); NaN where no curve of its probe is known, or no such sensor gives that value. */
export type Correction = (raw: number) => number;

/**
 * How the values of each probe are corrected in a run. Of a probe's calibrations its newest made before the run began holds;
 * failing that the first made after, which is better than none. One made by another curve than the probe's present one never holds.
 *
 * @param calibrations in any order
 * @returns null for values that stay as they are
 */
export function correctionsFor(
  startedUnixMs: number,
  probes: readonly Probe[],
  calibrations: readonly Calibration[],
): (origin: RawOrigin) => Correction | null {
  const curves = new Map(probes.map(({ id, curve }) => [id, curve ?? null]));
  const oldestFirst = calibrations.toSorted((a, b) => a.madeUnixMs - b.madeUnixMs);
  const perProbe = Map.groupBy(oldestFirst, ({ probeId }) => probeId);
  const found = new Map<string, Correction | null>();
  const find = ({ probeId, unit }: RawOrigin): Correction | null => {
    if (probeId === null) return unit === null ? null : noTemperature;
    const curve = unit === null ? null : (curves.get(probeId) ?? null);
    if (unit !== null && (curve === null || sensorUnits[curve.kind] !== unit)) return noTemperature;
    const made = (perProbe.get(probeId) ?? []).filter((calibration) => isSameCurve(calibration.curve, curve));
    const calibration = made.findLast(({ madeUnixMs }) => madeUnixMs <= startedUnixMs) ?? made[0];
    return correctionBy(curve, calibration);
  };
  return ({ probeId, unit }) => {
    const key = `${unit} ${probeId}`;
    const correction = found.get(key);
    if (correction !== undefined) return correction;
    const first = find({ probeId, unit });
    found.set(key, first);
    return first;
  };
}

const noTemperature: Correction = () => Number.NaN;

function correctionBy(curve: ProbeCurve | null, calibration: Calibration | undefined): Correction | null {
  const celsiusOf: Correction | null =
    curve === null ? null : (raw) => sensorCelsius(curve, raw)?.celsius ?? Number.NaN;
  if (calibration === undefined) return celsiusOf;
  const { coefficients } = calibration;
  return (raw) => {
    const celsius = celsiusOf === null ? raw : celsiusOf(raw);
    return coefficients.reduceRight((sum, coefficient) => sum * celsius + coefficient, 0);
  };
}

/** The values corrected; the very same where nothing is to be. */
export const corrected = (raw: Float64Array, correction: Correction | null): Float64Array =>
  correction === null ? raw : raw.map(correction);
