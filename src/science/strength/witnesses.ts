// The two nearly independent witnesses of cooling: the fin difference and the initial fall. Where they disagree, or one is
// missing or misled, what each can and cannot show decides which of them may speak.

import { mean } from "simple-statistics";
import { isLamp } from "../evidence/cabinet-lift.ts";
import type { StretchEvidence } from "../evidence/run-evidence.ts";
import { isSlow, lagBeyond } from "../evidence/slow-cabinet.ts";
import type { WarmingRatio } from "../evidence/warming-ratio.ts";
import type { ReasonSaying } from "../sayings.ts";
import type { Comparison, LogRatio } from "./comparison.ts";
import { type WitnessSpread, witnessWeight } from "./witness-spread.ts";

/** Both witnesses, and what may be said by them. */
export interface WitnessesHeard extends Heard {
  readonly byFins: LogRatio | null;
  readonly bySlope: LogRatio | null;
  /** ln(cooling by fins) minus ln(cooling by slope), and its standard error; null where they cannot be held together. */
  readonly apart: { readonly value: number; readonly standardError: number } | null;
}

/**
 * @param comparisons with the known-good runs, at least one
 * @param warming of the whole run; null where it does not show it
 * @returns null where there is neither witness
 */
export function hearWitnesses(
  test: StretchEvidence,
  comparisons: readonly Comparison[],
  spread: WitnessSpread,
  warming: WarmingRatio,
): WitnessesHeard | null {
  const byFins = pooled(comparisons, "logByFins");
  const bySlope = pooled(comparisons, "logBySlope");
  if (byFins === null && bySlope === null) return null;
  const lag = lagBeyond(
    test.finsAbove,
    comparisons.map(({ knownGood: { finsAbove } }) => finsAbove),
  );
  if (isSlow(lag)) return { byFins, bySlope, apart: null, ...slowProbeSays(byFins, lag.value) };
  return {
    byFins,
    bySlope,
    apart: witnessesApart(byFins, bySlope, spread),
    ...witnessesSay(byFins, bySlope, spread, warming, test, {
      colder: beganColder(test, comparisons),
      bent: bentBeyondChance(pooled(comparisons, "logRate")),
    }),
  };
}

/** ln(cooling by fins) minus ln(cooling by slope), and its standard error; null where there is one of them only. */
export const witnessesApart = (
  byFins: LogRatio | null,
  bySlope: LogRatio | null,
  spread: WitnessSpread,
): WitnessesHeard["apart"] =>
  byFins === null || bySlope === null
    ? null
    : { value: byFins.log - bySlope.log, standardError: Math.sqrt(apartVariance(byFins, bySlope, spread)) };

/** One witness over all known-good runs. */
function pooled(comparisons: readonly Comparison[], witness: "logByFins" | "logBySlope" | "logRate"): LogRatio | null {
  const found = comparisons.map((comparison) => comparison[witness]).filter((ratio) => ratio !== null);
  if (found.length === 0) return null;
  const mean = (key: keyof LogRatio) => found.reduce((sum, ratio) => sum + ratio[key], 0) / found.length;
  return { log: mean("log"), hereVariance: mean("hereVariance"), thereVariance: mean("thereVariance") };
}

/** Beyond this many standard deviations the two witnesses disagree. */
export const disagreement = 2.6;

/** Variance of what lies between the witnesses, of this run and of the known-good mean. */
const apartVariance = (byFins: LogRatio, bySlope: LogRatio, spread: WitnessSpread): number =>
  2 * (spread.fins + spread.slope - 2 * spread.both) +
  byFins.hereVariance +
  byFins.thereVariance +
  bySlope.hereVariance +
  bySlope.thereVariance;

/** Kelvin below ambient that a fridge in order settles at, roughly: common practice, no source. */
const usualDepth = 25;

/** Of what a lamp takes of the slope. */
const lampDoubt = 0.3;

/** What may be said by one of them or both, and how far the truth may lie beyond. */
interface Heard {
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
function slowProbeSays(byFins: LogRatio | null, lag: number): Heard {
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

/** What the fall may owe to something else than the source. */
interface FallDoubts {
  /** How much colder against ambient this run began than the known-good ones, K. */
  readonly colder: number;
  /** ln(rate constant over known-good) where goods or a leak raised it beyond chance; 0 where they did not. */
  readonly bent: number;
}

/** Of the rate constant between runs of a fridge in order, in the logarithm (simulated fridges). */
const usualRateScatter = 0.08;

function bentBeyondChance(rate: LogRatio | null): number {
  if (rate === null) return 0;
  const error = Math.sqrt(usualRateScatter ** 2 + rate.hereVariance + rate.thereVariance);
  return rate.log > 2 * error ? rate.log : 0;
}

/**
 * A fall that starts steep and slows down soon owes its start to something else: goods put in cold, a leak. Then the source is
 * anything between what the steep start says and what is left of it.
 */
function fallAloneSays(lift: StretchEvidence["lift"], warming: WarmingRatio, doubts: FallDoubts): Heard {
  const heard = fallFromWarmSays(lift, warming, doubts.colder);
  if (doubts.bent === 0) return heard;
  const bent: ReasonSaying = { code: "fall-bent", share: 1 - Math.exp(-doubts.bent) };
  return { ...heard, below: heard.below + doubts.bent, reasons: [...heard.reasons, bent] };
}

function fallFromWarmSays(lift: StretchEvidence["lift"], warming: WarmingRatio, colder: number): Heard {
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
  doubts: FallDoubts,
): Heard {
  if (byFins === null) return fallAloneSays(lift, warming, doubts);
  if (bySlope === null) {
    // Cold fins under air that never fell: a cabinet probe in a bottle or against the fins lags, and flatters them. They may
    // show that the source is weak, and not that it is good.
    const noFall = "why" in fitted && fitted.why.code === "no-onset";
    const below = noFall ? Number.POSITIVE_INFINITY : 0;
    return { weight: 1, below, above: 0, reasons: [{ code: "fins-alone" }] };
  }
  const finRatio = Math.exp(byFins.log);
  const slopeRatio = Math.exp(bySlope.log);
  const apart = byFins.log - bySlope.log;
  const variance = apartVariance(byFins, bySlope, spread);
  const beyondChance = disagreement * Math.sqrt(variance);
  // A lamp heats the cabinet: it lowers the slope by about its kelvins over the depth, and leaves the fins alone. Fins lower than
  // such a slope are not the lamp's doing.
  const byLamp = isLamp(lift) ? lift.value / usualDepth : 0;
  if (isLamp(lift) && apart - byLamp > -disagreement * Math.hypot(Math.sqrt(variance), lampDoubt * byLamp)) {
    const lamp: ReasonSaying = { code: "explained-by-lamp", kelvin: lift.value };
    return { weight: 1, below: 0, above: 0, reasons: [{ code: "fins-alone" }, lamp] };
  }
  const weight = witnessWeight(spread, byFins, bySlope);
  const agree: Heard = {
    weight,
    below: 0,
    above: 0,
    reasons: [{ code: "witnesses-agree", finRatio, slopeRatio }],
  };
  if (Math.abs(apart) < beyondChance) return { ...agree, above: byLamp };
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
  return { weight: 0, below: -apart, above: byLamp, reasons: [disagree, { code: "frost-or-moved-probe" }] };
}
