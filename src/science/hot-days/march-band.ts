// What many marches say together: the middle one with the band of the others, hours above a limit, time until a limit is
// crossed.

import { type Estimate, estimate } from "../numbers/estimate.ts";
import type { MarchStep } from "./cabinet-march.ts";

/** The middle march first, then the draws; each a cabinet temperature per step, °C. */
export type Marches = readonly [Float64Array, ...Float64Array[]];

/** NaN beyond where the marches end. */
export interface Band {
  readonly value: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
}

/** The middle march with 95 % of the draws around it. */
export function bandOf([middle, ...others]: Marches, length: number): Band {
  const blank = () => new Float64Array(length).fill(Number.NaN);
  const band = { value: blank(), low: blank(), high: blank() };
  middle.forEach((value, i) => {
    const { low, high } = middle95(
      others.map((march) => march[i]),
      value,
    );
    band.value[i] = value;
    band.low[i] = low ?? value;
    band.high[i] = high ?? value;
  });
  return band;
}

/** How long the cabinet is above a temperature, h: of the middle march, with the interval that the others make. */
export function hoursAbove(celsius: number, steps: readonly MarchStep[], marches: Marches): Estimate {
  const [value, ...others] = marches.map((march) =>
    steps.slice(1).reduce((sum, step, i) => {
      const share = shareAbove(march[i], march[i + 1], celsius);
      return sum + share * (step.hours - steps[i].hours);
    }, 0),
  );
  const { low, high } = middle95(others, value);
  return estimate("h", value, low, high);
}

/** Share of a straight line from one value to another that lies above a limit. */
function shareAbove(from: number, to: number, limit: number): number {
  const [low, high] = [Math.min(from, to), Math.max(from, to)];
  if (high <= limit) return 0;
  return low >= limit ? 1 : (high - limit) / (high - low);
}

/**
 * From the start until a limit is crossed the way the middle march first crosses it, downwards when it starts above; null
 * when it never does. A draw that starts on the other side is there from the start.
 */
export function hoursUntil(celsius: number, steps: readonly MarchStep[], marches: Marches): Estimate | null {
  const isFalling = marches[0][0] > celsius;
  const [value, ...others] = marches.map((march) => hoursToSide(celsius, isFalling, steps, march));
  if (!Number.isFinite(value)) return null;
  const { low, high } = middle95(others, value);
  return estimate("h", value, low, high);
}

/** Until a march is at the limit or below it, or above it; infinite when it never is. */
function hoursToSide(celsius: number, isBelow: boolean, steps: readonly MarchStep[], march: Float64Array): number {
  const at = march.findIndex((value) => value <= celsius === isBelow);
  if (at < 0) return Number.POSITIVE_INFINITY;
  if (at === 0) return 0;
  const share = (celsius - march[at - 1]) / (march[at] - march[at - 1]);
  return steps[at - 1].hours + share * (steps[at].hours - steps[at - 1].hours);
}

/** 95 % of the draws, always around the middle; an end among draws that never came to be is open. */
function middle95(
  draws: readonly number[],
  value: number,
): { readonly low: number | null; readonly high: number | null } {
  const sorted = Float64Array.from(draws).sort();
  const outside = Math.floor(0.025 * sorted.length);
  const low = Math.min(value, sorted[outside]);
  const high = Math.max(value, sorted[sorted.length - 1 - outside]);
  return { low: Number.isFinite(low) ? low : null, high: Number.isFinite(high) ? high : null };
}
