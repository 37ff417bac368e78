// Robust weights: a reading far off counts less, so that single bad ones cannot bend the curve.
// Source: Huber, Robust Statistics (1981).

import { quickselect } from "simple-statistics";

/** Huber's constant, in standard deviations: 95 % efficient on normal residuals. */
const usualLimit = 1.345;
/** So many residuals are enough to know their spread. */
const spreadSample = 512;
/** A limit that no residual is beyond. */
export const noLimit = 1e100;

/**
 * How much a residual counts: 1 within the limit, less the farther beyond.
 *
 * The sum is twice the larger of the two. Math.max and comparisons make the processor guess, which is wrong for every
 * fifth residual: a pass would take twice as long.
 */
export function huberShare(residual: number, limit: number): number {
  const size = Math.abs(residual);
  return (2 * limit) / (limit + size + Math.abs(limit - size));
}

export interface Huber {
  /** Where residuals begin to count less; 0 where they have no spread. */
  readonly limit: number;
  /** Mean share over the part within the limit: weighted steps creep, and so much longer ones land nearly at once. */
  readonly stride: number;
}

/** From the residuals' robust spread, their median size. */
export function huberOf(residual: Float64Array): Huber {
  const every = Math.max(1, Math.floor(residual.length / spreadSample));
  const sizes: number[] = [];
  for (let i = 0; i < residual.length; i += every) sizes.push(Math.abs(residual[i]));
  const middle = sizes.length >> 1;
  quickselect(sizes, middle);
  const limit = usualLimit * 1.4826 * sizes[middle];
  let shares = 0;
  let within = 0;
  for (const size of sizes) {
    shares += huberShare(size, limit);
    within += +(size <= limit);
  }
  return { limit, stride: shares / within };
}

/** What every reading counted in the end, and what that makes of one reading's variance. */
export interface RobustWeights {
  readonly weights: Float64Array;
  /** How many readings took part. */
  readonly count: number;
  /** Variance of one reading relative to the weighted normal equations: mean(psi²) / mean(psi')², Huber (1981). */
  readonly variance: number;
}

/** @param given weights that the shares multiply; null: all alike. */
export function robustWeights(
  residual: Float64Array,
  given: Float64Array | null,
  limit: number,
  parameters: number,
): RobustWeights {
  const weights = new Float64Array(residual.length);
  let count = 0;
  let within = 0;
  let weight = 0;
  let scores = 0;
  for (let i = 0; i < residual.length; i++) {
    const own = given === null ? 1 : given[i];
    const share = huberShare(residual[i], limit);
    const w = own * share;
    weights[i] = w;
    count += +(own > 0);
    within += +(own > 0 && Math.abs(residual[i]) <= limit);
    weight += w;
    scores += w * share * residual[i] * residual[i];
  }
  const sensitivity = within / count;
  const variance = ((scores / Math.max(1, count - parameters)) * (weight / count)) / sensitivity ** 2;
  return { weights, count, variance };
}
