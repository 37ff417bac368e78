// A fridge that nobody knows: its sources held against each other.

import { describe, expect, test } from "vitest";
import { isKnown } from "../../../src/science/index.ts";
import type { SimulationPlan } from "../../../src/simulate/index.ts";
import { judged, simulated, sourceIn } from "../simulated-runs.ts";

const threeSources = [
  { source: "off", hours: 1 },
  { source: "mains", hours: 8 },
  { source: "off", hours: 4 },
  { source: "gas", hours: 7 },
  { source: "off", hours: 4 },
  { source: "dc12", hours: 7 },
] as const;
const unknown = (seed: number, change: Partial<SimulationPlan> = {}) =>
  judged(simulated(seed, { schedule: threeSources, ...change }), { knownGood: [] });

describe("the sources of a fridge that nobody knows", () => {
  test("have their volts referred each to its own rated ones: 12 V beside 230 V leaves neither weak", () => {
    const analysis = unknown(40, { includeSupply: true });
    for (const source of ["mains", "dc12"] as const) {
      const { verdict, coolingStrength } = sourceIn(analysis, source);
      expect(verdict).toBe("undecided");
      expect(isKnown(coolingStrength) && coolingStrength.value).toBeCloseTo(1, 0);
    }
    expect(analysis.causes[0].cause).toBe("none");
  });

  test("name an electric one that lost two fifths of its cooling, by the watts on the plate", () => {
    const analysis = unknown(41, {
      faults: [{ name: "mains-element", size: 0.35 }],
      sheet: { ratedWatts: { gas: 185, mains: 125, dc12: 120 } },
    });
    expect(sourceIn(analysis, "mains")).toMatchObject({ verdict: "weak", baseline: "other-sources" });
    expect(analysis.causes[0]).toMatchObject({ cause: "mains-element", source: "mains" });
    for (const source of ["gas", "dc12"] as const) expect(sourceIn(analysis, source).verdict).toBe("undecided");
  });

  test("say of one that is lower than its heat explains, but perhaps by less than the allowed loss, just that, and send someone to look", () => {
    const analysis = unknown(41, {
      faults: [{ name: "mains-element", size: 0.24 }],
      sheet: { ratedWatts: { gas: 185, mains: 125, dc12: 120 } },
    });
    const mains = sourceIn(analysis, "mains");
    expect(mains.verdict).toBe("undecided");
    const codes = analysis.stretches.flatMap(({ reasons }) => reasons.map(({ code }) => code));
    expect(codes).toContain("low-among-sources");
    expect(analysis.nextChecks.map(({ check }) => check)).toContain("measure-element");
  });

  test("do not see what all share: a weak unit leaves every one of them undecided, and no heat source is blamed", () => {
    const analysis = unknown(42, { faults: [{ name: "cooling-unit", size: 0.4 }] });
    for (const { verdict } of analysis.sources) expect(verdict).toBe("undecided");
    expect(analysis.causes[0].cause).toBe("none");
  });

  test("are not held against each other without an ambient probe, which they would be referred to", () => {
    const run = simulated(41, { schedule: threeSources, faults: [{ name: "mains-element", size: 0.35 }] });
    const { ambient, ...columns } = run.recording.columns;
    expect(ambient).toBeDefined();
    const analysis = judged({ ...run, recording: { ...run.recording, columns } }, { knownGood: [] });
    for (const source of ["mains", "gas", "dc12"] as const) {
      const { verdict, coolingStrength } = sourceIn(analysis, source);
      expect(verdict).toBe("undecided");
      expect(coolingStrength).toEqual({ why: { code: "no-ambient" } });
    }
  });
});
