// The sum of squares has a kink in the onset at every reading: a reading just before the onset does not feel it, one
// just after it does. A smooth step stops beside the minimum, or jumps to and fro across a kink. Between kinks the sum
// is a parabola, so the best onset nearby can be found exactly by walking from reading to reading.

import { huberShare } from "../numbers/huber-weights.ts";
import type { PullDownSystem } from "./pull-down-pass.ts";
import type { PullDownReadings } from "./pull-down-readings.ts";

/** The sum of squares against a change of onset (h), were there no kinks: curvature (change - best)² + least. */
export interface SmoothCost {
  readonly best: number;
  readonly curvature: number;
  /** How far from the best to look, h. */
  readonly reach: number;
}

/** Kinks looked at on each side; farther off a smooth step is good enough. */
const mostKinks = 64;

/**
 * The change of onset of least cost, h, and by how much its cost exceeds the smooth least (K², may be negative).
 *
 * @param residual cabinet minus model at the present `onset`, K.
 */
export function bestOnsetChange(
  readings: PullDownReadings,
  residual: Float64Array,
  system: PullDownSystem,
  onset: number,
  smooth: SmoothCost,
): { change: number; excess: number } {
  const { hours, weights } = readings;
  const { from, lead, limit } = system;
  const { best, curvature, reach } = smooth;
  const weightAt = (i: number) => huberShare(residual[i], limit) * (weights === null ? 1 : weights[i]);
  let found = { change: 0, excess: Number.POSITIVE_INFINITY };
  // cost - smooth least = a x² + 2 b x + c between two kinks, x the change of onset
  const look = (low: number, high: number, a: number, b: number, c: number) => {
    const x = Math.max(low, Math.min(high, -b / a));
    const excess = (a * x + 2 * b) * x + c;
    if (excess < found.excess) found = { change: x, excess };
  };

  // Later: a crossed reading stops feeling the onset.
  let a = curvature;
  let b = -curvature * best;
  let c = curvature * best * best;
  let kink = 0;
  let walked = 0;
  for (let i = from; a > 0 && kink <= best + reach; i++) {
    if (i === hours.length || walked++ === mostKinks) break;
    const next = hours[i] - onset;
    look(kink, next, a, b, c);
    const w = weightAt(i);
    a -= w * lead * lead;
    b += w * lead * residual[i];
    c += w * lead * next * (lead * next - 2 * residual[i]);
    kink = next;
  }
  if (walked > mostKinks && kink < best) return { change: best, excess: 0 };

  // Earlier: a crossed reading begins to feel it.
  a = curvature;
  b = -curvature * best;
  c = curvature * best * best;
  kink = 0;
  walked = 0;
  for (let i = from - 1; kink >= best - reach; i--) {
    if (i < 0 || walked++ === mostKinks) break;
    const next = hours[i] - onset;
    look(next, kink, a, b, c);
    const w = weightAt(i);
    a += w * lead * lead;
    b -= w * lead * (residual[i] + lead * next);
    c += w * lead * next * (2 * residual[i] + lead * next);
    kink = next;
  }
  if (walked > mostKinks && kink > best) return { change: best, excess: 0 };
  return found;
}
