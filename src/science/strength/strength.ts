// Cooling strength of a stretch: its steady cooling power over the mean of the known-good runs, from two nearly
// independent witnesses. Where they disagree, what each can and cannot show decides which of them may speak.

import { finDifference } from "../evidence/fin-difference.ts";
import type { StretchEvidence } from "../evidence/run-evidence.ts";
import { tQuantile } from "../numbers/distributions.ts";
import { type Answer, type Estimate, estimate, isKnown, unknown } from "../numbers/estimate.ts";
import { slopeHours } from "../pull-down/pull-down-numbers.ts";
import type { ReasonSaying, UnknownSaying } from "../sayings.ts";
import { type Comparison, compareWith, finsAloneHours, type LogRatio } from "./comparison.ts";
import { betweenFridges, combinedVariance, finWeight, type WitnessSpread } from "./witness-spread.ts";

/** A strength as ln(cooling over known-good), its variances kept apart so that several nights can be combined. */
export interface Strength {
  /** What it stands on: known-good runs of this fridge or its kind, or the other sources of the same fridge. */
  readonly baseline: "own" | "kind" | "other-sources";
  readonly log: number;
  /** Of this stretch alone: its readings, and the witnesses' own scatter. */
  readonly nightVariance: number;
  /** From night to night. */
  readonly spreadVariance: number;
  /** Of the known-good mean; the same for every night. */
  readonly baselineVariance: number;
  readonly freedom: number;
  /** Extra log room below and above where the witnesses disagree and neither can be excused. */
  readonly below: number;
  readonly above: number;
  /** ln(cooling by fins) minus ln(cooling by slope), and its standard error; null with one witness only. */
  readonly apart: { readonly value: number; readonly standardError: number } | null;
  readonly comparisons: readonly Comparison[];
  readonly reasons: readonly ReasonSaying[];
}

/** How this run warms back against the known-good runs: ratio of k_w; tells a seal from a load. */
export type WarmingRatio = Estimate | null;

/** Beyond this many standard deviations the two witnesses disagree. */
const disagreement = 2.6;

export function strengthOf(
  test: StretchEvidence,
  knownGood: readonly StretchEvidence[],
  spread: WitnessSpread,
  warming: WarmingRatio,
  baselineKind: "own" | "kind",
): Strength | { readonly why: UnknownSaying } {
  // Cooling fins cannot be warmer than the air they cool: probes exchanged, or one of them wrong.
  const fins = finDifference(test.view, test.offset);
  if (isKnown(fins) && fins.value < -1) return { why: { code: "fins-warmer-than-air" } };
  if (knownGood.length === 0) return { why: { code: "no-known-good", source: test.source } };
  const tooSoon = notComparable(test);
  if (tooSoon !== null) return { why: tooSoon };
  const comparisons = knownGood.map((run) => compareWith(test, run)).filter((comparison) => comparison !== null);
  if (comparisons.length === 0) return { why: { code: "known-good-unusable", source: test.source } };
  const byFins = pooled(comparisons, "logByFins");
  const bySlope = pooled(comparisons, "logBySlope");
  const verdictOf = witnessesSay(byFins, bySlope, spread, warming);
  if (verdictOf === null) return { why: { code: "known-good-unusable", source: test.source } };
  const { weight } = verdictOf;
  const log = weight * (byFins?.log ?? 0) + (1 - weight) * (bySlope?.log ?? 0);
  const readingVariance = weight ** 2 * (byFins?.hereVariance ?? 0) + (1 - weight) ** 2 * (bySlope?.hereVariance ?? 0);
  const knownVariance = weight ** 2 * (byFins?.thereVariance ?? 0) + (1 - weight) ** 2 * (bySlope?.thereVariance ?? 0);
  const ofNights = combinedVariance(spread, weight);
  const own = ofNights - spread.both;
  const runs = comparisons.length;
  const condition = Math.max(...comparisons.map((comparison) => comparison.conditionVariance));
  return {
    baseline: baselineKind,
    log,
    nightVariance: readingVariance + Math.max(0, own) + condition,
    spreadVariance: Math.min(ofNights, spread.both),
    baselineVariance: (ofNights + knownVariance) / runs + (baselineKind === "kind" ? betweenFridges ** 2 : 0),
    freedom: spread.freedom,
    below: verdictOf.below,
    above: verdictOf.above,
    apart:
      byFins === null || bySlope === null
        ? null
        : { value: byFins.log - bySlope.log, standardError: Math.sqrt(apartVariance(byFins, bySlope, spread)) },
    comparisons,
    reasons: [...verdictOf.reasons, ...referredReasons(comparisons)],
  };
}

/** Reasons for having no curve that still leave the fins to speak. */
const finsMaySpeak: readonly UnknownSaying["code"][] = ["starts-settled", "no-onset", "switched-while-cold"];

/** Why this stretch cannot be compared (yet); null when it can. */
export function notComparable({ fitted, view, ambient }: StretchEvidence): UnknownSaying | null {
  if ("why" in fitted) {
    // Fins are referred to an ambient too; a log without one proves nothing.
    if (!Number.isFinite(ambient)) return { code: "no-ambient" };
    return finsMaySpeak.includes(fitted.why.code) && view.endHours >= finsAloneHours ? null : fitted.why;
  }
  const { hoursAfterOnset } = fitted.cabinetFit;
  return hoursAfterOnset < slopeHours ? { code: "too-early", hoursAfterOnset, neededHours: slopeHours } : null;
}

/** Strength with its 95 % interval; `withSpread` false gives this night alone. */
export function strengthEstimate(strength: Strength, withSpread: boolean): Estimate {
  const variance = strength.nightVariance + strength.baselineVariance + (withSpread ? strength.spreadVariance : 0);
  const reach = tQuantile(0.975, strength.freedom) * Math.sqrt(variance);
  const value = Math.exp(strength.log);
  return estimate(
    "1",
    value,
    Math.exp(strength.log - reach - strength.below),
    Math.exp(strength.log + reach + strength.above),
    {
      standardError: value * Math.sqrt(variance),
    },
  );
}

/**
 * Several nights of one source as one strength: nights average out, the known-good mean is shared. Where the nights
 * scatter more than believed, their own scatter counts.
 */
export function combinedStrength(strengths: readonly Strength[]): { strength: Strength; nightsDisagree: boolean } {
  if (strengths.length === 1) return { strength: strengths[0], nightsDisagree: false };
  const weights = strengths.map((strength) => 1 / (strength.nightVariance + strength.spreadVariance));
  const sum = weights.reduce((total, weight) => total + weight, 0);
  const log = strengths.reduce((total, strength, i) => total + weights[i] * strength.log, 0) / sum;
  const scatter =
    strengths.reduce((total, strength, i) => total + weights[i] * (strength.log - log) ** 2, 0) /
    (strengths.length - 1);
  const widening = Math.max(1, scatter);
  const widest = strengths.reduce((widest, strength) =>
    strength.baselineVariance > widest.baselineVariance ? strength : widest,
  );
  return {
    nightsDisagree: scatter > 4,
    strength: {
      ...widest,
      log,
      nightVariance: widening / sum,
      spreadVariance: 0,
      below: Math.min(...strengths.map((strength) => strength.below)),
      above: Math.min(...strengths.map((strength) => strength.above)),
      reasons: [],
    },
  };
}

/** What was referred, said once for all known-good runs: of the ambients their mean. */
function referredReasons(comparisons: readonly Comparison[]): readonly ReasonSaying[] {
  const all = comparisons.flatMap((comparison) => comparison.reasons);
  const firsts = all.filter((reason, at) => all.findIndex(({ code }) => code === reason.code) === at);
  return firsts.map((reason) => {
    if (reason.code !== "ambient-referred") return reason;
    const same = all.filter((other) => other.code === "ambient-referred");
    const mean = (pick: (one: (typeof same)[number]) => number) =>
      same.reduce((sum, one) => sum + pick(one), 0) / same.length;
    return { ...reason, baselineAmbient: mean((one) => one.baselineAmbient), factor: mean((one) => one.factor) };
  });
}

/** One witness over all known-good runs. */
function pooled(comparisons: readonly Comparison[], witness: "logByFins" | "logBySlope"): LogRatio | null {
  const found = comparisons.map((comparison) => comparison[witness]).filter((ratio) => ratio !== null);
  if (found.length === 0) return null;
  const mean = (key: keyof LogRatio) => found.reduce((sum, ratio) => sum + ratio[key], 0) / found.length;
  return { log: mean("log"), hereVariance: mean("hereVariance"), thereVariance: mean("thereVariance") };
}

/** Variance of what lies between the witnesses, of this run and of the known-good mean. */
const apartVariance = (byFins: LogRatio, bySlope: LogRatio, spread: WitnessSpread): number =>
  2 * (spread.fins + spread.slope - 2 * spread.both) +
  byFins.hereVariance +
  byFins.thereVariance +
  bySlope.hereVariance +
  bySlope.thereVariance;

interface WitnessVerdict {
  /** Weight of the fins. */
  readonly weight: number;
  readonly below: number;
  readonly above: number;
  readonly reasons: readonly ReasonSaying[];
}

/** Which witness may speak. Seal and load come first: they excuse a disagreement without any fault of the source. */
function witnessesSay(
  byFins: LogRatio | null,
  bySlope: LogRatio | null,
  spread: WitnessSpread,
  warming: WarmingRatio,
): WitnessVerdict | null {
  if (byFins === null && bySlope === null) return null;
  if (byFins === null) return { weight: 0, below: 0, above: 0, reasons: [{ code: "slope-alone" }] };
  if (bySlope === null) return { weight: 1, below: 0, above: 0, reasons: [{ code: "fins-alone" }] };
  const finRatio = Math.exp(byFins.log);
  const slopeRatio = Math.exp(bySlope.log);
  const apart = byFins.log - bySlope.log;
  const weight = finWeight(spread);
  const agree: WitnessVerdict = {
    weight,
    below: 0,
    above: 0,
    reasons: [{ code: "witnesses-agree", finRatio, slopeRatio }],
  };
  if (Math.abs(apart) < disagreement * Math.sqrt(apartVariance(byFins, bySlope, spread))) return agree;
  const disagree: ReasonSaying = { code: "witnesses-disagree", finRatio, slopeRatio };
  const isLoad = warming !== null && (warming.high ?? Number.POSITIVE_INFINITY) < 0.95;
  const isSeal = warming !== null && (warming.low ?? 0) > 1.1;
  // A warm load slows the cabinet, not the fins: only the fins may speak.
  if (isLoad && apart > 0)
    return { weight: 1, below: 0, above: 0, reasons: [disagree, { code: "explained-by-load", ratio: warming }] };
  // A leaking seal lets moist air in: frost on the fins, a faster rate. The slope is cooling over heat capacity still.
  if (isSeal)
    return { weight: 0, below: 0, above: 0, reasons: [disagree, { code: "explained-by-seal", ratio: warming }] };
  // Only the slope is low: a load that the warming back does not show cannot be ruled out. The truth lies between.
  if (apart > 0) return { weight: 0, below: 0, above: apart, reasons: [disagree, { code: "load-not-ruled-out" }] };
  return { weight: 0, below: 0, above: 0, reasons: [disagree, { code: "frost-or-moved-probe" }] };
}

/** `Strength` or the reason for none, as an answer to show. */
export const strengthAnswer = (strength: Strength | { readonly why: UnknownSaying }, withSpread: boolean): Answer =>
  "why" in strength ? unknown(strength.why) : strengthEstimate(strength, withSpread);
