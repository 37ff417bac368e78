// Fits one pull-down by least squares. The model is in pull-down.ts, the interval of each number in
// pull-down-intervals.ts.
//
// Where the time goes: a scan over rate constants on coarse bins (no start values, no wrong valley), a polish on
// finer bins, then mostly a single full pass. For a given rate the rest is linear, which is what makes the scan cheap
// (variable projection; Golub & Pereyra, SIAM J. Numer. Anal. 10, 1973).

import { varianceInflation } from "../numbers/effective-readings.ts";
import { huberOf, noLimit, robustWeights } from "../numbers/huber-weights.ts";
import { factor, inverse } from "../numbers/normal-equations.ts";
import type { PullDown } from "./pull-down.ts";
import { PullDownBins } from "./pull-down-bins.ts";
import { type Descent, descend, type FitContext, freeRows, type Held, packed } from "./pull-down-descent.ts";
import { depthRow, onsetRow, rateRow, startRow } from "./pull-down-pass.ts";
import { checkFinite, type PullDownReadings, readyForFit, type StretchReadings } from "./pull-down-readings.ts";
import { startOfFit } from "./pull-down-start.ts";

export interface FitOptions {
  /** Rate of relaxing towards ambient before the onset, 1/h. */
  readonly warmingRate?: number;
  /** Parameters known beforehand: onset (h), start (°C), depth (K). */
  readonly held?: Held;
  /** When the door was opened, h: each opening gets a free jump that decays with the rate. */
  readonly doorHours?: readonly number[];
  /** Huber weights against single bad readings. */
  readonly robust?: boolean;
}

/** A fit, with all that its intervals need. */
export interface FittedPullDown {
  readonly outcome: "fitted";
  readonly pullDown: PullDown;
  readonly readings: PullDownReadings;
  readonly held: Held;
  readonly warmingRate: number;
  /** cabinet - model, K, per reading. */
  readonly residual: Float64Array;
  /** Sum of squared residuals, weighted where the fit was robust, K². */
  readonly rss: number;
  /** Variance of one reading, K², for the normal equations as they are weighted. */
  readonly variance: number;
  /** Readings that took part, and how many parameters were asked of them. */
  readonly count: number;
  readonly parameters: number;
  /** By how much remembering residuals widen every variance; see effective-readings.ts. */
  readonly inflation: number;
  /**
   * Ordinary least-squares standard errors, without inflation; 0 for a held parameter, Infinity where the readings do
   * not hold the parameter.
   */
  readonly standardErrors: {
    readonly rate: number;
    readonly onset: number;
    readonly depth: number;
    readonly start: number;
    readonly initialSlope: number;
  };
}

/** The readings have no shape to fit: constant to the last digit. */
export interface NotFitted {
  readonly outcome: "not fitted";
  readonly reason: "no shape";
}

export type PullDownFit = FittedPullDown | NotFitted;

/** Default rate of warming back, 1/h, where no stretch of the fridge tells: common practice, no source. */
export const usualWarmingRate = 0.12;

/** In standard errors. */
const everyDigit = 1e-9;
/** Up to here a fit takes every digit: it costs nothing. */
const smallSeries = 1000;
/** A larger one takes its last step, free of a pass, when this many standard errors are left. */
const enoughOfLarge = 0.05;

/**
 * Fits onset, rate constant, depth and start of a pull-down to the cabinet readings of a stretch.
 *
 * @param stretch readings since the switch-on, n ≥ 5. Uneven spacing and gaps are fine.
 * @returns the fit, or that the readings have no shape: constant readings are a finding, not a fault.
 * @throws UnusableReadings when the arrays are no stretch.
 */
export function fitPullDown(stretch: StretchReadings, options: FitOptions = {}): PullDownFit {
  const readings = readyForFit(stretch);
  const context = { held: options.held ?? {}, warmingRate: options.warmingRate ?? usualWarmingRate };
  // Before the onset nothing cools yet: what a door lets in there is the start's.
  const doorHours = (options.doorHours ?? [])
    .filter((hours) => hours >= (options.held?.onset ?? 0))
    .toSorted((a, b) => a - b);
  const bins = new PullDownBins(readings, polishBins(readings.hours.length));
  checkFinite(stretch, bins.means);
  if (isConstant(readings.cabinetCelsius)) return { outcome: "not fitted", reason: "no shape" };
  const started = startOfFit(bins.means, context, doorHours);
  if (started === null) return { outcome: "not fitted", reason: "no shape" };
  const close = polish(bins, started, context);
  const enough = readings.hours.length > smallSeries ? enoughOfLarge : everyDigit;
  const fit = descend(readings, close, context, { enough, enoughAcrossReadings: everyDigit, mostPasses: 30 });
  const huber = options.robust ? huberOf(fit.residual) : null;
  // Without any spread there are no outliers.
  if (huber === null || huber.limit === 0) return finished(readings, fit, context);
  const patience = { enough, enoughAcrossReadings: enough, mostPasses: 30 };
  return finished(readings, descend(readings, fit.pullDown, context, patience, huber), context);
}

const polished = { enough: 0.02, enoughAcrossReadings: everyDigit, mostPasses: 15 };

/** From a start to within a fiftieth of a standard error, on bins; renewed where the onset leaves their finest part. */
function polish(bins: PullDownBins, started: PullDown, context: FitContext): PullDown {
  let from = started;
  for (let round = 0; ; round++) {
    const { pullDown } = descend(bins.around(from.onset), from, context, polished);
    if (round === 3 || bins.showsBendAt(pullDown.onset, from.onset)) return pullDown;
    from = pullDown;
  }
}

/**
 * A bin's curvature biases the fit with the square of its length, and a parameter's error falls with the root of n:
 * bins that grow with the fourth root leave the polish equally close, within 0.03 standard errors.
 */
const polishBins = (n: number) => 42 * n ** 0.25;

const isConstant = (values: Float64Array) => values.every((value) => value === values[0]);

function finished(readings: PullDownReadings, fit: Descent, context: FitContext): FittedPullDown {
  const { pullDown, system, residual } = fit;
  const rows = freeRows(system.size, pullDown, context.held);
  const size = rows.length;
  const matrix = packed(system, rows);
  const { count, variance, weights } =
    system.limit === noLimit
      ? plainVariance(readings, fit.rss, size)
      : robustWeights(residual, readings.weights, system.limit, size);
  const covariance = factor(matrix, size, size) ? inverse(matrix, size, size) : null;
  const entry = (a: number, b: number) => {
    const at = rows.indexOf(a);
    const pair = rows.indexOf(b);
    if (at < 0 || pair < 0) return 0;
    return covariance === null ? Number.POSITIVE_INFINITY : variance * covariance[at * size + pair];
  };
  const { rate, depth } = pullDown;
  const slopeVariance =
    depth * depth * entry(rateRow, rateRow) +
    2 * rate * depth * entry(rateRow, depthRow) +
    rate * rate * entry(depthRow, depthRow);
  return {
    outcome: "fitted",
    pullDown,
    readings: { ...readings, weights },
    held: context.held,
    warmingRate: context.warmingRate,
    residual,
    rss: fit.rss,
    variance,
    count,
    parameters: size,
    inflation: varianceInflation(residual, weights, size),
    standardErrors: {
      rate: Math.sqrt(entry(rateRow, rateRow)),
      onset: Math.sqrt(entry(onsetRow, onsetRow)),
      depth: Math.sqrt(entry(depthRow, depthRow)),
      start: Math.sqrt(entry(startRow, startRow)),
      initialSlope: Number.isFinite(slopeVariance) ? Math.sqrt(Math.max(0, slopeVariance)) : Number.POSITIVE_INFINITY,
    },
  };
}

function plainVariance({ hours, weights }: PullDownReadings, rss: number, parameters: number) {
  const count = weights === null ? hours.length : weights.filter((weight) => weight > 0).length;
  return { count, variance: rss / Math.max(1, count - parameters), weights };
}
