// Calibrating a probe: from what a person says that it read at known temperatures to the calibration that is kept.

import {
  type AirPressure,
  boilingPoint,
  type CalibrationPoint,
  type CalibrationStanding,
  calibrateProbe,
  calibrationDue,
  calibrationStanding,
  expandedUncertainty,
  icePoint,
  largestUncertainty,
  type ProbeCalibration,
} from "../science/probes/index.ts";
import type { Calibration, NewCalibration, Probe, Store } from "../store/index.ts";

/** What was read where, °C. At least one of the three. */
export interface CalibrationGiven {
  readonly icePoint: readonly number[];
  readonly boiling: { readonly readings: readonly number[]; readonly pressure: AirPressure } | null;
  /** Pairs of what the reference probe and this one read. */
  readonly against: readonly { readonly reference: number; readonly reading: number }[];
  /** Standard uncertainty of the reference probe, K; `unstatedReference` when nobody says. */
  readonly referenceUncertainty?: number;
  readonly madeUnixMs: number;
  /** A year later unless stated. */
  readonly dueUnixMs?: number;
}

/** A correction, or what the points lack; nothing is kept then. */
export type CalibrationResult =
  | { readonly outcome: "calibrated"; readonly kept: Calibration; readonly told: CalibrationTold }
  | { readonly outcome: "no-boiling-point" }
  | { readonly outcome: "too-close"; readonly spanKelvin: number }
  | { readonly outcome: "not-settled"; readonly reference: number; readonly standardDeviation: number }
  /** No probe that works is so far off: it was not where it was said to be, or it is broken. */
  | { readonly outcome: "too-far-off"; readonly reference: number; readonly reading: number };

/** What a sentence about the calibration needs. */
export interface CalibrationTold {
  readonly method: NewCalibration["method"];
  /** Each known temperature with the mean of what was read there, °C, the coldest first. */
  readonly points: readonly { readonly reference: number; readonly reading: number; readonly readings: number }[];
  /** Half of the 95 % interval, K: where it is least, and the largest over a fridge's range of use. */
  readonly least: { readonly atCelsius: number; readonly kelvin: number };
  readonly widest: number;
  readonly dueUnixMs: number;
}

/** A reference probe of which nothing is known but that it is one of the usual 0.5 K ones, K (common practice, no source). */
const unstatedReference = 0.29;
/** What a probe on a fridge measures, fins in the cold to ambient in the heat, °C. */
export const rangeOfUse = { lowest: -30, highest: 40 } as const;
/** The step of a probe that did not say its own, K. */
const unsaidStep = 0.1;
const furthestOff = 5;

/**
 * Calibrates the probe and keeps the calibration, or says what its points lack.
 *
 * @throws BadInput "no-such-record" for a probe that the store does not know; RangeError without a point
 */
export async function calibrate(
  { probes }: Pick<Store, "probes">,
  probeId: string,
  given: CalibrationGiven,
): Promise<CalibrationResult> {
  const points = pointsOf(given);
  if (points === null) return { outcome: "no-boiling-point" };
  const probe = (await probes.list()).find(({ id }) => id === probeId);
  const found = calibrateProbe(points, stepOf(probe));
  if (found.outcome === "too-close") return found;
  if (found.outcome === "not-settled") {
    const { point, standardDeviation } = found;
    return { outcome: "not-settled", reference: points[point].reference.celsius, standardDeviation };
  }
  const means = points.map(meanOf).toSorted((one, other) => one.reference - other.reference);
  const far = means.find(({ reference, reading }) => Math.abs(reading - reference) > furthestOff);
  if (far !== undefined) return { outcome: "too-far-off", reference: far.reference, reading: far.reading };
  const made = calibrationOf(probeId, given, points, found.calibration);
  const kept = await probes.calibrate(made);
  return { outcome: "calibrated", kept, told: toldOf(made.method, made.dueUnixMs, means, found.calibration) };
}

/** Where a calibration, as it is listed, stands on a day. */
export const calibrationStandingOn = (
  { made, due }: { readonly made: string; readonly due: string },
  nowUnixMs: number,
): CalibrationStanding => calibrationStanding({ madeUnixMs: Date.parse(made), dueUnixMs: Date.parse(due) }, nowUnixMs);

/** Probes of these whose newest calibration is overdue, with the day it fell due; those never calibrated are not among them. */
export async function overdueProbes(
  { probes }: Pick<Store, "probes">,
  probeIds: readonly string[],
  nowUnixMs: number,
): Promise<readonly { readonly probeId: string; readonly dueUnixMs: number }[]> {
  const calibrations = await probes.calibrations();
  return probeIds.flatMap((probeId) => {
    const newest = calibrations.find((calibration) => calibration.probeId === probeId);
    if (newest?.dueUnixMs === undefined) return [];
    const { madeUnixMs, dueUnixMs } = newest;
    const { standing } = calibrationStanding({ madeUnixMs, dueUnixMs }, nowUnixMs);
    return standing === "overdue" ? [{ probeId, dueUnixMs }] : [];
  });
}

const stepOf = (probe: Probe | undefined) => {
  const step = probe?.resolutionKelvin ?? 0;
  return step > 0 ? step : unsaidStep;
};

/** Null where no pan boils at the pressure that was stated. */
function pointsOf(given: CalibrationGiven): readonly CalibrationPoint[] | null {
  const { icePoint: ice, boiling, against, referenceUncertainty = unstatedReference } = given;
  const points: CalibrationPoint[] = ice.length > 0 ? [{ reference: icePoint, readings: ice }] : [];
  if (boiling !== null) {
    const reference = boilingPoint(boiling.pressure);
    if (reference === null) return null;
    points.push({ reference, readings: boiling.readings });
  }
  // The same reference temperature told several times is one point with several readings.
  for (const [celsius, pairs] of Map.groupBy(against, ({ reference }) => reference)) {
    const reference = { celsius, standardUncertainty: referenceUncertainty };
    points.push({ reference, readings: pairs.map(({ reading }) => reading) });
  }
  return points;
}

function calibrationOf(
  probeId: string,
  given: CalibrationGiven,
  points: readonly CalibrationPoint[],
  { coefficients, uncertainty }: ProbeCalibration,
): NewCalibration & { readonly dueUnixMs: number } {
  const { lowest, highest } = rangeOfUse;
  const { degreesOfFreedom } = uncertainty;
  return {
    probeId,
    madeUnixMs: given.madeUnixMs,
    dueUnixMs: given.dueUnixMs ?? calibrationDue(given.madeUnixMs),
    method: methodOf(given),
    coefficients,
    standardUncertaintyKelvin: largestUncertainty(uncertainty, lowest, highest),
    details: {
      points: points.map(({ reference, readings }) => ({ ...reference, readings })),
      // JSON knows no infinity: null is "known without doubt".
      uncertainty: {
        ...uncertainty,
        degreesOfFreedom: Number.isFinite(degreesOfFreedom) ? degreesOfFreedom : null,
      },
    },
  };
}

function methodOf({ icePoint: ice, boiling, against }: CalibrationGiven): NewCalibration["method"] {
  const kinds = [ice.length > 0, boiling !== null, against.length > 0].filter(Boolean).length;
  if (kinds > 1) return "several-points";
  if (against.length > 0) return "reference-probe";
  return boiling === null ? "ice-point" : "boiling-point";
}

const meanOf = ({ reference, readings }: CalibrationPoint) => ({
  reference: reference.celsius,
  reading: readings.reduce((sum, reading) => sum + reading, 0) / readings.length,
  readings: readings.length,
});

function toldOf(
  method: NewCalibration["method"],
  dueUnixMs: number,
  points: CalibrationTold["points"],
  { uncertainty }: ProbeCalibration,
): CalibrationTold {
  const { lowest, highest } = rangeOfUse;
  const { pivotCelsius } = uncertainty;
  return {
    method,
    points,
    least: { atCelsius: pivotCelsius, kelvin: expandedUncertainty(uncertainty, pivotCelsius) },
    widest: Math.max(expandedUncertainty(uncertainty, lowest), expandedUncertainty(uncertainty, highest)),
    dueUnixMs,
  };
}
