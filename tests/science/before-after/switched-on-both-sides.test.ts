// A night on mains and an attended morning on gas, before a flue was cleaned and after it. The truth is the simulator's.

import { describe, expect, test } from "vitest";
import type { HeatSource, RunSheet } from "../../../src/schema/index.ts";
import { compareRuns, type RunsCompared } from "../../../src/science/before-after/index.ts";
import { type Answer, isKnown } from "../../../src/science/index.ts";
import type { ScheduledStretch, SimulatedRun, SimulationPlan } from "../../../src/simulate/index.ts";
import { simulated } from "../simulated-runs.ts";

const night = (first: HeatSource, hours = 2.5): readonly ScheduledStretch[] => [
  { source: "off", hours: 1 },
  { source: first, hours: 8 },
  { source: "gas", hours },
];
const sooted = { faults: [{ name: "flue", size: 0.35 }] } as const;
const mainsUntouched: RunSheet = { untouchedSources: ["mains"] };

const run = (seed: number, change: Partial<SimulationPlan> = {}): SimulatedRun =>
  simulated(seed, { schedule: night("mains"), ...change });
const compared = (before: SimulatedRun, after: SimulatedRun): RunsCompared =>
  compareRuns([before.recording], [after.recording], { knownGood: [], margin: 0.15 });

function onGas(result: RunsCompared) {
  const gas = result.sources.find(({ source }) => source === "gas");
  if (gas === undefined) throw new Error("nothing on gas");
  return { ...gas, codes: gas.reasons.map(({ code }) => code) };
}

const strengthOf = ({ truth }: SimulatedRun): number => truth.stretches[2].strength?.ofFaults ?? Number.NaN;

function expectToHold(answer: Answer, truth: number): void {
  if (!isKnown(answer)) throw new Error(`no ratio: ${answer.why.code}`);
  expect(answer.low).toBeLessThan(truth);
  expect(answer.high).toBeGreaterThan(truth);
}

describe("gas switched to while cold, before and after", () => {
  const [before, after] = [run(31, sooted), run(32, { sheet: mainsUntouched })];
  const gas = onGas(compared(before, after));
  const gained = strengthOf(after) / strengthOf(before);

  test("a cleaned flue is better, by what the simulator says, and so over mains, which nobody touched", () => {
    expect(gas.change).toBe("better");
    expectToHold(gas.coolingStrength, gained);
    expect(gas.control).toBe("mains");
    expectToHold(gas.overControl, gained);
  });

  test("it is said how that was found, and no numbers of mains stand as if they were those of gas", () => {
    expect(gas.codes).toContain("switched-on-both-sides");
    expect(gas.codes).not.toContain("witnesses-agree");
    expect(gas.numbers).toBeNull();
  });

  test("nothing done is never a change", () => {
    for (const seed of [41, 43, 45, 47, 49, 51]) {
      const same = onGas(compared(run(seed), run(seed + 1, { sheet: mainsUntouched })));
      expect(["same", "undecided"]).toContain(same.change);
      expectToHold(same.coolingStrength, 1);
      expectToHold(same.overControl, 1);
    }
  });

  test("switched from another source after than before, or for too short, there is no ratio", () => {
    for (const schedule of [night("dc12"), night("mains", 1)]) {
      const other = onGas(compared(before, run(33, { schedule })));
      expect(isKnown(other.coolingStrength)).toBe(false);
      expect(other.change).toBe("undecided");
    }
  });
});
