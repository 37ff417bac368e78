// Cooling strength of a stretch: its steady cooling power over the mean of the known-good runs, as its two witnesses have it
// (witnesses.ts), with what the readings, the nights and the conditions leave open.

import { finsWarmerThanAir } from "../evidence/fin-difference.ts";
import type { StretchEvidence } from "../evidence/run-evidence.ts";
import type { WarmingRatio } from "../evidence/warming-ratio.ts";
import { normalQuantile, tQuantile } from "../numbers/distributions.ts";
import { type Answer, type Estimate, type Unknown, unknown } from "../numbers/estimate.ts";
import { logEstimate } from "../numbers/log-estimate.ts";
import { slopeHours } from "../pull-down/pull-down-numbers.ts";
import type { ReasonSaying, UnknownSaying } from "../sayings.ts";
import { type Comparison, compareWith, finsAloneHours } from "./comparison.ts";
import { isUntold } from "./night-spread.ts";
import { referSheets, takenEqual } from "./sheet-conditions.ts";
import { betweenFridges, combinedVariance, type WitnessSpread } from "./witness-spread.ts";
import { hearWitnesses } from "./witnesses.ts";

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
  /** Carried over a switch from the pull-down before it: the comparisons are that pull-down's. */
  readonly isOverSwitch?: true;
}

/**
 * The cooling of a stretch over that of known-good stretches of its source.
 *
 * @param spread how much this fridge's nights are believed to differ
 * @param warming of the whole run; null where it does not show it
 * @param refer what differing run sheets do to the comparison; before and after a service they are weighed elsewhere
 * @returns the strength, or why there is none (yet)
 */
export function strengthOf(
  test: StretchEvidence,
  knownGood: readonly StretchEvidence[],
  spread: WitnessSpread,
  warming: WarmingRatio,
  baselineKind: "own" | "kind",
  refer: typeof referSheets = referSheets,
): Strength | Unknown {
  if (finsWarmerThanAir(test)) return { why: { code: "fins-warmer-than-air" } };
  if (knownGood.length === 0) return { why: { code: "no-known-good", source: test.source } };
  const tooSoon = notComparable(test);
  if (tooSoon !== null) return { why: tooSoon };
  const unusable: UnknownSaying = { code: "known-good-unusable", source: test.source };
  const comparisons = knownGood.map((run) => compareWith(test, run, refer)).filter((comparison) => comparison !== null);
  if (comparisons.length === 0) return { why: refusedBySheets(test, knownGood) ?? unusable };
  const heard = hearWitnesses(test, comparisons, spread, warming);
  if (heard === null) return { why: unusable };
  const { byFins, bySlope, weight } = heard;
  const log = weight * (byFins?.log ?? 0) + (1 - weight) * (bySlope?.log ?? 0);
  const readingVariance = weight ** 2 * (byFins?.hereVariance ?? 0) + (1 - weight) ** 2 * (bySlope?.hereVariance ?? 0);
  const knownVariance = weight ** 2 * (byFins?.thereVariance ?? 0) + (1 - weight) ** 2 * (bySlope?.thereVariance ?? 0);
  const ofNights = combinedVariance(spread, weight);
  const own = ofNights - spread.both;
  const runs = comparisons.length;
  const untold = [test, ...comparisons.map((comparison) => comparison.knownGood)].every(isUntold)
    ? (spread.untoldSupply ?? 0)
    : 0;
  const condition = Math.max(...comparisons.map((comparison) => comparison.conditionVariance));
  return {
    baseline: baselineKind,
    log,
    nightVariance: readingVariance + Math.max(0, own) + condition,
    spreadVariance: (Math.min(ofNights, spread.both) + untold) * steepness(log) ** 2,
    baselineVariance: (ofNights + untold + knownVariance) / runs + (baselineKind === "kind" ? betweenFridges ** 2 : 0),
    freedom: spread.freedom,
    below: heard.below,
    above: heard.above,
    apart: heard.apart,
    comparisons,
    reasons: [
      ...heard.reasons,
      ...referredReasons(comparisons),
      ...untoldReason(test.source, untold * (1 + 1 / runs)),
      ...takenEqual(test, knownGood),
    ],
  };
}

/**
 * Share of the rated heat that only keeps the boiler warm: with it cooling goes as heat to the power 1.35 at rated
 * heat, between heat-law.ts's slopes at and below it.
 */
const idleHeat = 0.26;

/**
 * How much more a weak source's cooling moves with its heat than a sound one's: of little heat, most only keeps the boiler
 * warm, so the same scatter of the heat is a larger share of the cooling. 1 at full strength, 1.4 at 40 %.
 */
function steepness(log: number): number {
  const idle = idleHeat / (1 - idleHeat);
  return (1 + idle / Math.min(1, Math.exp(log))) / (1 + idle);
}

/** The first condition for which none of the known-good runs may be compared. */
function refusedBySheets(test: StretchEvidence, knownGood: readonly StretchEvidence[]): UnknownSaying | null {
  for (const run of knownGood) {
    const sheets = referSheets(test.run.recording.sheet, run.run.recording.sheet, Math.max(test.ambient, run.ambient));
    if ("why" in sheets) return sheets.why;
  }
  return null;
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
  const variance = varianceOf(withSpread ? strength : { ...strength, spreadVariance: 0 });
  return logEstimate(strength.log, variance, strength.freedom, strength);
}

/** What the strength stays below with this probability: a one-sided end, for "lower than its heat explains". */
export const strengthBelow = (strength: Strength, probability: number): number =>
  Math.exp(strength.log + tQuantile(probability, strength.freedom) * Math.sqrt(varianceOf(strength)) + strength.above);

const varianceOf = ({ nightVariance, baselineVariance, spreadVariance }: Strength): number =>
  nightVariance + baselineVariance + spreadVariance;

/** Of two ways to the same strength the one that says more; null where there is neither. */
export function narrower(one: Strength | null, other: Strength | null): Strength | null {
  if (one === null || other === null) return one ?? other;
  const width = (strength: Strength) => {
    const { low, high } = strengthEstimate(strength, true);
    return low === null || high === null ? Number.POSITIVE_INFINITY : high / low;
  };
  return width(other) < width(one) ? other : one;
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

/** Less than this of the strength is not worth a word. */
const leastUntold = 0.05;

/** What volts that nobody told leave open: telling them is the cheapest way to a narrower interval. */
function untoldReason(source: StretchEvidence["source"], variance: number): readonly ReasonSaying[] {
  const share = normalQuantile(0.975) * Math.sqrt(variance);
  return source === null || share < leastUntold ? [] : [{ code: "supply-untold", source, share }];
}

/** What was referred, said once for all known-good runs: of the ambients their mean. */
function referredReasons(comparisons: readonly Comparison[]): readonly ReasonSaying[] {
  const all = comparisons.flatMap((comparison) => comparison.reasons);
  const conditionOf = (reason: ReasonSaying) => ("condition" in reason ? reason.condition : null);
  const isSame = (one: ReasonSaying, other: ReasonSaying) =>
    one.code === other.code && conditionOf(one) === conditionOf(other);
  const firsts = all.filter((reason, at) => all.findIndex((other) => isSame(other, reason)) === at);
  return firsts.map((reason) => {
    if (reason.code !== "ambient-referred") return reason;
    const same = all.filter((other) => other.code === "ambient-referred");
    const mean = (pick: (one: (typeof same)[number]) => number) =>
      same.reduce((sum, one) => sum + pick(one), 0) / same.length;
    return { ...reason, baselineAmbient: mean((one) => one.baselineAmbient), factor: mean((one) => one.factor) };
  });
}

/** `Strength` or the reason for none, as an answer to show. */
export const strengthAnswer = (strength: Strength | Unknown, withSpread: boolean): Answer =>
  "why" in strength ? unknown(strength.why) : strengthEstimate(strength, withSpread);
