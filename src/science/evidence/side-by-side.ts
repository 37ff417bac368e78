// The numbers of a stretch beside those of its known-good runs, cut to equal length, and their ratios.

import type { PullDownNumbers, StretchFinding } from "../findings.ts";
import { type Answer, type Estimate, estimate, isKnown, unknown } from "../numbers/estimate.ts";
import type { UnknownSaying } from "../sayings.ts";
import type { Comparison, Cut } from "../strength/comparison.ts";

export interface SideBySide {
  readonly baselineFit: (PullDownNumbers & { readonly hours: number }) | null;
  readonly ratios: StretchFinding["ratios"];
  readonly deadTimeShift: Answer;
}

const names = ["rateConstant", "depth", "initialSlope", "deadTime"] as const;

/** @param why what stands in place of numbers when there is nothing to compare with. */
export function sideBySide(comparisons: readonly Comparison[], isColdBoiler: boolean, why: UnknownSaying): SideBySide {
  const none = unknown(why);
  if (comparisons.length === 0) {
    return {
      baselineFit: null,
      ratios: { rateConstant: none, depth: none, initialSlope: none, finDifference: none },
      deadTimeShift: none,
    };
  }
  const pairs = comparisons.map(({ here, there }) => ({
    here: here.numbers,
    there: there.numbers,
  }));
  const hours = Math.max(...comparisons.map((comparison) => comparison.hours));
  const mean = (name: (typeof names)[number]) => meanOf(pairs.map((pair) => pair.there[name]));
  const ratio = (name: (typeof names)[number]) =>
    meanRatio(pairs.map((pair) => [pair.here[name], pair.there[name]] as const));
  return {
    baselineFit: {
      hours,
      rateConstant: mean("rateConstant"),
      depth: mean("depth"),
      initialSlope: mean("initialSlope"),
      deadTime: mean("deadTime"),
    },
    ratios: {
      rateConstant: ratio("rateConstant"),
      depth: ratio("depth"),
      initialSlope: ratio("initialSlope"),
      finDifference: meanRatio(
        comparisons.map(({ here, there }) => [finDifferenceOf(here), finDifferenceOf(there)] as const),
      ),
    },
    deadTimeShift: isColdBoiler
      ? deadTimeShift(pairs.map((pair) => [pair.here.deadTime, pair.there.deadTime] as const))
      : unknown({ code: "warm-boiler" }),
  };
}

/** The fin difference of a cut, K. */
export function finDifferenceOf({ fin }: Cut): Answer {
  if (fin === null) return unknown({ code: "no-evaporator" });
  const error = Math.exp(fin.log) * Math.sqrt(fin.variance);
  return estimate("K", fin.value, fin.value - 2 * error, fin.value + 2 * error, { standardError: error });
}

/** Mean over the known-good runs; its error holds the scatter between them. */
export function meanOf(answers: readonly Answer[]): Answer {
  const known = answers.filter(isKnown);
  if (known.length === 0) return answers[0];
  const value = known.reduce((sum, one) => sum + one.value, 0) / known.length;
  const within = known.reduce((sum, one) => sum + (one.standardError ?? 0) ** 2, 0) / known.length ** 2;
  const between =
    known.length > 1
      ? known.reduce((sum, one) => sum + (one.value - value) ** 2, 0) / (known.length - 1) / known.length
      : 0;
  const error = Math.sqrt(within + between);
  if (known.length === 1) return known[0];
  return estimate(known[0].unit, value, value - 2 * error, value + 2 * error, {
    standardError: error,
    readings: known.reduce((sum, one) => sum + (one.readings ?? 0), 0),
  });
}

function meanRatio(pairs: readonly (readonly [Answer, Answer])[]): Answer {
  const logs = pairs.flatMap(([here, there]) =>
    isKnown(here) && isKnown(there) && here.value > 0 && there.value > 0
      ? [{ log: Math.log(here.value / there.value), variance: relativeVariance(here) + relativeVariance(there) }]
      : [],
  );
  if (logs.length === 0) {
    const missing = pairs.flat().find((answer) => !isKnown(answer));
    return missing ?? unknown({ code: "no-numbers" });
  }
  const log = logs.reduce((sum, one) => sum + one.log, 0) / logs.length;
  const error = Math.sqrt(logs.reduce((sum, one) => sum + one.variance, 0)) / logs.length;
  const value = Math.exp(log);
  return estimate("1", value, Math.exp(log - 2 * error), Math.exp(log + 2 * error), { standardError: value * error });
}

const relativeVariance = (one: Estimate) => ((one.standardError ?? 0) / one.value) ** 2;

/** From night to night an onset moves by some minutes: common practice, no source. */
const onsetScatter = 4 / 60;

function deadTimeShift(pairs: readonly (readonly [Answer, Answer])[]): Answer {
  const shifts = pairs.flatMap(([here, there]) =>
    isKnown(here) && isKnown(there)
      ? [
          {
            shift: here.value - there.value,
            variance: (here.standardError ?? 0) ** 2 + (there.standardError ?? 0) ** 2,
          },
        ]
      : [],
  );
  if (shifts.length === 0) return unknown({ code: "no-onset" });
  const shift = shifts.reduce((sum, one) => sum + one.shift, 0) / shifts.length;
  const error = Math.sqrt(
    shifts.reduce((sum, one) => sum + one.variance, 0) / shifts.length ** 2 +
      onsetScatter ** 2 * (1 + 1 / shifts.length),
  );
  return estimate("h", shift, shift - 2 * error, shift + 2 * error, { standardError: error });
}
