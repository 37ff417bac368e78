// The headline of every face: one verdict per energy source, all its stretches and test runs together.

import type { Verdict } from "../../schema/documents/index.ts";
import type { HeatSource } from "../../schema/index.ts";
import type { SourceFinding } from "../findings.ts";
import { unknown } from "../numbers/estimate.ts";
import type { ReasonSaying } from "../sayings.ts";
import { combinedStrength, strengthEstimate } from "../strength/strength.ts";
import type { JudgedStretch } from "./judge-stretch.ts";
import { judgeStrength } from "./stretch-verdict.ts";

/** The sources that the stretches ran on, in the order they first ran; null stands for "nobody said". */
export function seenSources(judged: readonly JudgedStretch[]): readonly (HeatSource | null)[] {
  return [...new Set(judged.filter(isHeated).map((one) => one.evidence.source))];
}

/** Whether a stretch was on an energy source, told or found. */
export const isHeated = (one: JudgedStretch): boolean => one.evidence.stretch.heated;

/**
 * The headline verdict on a source from all its stretches.
 *
 * @param source null: heated, but nobody said by what
 * @param margin allowed loss, as a share
 */
export function judgeSource(
  source: HeatSource | null,
  judged: readonly JudgedStretch[],
  margin: number,
): SourceFinding {
  const stretches = [...judged.keys()].filter((i) => isHeated(judged[i]) && judged[i].evidence.source === source);
  const own = stretches.map((i) => judged[i]);
  const strengths = own.flatMap(({ strength }) => ("why" in strength ? [] : [strength]));
  const dead = own.filter(({ finding }) => finding.verdict === "not-cooling");
  const reasons: ReasonSaying[] = own.length > 1 ? [{ code: "stretches-combined", stretches: own.length }] : [];
  if (dead.length > 0) {
    // Dead in one stretch and cold in another is a fault that comes and goes, not an average; weak at best is weak.
    const isDeadThroughout = strengths.length === 0;
    const isWeakAtBest = own.every(({ finding }) => finding.verdict === "not-cooling" || finding.verdict === "weak");
    reasons.push(...(isDeadThroughout ? [] : [{ code: "stretches-disagree" } as const]), ...dead[0].finding.reasons);
    const verdict: Verdict = isDeadThroughout ? "not-cooling" : isWeakAtBest ? "weak" : "undecided";
    return { source, verdict, baseline: "none", coolingStrength: unknown({ code: "no-onset" }), stretches, reasons };
  }
  if (strengths.length === 0) {
    const first = own[0];
    return {
      source,
      verdict: "undecided",
      baseline: "none",
      coolingStrength: first.finding.coolingStrength,
      stretches,
      reasons: [...reasons, ...first.finding.reasons],
    };
  }
  // What stands on known-good runs is not mixed with what stands on the other sources.
  const best = strengths.some((one) => one.baseline !== "other-sources")
    ? strengths.filter((one) => one.baseline !== "other-sources")
    : strengths;
  const { strength, nightsDisagree } = combinedStrength(best);
  const coolingStrength = strengthEstimate(strength, true);
  const stoppedMs = own.map(({ evidence }) => evidence.stoppedMs).find((ms) => ms !== null) ?? null;
  const { verdict, reasons: first } = judgeStrength(strength, margin, stoppedMs);
  if (nightsDisagree) reasons.push({ code: "stretches-disagree" });
  if (own.length === 1)
    return {
      source,
      verdict,
      baseline: strength.baseline,
      coolingStrength,
      stretches,
      reasons: [...reasons, ...own[0].finding.reasons],
    };
  // With several stretches their own reasons stand at each; the headline says what the sum shows.
  reasons.unshift(...first);
  if (verdict === "undecided") reasons.push({ code: "another-night-decides" });
  return { source, verdict, baseline: strength.baseline, coolingStrength, stretches, reasons };
}
