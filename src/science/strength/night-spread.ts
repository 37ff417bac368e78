// How much the nights of this fridge differ by chance. Some fridges hardly differ from night to night, others by a tenth:
// what is believed beforehand is wide, and the fridge's own nights soon say which kind it is.
//
// Three things tell:
// - known-good runs of one source, among themselves;
// - test runs of one source, among themselves: what ails it ails it on both nights;
// - the sources of the test runs, each held against its known-good runs: a fault of one source tears them apart and tells
//   next to nothing, but sources that agree would not, if nights differed much.
//
// An electric source whose volts nobody tells scatters more than the others, by an amount that is weighed along. The shape
// of the scatter (witness-spread.ts) comes from the known-good runs; here only its size is weighed, on a grid.

import { isElectric } from "../../schema/index.ts";
import type { StretchEvidence } from "../evidence/run-evidence.ts";
import {
  combinedVariance,
  finWeight,
  joinedNight,
  knownGoodNights,
  type Night,
  pooledSpread,
  priorSpread,
  scaled,
  type WitnessLogs,
  type WitnessSpread,
  witnessLogs,
} from "./witness-spread.ts";

/**
 * Standard deviation of ln(cooling) between nights: from 1 to 10 % every size is believed alike, on a logarithmic scale.
 * Common practice, no source; tests/bench/verdict-study.ts shows what it does to calm and to scattered fridges.
 */
const leastSpread = 0.01;
const mostSpread = 0.1;
const sizes = 25;

/**
 * What untold volts add to that, as a standard deviation. Half of all supplies hardly change; of the others anything up to
 * 10 % is believed alike, which is 4 % of voltage squared by Ohm and carried through the heat law. Common practice, no source.
 */
const untoldSupply = [0.02, 0.04, 0.06, 0.08, 0.1];

/** Variances to weigh: the night's, even in the logarithm, with each that untold volts may add, and its share beforehand. */
const grid = Array.from(
  { length: sizes },
  (_, i) => (leastSpread * (mostSpread / leastSpread) ** ((i + 0.5) / sizes)) ** 2,
).flatMap((night) => [
  { night, volts: 0, share: 0.5 },
  ...untoldSupply.map((volts) => ({ night, volts: volts ** 2, share: 0.5 / untoldSupply.length })),
]);

type Variances = (typeof grid)[number];

/** In one run all sources have the night's own cooling, about a third of what nights differ by; their heats are their own. */
const sharedByNight = 1 / 3;

/** Beforehand: how often all sources of a run are equally good or equally bad. Common practice, no source. */
const sourcesAlike = 0.7;
/** Where they are not, ln(strength) of one over the other may be anything between a fifth and one, either way. */
const logRange = 2 * Math.log(5);

/** Nights of one source that differ by chance alone. */
interface Nights {
  readonly nights: readonly Night[];
  /** Electric, and nobody told its volts in any of them. */
  readonly isUntold: boolean;
}

/** A source in the test runs, and how many known-good runs stand behind it. */
interface TestedSource extends Nights {
  readonly knownGood: number;
}

/**
 * The scatter of both witnesses between nights.
 *
 * @param knownGood usable known-good stretches by source.
 * @param tests the heated stretches of every test run.
 */
export function nightSpread(
  knownGood: ReadonlyMap<string, readonly StretchEvidence[]>,
  tests: readonly (readonly StretchEvidence[])[] = [],
): WitnessSpread {
  const known = knownGoodNights(knownGood);
  const shape = pooledSpread(priorSpread, known);
  const sources = [...knownGood];
  const weight = finWeight(shape);
  const nightOf = (logs: WitnessLogs) => joinedNight(logs, weight);
  const knownNights = known.map(
    (logs, at): Nights => ({ nights: halfOpen(logs.map(nightOf)), isUntold: sources[at][1].every(isUntold) }),
  );
  const tested = sources.flatMap(([source, runs]): TestedSource[] => {
    const stretches = tests.flatMap((run) => run.find((one) => one.source === source) ?? []);
    const nights = stretches.flatMap((stretch) => overMean(stretch, runs).map(nightOf));
    const isUntoldThroughout = [...runs, ...stretches].every(isUntold);
    return nights.length === 0 ? [] : [{ nights, isUntold: isUntoldThroughout, knownGood: runs.length }];
  });
  const { variance, freedom, volts } = weighed(grid.map((variances) => logEvidence(variances, knownNights, tested)));
  return { ...scaled(shape, variance / combinedVariance(shape, weight)), freedom, untoldSupply: volts };
}

/** Whether a stretch ran on electricity of which nobody told the volts. */
export const isUntold = ({ source, supplyVolts }: StretchEvidence): boolean =>
  isElectric(source) && supplyVolts === null;

/** A pair leaves open what both of its runs do: half belongs to either. The first run stands in every pair. */
function halfOpen([first, ...others]: readonly Night[]): readonly Night[] {
  const mean = others.reduce((sum, { open }) => sum + open, 0) / Math.max(1, others.length);
  return [{ ...first, open: mean / 2 }, ...others.map(({ log, open }) => ({ log, open: open / 2 }))];
}

/** What the witnesses say of a stretch, in the mean over the known-good runs; nothing where they say nothing. */
function overMean(stretch: StretchEvidence, knownGood: readonly StretchEvidence[]): readonly WitnessLogs[] {
  const logs = knownGood.map((run) => witnessLogs(stretch, run)).filter((log) => log !== null);
  if (logs.length === 0) return [];
  const mean = (pick: (log: WitnessLogs) => number | undefined) =>
    logs.reduce((sum, log) => sum + (pick(log) ?? 0), 0) / logs.length;
  return [
    {
      fins: mean(({ fins }) => fins),
      slope: mean(({ slope }) => slope),
      finVariance: mean(({ finVariance }) => finVariance),
      slopeVariance: mean(({ slopeVariance }) => slopeVariance),
    },
  ];
}

/** Log of how likely all the nights are where they scatter with these variances. */
function logEvidence(variances: Variances, known: readonly Nights[], tested: readonly TestedSource[]): number {
  const voltsOf = ({ isUntold }: Nights) => (isUntold ? variances.volts : 0);
  const among = [...known, ...tested].reduce(
    (sum, group) => sum + logLikelihood(group.nights, variances.night + voltsOf(group)),
    0,
  );
  const alike = Math.exp(
    logLikelihood(
      tested.map((source) => ({
        log: mean(source.nights, "log"),
        open:
          ((1 - sharedByNight) * variances.night + voltsOf(source)) *
            (1 / source.nights.length + 1 / source.knownGood) +
          mean(source.nights, "open") / source.nights.length,
      })),
      0,
    ),
  );
  const unlike = logRange ** -Math.max(0, tested.length - 1);
  return among + Math.log(sourcesAlike * alike + (1 - sourcesAlike) * unlike);
}

const mean = (nights: readonly Night[], key: keyof Night) =>
  nights.reduce((sum, night) => sum + night[key], 0) / nights.length;

/** Log likelihood of normal values around a mean that nobody knows: each has `variance` and what is open of it. */
function logLikelihood(nights: readonly Night[], variance: number): number {
  if (nights.length < 2) return 0;
  let [weights, sum, squares, logWeights] = [0, 0, 0, 0];
  for (const { log, open } of nights) {
    const weight = 1 / (variance + open);
    weights += weight;
    sum += weight * log;
    squares += weight * log * log;
    logWeights += Math.log(weight);
  }
  const aroundMean = squares - (sum * sum) / weights;
  return (logWeights - Math.log(weights) - aroundMean - (nights.length - 1) * Math.log(2 * Math.PI)) / 2;
}

/**
 * What the evidence leaves of the grid. Normal values whose variance is only known so well are Student's t: the one with the
 * same variance and kurtosis.
 */
function weighed(logEvidences: readonly number[]): {
  readonly variance: number;
  readonly freedom: number;
  readonly volts: number;
} {
  const most = Math.max(...logEvidences);
  const shares = logEvidences.map((log, i) => grid[i].share * Math.exp(log - most));
  const sum = shares.reduce((total, share) => total + share, 0);
  const expected = (of: (variances: Variances) => number) =>
    shares.reduce((total, share, i) => total + share * of(grid[i]), 0) / sum;
  const [first, second] = [expected(({ night }) => night), expected(({ night }) => night ** 2)];
  const freedom = 4 + (2 * first * first) / (second - first * first);
  return { variance: (first * (freedom - 2)) / freedom, freedom, volts: expected(({ volts }) => volts) };
}
