// Air falls faster than contents: where one exponential leaves structure in the residuals, two modes fit better.
// They serve the drawing and as a test of the residuals; k, D and S are always those of one mode, because two modes
// trade their numbers against each other.

import { fUpperTail } from "../numbers/distributions.ts";
import { varianceInflation } from "../numbers/effective-readings.ts";
import { type ExponentialSumFit, fitExponentialSum } from "../numbers/exponential-sum-fit.ts";
import { cabinetTemperature } from "./pull-down.ts";
import { PullDownBins } from "./pull-down-bins.ts";
import type { FittedPullDown } from "./pull-down-fit.ts";

export interface TwoModes {
  /** Two modes against hours since the onset, in place of the one mode `amplitude` exp(-rate t), K. */
  readonly fit: ExponentialSumFit;
  readonly amplitude: number;
  /** How unlikely so much better a fit would be if one mode were true: an F test on effective readings. */
  readonly pValue: number;
}

const bins = 96;
/** The rates of two modes trade places within tens of per cent: this is far finer than they mean anything. */
const enough = 1e-4;
/** A second mode has to stand out beyond all doubt before one mode is called wrong. */
const convincing = 1e-3;
/** The cooling builds up for up to half an hour after the onset; what that bends is no second mode. */
export const buildUpHours = 0.5;

/**
 * Two modes from half an hour after the fitted onset on (from the start, where the onset is held), the ambient's
 * influence taken from the one-mode fit.
 *
 * @returns null where one mode leaves no structure, judged on effective readings, or where two cannot be told apart.
 */
export function secondMode(fit: FittedPullDown): TwoModes | null {
  const decay = decayOf(fit);
  if (decay === null) return null;
  const { since, gap, amplitude } = decay;
  const { rate } = fit.pullDown;
  const count = since.length;
  // Contents are somewhat slower than the one mode that averages them with the air; the air is several times faster.
  const one = fitExponentialSum(since, gap, 1, true, [rate], enough);
  const two = fitExponentialSum(since, gap, 2, true, [0.75 * rate, 6 * rate], enough);
  if (one === null || two === null) return null;
  const freedom = count / varianceInflation(two.residual, null, 5) - 5;
  if (freedom < 1) return null;
  const ratio = two.rss > 0 ? (one.rss - two.rss) / 2 / (two.rss / freedom) : Number.MAX_VALUE;
  const pValue = ratio > 0 ? fUpperTail(ratio, 2, freedom) : 1;
  return pValue < convincing ? { fit: two, amplitude, pValue } : null;
}

/** What is left of a fall, bin by bin from half an hour after its onset on. */
export interface Decay {
  /** Hours since the onset. */
  readonly since: Float64Array;
  /** Cabinet above the end of the one mode, K, the ambient's influence taken out: `amplitude` exp(-rate t) and the residuals. */
  readonly gap: Float64Array;
  readonly amplitude: number;
}

/** @returns null where too little is there for a shape. */
export function decayOf(fit: FittedPullDown): Decay | null {
  const { onset, rate, depth } = fit.pullDown;
  const from = onset + (fit.held.onset === undefined ? buildUpHours : 0);
  const reduced = new PullDownBins(fit.readings, bins).means;
  const oneMode = cabinetTemperature(reduced, fit.pullDown, { warmingRate: fit.warmingRate });
  const first = reduced.hours.findIndex((hours) => hours >= from);
  if (first < 0 || reduced.hours.length - first < 12) return null;
  const since = reduced.hours.slice(first).map((hours) => hours - onset);
  // What ambient and jumps do cancels between readings and one-mode model; the decay from the onset is put back.
  const amplitude = (oneMode[first] - reduced.ambientCelsius[first] + depth) * Math.exp(rate * since[0]);
  const gap = since.map(
    (hours, i) => reduced.cabinetCelsius[first + i] - oneMode[first + i] + amplitude * Math.exp(-rate * hours),
  );
  return { since, gap, amplitude };
}
