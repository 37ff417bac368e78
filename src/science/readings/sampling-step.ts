// How often a log was sampled: the yardstick for what counts as a gap.

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
  const steps = new Float64Array(Math.ceil(Math.max(0, unixMs.length - 1) / stride));
  let count = 0;
  for (let i = 1; i < unixMs.length; i += stride) {
    const step = unixMs[i] - unixMs[i - 1];
    if (step > 0 && step < Infinity) steps[count++] = step;
  }
  // The typed array's own sort is by number; simple-statistics' median copies into a plain array first.
  return count === 0 ? Number.NaN : steps.subarray(0, count).sort()[count >> 1];
}
