// Two known-good runs that contradict each other: no verdict rests on their mean, and it is said.

import { describe, expect, test } from "vitest";
import { judged, simulated, sourceIn } from "../simulated-runs.ts";

const weakUnit = (size: number) => ({ faults: [{ name: "cooling-unit", size }] }) as const;
const poorNight = (size: number) => [simulated(41), simulated(42, weakUnit(size))].map(({ recording }) => recording);

describe("known-good runs that contradict each other", () => {
  test.each([0.45, 0.6])("leave the source open and are told, where one kept so much less (%f lost)", (size) => {
    const analysis = judged(simulated(43, weakUnit(0.3)), { knownGood: poorNight(size) });
    for (const source of ["mains", "gas"] as const) {
      const { verdict, coolingStrength } = sourceIn(analysis, source);
      expect(verdict).toBe("undecided");
      // The truth lies at 70 % of the better one, and above the poorer one.
      expect(coolingStrength).toMatchObject({ low: expect.any(Number), high: expect.any(Number) });
      if ("why" in coolingStrength) continue;
      expect(coolingStrength.low).toBeLessThan(0.7);
      expect(coolingStrength.high).toBeGreaterThan(0.7 / (1 - size));
    }
    expect(analysis.warnings.filter(({ code }) => code === "known-good-at-odds")).toMatchObject([
      { source: "mains", stronger: "run 41.csv", weaker: "run 42.csv" },
      { source: "gas", stronger: "run 41.csv", weaker: "run 42.csv" },
    ]);
    expect(analysis.causes).toEqual([]);
  });

  test("are no such thing where the nights differ as nights do", () => {
    const scatter = { nightToNight: { heat: 0.05, cooling: 0.03 } };
    const knownGood = [44, 45, 46].map((seed) => simulated(seed, scatter).recording);
    expect(judged(simulated(47), { knownGood }).warnings.map(({ code }) => code)).not.toContain("known-good-at-odds");
  });
});
