// What is sent to be checked, from whole simulated runs.

import { describe, expect, test } from "vitest";
import type { Recording, RunSheet } from "../../../src/schema/index.ts";
import { type Analysis, analyse, isKnown } from "../../../src/science/index.ts";
import type { SimulationPlan } from "../../../src/simulate/index.ts";
import { judged, knownGood, simulated } from "../simulated-runs.ts";

const judge = (seed: number, change: Partial<SimulationPlan> = {}): Analysis => judged(simulated(seed, change));
const checks = ({ nextChecks }: Analysis) => nextChecks.map(({ check }) => check);
const warned = ({ warnings }: Analysis) => warnings.map(({ code }) => code);
const offered = ({ stretches }: Analysis) =>
  stretches.flatMap(({ reasons }) => reasons).some(({ code }) => code === "offered-as-baseline");

describe("heat lost for hours while the source says on", () => {
  const flame = judge(25, { outages: [{ atHours: 17, hours: 2 }] });
  const supply = judge(14, { outages: [{ atHours: 4, hours: 2 }] });

  test("on gas: is warned of, and why the flame went out is the first check, with both its cautions", () => {
    expect(flame.sources.map(({ verdict }) => verdict)).toEqual(["sound", "undecided"]);
    expect(flame.warnings).toContainEqual(
      expect.objectContaining({ code: "cooling-stopped", source: "gas", times: 1 }),
    );
    expect(flame.nextChecks[0].check).toBe("why-flame-went-out");
    expect(flame.nextChecks[0].cautions).toEqual(["stopped-on-gas", "gas"]);
  });

  test("on mains: is warned of, and why the supply was lost is the first check", () => {
    expect(warned(supply)).toContain("cooling-stopped");
    expect(supply.nextChecks[0].check).toBe("why-supply-was-lost");
    expect(supply.nextChecks[0].cautions).toEqual(expect.arrayContaining(["mains", "night"]));
  });

  test("no stretch of such a run is offered as known-good", () => {
    for (const analysis of [flame, supply]) expect(offered(analysis)).toBe(false);
    expect(offered(judge(25))).toBe(true);
  });

  test("a thermostat that cycles is no such thing", () => {
    const held = judge(25, { thermostatSetCelsius: 5 });
    expect(warned(held)).not.toContain("cooling-stopped");
    expect(checks(held)).not.toContain("why-supply-was-lost");
  });
});

describe("a weak source whose volts are known", () => {
  const weakOn = (sheet: RunSheet) => judge(27, { faults: [{ name: "mains-element", size: 0.3 }], sheet });
  const named = (analysis: Analysis) =>
    analysis.causes.find(({ cause }) => cause === "supply-voltage")?.probability ?? 0;

  test("is not sent to have them measured, and the supply is nearly out", () => {
    const told = weakOn({ supplyVolts: { mains: 231 } });
    expect(named(told)).toBeLessThan(0.01);
    expect(checks(told)).not.toContain("measure-supply-voltage");
    expect(checks(told)).toContain("measure-element");
  });

  test("is sent to have them measured where nobody told them, or they are low", () => {
    expect(checks(weakOn({}))).toContain("measure-supply-voltage");
    expect(checks(weakOn({ supplyVolts: { mains: 195 } }))).toContain("measure-supply-voltage");
  });
});

describe("a source that does not cool", () => {
  const watts = "prove-heat-in-watts";

  test("on gas, with mains in order, asks for no watts of the element", () => {
    const dead = judge(15, { faults: [{ name: "flue", size: 0.85 }] });
    expect(dead.sources.map(({ verdict }) => verdict)).toEqual(["sound", "not-cooling"]);
    expect(checks(dead)).not.toContain(watts);
    expect(checks(dead)).toContain("ask-a-fitter");
  });

  test("on mains, or on gas with no electric source that is in order, asks for them", () => {
    expect(checks(judge(15, { faults: [{ name: "mains-element", size: 0.95 }] }))).toContain(watts);
    expect(checks(judge(15, { faults: [{ name: "cooling-unit", size: 0.8 }] }))).toContain(watts);
  });
});

describe("a log that lacks something no longer run would mend", () => {
  const whole = simulated(9).recording;
  const { evaporator, cabinet, ambient } = whole.columns;
  const isEven = (_: number, row: number) => row % 2 === 0;
  const isOdd = (_: number, row: number) => row % 2 === 1;
  // Every other row first, then the rest: most stand before an earlier one.
  const shuffled = Float64Array.from([...whole.unixMs.filter(isEven), ...whole.unixMs.filter(isOdd)].reverse());

  for (const [what, check, change] of [
    ["no ambient probe", "add-ambient-probe", { columns: { evaporator, cabinet } }],
    [
      "evaporator and cabinet exchanged",
      "exchange-probes",
      { columns: { evaporator: cabinet, cabinet: evaporator, ambient } },
    ],
    ["rows out of order", "sort-the-log", { unixMs: shuffled }],
    ["no source", "say-the-source", { sourceCodes: null }],
  ] as const satisfies readonly (readonly [string, string, Partial<Recording>])[]) {
    for (const known of [knownGood, []]) {
      test(`${what}, with ${known.length} known-good runs, is sent to mend that and not to run longer`, () => {
        const analysis = analyse([{ ...whole, ...change }], { knownGood: known, baselineKind: "own", margin: 0.15 });
        expect(checks(analysis)[0]).toBe(check);
        expect(checks(analysis)).not.toContain("record-longer");
        const hasStrength = analysis.sources.some(({ coolingStrength }) => isKnown(coolingStrength));
        expect(analysis.causes.length > 0).toBe(hasStrength);
      });
    }
  }

  test("a log of one row has no list of causes, and is to run longer", () => {
    const row = whole.unixMs.findIndex((_, at) => whole.sourceCodes?.[at] === 2);
    const one: Recording = {
      ...whole,
      unixMs: whole.unixMs.slice(row, row + 1),
      columns: Object.fromEntries(
        Object.entries(whole.columns).map(([position, values]) => [position, values.slice(row, row + 1)]),
      ),
      sourceCodes: Uint8Array.of(2),
    };
    const analysis = analyse([one], { knownGood, baselineKind: "own", margin: 0.15 });
    expect(analysis.causes).toEqual([]);
    expect(checks(analysis)).toEqual(["record-longer"]);
  });
});

test("where a reason says that a warm load would look like that, the run empty or loaded as known is offered", () => {
  const saysSo = ({ stretches }: Analysis) =>
    stretches.flatMap(({ reasons }) => reasons).some(({ code }) => code === "load-not-ruled-out");
  const loaded = [1, 2, 3, 4, 5, 6].map((seed) => judge(40 + seed, { faults: [{ name: "warm-load", size: 5 }] }));
  const told = loaded.filter(saysSo);
  expect(told.length).toBeGreaterThan(0);
  for (const analysis of told) expect(checks(analysis)).toContain("wait-for-load");
  expect(checks(judge(9))).not.toContain("wait-for-load");
});
