import { describe, expect, test } from "vitest";
import type { Recording } from "../../../src/schema/index.ts";
import { runEvidence } from "../../../src/science/evidence/run-evidence.ts";
import { knownGoodBySource, runsInOrder } from "../../../src/science/strength/known-good.ts";
import { nightSpread } from "../../../src/science/strength/night-spread.ts";
import { expectedVariance, finWeight, type WitnessSpread } from "../../../src/science/strength/witness-spread.ts";
import type { SimulationPlan } from "../../../src/simulate/index.ts";
import { simulated } from "../simulated-runs.ts";

const calm = { nightToNight: { heat: 0.015, cooling: 0.015 } } as const;
const scattered = { nightToNight: { heat: 0.06, volts: 0.03, cooling: 0.04 } } as const;
const runs = (seeds: readonly number[], change: Partial<SimulationPlan> = calm) =>
  seeds.map((seed) => simulated(seed, change).recording);
const known = (recordings: readonly Recording[]) => knownGoodBySource(runsInOrder(recordings));
const tested = (recordings: readonly Recording[]) =>
  recordings.map((recording) => runEvidence(recording).stretches.filter(({ stretch }) => stretch.heated));

/** Standard deviation of ln(cooling) from night to night. */
const size = (spread: WitnessSpread) => Math.sqrt(expectedVariance(spread, finWeight(spread)));

describe("how much nights differ by chance", () => {
  test("before any night is known, every size from 1 to 10 % is believed alike, on a logarithmic scale", () => {
    // The mean square of a size even in its logarithm: (b² - a²) / 2 ln(b / a).
    expect(size(nightSpread(new Map()))).toBeCloseTo(Math.sqrt((0.1 ** 2 - 0.01 ** 2) / (2 * Math.log(10))), 3);
  });

  test("known-good runs that are alike narrow it, runs that differ widen it", () => {
    const seeds = [1, 2, 3, 4];
    expect(size(nightSpread(known(runs(seeds))))).toBeLessThan(0.035);
    expect(size(nightSpread(known(runs(seeds, scattered))))).toBeGreaterThan(0.055);
  });

  test("the more nights there are, the less Student's tails reach beyond the normal ones", () => {
    const [two, five] = [
      [1, 2],
      [1, 2, 3, 4, 5],
    ].map((seeds) => nightSpread(known(runs(seeds, scattered))).freedom);
    expect(five).toBeGreaterThan(two);
  });

  test("two test runs of the same fault are two nights more, whatever the fault", () => {
    const one = known(runs([1]));
    const faults = [{ name: "flue", size: 0.15 }] as const;
    const alike = tested(runs([21, 22], { ...calm, faults }));
    const apart = tested([...runs([21], { faults }), ...runs([22], { faults: [{ name: "flue", size: 0.3 }] })]);
    expect(size(nightSpread(one, alike))).toBeLessThan(0.9 * size(nightSpread(one, apart)));
  });

  test("sources of a test run that agree narrow it; one torn away by a fault tells next to nothing", () => {
    const one = known(runs([1]));
    const before = size(nightSpread(one));
    expect(size(nightSpread(one, tested(runs([21]))))).toBeLessThan(0.85 * before);
    const torn = tested(runs([21], { faults: [{ name: "flue", size: 0.25 }] }));
    expect(size(nightSpread(one, torn)) / before).toBeGreaterThan(0.95);
    expect(size(nightSpread(one, torn)) / before).toBeLessThan(1.25);
  });

  test("the order of the test runs does not matter", () => {
    const one = known(runs([1, 2]));
    const [a, b] = tested(runs([21, 22], scattered));
    expect(size(nightSpread(one, [a, b]))).toBeCloseTo(size(nightSpread(one, [b, a])), 12);
  });
});
