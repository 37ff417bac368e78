// A ratio known by its logarithm, as the estimate that is shown.

import { tQuantile } from "./distributions.ts";
import { type Estimate, estimate } from "./estimate.ts";

/**
 * A ratio with its 95 % interval, Student's on the logarithm.
 *
 * @param room extra room of the logarithm below and above, where more is open than the variance says; Infinity for an open end.
 */
export function logEstimate(
  log: number,
  variance: number,
  freedom: number,
  room: { readonly below: number; readonly above: number } = { below: 0, above: 0 },
): Estimate {
  const reach = tQuantile(0.975, freedom) * Math.sqrt(variance);
  const value = Math.exp(log);
  // A ratio ends at 0 by itself; upwards it has no end.
  const high = room.above === Number.POSITIVE_INFINITY ? null : Math.exp(log + reach + room.above);
  return estimate("1", value, Math.exp(log - reach - room.below), high, { standardError: value * Math.sqrt(variance) });
}
