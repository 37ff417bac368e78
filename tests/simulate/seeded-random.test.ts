import { expect, test } from "vitest";
import { seededRandom } from "../../src/simulate/seeded-random.ts";

const draws = 20_000;
const take = (next: () => number) => Array.from({ length: draws }, next);
const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;

test("the same seed and stream give the same numbers, another stream or seed gives others", () => {
  const five = (seed: number, stream: string) => Array.from({ length: 5 }, seededRandom(seed, stream).uniform);
  expect(five(7, "weather")).toEqual(five(7, "weather"));
  expect(five(7, "weather")).not.toEqual(five(7, "probe"));
  expect(five(7, "weather")).not.toEqual(five(8, "weather"));
});

// Tolerances: four standard errors of each statistic.
test("uniform numbers lie in 0 to 1 with mean 1/2 and variance 1/12", () => {
  const values = take(seededRandom(1, "uniform").uniform);
  expect(Math.min(...values)).toBeGreaterThanOrEqual(0);
  expect(Math.max(...values)).toBeLessThan(1);
  expect(Math.abs(mean(values) - 0.5)).toBeLessThan(4 * Math.sqrt(1 / 12 / draws));
  expect(Math.abs(mean(values.map((v) => (v - 0.5) ** 2)) - 1 / 12)).toBeLessThan(4 * Math.sqrt(1 / 180 / draws));
});

test("normal numbers have mean 0, variance 1, kurtosis 3, and follow one another freely", () => {
  const values = take(seededRandom(2, "normal").normal);
  expect(Math.abs(mean(values))).toBeLessThan(4 / Math.sqrt(draws));
  expect(Math.abs(mean(values.map((v) => v ** 2)) - 1)).toBeLessThan(4 * Math.sqrt(2 / draws));
  expect(Math.abs(mean(values.map((v) => v ** 4)) - 3)).toBeLessThan(4 * Math.sqrt(96 / draws));
  expect(Math.abs(mean(values.slice(1).map((v, i) => v * values[i])))).toBeLessThan(4 / Math.sqrt(draws));
});

test("neighbouring seeds are as strange to each other as distant ones", () => {
  const firsts = Array.from({ length: 2000 }, (_, seed) => seededRandom(seed, "x").normal());
  expect(Math.abs(mean(firsts.slice(1).map((v, i) => v * firsts[i])))).toBeLessThan(4 / Math.sqrt(2000));
});
