// A ratio known by its logarithm, as the estimate that is shown.

import { tQuantile } from "./distributions.ts";
import { type Estimate, estimate } from "./estimate.ts";

/**
 * A ratio with its 95 % interval, Student's on the logarithm.
 *
 * @param room extra room of the logarithm below and above, where more is open than the variance says.
 */
export function logEstimate(
  log: number,
  variance: number,
  freedom: number,
  room: { readonly below: number; readonly above: number } = { below: 0, above: 0 },
): Estimate {
  const reach = tQuantile(0.975, freedom) * Math.sqrt(variance);
  const value = Math.exp(log);
  return estimate("1", value, Math.exp(log - reach - room.below), Math.exp(log + reach + room.above), {
    standardError: value * Math.sqrt(variance),
  });
}
