import { describe, expect, test } from "vitest";
import { compareRuns } from "../../../src/science/before-after/index.ts";
import { isKnown } from "../../../src/science/numbers/estimate.ts";
import type { SimulationPlan } from "../../../src/simulate/index.ts";
import { simulated } from "../simulated-runs.ts";

/** Ratios on gas of pairs of runs, bare and over mains, as ln of found over true gain. */
function errorsOf(pairs: number, change: Partial<SimulationPlan>) {
  const knownGood = [400, 401, 402].map((seed) => simulated(seed, change).recording);
  return Array.from({ length: pairs }, (_, i) => {
    const flue = { ...change, faults: [{ name: "flue", size: 0.25 }] } as const;
    const before = simulated(200 + i, flue);
    const after = simulated(300 + i, { ...change, sheet: { untouchedSources: ["mains"] } });
    const gas = compareRuns([before.recording], [after.recording], { knownGood, margin: 0.15 }).sources.find(
      ({ source }) => source === "gas",
    );
    const ofFault = before.truth.stretches.find(({ source }) => source === "gas")?.strength?.ofFaults ?? Number.NaN;
    if (gas === undefined || !isKnown(gas.coolingStrength) || !isKnown(gas.overControl)) throw new Error("no ratio");
    const against = ({ value, low, high }: typeof gas.coolingStrength) => ({
      error: Math.log(value * ofFault),
      covers: Math.log((low ?? 0) * ofFault) <= 0 && Math.log((high ?? Number.POSITIVE_INFINITY) * ofFault) >= 0,
      halfWidth: Math.log((high ?? 0) / (low ?? 0)) / 2,
    });
    return { bare: against(gas.coolingStrength), over: against(gas.overControl) };
  });
}

const spreadOf = (errors: readonly number[]) =>
  Math.sqrt(errors.reduce((sum, error) => sum + error ** 2, 0) / errors.length);

describe("the ratio over an untouched source", () => {
  // What both sources feel scatters by 8 % from run to run, what each has for itself by 1 %.
  const shared = errorsOf(20, { nightToNight: { cooling: 0.08, heat: 0.01 } });

  test("is free of what both sources felt: it misses the true gain by less than half as much as the bare ratio", () => {
    const [bare, over] = [
      spreadOf(shared.map(({ bare }) => bare.error)),
      spreadOf(shared.map(({ over }) => over.error)),
    ];
    expect(bare).toBeGreaterThan(0.06); // two nights of 8 % each are 11 %, of which a colder evaporator takes back a part
    expect(over).toBeLessThan(bare / 2);
  });

  test("covers the true gain there", () => {
    expect(shared.filter(({ over }) => over.covers).length).toBeGreaterThanOrEqual(19);
  });

  test("does not count twice what both shared: its interval is narrower than that of two ratios taken as independent", () => {
    for (const { bare, over } of shared) expect(over.halfWidth).toBeLessThan(0.85 * Math.SQRT2 * bare.halfWidth);
  });

  test("covers the true gain also where only each source's own heat scatters, which a control cannot take out", () => {
    const own = errorsOf(20, { nightToNight: { cooling: 0.005, heat: 0.03 } });
    expect(own.filter(({ over }) => over.covers).length).toBeGreaterThanOrEqual(18);
  });
});
