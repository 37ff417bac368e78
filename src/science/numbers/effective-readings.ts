// How many independent readings the residuals are worth. Neighbouring residuals remember each other, and
// rounding hides slow memory from the raw lag-1 correlation, so the memory is looked for at three scales.

import { zeros } from "./normal-equations.ts";

/**
 * By what factor the variance of a fitted number grows over that of independent readings:
 * the largest of lag-1 AR(1) on the readings and on 24, 48 and 96 bin means; from 1 to as many as there are readings.
 * Measured coverage of this rule: the table in DEVELOPERS.md.
 *
 * A fit of p smooth parameters takes about p of the slowest waves out of the residuals, and with them p / bins of
 * their correlation and of their spread; both are given back.
 *
 * Source of (1 + r) / (1 - r): Bayley & Hammersley (1946), large-sample form.
 *
 * @param residual in time order, K; `weights` (null: all alike) turn residuals into the scores that the fit added up:
 *   what a robust fit cut off does not count here either.
 * @param parameters how many were fitted.
 */
export function varianceInflation(residual: Float64Array, weights: Float64Array | null, parameters: number): number {
  const n = residual.length;
  if (n < 24) return 1; // fewer hold no correlation worth the name
  const finest = Math.min(96, 24 * 2 ** Math.max(0, Math.floor(Math.log2(n / 48))));
  let means: number[] = zeros(finest);
  let squares = 0;
  let neighbours = 0;
  let before = 0;
  for (let bin = 0, i = 0; bin < finest; bin++) {
    const from = i;
    const to = Math.floor(((bin + 1) * n) / finest);
    let sum = 0;
    for (; i < to; i++) {
      const score = weights === null ? residual[i] : weights[i] * residual[i];
      sum += score;
      squares += score * score;
      neighbours += score * before;
      before = score;
    }
    means[bin] = sum / (to - from);
  }
  if (!(squares > 0)) return 1;
  let inflation = Math.max(1, memoryFactor(neighbours / squares));
  for (let bins = finest; bins >= 24; bins /= 2) {
    const perBin = n / bins;
    const left = 1 - parameters / bins;
    const { meanSquare, correlation } = ofMeans(means);
    if (perBin >= 2)
      inflation = Math.max(
        inflation,
        ((meanSquare * n * perBin) / (squares * left)) * memoryFactor(correlation + parameters / bins),
      );
    means = halved(means);
  }
  // However long they remember, the readings are worth one.
  return Math.min(inflation, n);
}

const memoryFactor = (correlation: number) => (1 + correlation) / (1 - Math.min(correlation, 0.995));

/** Means of neighbouring pairs. */
function halved(means: readonly number[]): number[] {
  const result = zeros(means.length / 2);
  for (let i = 0; i < result.length; i++) result[i] = (means[2 * i] + means[2 * i + 1]) / 2;
  return result;
}

function ofMeans(means: readonly number[]): { meanSquare: number; correlation: number } {
  let squares = 0;
  let products = 0;
  for (let i = 0; i < means.length; i++) {
    squares += means[i] * means[i];
    if (i > 0) products += means[i] * means[i - 1];
  }
  return { meanSquare: squares / means.length, correlation: squares > 0 ? products / squares : 0 };
}
