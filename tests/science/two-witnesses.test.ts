// Where fins and fall contradict each other, and nothing tells which is right, neither alone makes a verdict.

import { describe, expect, test } from "vitest";
import type { SimulatedRun } from "../../src/simulate/index.ts";
import { judged, simulated, sourceIn, stretchIn } from "./simulated-runs.ts";

const sources = ["mains", "gas"] as const;

/** The evaporator probe reads so much of the way to the air from an hour on, as a clip that slips. */
function slippedFrom(hours: number, share: number, run: SimulatedRun): SimulatedRun {
  const { cabinet = new Float64Array(), evaporator = new Float64Array() } = run.recording.columns;
  const slipped = evaporator.map((celsius, row) =>
    row < hours * 60 ? celsius : celsius + share * (cabinet[row] - celsius),
  );
  return { ...run, recording: { ...run.recording, columns: { ...run.recording.columns, evaporator: slipped } } };
}

describe("a fridge in order is not called weak", () => {
  test.each([
    [1.9, 203],
    [2.8, 206],
  ])("for a battery fan inside that nobody told, whose own %f W look like a lamp (seed %i)", (watts, seed) => {
    const analysis = judged(simulated(seed, { fanInside: true, faults: [{ name: "lamp", size: watts }] }));
    for (const source of sources) expect(sourceIn(analysis, source).verdict).not.toBe("weak");
    expect(analysis.causes[0].cause).toBe("probe");
  });

  test.each([211, 212, 213])("for a clip that slipped before gas, with no known-good run (seed %i)", (seed) => {
    const analysis = judged(slippedFrom(9.5, 0.6, simulated(seed)), { knownGood: [] });
    expect(sourceIn(analysis, "gas").verdict).toBe("undecided");
    expect(stretchIn(analysis, "gas").reasons.map(({ code }) => code)).toContain("witnesses-apart-among-sources");
  });
});

describe("a lamp that stays on", () => {
  test.each([221, 222])("hides no weak unit: its fins are as low as its fall (seed %i)", (seed) => {
    const faults = [
      { name: "lamp", size: 5 },
      { name: "cooling-unit", size: 0.5 },
    ] as const;
    for (const source of sources) expect(sourceIn(judged(simulated(seed, { faults })), source).verdict).toBe("weak");
  });
});

test("known-good runs in the cool are told to prove cooling and no more", () => {
  const cool = simulated(231, { ambient: { meanCelsius: 11, swingKelvin: 1 } });
  const { warnings } = judged(simulated(232), { knownGood: [cool.recording] });
  expect(warnings).toContainEqual(expect.objectContaining({ code: "low-ambient", log: "run 231.csv" }));
});
