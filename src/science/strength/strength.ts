// Cooling strength of a stretch: its steady cooling power over the mean of the known-good runs, from two nearly
// independent witnesses. Where they disagree, what each can and cannot show decides which of them may speak.

import { mean } from "simple-statistics";
import { isLamp } from "../evidence/cabinet-lift.ts";
import { finsWarmerThanAir } from "../evidence/fin-difference.ts";
import type { StretchEvidence } from "../evidence/run-evidence.ts";
import { isSlow, lagBeyond } from "../evidence/slow-cabinet.ts";
import { normalQuantile, tQuantile } from "../numbers/distributions.ts";
import { type Answer, type Estimate, type Unknown, unknown } from "../numbers/estimate.ts";
import { logEstimate } from "../numbers/log-estimate.ts";
import { slopeHours } from "../pull-down/pull-down-numbers.ts";
import type { ReasonSaying, UnknownSaying } from "../sayings.ts";
import { type Comparison, compareWith, finsAloneHours, type LogRatio } from "./comparison.ts";
import { isUntold } from "./night-spread.ts";
import { referSheets, takenEqual } from "./sheet-conditions.ts";
import { betweenFridges, combinedVariance, type WitnessSpread, witnessWeight } from "./witness-spread.ts";

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

/** How this run warms back against the known-good runs: ratio of k_w; tells a seal from a load. */
export type WarmingRatio = Estimate | null;

/** Beyond this many standard deviations the two witnesses disagree. */
const disagreement = 2.6;

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
  const byFins = pooled(comparisons, "logByFins");
  const bySlope = pooled(comparisons, "logBySlope");
  const lag = lagBeyond(
    test.finsAbove,
    comparisons.map(({ knownGood: { finsAbove } }) => finsAbove),
  );
  const verdictOf = isSlow(lag)
    ? slowProbeSays(byFins, bySlope, lag.value)
    : witnessesSay(byFins, bySlope, spread, warming, test, beganColder(test, comparisons));
  if (verdictOf === null) return { why: unusable };
  const { weight } = verdictOf;
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
    below: verdictOf.below,
    above: verdictOf.above,
    apart:
      byFins === null || bySlope === null || isSlow(lag)
        ? null
        : { value: byFins.log - bySlope.log, standardError: Math.sqrt(apartVariance(byFins, bySlope, spread)) },
    comparisons,
    reasons: [
      ...verdictOf.reasons,
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
    const sheets = referSheets(test.run.recording.sheet, run.run.recording.sheet);
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

/** Kelvin below ambient that a fridge in order settles at, roughly: common practice, no source. */
const usualDepth = 25;

interface WitnessVerdict {
  /** Weight of the fins. */
  readonly weight: number;
  readonly below: number;
  readonly above: number;
  readonly reasons: readonly ReasonSaying[];
}

/**
 * A warm load that nobody saw lowers the fall by up to this, in the logarithm: some 10 kg of goods beside the fridge's own heat
 * capacity. The fins would tell it from a weak source; where they are missing, only a warming back as usual rules it out.
 */
export const unseenLoad = Math.log(4 / 3);

/**
 * A cabinet probe that lags behind its air stands above it while that falls: the fins look colder than they are, and the fall is
 * slower than it is. So the fins can show that the source is weak, never that it is good; the fall alone, the reverse.
 *
 * @param lag how much more it lags here than in the known-good runs, K; negative where it lags there, and all is turned round
 */
function slowProbeSays(byFins: LogRatio | null, bySlope: LogRatio | null, lag: number): WitnessVerdict | null {
  if (byFins === null && bySlope === null) return null;
  const isByFins = byFins !== null;
  const isHere = lag > 0;
  const open = Number.POSITIVE_INFINITY;
  return {
    weight: isByFins ? 1 : 0,
    below: isByFins === isHere ? open : 0,
    above: isByFins === isHere ? 0 : open,
    reasons: [
      { code: isByFins ? "fins-alone" : "slope-alone" },
      { code: "cabinet-probe-slow", kelvin: Math.abs(lag), side: isHere ? "here" : "known-good" },
    ],
  };
}

/**
 * Goods put in cold make the air fall faster than the source does, by a third for 6 kg from another fridge and more. They show in a
 * cabinet that stands below ambient before anything cooled: 2 K for 3 kg, 5 K for 6 kg (simulated fridges).
 */
const leastColder = 2;

/** How much colder against ambient this run began than the known-good ones, K; negative where they did. */
const beganColder = (test: StretchEvidence, comparisons: readonly Comparison[]): number =>
  test.beganBelow - mean(comparisons.map(({ knownGood }) => knownGood.beganBelow));

function fallAloneSays(lift: StretchEvidence["lift"], warming: WarmingRatio, colder: number): WitnessVerdict {
  const alone: ReasonSaying = { code: "slope-alone" };
  if (isLamp(lift)) {
    const lamp: ReasonSaying = { code: "explained-by-lamp", kelvin: lift.value };
    return { weight: 0, below: 0, above: lift.value / usualDepth, reasons: [alone, lamp] };
  }
  if (warming !== null && (warming.low ?? 0) > 0.9) return { weight: 0, below: 0, above: 0, reasons: [alone] };
  const unseen: ReasonSaying = { code: "load-unseen", share: Math.exp(unseenLoad) - 1 };
  if (Math.abs(colder) < leastColder) return { weight: 0, below: 0, above: unseenLoad, reasons: [alone, unseen] };
  const isHere = colder > 0;
  const open = Number.POSITIVE_INFINITY;
  return {
    weight: 0,
    below: isHere ? open : 0,
    above: isHere ? unseenLoad : open,
    reasons: [alone, { code: "began-cold", kelvin: Math.abs(colder), side: isHere ? "here" : "known-good" }],
  };
}

/** Which witness may speak. Seal and load come first: they excuse a disagreement without any fault of the source. */
function witnessesSay(
  byFins: LogRatio | null,
  bySlope: LogRatio | null,
  spread: WitnessSpread,
  warming: WarmingRatio,
  { lift, fitted }: Pick<StretchEvidence, "lift" | "fitted">,
  colder: number,
): WitnessVerdict | null {
  if (byFins === null && bySlope === null) return null;
  // A lamp heats the cabinet: it lowers the slope by about its kelvins over the depth, and leaves the fins alone.
  const lamp: ReasonSaying[] = isLamp(lift) ? [{ code: "explained-by-lamp", kelvin: lift.value }] : [];
  if (byFins === null) return fallAloneSays(lift, warming, colder);
  if (bySlope === null) {
    // Cold fins under air that never fell: a cabinet probe in a bottle or against the fins lags, and flatters them. They may
    // show that the source is weak, and not that it is good.
    const noFall = "why" in fitted && fitted.why.code === "no-onset";
    const below = noFall ? Number.POSITIVE_INFINITY : 0;
    return { weight: 1, below, above: 0, reasons: [{ code: "fins-alone" }] };
  }
  if (lamp.length > 0) return { weight: 1, below: 0, above: 0, reasons: [{ code: "fins-alone" }, ...lamp] };
  const finRatio = Math.exp(byFins.log);
  const slopeRatio = Math.exp(bySlope.log);
  const apart = byFins.log - bySlope.log;
  const weight = witnessWeight(spread, byFins, bySlope);
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
  const bySeal: ReasonSaying[] = isSeal ? [disagree, { code: "explained-by-seal", ratio: warming }] : [];
  // A leaking seal flatters the fins, which have more to cool, and lowers the slope about as much: 0.04 and -0.02 of their
  // logarithms for a leak a third larger, 0.09 and -0.06 for one twice as large (80 simulated stretches). So does a lamp
  // that nobody saw, more or less. The truth lies between the two.
  if (isSeal && apart > 0) return { weight, below: apart / 4, above: apart / 4, reasons: bySeal };
  // A leak lets moist air in, too: with frost on the fins the slope is cooling over heat capacity still.
  if (isSeal) return { weight: 0, below: 0, above: 0, reasons: bySeal };
  // Only the slope is low: a load that the warming back does not show cannot be ruled out. The truth lies between.
  if (apart > 0) return { weight: 0, below: 0, above: apart, reasons: [disagree, { code: "load-not-ruled-out" }] };
  // Only the fins are low: frost or a moved evaporator probe, and the source is as good as the fall says; or a cabinet probe at
  // the fins, an ambient one in the sun, goods in the known-good runs, and it is as weak as the fins say. Nothing tells which.
  return { weight: 0, below: -apart, above: 0, reasons: [disagree, { code: "frost-or-moved-probe" }] };
}

/** `Strength` or the reason for none, as an answer to show. */
export const strengthAnswer = (strength: Strength | Unknown, withSpread: boolean): Answer =>
  "why" in strength ? unknown(strength.why) : strengthEstimate(strength, withSpread);
