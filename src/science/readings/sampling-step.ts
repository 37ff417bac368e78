// How often a log was sampled: the yardstick for what counts as a gap.

import { quickselect } from "simple-statistics";

/** At most this many steps are looked at; a longer log is looked at in even strides. */
const mostSteps = 20_001;

/**
 * The usual step between neighbouring instants, ms: their median.
 *
 * @param unixMs ascending or in file order; steps that do not go forward are left out.
 * @returns NaN when no step goes forward.
 */
export function usualStepMs(unixMs: Float64Array): number {
  const stride = Math.max(1, Math.ceil((unixMs.length - 1) / mostSteps));
  const steps: number[] = [];
  for (let i = 1; i < unixMs.length; i += stride) {
    const step = unixMs[i] - unixMs[i - 1];
    if (step > 0 && step < Infinity) steps.push(step);
  }
  if (steps.length === 0) return Number.NaN;
  // Not simple-statistics' median: of an even number it takes a mean, and a mean of two steps is no step.
  const middle = steps.length >> 1;
  quickselect(steps, middle);
  return steps[middle];
}
