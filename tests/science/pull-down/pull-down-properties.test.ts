import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { fitPullDown } from "../../../src/science/pull-down/pull-down-fit.ts";
import { pullDownIntervals } from "../../../src/science/pull-down/pull-down-intervals.ts";
import type { StretchReadings } from "../../../src/science/pull-down/pull-down-readings.ts";
import { fitted, off } from "../published.ts";
import { modelStretch } from "./model-stretch.ts";

const numbers = (stretch: StretchReadings, warmingRate = 0.12) => {
  const { rate, depth, onset } = fitted(stretch, { warmingRate }).pullDown;
  return { rate, depth, onset, slope: rate * depth };
};

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
/** As probes give them, in hundredths. */
const celsius = fc.integer({ min: -4000, max: 6000 }).map((hundredths) => hundredths / 100);
const nights = fc.record({
  hours: between(3, 12),
  stepMinutes: fc.constantFrom(1, 2, 5),
  rate: between(0.12, 0.8),
  depth: between(12, 35),
  onset: between(0.2, 1.5),
  start: between(15, 30),
  ambient: fc.constantFrom("constant" as const, "drifting" as const),
});
const seeds = fc.integer({ min: 0, max: 1e6 });

describe("what holds for every stretch", () => {
  // Fits of up to 1,000 readings stop at 1e-9 standard errors: what is left is rounding.
  property.prop([nights, seeds, between(-20, 20)], { seed: 11, numRuns: 60 })(
    "the same offset on cabinet and ambient moves no rate, depth, slope or onset",
    (night, seed, offset) => {
      const stretch = modelStretch(night, seed);
      const moved = numbers({
        ...stretch,
        cabinetCelsius: stretch.cabinetCelsius.map((value) => value + offset),
        ambientCelsius: stretch.ambientCelsius.map((value) => value + offset),
      });
      for (const [name, value] of Object.entries(numbers(stretch))) {
        expect(off(moved[name as keyof typeof moved], value), name).toBeLessThan(1e-6);
      }
    },
  );

  property.prop([nights, seeds, between(0.01, 100)], { seed: 12, numRuns: 60 })(
    "stretching time divides the rate and leaves the depth",
    (night, seed, factor) => {
      const stretch = modelStretch(night, seed);
      const slow = numbers({ ...stretch, hours: stretch.hours.map((hour) => hour * factor) }, 0.12 / factor);
      const { rate, depth, onset } = numbers(stretch);
      expect(off(slow.rate * factor, rate)).toBeLessThan(1e-6);
      expect(off(slow.depth, depth)).toBeLessThan(1e-6);
      expect(off(slow.onset / factor, onset)).toBeLessThan(1e-6);
    },
  );

  property.prop([nights], { seed: 13, numRuns: 60 })("readings without noise give the pull-down back", (night) => {
    const found = numbers(modelStretch({ ...night, noise: "none" }));
    expect(off(found.rate, night.rate)).toBeLessThan(1e-6);
    expect(off(found.depth, night.depth)).toBeLessThan(1e-6);
    expect(off(found.onset, night.onset)).toBeLessThan(1e-6);
  });

  property.prop([fc.array(fc.tuple(between(1e-3, 2), celsius, celsius), { minLength: 5, maxLength: 60 })], {
    seed: 14,
    numRuns: 300,
  })("any readings in time order give numbers or none, never NaN, and intervals around them", (rows) => {
    let time = 0;
    const hours = Float64Array.from(rows, ([step]) => {
      time += step;
      return time;
    });
    const fit = fitPullDown({
      hours,
      cabinetCelsius: Float64Array.from(rows, ([, cabinet]) => cabinet),
      ambientCelsius: Float64Array.from(rows, ([, , ambient]) => ambient),
    });
    if (fit.outcome === "not fitted") return;
    const { jumps: _, ...values } = fit.pullDown;
    for (const [name, value] of Object.entries(values)) expect(value, name).toSatisfy(Number.isFinite);
    for (const [name, error] of Object.entries(fit.standardErrors)) expect(error, name).toBeGreaterThanOrEqual(0);
    const { rate } = pullDownIntervals(fit);
    expect(Number.isNaN(rate.low) || Number.isNaN(rate.high)).toBe(false);
  });
});

test("of 200 stretches thinned to every third reading, 95 % or more keep the whole's rate in their interval", () => {
  let kept = 0;
  for (let seed = 0; seed < 200; seed++) {
    const whole = modelStretch({ hours: 7, noise: "AR(1) 0.6" }, seed);
    const third = (_: number, i: number) => i % 3 === 0;
    const thinned = fitted({
      hours: whole.hours.filter(third),
      cabinetCelsius: whole.cabinetCelsius.filter(third),
      ambientCelsius: whole.ambientCelsius.filter(third),
    });
    const { low, high } = pullDownIntervals(thinned).rate;
    const { rate } = numbers(whole);
    if ((low === null || low <= rate) && (high === null || rate <= high)) kept++;
  }
  expect(kept).toBeGreaterThanOrEqual(190);
});
