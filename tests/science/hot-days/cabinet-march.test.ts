import { describe, expect, test } from "vitest";
import {
  type MarchNumbers,
  type MarchStep,
  marchCabinet,
  marchSteps,
} from "../../../src/science/hot-days/cabinet-march.ts";
import { forecastOf } from "./hot-day-runs.ts";

const mains = { rate: 0.25, deadHours: 0, depthAt: () => 27, held: null };
const numbers = (change: Partial<MarchNumbers> = {}): MarchNumbers => ({
  start: 5,
  startsCooling: true,
  warmingRate: 0.12,
  sources: new Map([["mains", mains]]),
  sunKelvin: 4,
  drivingFactor: 1,
  ...change,
});
const march = (steps: readonly MarchStep[], change?: Partial<MarchNumbers>) =>
  marchCabinet(steps, numbers(change)).at(-1);

describe("the march through a forecast", () => {
  test("off, it is Newton's cooling: OpenStax Calculus vol. 1, 6.8, exercise on thawing (1 to 12 °F in 2 h, surroundings 44)", () => {
    // k = 0.14773211 per hour; 33 °F after 9.228223 h. In °F throughout: the law knows no unit.
    const steps = marchSteps(forecastOf([9.228223, 44, "off"]));
    expect(march(steps, { start: 1, warmingRate: 0.14773211 })).toBeCloseTo(33, 4);
  });

  test("on, it closes on ambient less depth: one exponential, exactly", () => {
    const steps = marchSteps(forecastOf([6, 30, "mains"]));
    expect(march(steps)).toBeCloseTo(3 + 2 * Math.exp(-0.25 * 6), 9);
  });

  test("from a cold boiler it warms until cold begins", () => {
    const steps = marchSteps(forecastOf([6, 30, "mains"]));
    const sources = new Map([["mains" as const, { ...mains, deadHours: 0.73 }]]);
    const atOnset = 30 - 25 * Math.exp(-0.12 * 0.73);
    expect(march(steps, { startsCooling: false, sources })).toBeCloseTo(3 + (atOnset - 3) * Math.exp(-0.25 * 5.27), 6);
  });

  test("a boiler off for half an hour needs only part of the time from cold", () => {
    const sources = new Map([["mains" as const, { ...mains, deadHours: 1 }]]);
    const ended = (off: number) => march(marchSteps(forecastOf([off, 30, "off"], [2, 30, "mains"])), { sources }) ?? 0;
    const warmed = (off: number) => march(marchSteps(forecastOf([off, 30, "off"]))) ?? 0;
    expect(ended(0.5) - warmed(0.5)).toBeLessThan(ended(3) - warmed(3));
  });

  test("the dial holds it at its set point, and lets a colder cabinet warm up to it", () => {
    const sources = new Map([["mains" as const, { ...mains, held: 6 }]]);
    for (const start of [12, -4]) {
      expect(march(marchSteps(forecastOf([48, 30, "mains"])), { start, sources })).toBeCloseTo(6, 6);
    }
  });

  test("cooling never warms: colder than it can hold, it warms no faster than when off", () => {
    const steps = (source: "mains" | "off") => marchSteps(forecastOf([2, 45, source]));
    expect(march(steps("mains"), { start: 0 })).toBeLessThanOrEqual(march(steps("off"), { start: 0 }) ?? 0);
  });

  test("sun counts as warmer air, driving as another depth", () => {
    const end = (extra: { sun?: boolean; driving?: boolean }) =>
      march(marchSteps(forecastOf([60, 30, "mains", extra])), { drivingFactor: 0.9 });
    expect(end({})).toBeCloseTo(3, 4);
    expect(end({ sun: true })).toBeCloseTo(7, 4);
    expect(end({ driving: true })).toBeCloseTo(30 - 0.9 * 27, 4);
  });

  test("the ambient goes straight from row to row, and steps begin where rows do", () => {
    const steps = marchSteps(forecastOf([1, 20, "mains"], [0.03, 26, "off"], [1, 20, "mains"]));
    expect(steps.filter(({ hours }) => hours === 0.5)[0].ambient).toBeCloseTo(23, 9);
    expect(steps.map(({ hours }) => hours)).toContain(1);
    expect(steps.filter(({ source }) => source === "off")).toHaveLength(1);
  });
});
