// Robust weights: a reading far off counts less, so that single bad ones cannot bend the curve.
// Source: Huber, Robust Statistics (1981).

/** Huber's constant: 95 % efficient on normal residuals. */
const huberLimit = 1.345;
/** So many residuals are enough to know their spread. */
const spreadSample = 512;

/**
 * Fills `weights` against the residuals' robust spread, times `given` ones.
 *
 * @returns mean weight over share of readings within the limit: how much longer than a weighted step the right one is.
 *   Null where the residuals have no spread, and `weights` are left alone.
 */
export function huberWeights(residual: Float64Array, given: Float64Array | null, weights: Float64Array): number | null {
  const limit = huberLimit * robustSpread(residual);
  if (!(limit > 0)) return null;
  let sum = 0;
  let within = 0;
  for (let i = 0; i < residual.length; i++) {
    const share = limit / Math.max(limit, Math.abs(residual[i]));
    weights[i] = share;
    sum += share;
    within += share < 1 ? 0 : 1;
  }
  if (given !== null) for (let i = 0; i < weights.length; i++) weights[i] *= given[i];
  return within > residual.length / 2 ? sum / within : 1;
}

/** Median size of the residuals as a standard deviation. */
function robustSpread(residual: Float64Array): number {
  const every = Math.max(1, Math.floor(residual.length / spreadSample));
  const sizes = new Float64Array(Math.ceil(residual.length / every));
  for (let at = 0, i = 0; i < residual.length; i += every) sizes[at++] = Math.abs(residual[i]);
  return 1.4826 * sizes.sort()[sizes.length >> 1];
}

/**
 * Variance of one reading relative to the weighted normal equations, and how many readings took part:
 * mean(psi²) / mean(psi')², Huber (1981).
 */
export function robustVariance(
  weights: Float64Array,
  given: Float64Array | null,
  residual: Float64Array,
  parameters: number,
): { count: number; variance: number } {
  let count = 0;
  let within = 0;
  let weight = 0;
  let scores = 0;
  for (let i = 0; i < residual.length; i++) {
    const w = weights[i];
    if (given !== null && !(given[i] > 0)) continue;
    const share = given === null ? w : w / given[i];
    count++;
    weight += w;
    within += share < 1 ? 0 : 1;
    scores += w * share * residual[i] * residual[i];
  }
  const sensitivity = within / count;
  return { count, variance: ((scores / Math.max(1, count - parameters)) * (weight / count)) / sensitivity ** 2 };
}
