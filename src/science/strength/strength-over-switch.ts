// Strength of a source that was switched to while cold. It has no pull-down of its own; the one before the switch, times
// the ratio of the two sources (switch-over.ts), stands in for it. Held against the known-good runs of the source after
// the switch, or without any against the other source, by the heat that each gets.

import type { HeatSource } from "../../schema/index.ts";
import type { StretchEvidence } from "../evidence/run-evidence.ts";
import { type SwitchOver, switchOverAt } from "../evidence/switch-over.ts";
import type { WarmingRatio } from "../evidence/warming-ratio.ts";
import type { ReasonSaying } from "../sayings.ts";
import { heatAtVoltage, logCooling, ratedVoltsOf, slopeAtRated } from "./heat-law.ts";
import { type Strength, strengthOf } from "./strength.ts";
import { type UsefulHeat, usefulHeat } from "./useful-heat.ts";
import type { WitnessSpread } from "./witness-spread.ts";

/**
 * Against the known-good runs of the source itself.
 *
 * @param stretches those of the same run among others, in order of time.
 * @returns null where no pull-down stands at the beginning of the chain of switches, or a switch tells nothing.
 */
export function strengthOverSwitch(
  evidence: StretchEvidence,
  stretches: readonly StretchEvidence[],
  knownGood: readonly StretchEvidence[],
  spread: WitnessSpread,
  warming: WarmingRatio,
  baselineKind: "own" | "kind",
): Strength | null {
  const chain = chainBefore(evidence, stretches);
  const root = chain.at(-1)?.before;
  if (root === undefined || root.source === null || evidence.source === null || "why" in root.fitted) return null;
  // The pull-down as it would have been with the heat after the switch: its volts are the ones to refer.
  const inItsPlace = { ...root, source: evidence.source, supplyVolts: evidence.supplyVolts };
  const strength = strengthOf(inItsPlace, knownGood, spread, warming, baselineKind);
  if ("why" in strength) return null;
  const over: ReasonSaying = {
    code: "strength-over-switch",
    from: root.source,
    to: evidence.source,
    runs: strength.comparisons.length,
  };
  return {
    ...strength,
    log: strength.log + chain.reduce((sum, { told }) => sum + (told?.log ?? 0), 0),
    nightVariance: strength.nightVariance + chain.reduce((sum, { told }) => sum + (told?.variance ?? 0), 0),
    // Where the witnesses part is said of the pull-down's own stretch.
    apart: null,
    reasons: [over, ...strength.reasons.filter(({ code }) => !ofWitnesses.has(code))],
    isOverSwitch: true,
  };
}

/** What is said of a pull-down's own witnesses. */
export const ofWitnesses: ReadonlySet<ReasonSaying["code"]> = new Set([
  "witnesses-agree",
  "witnesses-disagree",
  "fins-alone",
  "slope-alone",
]);

/** The switches back to the last stretch with a pull-down, the nearest first; none where a source comes twice. */
function chainBefore(evidence: StretchEvidence, stretches: readonly StretchEvidence[]): readonly SwitchOver[] {
  const chain: SwitchOver[] = [];
  const seen = [evidence.source];
  for (let at = evidence; at.stretch.startState === "switched-while-cold"; ) {
    const over = switchOverAt(at, stretches);
    // Back on a source that ran before, the chain would hold it against itself.
    if (over === null || over.told === null || seen.includes(over.before.source)) return [];
    chain.push(over);
    seen.push(over.before.source);
    at = over.before;
  }
  return chain;
}

/** Against another source right before or right after, by the heat that each gets; null where no switch joins them. */
export function strengthAcrossSwitch(
  test: StretchEvidence,
  other: StretchEvidence,
  stretches: readonly StretchEvidence[],
): Strength | null {
  const into = switchOverAt(test, stretches);
  const outOf = switchOverAt(other, stretches);
  const [told, sign] = into?.before === other ? [into.told, 1] : outOf?.before === test ? [outOf.told, -1] : [null, 0];
  if (told === null || test.source === null || other.source === null) return null;
  const here = heatOf(test.source, test);
  const there = heatOf(other.source, other);
  return {
    baseline: "other-sources",
    log: sign * told.log - logCooling(here.watts / there.watts),
    nightVariance: told.variance,
    spreadVariance: 0,
    baselineVariance: (slopeAtRated * Math.hypot(here.logError, there.logError)) ** 2,
    freedom: 30, // the widths of usual heats are stated, not learnt from these runs
    below: 0,
    above: 0,
    apart: null,
    comparisons: [],
    reasons: [{ code: "compared-with-source", other: other.source }],
    isOverSwitch: true,
  };
}

/** Useful heat at tonight's volts, where anyone knows them. */
function heatOf(source: HeatSource, { supplyVolts, run }: StretchEvidence): UsefulHeat {
  const heat = usefulHeat(source, run.recording.sheet);
  if (source === "gas" || supplyVolts === null) return heat;
  return { ...heat, watts: heat.watts * heatAtVoltage(supplyVolts, ratedVoltsOf(source, run.recording.sheet)) };
}
