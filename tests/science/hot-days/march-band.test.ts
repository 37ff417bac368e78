import { describe, expect, test } from "vitest";
import { marchSteps } from "../../../src/science/hot-days/cabinet-march.ts";
import { bandOf, hoursAbove, hoursUntil, type Marches } from "../../../src/science/hot-days/march-band.ts";
import { forecastOf } from "./hot-day-runs.ts";

const steps = marchSteps(forecastOf([10, 25, "off"]));
const straight = (from: number, to: number) =>
  Float64Array.from(steps, ({ hours }) => from + ((to - from) * hours) / 10);
const marches = (...all: readonly [Float64Array, ...Float64Array[]]): Marches => all;

describe("what marches say together", () => {
  test("hours above a limit are counted to the crossing itself, not to the step", () => {
    const { value, low, high } = hoursAbove(8, steps, marches(straight(3.3, 13.3), straight(3.3, 13.3)));
    expect(value).toBeCloseTo(5.3, 9);
    expect([low, high]).toEqual([value, value]);
  });

  test("the time until a limit is that of its first crossing", () => {
    expect(hoursUntil(8, steps, marches(straight(3, 13), straight(3, 13)))?.value).toBeCloseTo(5, 9);
    expect(hoursUntil(8, steps, marches(straight(13, 3), straight(13, 3)))?.value).toBeCloseTo(5, 9);
    expect(hoursUntil(8, steps, marches(straight(9, 13), straight(9, 13)))).toBeNull();
  });

  test("a draw that starts beyond the limit is there from the start, one that never comes there leaves the end open", () => {
    const estimate = hoursUntil(8, steps, marches(straight(9, 4), straight(7, 12), straight(14, 10)));
    expect(estimate).toMatchObject({ low: 0, high: null });
    expect(estimate?.value).toBeCloseTo(2, 9);
  });

  test("the band leaves out 2.5 % of the draws on either side, and holds the middle", () => {
    const draws = Array.from({ length: 200 }, (_, i) => straight(i, i));
    const { low, high } = bandOf([straight(100, 100), ...draws], steps.length);
    expect([low[0], high[0]]).toEqual([5, 194]);
    expect(bandOf([straight(300, 300), ...draws], steps.length).high[0]).toBe(300);
  });
});
