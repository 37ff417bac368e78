// Causes as they come out of whole simulated runs: each fault by its name in the simulator.

import { describe, expect, test } from "vitest";
import type { Cause } from "../../../src/schema/documents/index.ts";
import type { Recording } from "../../../src/schema/index.ts";
import { type Analysis, analyse, isKnown } from "../../../src/science/index.ts";
import { type FaultName, knownGoodFridge, type SimulationPlan } from "../../../src/simulate/index.ts";
import { simulated, sourceIn } from "../simulated-runs.ts";

const schedule = [
  { source: "off", hours: 1 },
  { source: "mains", hours: 8 },
  { source: "off", hours: 3 },
  { source: "gas", hours: 7 },
  { source: "off", hours: 3 },
] as const;
const at = (celsius: number) => ({ ambient: { meanCelsius: celsius, swingKelvin: 2 } });
const fault = (name: FaultName, size: number) => ({ faults: [{ name, size }] });
const run = (seed: number, change: Partial<SimulationPlan> = {}): Recording =>
  simulated(seed, { schedule, ...change }).recording;

const knownGood = [run(1, at(22)), run(2, at(25)), run(3, at(28))];
const judge = (...logs: readonly Recording[]) => analyse(logs, { knownGood, baselineKind: "own", margin: 0.15 });
const shareOf = ({ causes }: Analysis, ...named: readonly Cause[]) =>
  causes.filter(({ cause }) => named.includes(cause)).reduce((sum, { probability }) => sum + probability, 0);
const warned = ({ warnings }: Analysis) => warnings.map(({ code }) => code);
const checks = ({ nextChecks }: Analysis) => nextChecks.map(({ check }) => check);

describe("frost on the fins", () => {
  test.each([30, 60])(
    "is told from a warm load by its melting, and is to be taken off (%i g/h)",
    (frostGramsPerHour) => {
      const analysis = judge(run(22, { ...at(26), frostGramsPerHour }));
      expect(analysis.causes[0].cause).toBe("frost");
      expect(checks(analysis)).toContain("defrost");
      for (const { verdict } of analysis.sources) expect(verdict).not.toBe("weak");
    },
  );

  test("explains nothing where the known-good runs had it as well", () => {
    const frosted = { ...at(26), frostGramsPerHour: 30 };
    const known = [1, 2, 3].map((seed) => run(seed, frosted));
    const analysis = analyse([run(22, frosted)], { knownGood: known, baselineKind: "own", margin: 0.15 });
    expect(analysis.causes[0].cause).toBe("none");
  });

  test("is not seen in a warm load, a leaking seal or a weak unit", () => {
    for (const change of [fault("warm-load", 8), fault("door-seal", 1), fault("cooling-unit", 0.3)])
      expect(shareOf(judge(run(23, { ...at(26), ...change })), "frost")).toBeLessThan(0.1);
  });
});

describe("a lamp that stays on", () => {
  const analysis = judge(run(20, { ...fault("lamp", 5), before: [{ source: "off", hours: 24 }] }));

  test("leads the causes, from a cabinet that settles above ambient while off, and sends someone to look", () => {
    expect(analysis.causes[0].cause).toBe("lamp");
    expect(analysis.causes[0].probability).toBeGreaterThan(0.7);
    expect(warned(analysis)).toContain("lamp-suspected");
    expect(checks(analysis)[0]).toBe("check-lamp");
  });

  test("is no fault of a source: the fins, which it leaves alone, say so", () => {
    for (const source of ["mains", "gas"] as const) {
      const { verdict, coolingStrength } = sourceIn(analysis, source);
      expect(verdict).not.toBe("weak");
      expect(isKnown(coolingStrength) && coolingStrength.value).toBeGreaterThan(0.85);
    }
    const reasons = analysis.stretches.flatMap((stretch) => stretch.reasons.map(({ code }) => code));
    expect(reasons).toContain("explained-by-lamp");
  });

  for (const watts of [8, 10, 12, 15]) {
    test(`is found at ${watts} W too, however far the cabinet still has to go`, () => {
      const strong = judge(run(20, fault("lamp", watts)));
      expect(strong.causes[0].cause).toBe("lamp");
      expect(strong.causes[0].probability).toBeGreaterThan(0.6);
      expect(warned(strong)).toContain("lamp-suspected");
      expect(checks(strong)[0]).toBe("check-lamp");
      for (const { verdict } of strong.sources) expect(verdict).not.toBe("weak");
    });
  }

  test("is not invented where two probes differ by their tolerance, nor in a falling evening", () => {
    const probes = { cabinet: { offsetKelvin: 0.5 }, ambient: { offsetKelvin: -0.4 } };
    const evening = {
      // The cabinet, warm from the day, stands 3 K above the air outside by then.
      startUnixMs: Date.parse("2026-07-10T21:00:00Z"),
      ambient: { meanCelsius: 24, swingKelvin: 12 },
      before: [{ source: "off", hours: 24 }],
      schedule: [
        { source: "off", hours: 1 },
        { source: "mains", hours: 8 },
      ],
    } as const;
    for (const change of [{ probes }, evening]) {
      const sound = judge(run(21, change));
      expect(warned(sound)).not.toContain("lamp-suspected");
      expect(shareOf(sound, "lamp")).toBeLessThan(0.1);
    }
  });

  test("is told from a leaking seal, which warms the cabinet back as fast but not above ambient", () => {
    const seal = judge(run(22, { ...fault("door-seal", 0.67), before: [{ source: "off", hours: 24 }] }));
    expect(seal.causes[0].cause).toBe("door-seal");
    expect(shareOf(seal, "lamp")).toBeLessThan(0.1);
  });
});

describe("weak only when hot", () => {
  const hotAndCool = (change: Partial<SimulationPlan>) =>
    judge(run(23, { ...change, ...at(19) }), run(24, { ...change, ...at(34) }));
  const choked = hotAndCool(fault("ventilation", 0.6));

  test("poor ventilation is seen from a cool and a hot run: it leads the causes, with a warning that names both", () => {
    expect(choked.causes[0].cause).toBe("ventilation");
    expect(warned(choked)).toContain("weaker-in-heat");
  });

  test("the fan at the rear for two hours is the first check", () => {
    expect(checks(choked)[0]).toBe("fan-at-rear");
    expect(choked.nextChecks[0].separates).toEqual(["ventilation", "cooling-unit"]);
    expect(choked.nextChecks[0].cautions).toEqual(expect.arrayContaining(["gas", "mains", "dc12"]));
  });

  test("a charge near its condensing limit raises the unit with the ventilation, and nothing on a heat source", () => {
    const charge = hotAndCool({ fridge: knownGoodFridge({ boiler: { pressureBar: 17 } }) });
    expect(warned(charge)).toContain("weaker-in-heat");
    expect(shareOf(charge, "cooling-unit", "ventilation", "not-level")).toBeGreaterThan(0.6);
    expect(shareOf(charge, "cooling-unit")).toBeGreaterThan(0.1);
    expect(shareOf(charge, "burner", "flue", "gas-supply", "mains-element")).toBeLessThan(0.05);
  });

  test("a unit weak in all weathers takes ventilation off the list, and a sound fridge is not called weaker in heat", () => {
    const unit = hotAndCool(fault("cooling-unit", 0.35));
    expect(shareOf(unit, "ventilation")).toBeLessThan(shareOf(unit, "cooling-unit"));
    for (const analysis of [unit, hotAndCool({})]) expect(warned(analysis)).not.toContain("weaker-in-heat");
  });
});

describe("stretches that point to different causes", () => {
  test("are named: a unit that shows on mains, and a flue that shows on gas besides", () => {
    const faults = [
      { name: "flue", size: 0.25 },
      { name: "cooling-unit", size: 0.3 },
    ] as const;
    const [warning] = judge(run(23, { faults })).warnings.filter(({ code }) => code === "causes-differ");
    expect(warning).toMatchObject({
      stretches: [
        { source: "mains", causes: expect.arrayContaining(["cooling-unit", "ventilation"]) },
        { source: "gas", causes: expect.arrayContaining(["flue", "burner"]) },
      ],
    });
  });

  for (const [what, change] of [
    ["a sound fridge", {}],
    ["a blocked flue", fault("flue", 0.3)],
    ["a weak unit", fault("cooling-unit", 0.35)],
    ["a leaking seal", fault("door-seal", 0.67)],
    ["a warm load", fault("warm-load", 8)],
  ] as const) {
    test(`are not named for ${what}, which is one cause`, () => {
      expect(warned(judge(run(26, change)))).not.toContain("causes-differ");
    });
  }
});

test("whatever was simulated, the causes add to 1 and `other` keeps at least 2 %", () => {
  for (const [name, size] of [
    ["lamp", 8],
    ["ventilation", 0.7],
    ["probe", 0.5],
    ["boiler-insulation", 0.4],
  ] as const) {
    const { causes } = judge(run(27, fault(name, size)));
    expect(causes.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
    expect(causes.find(({ cause }) => cause === "other")?.probability).toBeGreaterThanOrEqual(0.02);
  }
});
