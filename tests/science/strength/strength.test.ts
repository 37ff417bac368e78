import { test as property } from "@fast-check/vitest";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { tQuantile } from "../../../src/science/numbers/distributions.ts";
import { estimate, unknown } from "../../../src/science/numbers/estimate.ts";
import { combinedStrength, type Strength, strengthEstimate } from "../../../src/science/strength/strength.ts";
import {
  combinedVariance,
  finWeight,
  priorSpread,
  witnessSpread,
} from "../../../src/science/strength/witness-spread.ts";
import { verdictOn } from "../../../src/science/verdict/stretch-verdict.ts";

const strength = (value: number, change: Partial<Strength> = {}): Strength => ({
  baseline: "own",
  log: Math.log(value),
  nightVariance: 0.02 ** 2,
  spreadVariance: 0.04 ** 2,
  baselineVariance: 0.03 ** 2,
  freedom: 8,
  below: 0,
  above: 0,
  apart: null,
  comparisons: [],
  reasons: [],
  ...change,
});

describe("the two witnesses", () => {
  test("the prior stands for 5 % between runs, with the fins weighing 0.55", () => {
    expect(finWeight(priorSpread)).toBeCloseTo(0.55, 2);
    expect(Math.sqrt(combinedVariance(priorSpread, finWeight(priorSpread)))).toBeCloseTo(0.05, 3);
  });

  property.prop([
    fc.double({ min: 1e-4, max: 0.1, noNaN: true }),
    fc.double({ min: 1e-4, max: 0.1, noNaN: true }),
    fc.double({ min: -0.99, max: 0.99, noNaN: true }),
  ])("no other weight of the fins gives the combination less variance", (fins, slope, correlation) => {
    const spread = { fins, slope, both: correlation * Math.sqrt(fins * slope), freedom: 5 };
    const best = combinedVariance(spread, finWeight(spread));
    for (const weight of [0, 0.25, 0.5, 0.75, 1]) {
      expect(combinedVariance(spread, weight)).toBeGreaterThanOrEqual(best - 1e-12);
    }
  });

  test("without known-good runs the prior stands as it is", () => {
    const spread = witnessSpread(new Map(), priorSpread);
    expect(spread.freedom).toBe(priorSpread.freedom);
    expect(spread.fins).toBeCloseTo(priorSpread.fins, 12);
    expect(spread.both).toBeCloseTo(priorSpread.both, 12);
  });
});

describe("cooling strength", () => {
  test("its interval is Student's on the logarithm, spread from night to night included", () => {
    const whole = strengthEstimate(strength(0.8), true);
    const reach = tQuantile(0.975, 8) * Math.sqrt(0.02 ** 2 + 0.04 ** 2 + 0.03 ** 2);
    expect(whole.low).toBeCloseTo(0.8 * Math.exp(-reach), 9);
    expect(whole.high).toBeCloseTo(0.8 * Math.exp(reach), 9);
  });

  test("this night alone is surer than the fridge", () => {
    const night = strengthEstimate(strength(0.8), false);
    const fridge = strengthEstimate(strength(0.8), true);
    expect((night.high ?? 0) - (night.low ?? 0)).toBeLessThan((fridge.high ?? 0) - (fridge.low ?? 0));
  });

  test("two nights that agree narrow the interval; what the known-good mean leaves open stays", () => {
    const two = strengthEstimate(combinedStrength([strength(0.8), strength(0.82)]).strength, true);
    expect(two.value).toBeGreaterThan(0.8);
    expect(two.value).toBeLessThan(0.82);
    expect(two.standardError).toBeLessThan(strengthEstimate(strength(0.8), true).standardError ?? 0);
    expect(two.standardError).toBeGreaterThan(0.81 * 0.03);
  });

  test("two nights that contradict are said to, and widen instead of narrowing", () => {
    const { strength: sum, nightsDisagree } = combinedStrength([strength(0.6), strength(1)]);
    expect(nightsDisagree).toBe(true);
    expect(strengthEstimate(sum, true).standardError).toBeGreaterThan(
      strengthEstimate(strength(0.8), true).standardError ?? 0,
    );
  });

  property.prop([fc.array(fc.double({ min: 0.2, max: 1.3, noNaN: true }), { minLength: 2, maxLength: 5 })])(
    "the order of the nights does not matter",
    (values) => {
      const forth = strengthEstimate(combinedStrength(values.map((value) => strength(value))).strength, true);
      const back = strengthEstimate(combinedStrength(values.reverse().map((value) => strength(value))).strength, true);
      expect(back.value).toBeCloseTo(forth.value, 10);
      expect(back.low).toBeCloseTo(forth.low ?? 0, 10);
    },
  );
});

describe("the verdict on a strength", () => {
  for (const [low, high, verdict] of [
    [0.86, 1.1, "sound"],
    [0.85, 1.2, "sound"],
    [1.05, 1.3, "sound"],
    [0.84, 1.1, "undecided"],
    [0.7, 0.85, "undecided"],
    [0.6, 0.84, "weak"],
    [null, 0.84, "weak"],
    [0.9, null, "sound"],
    [null, null, "undecided"],
  ] as const) {
    test(`${low ?? "open"} to ${high ?? "open"} at 15 % allowed loss is ${verdict}`, () => {
      expect(verdictOn(estimate("1", 0.85, low, high), 0.15)).toBe(verdict);
    });
  }

  test("no strength is undecided, never good", () => {
    expect(verdictOn(unknown({ code: "no-numbers" }), 0.15)).toBe("undecided");
  });
});
