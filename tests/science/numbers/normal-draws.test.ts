import { mean, sampleCorrelation, standardDeviation } from "simple-statistics";
import { expect, test } from "vitest";
import { normalDraws } from "../../../src/science/numbers/normal-draws.ts";

const draws = normalDraws(8, 200, 1);
const column = (at: number) => draws.map((draw) => draw[at]);

test("every dimension has mean 0, deviation 1 and 2.5 % in each tail", () => {
  for (let at = 0; at < 8; at++) {
    expect(mean(column(at))).toBeCloseTo(0, 9);
    expect(standardDeviation(column(at))).toBeCloseTo(1, 1);
    expect(column(at).filter((value) => value > 1.96)).toHaveLength(5);
  }
});

test("dimensions are unlike each other", () => {
  for (let at = 1; at < 8; at++) expect(Math.abs(sampleCorrelation(column(0), column(at)))).toBeLessThan(0.25);
});

test("the same seed gives the same draws, another seed others", () => {
  expect(normalDraws(8, 200, 1)).toEqual(draws);
  expect(normalDraws(8, 200, 2)).not.toEqual(draws);
});
