import { describe, expect, test } from "vitest";
import type { RunSheet } from "../../../src/schema/index.ts";
import type { Analysis } from "../../../src/science/index.ts";
import { analyse } from "../../../src/science/index.ts";
import type { SimulationPlan } from "../../../src/simulate/index.ts";
import { judged, knownGood, simulated } from "../simulated-runs.ts";

const unit = { faults: [{ name: "cooling-unit", size: 0.35 }] } as const;
const proofsOf = (analysis: Analysis) =>
  Object.fromEntries(analysis.beforeCondemning.map(({ proof, state, seen }) => [proof, `${state}: ${seen.code}`]));
const weakUnit = (seed: number, sheet: RunSheet = {}, change: Partial<SimulationPlan> = {}) =>
  simulated(seed, { ...unit, sheet, ...change }).recording;
const judge = (...logs: ReturnType<typeof weakUnit>[]) =>
  analyse(logs, { knownGood, baselineKind: "own", margin: 0.15 });

describe("before a cooling unit is condemned", () => {
  test("one short run with an empty sheet shows none of the six proofs", () => {
    expect(proofsOf(judge(weakUnit(30)))).toEqual({
      "tilt-measured": "not-shown: tilt-not-measured",
      "heat-in-watts": "not-shown: watts-not-measured",
      "boiler-hot": "not-shown: boiler-not-seen",
      "fan-at-rear-tried": "not-shown: fan-not-tried",
      "twelve-hours": "not-shown: ran-too-short",
      "two-nights": "not-shown: nights-seen",
    });
  });

  test("a level fridge, measured watts, a boiler probe, a fan, twelve hours and a second night are marked as shown", () => {
    const sheet: RunSheet = {
      tiltSidewaysDegrees: 0.5,
      tiltLengthwaysDegrees: 1,
      ratedWatts: { mains: 125 },
      measuredWatts: { mains: 122 },
      fanAtRear: true,
    };
    const night = [{ source: "mains", hours: 12.5 }] as const;
    const logs = [31, 32].map((seed) => weakUnit(seed, sheet, { schedule: night, probes: { boiler: {} } }));
    expect(proofsOf(judge(...logs))).toEqual({
      "tilt-measured": "shown: stood-level",
      "heat-in-watts": "shown: watts-taken",
      "boiler-hot": "shown: boiler-was-hot",
      "fan-at-rear-tried": "shown: fan-was-tried",
      "twelve-hours": "shown: ran-so-long",
      "two-nights": "shown: nights-seen",
    });
  });

  test("a tilted fridge and an element that takes too few watts are measured, yet prove nothing", () => {
    const sheet: RunSheet = {
      tiltSidewaysDegrees: 5,
      tiltLengthwaysDegrees: 0,
      ratedWatts: { mains: 125 },
      measuredWatts: { mains: 90 },
    };
    const found = proofsOf(judge(weakUnit(33, sheet)));
    expect(found["tilt-measured"]).toBe("not-shown: stood-tilted");
    expect(found["heat-in-watts"]).toBe("not-shown: watts-too-few");
  });

  test("a fan on gas does not count: it disturbs the flame", () => {
    const gas = weakUnit(34, { fanAtRear: true }, { schedule: [{ source: "gas", hours: 8 }] });
    expect(proofsOf(judge(weakUnit(30), gas))["fan-at-rear-tried"]).toBe("not-shown: fan-not-tried");
  });

  test("every proof carries its cautions in the same object", () => {
    for (const { proof, cautions } of judge(weakUnit(30)).beforeCondemning) {
      expect(cautions, proof).not.toEqual([]);
      if (proof === "heat-in-watts") expect(cautions).toEqual(expect.arrayContaining(["mains", "dc12"]));
      if (proof === "fan-at-rear-tried") expect(cautions).toEqual(expect.arrayContaining(["gas", "night"]));
    }
  });

  test("nothing is listed where the unit is not among the causes", () => {
    expect(judged(simulated(9)).beforeCondemning).toEqual([]);
    expect(judged(simulated(11, { faults: [{ name: "flue", size: 0.3 }] })).beforeCondemning).toEqual([]);
  });
});
