// The flue pipe of the simulated fridge. What it ought to do is common practice, no source: hot within minutes of the flame, off
// again as quickly, and only warm beside a boiler that is heated by electricity.

import { describe, expect, test } from "vitest";
import { knownGoodFridge } from "../../src/simulate/fridge.ts";
import { type SimulationPlan, simulateRun } from "../../src/simulate/index.ts";

const plan: SimulationPlan = {
  name: "flue",
  seed: 5,
  startUnixMs: Date.UTC(2026, 5, 4, 8),
  fridge: knownGoodFridge(),
  schedule: [
    { source: "off", hours: 0.5 },
    { source: "gas", hours: 3 },
    { source: "mains", hours: 3 },
    { source: "off", hours: 6 },
  ],
  ambient: { meanCelsius: 25, swingKelvin: 0 },
  samplingSeconds: 60,
  probes: { flue: { noiseKelvin: 0, stepKelvin: 0 }, boiler: { noiseKelvin: 0, stepKelvin: 0 } },
};

/** How far a column lies above the ambient air at an hour, K. */
const above = (changes: Partial<SimulationPlan>, position: "flue" | "boiler") => {
  const { columns } = simulateRun({ ...plan, ...changes }).recording;
  return (hours: number) => (columns[position]?.[Math.round(hours * 60)] ?? Number.NaN) - 25;
};

describe("the flue pipe", () => {
  const flue = above({}, "flue");
  const boiler = above({}, "boiler");

  test("is as cold as everything else before the fridge is lit", () => {
    expect(Math.abs(flue(0.5))).toBeLessThan(0.5);
  });

  test("is warm to the hand three minutes after the flame is lit, long before the boiler, and far too hot after a quarter of an hour", () => {
    expect(flue(0.55)).toBeGreaterThan(25);
    expect(boiler(0.55)).toBeLessThan(5);
    expect(flue(0.75)).toBeGreaterThan(100);
    expect(flue(3.4)).toBeLessThan(250);
  });

  test("loses most of that within ten minutes of a change to electricity, and stays warm by the boiler", () => {
    expect(flue(3.7)).toBeLessThan(0.4 * flue(3.45));
    for (const hours of [4, 5, 6.4]) {
      expect(flue(hours)).toBeGreaterThan(15);
      expect(flue(hours)).toBeLessThan(boiler(hours) / 2);
    }
  });

  test("cools away with the boiler once all is off", () => {
    expect(flue(9)).toBeLessThan(0.6 * flue(6.4));
    expect(flue(12.4)).toBeLessThan(10);
    expect(flue(12.4)).toBeGreaterThan(0);
  });

  test("falls when the flame goes out, and keeps a part of its heat over a small flame", () => {
    const schedule = [{ source: "gas", hours: 5 }] as const;
    const died = above({ schedule, outages: [{ atHours: 3, hours: 2 }] }, "flue");
    expect(died(3.3)).toBeLessThan(0.4 * died(2.95));
    const small = above({ schedule, thermostatSetCelsius: 40 }, "flue");
    expect(small(4)).toBeGreaterThan(30);
    expect(small(4)).toBeLessThan(0.6 * died(2.95));
  });

  test("is cooler by a weak burner, and hotter where the heat goes past the boiler", () => {
    const fault = (name: "burner" | "flue") => above({ faults: [{ name, size: 0.25 }] }, "flue")(3.4);
    expect(fault("burner")).toBeLessThan(flue(3.4) - 20);
    expect(fault("flue")).toBeGreaterThan(flue(3.4) + 20);
    // All of it past the boiler: nothing is divided by nothing.
    expect(above({ faults: [{ name: "flue", size: 1 }] }, "flue")(3.4)).toBeGreaterThan(150);
  });

  test("is read beside the others, which stay as they were, bit for bit", () => {
    const { probes: _, ...without } = plan;
    const plain = simulateRun(without).recording.columns;
    const { flue: _flue, boiler: _boiler, ...others } = simulateRun(plan).recording.columns;
    expect(others).toEqual(plain);
  });
});
