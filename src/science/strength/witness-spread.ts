// How much two witnesses of cooling (fins F, initial slope S) scatter from one known-good run to the next, and how to
// weigh them: the linear combination of their logarithms with the least variance.

import type { StretchEvidence } from "../evidence/run-evidence.ts";
import { compareWith } from "./comparison.ts";

/** Covariance of ln(cooling by fins) and ln(cooling by slope) between runs, and the degrees of freedom behind it. */
export interface WitnessSpread {
  readonly fins: number;
  readonly slope: number;
  readonly both: number;
  readonly freedom: number;
  /** What volts that nobody tells add to either between nights, of an electric source; nothing where left out. */
  readonly untoldSupply?: number;
}

const night = 0.04 ** 2;
const ownOfFins = 0.0404 ** 2;
const ownOfSlope = 0.0447 ** 2;
/**
 * What is believed before this fridge's own runs tell: 5 % between runs in the combination. Of that, 4 % is the night
 * itself, in both witnesses; the rest is each witness's own, shared out so that the fins weigh 0.55. This shape weighs like
 * 5 degrees of freedom; how large the scatter is between nights is weighed in night-spread.ts.
 */
export const priorSpread: WitnessSpread = {
  fins: night + ownOfFins,
  slope: night + ownOfSlope,
  both: night,
  freedom: 5,
};

/** Before and after a service lie weeks apart, in whatever conditions: less is believed of such nights beforehand. */
export const priorSpreadOverWeeks: WitnessSpread = { ...priorSpread, freedom: 3 };

/** Between fridges of one kind, standard deviation of ln(cooling) by both witnesses: an assumption, no source. */
export const betweenFridges = 0.1;

/** A prior, narrowed or widened by the known-good runs of every source: pooled, since a night is a night. */
export const witnessSpread = (
  knownGoodBySource: ReadonlyMap<string, readonly StretchEvidence[]>,
  prior: WitnessSpread,
): WitnessSpread => pooledSpread(prior, knownGoodNights(knownGoodBySource));

/** What the witnesses say of every known-good run of a source over the first one; a group for each source. */
export const knownGoodNights = (
  bySource: ReadonlyMap<string, readonly StretchEvidence[]>,
): readonly (readonly WitnessLogs[])[] =>
  [...bySource.values()].map(([first, ...others]) => [
    { fins: 0, slope: 0 },
    ...others.flatMap((other) => witnessLogs(other, first) ?? []),
  ]);

/** @returns null where one of the witnesses does not speak. */
export function witnessLogs(test: StretchEvidence, knownGood: StretchEvidence): WitnessLogs | null {
  const pair = compareWith(test, knownGood);
  if (pair === null || pair.logByFins === null || pair.logBySlope === null) return null;
  const { logByFins, logBySlope, conditionVariance } = pair;
  return {
    fins: logByFins.log,
    slope: logBySlope.log,
    finVariance: logByFins.hereVariance + logByFins.thereVariance + conditionVariance,
    slopeVariance: logBySlope.hereVariance + logBySlope.thereVariance + conditionVariance,
  };
}

/** What the two witnesses said of one run, and what its readings and references leave open of that (0 when left out). */
export interface WitnessLogs {
  readonly fins: number;
  readonly slope: number;
  readonly finVariance?: number;
  readonly slopeVariance?: number;
}

/** Both witnesses of a night as one logarithm, and what its readings and references leave open of it. */
export interface Night {
  readonly log: number;
  readonly open: number;
}

/** The witnesses of one run joined, the fins weighing `weight`. */
export const joinedNight = (
  { fins, slope, finVariance = 0, slopeVariance = 0 }: WitnessLogs,
  weight: number,
): Night => ({
  log: weight * fins + (1 - weight) * slope,
  open: weight ** 2 * finVariance + (1 - weight) ** 2 * slopeVariance,
});

/** A prior, narrowed or widened by groups of runs that differ by chance alone. */
export function pooledSpread(prior: WitnessSpread, groups: readonly (readonly WitnessLogs[])[]): WitnessSpread {
  let { fins, slope, both, freedom } = scaled(prior, prior.freedom);
  for (const logs of groups) {
    if (logs.length < 2) continue;
    const mean = (pick: (log: WitnessLogs) => number) => logs.reduce((sum, log) => sum + pick(log), 0) / logs.length;
    const meanFins = mean((log) => log.fins);
    const meanSlope = mean((log) => log.slope);
    const squares = (pick: (log: WitnessLogs) => number) => logs.reduce((sum, log) => sum + pick(log), 0);
    // What readings and references leave open is widened for elsewhere: here it must not count as scatter between nights.
    const more = logs.length - 1;
    const open = (pick: (log: WitnessLogs) => number) => (more * squares(pick)) / (2 * logs.length);
    fins += Math.max(0, squares((log) => (log.fins - meanFins) ** 2) - open((log) => log.finVariance ?? 0));
    slope += Math.max(0, squares((log) => (log.slope - meanSlope) ** 2) - open((log) => log.slopeVariance ?? 0));
    both += squares((log) => (log.fins - meanFins) * (log.slope - meanSlope));
    freedom += more;
  }
  both = Math.max(-1, Math.min(1, both / Math.sqrt(fins * slope))) * Math.sqrt(fins * slope);
  return { ...scaled({ fins, slope, both, freedom }, 1 / freedom), freedom };
}

/** The spread with every variance so many times as large. */
export const scaled = (spread: WitnessSpread, factor: number): WitnessSpread => ({
  fins: spread.fins * factor,
  slope: spread.slope * factor,
  both: spread.both * factor,
  freedom: spread.freedom,
});

/** Weight of the fins in the combination with the least variance, clipped to 0..1. */
export function finWeight({ fins, slope, both }: Omit<WitnessSpread, "freedom">): number {
  const sum = fins + slope - 2 * both;
  return sum > 0 ? Math.min(1, Math.max(0, (slope - both) / sum)) : 0.55;
}

/** What the readings and references of one comparison leave open of a witness. */
interface WitnessReading {
  readonly hereVariance: number;
}

/** Weight of the fins in one comparison: what is left open of a witness counts as its scatter between nights does. */
export function witnessWeight(
  { fins, slope, both }: WitnessSpread,
  byFins: WitnessReading | null,
  bySlope: WitnessReading | null,
): number {
  if (byFins === null || bySlope === null) return byFins === null ? 0 : 1;
  return finWeight({ fins: fins + byFins.hereVariance, slope: slope + bySlope.hereVariance, both });
}

/** Variance of the combination with the fins weighing `weight`. */
export const combinedVariance = ({ fins, slope, both }: WitnessSpread, weight: number): number =>
  weight ** 2 * fins + (1 - weight) ** 2 * slope + 2 * weight * (1 - weight) * both;

/** The same as a plain variance, for where Student's tails are not added: those of few degrees of freedom count into it. */
export const expectedVariance = (spread: WitnessSpread, weight: number): number =>
  (combinedVariance(spread, weight) * spread.freedom) / (spread.freedom - 2);
