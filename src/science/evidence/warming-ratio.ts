// How this run warms back against the known-good runs, cut to equal length.

import { type Estimate, estimate, isKnown } from "../numbers/estimate.ts";
import type { RunEvidence, StretchEvidence } from "./run-evidence.ts";
import { settleBeforeWarming, warmingRate } from "./warming-rate.ts";

/** How this run warms back against the known-good runs: ratio of k_w; tells a seal from a load. */
export type WarmingRatio = Estimate | null;

/** From run to run the rate of warming back scatters by this much (doors, load, wind): common practice, no source. */
const runToRun = 0.06;

/** A ratio known to a factor of two or worse tells neither seal nor load. */
const vague = 0.35;

/** Ratio of k_w of this run over the known-good mean; null when either does not show it. */
export function warmingRatio(run: RunEvidence, knownGood: readonly RunEvidence[]): WarmingRatio {
  const here = longestOff(run);
  const there = knownGood.map(longestOff).filter((stretch) => stretch !== null);
  if (here === null || there.length === 0) return null;
  const lengthOf = (stretch: StretchEvidence) => (stretch.view.hours.at(-1) ?? 0) - settleBeforeWarming;
  const logs: number[] = [];
  let variance = 0;
  for (const other of there) {
    const hours = Math.min(lengthOf(here), lengthOf(other));
    const a = warmingRate(here.view, hours);
    const b = warmingRate(other.view, hours);
    if (!isKnown(a) || !isKnown(b)) continue;
    logs.push(Math.log(a.value / b.value));
    variance += ((a.standardError ?? 0) / a.value) ** 2 + ((b.standardError ?? 0) / b.value) ** 2;
  }
  if (logs.length === 0) return null;
  const log = logs.reduce((sum, value) => sum + value, 0) / logs.length;
  const error = Math.sqrt(variance / logs.length + runToRun ** 2 * (1 + 1 / logs.length));
  if (!(error < vague)) return null;
  const value = Math.exp(log);
  return estimate("1", value, Math.exp(log - 2 * error), Math.exp(log + 2 * error), { standardError: value * error });
}

/** The stretch that warms back longest and shows a rate. */
function longestOff(run: RunEvidence): StretchEvidence | null {
  if (run.timeDoubt !== null) return null;
  const shown = run.stretches.filter((stretch) => !stretch.stretch.heated && isKnown(warmingRate(stretch.view)));
  return shown.reduce<StretchEvidence | null>(
    (best, stretch) =>
      best === null || stretch.stretch.endMs - stretch.stretch.startMs > best.stretch.endMs - best.stretch.startMs
        ? stretch
        : best,
    null,
  );
}
