// Calibrating a probe: from what it read at known temperatures to a correction and how far that can be trusted. Type A
// and Type B parts are put together as in the GUM (JCGM 100:2008, clauses 4 and 5, and Annex H.3, where a thermometer is
// calibrated by a straight line). The known temperatures of water are in fixed-points.ts.

import { mean, sampleStandardDeviation } from "simple-statistics";
import { tQuantile } from "../numbers/distributions.ts";
import { fitStraightLine } from "../numbers/straight-line.ts";
import { combined, type MeasuredCelsius, ofStep } from "../sensors/measured.ts";

/** What a probe read at one known temperature, settled. */
export interface CalibrationPoint {
  /** The known temperature: a fixed point, or what a reference probe beside it said, with its standard uncertainty. */
  readonly reference: MeasuredCelsius;
  /** The probe's own readings there, °C; one or more. */
  readonly readings: readonly number[];
}

/** A probe's correction. */
export interface ProbeCalibration {
  /** corrected = c0 + c1·raw, °C. */
  readonly coefficients: readonly [number, number];
  /** How it was found: the number of known temperatures, and the raw readings they span. */
  readonly points: number;
  readonly fromCelsius: number;
  readonly toCelsius: number;
  readonly uncertainty: CalibrationUncertainty;
}

/** Variance of a corrected reading: `atPivot`² + (`perKelvin`·(raw - pivot))². */
export interface CalibrationUncertainty {
  readonly pivotCelsius: number;
  /** Standard uncertainty where it is least, K. */
  readonly atPivot: number;
  /** Standard uncertainty of the slope, K per K. */
  readonly perKelvin: number;
  /** Effective, by Welch and Satterthwaite (GUM G.4.1). */
  readonly degreesOfFreedom: number;
}

/**
 * How far the slope of an uncalibrated digital or thermistor probe is from 1, one standard deviation, K per K (common
 * practice, no source).
 */
export const usualSlopeUncertainty = 0.005;

/** Known temperatures closer together than this are one temperature, K. A short span above it is shown by its uncertain slope. */
const leastCalibrationSpan = 2;

/** What makes points unusable: the caller asks the person for better ones. */
export type CalibrationOutcome =
  | { readonly outcome: "calibrated"; readonly calibration: ProbeCalibration }
  /** The known temperatures of `points` lie within 2 K of each other. */
  | { readonly outcome: "too-close"; readonly spanKelvin: number }
  /** At one point the probe did not settle: its readings scatter by more than 0.5 K. */
  | { readonly outcome: "not-settled"; readonly point: number; readonly standardDeviation: number };

const mostScatter = 0.5;

/**
 * Finds a probe's correction. One known temperature gives an offset, two a line through both, more a line by least squares.
 *
 * @param points known temperatures and what the probe read there, in any order; at least one, each with a reading.
 * @param step the probe's smallest step, K.
 * @throws RangeError when there is no point, a point has no reading, or a number is not finite.
 */
export function calibrateProbe(points: readonly CalibrationPoint[], step: number): CalibrationOutcome {
  check(points);
  const unsettled = points.findIndex(({ readings }) => scatter(readings) > mostScatter);
  if (unsettled >= 0) {
    return { outcome: "not-settled", point: unsettled, standardDeviation: scatter(points[unsettled].readings) };
  }
  const seen = points.map((point) => seenPoint(point, step)).sort((one, other) => one.raw - other.raw);
  const spanKelvin = seen[seen.length - 1].raw - seen[0].raw;
  if (seen.length > 1 && !(spanKelvin >= leastCalibrationSpan)) return { outcome: "too-close", spanKelvin };
  const line = seen.length === 1 ? throughOne(seen[0]) : seen.length === 2 ? throughTwo(seen) : throughMany(seen, step);
  return {
    outcome: "calibrated",
    calibration: {
      ...line,
      points: points.length,
      fromCelsius: seen[0].raw,
      toCelsius: seen[seen.length - 1].raw,
    },
  };
}

/** Half the width of the 95 % interval about a corrected reading, K: the standard uncertainty times Student's t. */
export function expandedUncertainty(uncertainty: CalibrationUncertainty, rawCelsius: number): number {
  return tQuantile(0.975, uncertainty.degreesOfFreedom) * uncertaintyAt(uncertainty, rawCelsius);
}

/** The largest standard uncertainty between two temperatures, K: one number for a whole range of use. */
export function largestUncertainty(uncertainty: CalibrationUncertainty, lowest: number, highest: number): number {
  return Math.max(uncertaintyAt(uncertainty, lowest), uncertaintyAt(uncertainty, highest));
}

const uncertaintyAt = ({ pivotCelsius, atPivot, perKelvin }: CalibrationUncertainty, raw: number) =>
  combined(atPivot, perKelvin * (raw - pivotCelsius));

/** A point, its readings averaged. */
interface SeenPoint {
  readonly raw: number;
  readonly celsius: number;
  /** Of the mean reading, Type A, with its degrees of freedom. */
  readonly ofMean: number;
  readonly freedom: number;
  /** Type B: the reference and the probe's step. */
  readonly ofReference: number;
  readonly ofStep: number;
}

function seenPoint({ reference, readings }: CalibrationPoint, step: number): SeenPoint {
  return {
    raw: mean([...readings]),
    celsius: reference.celsius,
    ofMean: scatter(readings) / Math.sqrt(readings.length),
    freedom: readings.length - 1,
    ofReference: reference.standardUncertainty,
    ofStep: ofStep(step),
  };
}

type Line = Pick<ProbeCalibration, "coefficients" | "uncertainty">;

function throughOne(point: SeenPoint): Line {
  return {
    coefficients: [point.celsius - point.raw, 1],
    uncertainty: {
      pivotCelsius: point.raw,
      atPivot: ofPoint(point),
      perKelvin: usualSlopeUncertainty,
      degreesOfFreedom: effectiveFreedom([point], [1]),
    },
  };
}

/**
 * At t between t1 and t2 the correction is the two points' own, weighted by distance: u² = ((t2 - t)²·u1² + (t - t1)²·u2²)/(t2 - t1)²,
 * which is least at the pivot and grows with the square of the distance from it.
 */
function throughTwo([one, other]: readonly SeenPoint[]): Line {
  const span = other.raw - one.raw;
  const slope = (other.celsius - one.celsius) / span;
  const [v1, v2] = [ofPoint(one) ** 2, ofPoint(other) ** 2];
  const share = v1 + v2 > 0 ? v1 / (v1 + v2) : 0.5;
  return {
    coefficients: [one.celsius - slope * one.raw, slope],
    uncertainty: {
      pivotCelsius: one.raw + share * span,
      atPivot: Math.sqrt(v1 * (1 - share) ** 2 + v2 * share ** 2),
      perKelvin: Math.sqrt(v1 + v2) / span,
      degreesOfFreedom: effectiveFreedom([one, other], [1 - share, share]),
    },
  };
}

/**
 * As in GUM H.3: corrections over readings by least squares, the scatter about the line being Type A. The same reference probe
 * or bath stands behind all points, so its uncertainty moves the whole line and is added once, the largest of them.
 */
function throughMany(points: readonly SeenPoint[], step: number): Line {
  const raw = points.map((point) => point.raw);
  const corrections = points.map((point) => point.celsius - point.raw);
  const line = fitStraightLine(raw, corrections);
  if (line === null) throw new Error("points that span 2 K hold a line");
  const typeB = combined(Math.max(...points.map((point) => point.ofReference)), ofStep(step));
  const ofLine = line.residualStandardDeviation / Math.sqrt(line.readings);
  const atPivot = combined(ofLine, typeB);
  return {
    coefficients: [line.intercept, 1 + line.slope],
    uncertainty: {
      pivotCelsius: line.meanX,
      atPivot,
      perKelvin: line.slopeStandardError,
      degreesOfFreedom: ofLine > 0 ? (line.degreesOfFreedom * atPivot ** 4) / ofLine ** 4 : Infinity,
    },
  };
}

const ofPoint = (point: SeenPoint) => combined(point.ofMean, point.ofReference, point.ofStep);

/** Welch and Satterthwaite; Type B parts are taken as known without doubt (GUM G.4.2, G.4.3). */
function effectiveFreedom(points: readonly SeenPoint[], weights: readonly number[]): number {
  const total = combined(...points.map((point, i) => weights[i] * ofPoint(point)));
  const parts = points.map((point, i) => (point.freedom > 0 ? (weights[i] * point.ofMean) ** 4 / point.freedom : 0));
  const sum = parts.reduce((all, part) => all + part, 0);
  return sum > 0 ? total ** 4 / sum : Infinity;
}

const scatter = (readings: readonly number[]) => (readings.length < 2 ? 0 : sampleStandardDeviation([...readings]));

function check(points: readonly CalibrationPoint[]): void {
  if (points.length === 0) throw new RangeError("a calibration needs at least one known temperature");
  for (const [i, { reference, readings }] of points.entries()) {
    if (readings.length === 0) throw new RangeError(`point ${i + 1} has no reading of the probe`);
    if (![reference.celsius, reference.standardUncertainty, ...readings].every(Number.isFinite)) {
      throw new RangeError(`point ${i + 1} holds a number that is not finite`);
    }
  }
}
