import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import type { HeatSource, Recording, RunSheet } from "../../../src/schema/index.ts";
import { compareRuns, type RunsCompared } from "../../../src/science/before-after/index.ts";
import { changeOf } from "../../../src/science/before-after/source-change.ts";
import { estimate, isKnown, unknown } from "../../../src/science/numbers/estimate.ts";
import type { SimulationPlan } from "../../../src/simulate/index.ts";
import { knownGood, numbersIn, simulated } from "../simulated-runs.ts";

const margin = 0.15;
const sootedFlue = { faults: [{ name: "flue", size: 0.32 }] } as const;
const mainsUntouched: RunSheet = { untouchedSources: ["mains"] };

const run = (seed: number, change: Partial<SimulationPlan> = {}) => simulated(seed, change).recording;
const compared = (before: Recording | readonly Recording[], after: Recording | readonly Recording[]) =>
  compareRuns([before].flat(), [after].flat(), { knownGood, margin });

function changeOn(result: RunsCompared, source: HeatSource) {
  const found = result.sources.find((one) => one.source === source);
  if (found === undefined) throw new Error(`nothing on ${source}`);
  return { ...found, codes: found.reasons.map(({ code }) => code) };
}

describe("a serviced flue, mains untouched", () => {
  const result = compared(run(20, sootedFlue), run(25, { sheet: mainsUntouched }));

  test("is better on gas and the same on mains", () => {
    expect(changeOn(result, "gas").change).toBe("better");
    expect(changeOn(result, "mains").change).toBe("same");
  });

  test("gains what the simulator says it gained, within the interval, and so over the control", () => {
    const truth = simulated(20, sootedFlue).truth.stretches.find(({ source }) => source === "gas");
    const gained = 1 / (truth?.strength?.ofFaults ?? Number.NaN);
    const gas = changeOn(result, "gas");
    for (const ratio of [gas.coolingStrength, gas.overControl]) {
      if (!isKnown(ratio)) throw new Error("no ratio");
      expect(ratio.low).toBeLessThan(gained);
      expect(ratio.high).toBeGreaterThan(gained);
    }
  });

  test("carries both sides' numbers and both sides' curves from the start of cold", () => {
    const { numbers, curves } = changeOn(result, "gas");
    expect(numbers !== null && isKnown(numbers.after.rateConstant) && isKnown(numbers.before.rateConstant)).toBe(true);
    for (const curve of [...curves.before, ...curves.after]) {
      expect(curve.isFromOnset).toBe(true);
      expect(curve.hours[0]).toBeGreaterThanOrEqual(-1);
      expect(curve.hours.length).toBe(curve.belowAmbient.length);
    }
    const lastOf = (side: "before" | "after") => curves[side][0].belowAmbient.findLast(Number.isFinite) ?? 0;
    expect(lastOf("after")).toBeGreaterThan(lastOf("before") + 5);
  });

  test("is told in one sentence that names what changed and what nobody touched", () => {
    expect(result.sentence).toMatchObject({
      code: "changes",
      clauses: [
        { source: "gas", change: "better", isUntouched: false },
        { source: "mains", change: "same", isUntouched: true },
      ],
    });
  });
});

test("where nothing was done nothing is ever better or worse", () => {
  const before = [20, 21, 22].map((seed) => run(seed));
  const after = [30, 31, 32].map((seed) => run(seed));
  for (const one of before) {
    for (const other of after) {
      for (const { change } of compared(one, other).sources) expect(["same", "undecided"]).toContain(change);
    }
  }
});

test("without known-good runs the interval is wider, and a large gain is still better", () => {
  const narrow = changeOn(compared(run(20, sootedFlue), run(25)), "gas");
  const wide = changeOn(compareRuns([run(20, sootedFlue)], [run(25)], { knownGood: [], margin }), "gas");
  if (!isKnown(narrow.coolingStrength) || !isKnown(wide.coolingStrength)) throw new Error("no ratio");
  expect(wide.coolingStrength.high ?? 0).toBeGreaterThan(narrow.coolingStrength.high ?? 0);
  expect(wide.change).toBe("better");
});

test("a burner that got weaker is worse, and only on gas", () => {
  const result = compared(run(20), run(25, { faults: [{ name: "burner", size: 0.3 }] }));
  expect(changeOn(result, "gas").change).toBe("worse");
  expect(changeOn(result, "mains").change).toBe("same");
});

describe("a source that does not cool at all", () => {
  const dead = run(20, { faults: [{ name: "burner", size: 1 }] });
  const sound = run(25);

  test("before and cools after is better, though there is no ratio", () => {
    const gas = changeOn(compared(dead, sound), "gas");
    expect(gas).toMatchObject({
      change: "better",
      coolingStrength: { why: { code: "nothing-cooled" } },
      numbers: null,
    });
    expect(gas.codes).toContain("dead-before");
  });

  test("after and cooled before is worse", () => {
    expect(changeOn(compared(sound, dead), "gas")).toMatchObject({ change: "worse", codes: ["dead-after"] });
  });

  test("on both sides is the same: it still does not cool", () => {
    const both = compared(dead, run(26, { faults: [{ name: "burner", size: 1 }] }));
    expect(changeOn(both, "gas")).toMatchObject({ change: "same", codes: ["dead-throughout"] });
  });

  test("in one of two runs before comes and goes, which no single run after can settle", () => {
    expect(changeOn(compared([dead, run(21)], sound), "gas")).toMatchObject({
      change: "undecided",
      codes: ["dead-now-and-then"],
    });
  });

  test("is not called repaired where the dial was turned, but is where only the load differs", () => {
    const withSheet = (seed: number, sheet: RunSheet, change: Partial<SimulationPlan> = {}) =>
      run(seed, { sheet, ...change });
    const burner = { faults: [{ name: "burner", size: 1 }] } as const;
    const turned = compared(withSheet(20, { dial: "2" }, burner), withSheet(25, { dial: "coldest" }));
    expect(changeOn(turned, "gas")).toMatchObject({ change: "undecided", codes: ["dead-before", "withheld"] });
    const loaded = compared(withSheet(20, { load: "full" }, burner), withSheet(25, { load: "empty" }));
    expect(changeOn(loaded, "gas").change).toBe("better");
  });
});

test("a seal that leaked before and after is no change of any source", () => {
  const leaking = { faults: [{ name: "door-seal", size: 0.35 }] } as const;
  for (const { change } of compared(run(20, leaking), run(25, leaking)).sources) expect(change).toBe("same");
});

test("a seal that was replaced shows in the warming back, and is not called better cooling", () => {
  const result = compared(run(20, { faults: [{ name: "door-seal", size: 0.67 }] }), run(25));
  for (const { change, reasons } of result.sources) {
    expect(change).not.toBe("better");
    expect(
      reasons.map(({ code }) => code).some((code) => code === "load-changed" || code === "explained-by-load"),
    ).toBe(true);
  }
});

describe("a change that the run sheets could explain is withheld:", () => {
  const sheet: RunSheet = { setting: "bench", load: "empty", vents: "open", dial: "coldest", fanInside: false };
  const sooted = (other: RunSheet = {}) => run(20, { ...sootedFlue, sheet: { ...sheet, ...other } });
  const cleaned = (other: RunSheet = {}) => run(25, { sheet: { ...sheet, ...other } });

  test("none where the sheets agree", () => {
    expect(changeOn(compared(sooted(), cleaned()), "gas").change).toBe("better");
  });

  for (const [what, then, now] of [
    ["other gas", { gasKind: "butane" }, { gasKind: "propane" }],
    ["other setting", {}, { setting: "vehicle-outdoors" }],
    ["a fan inside in one only", {}, { fanInside: true }],
    ["a fan at the rear that only one sheet mentions", {}, { fanAtRear: true }],
    ["level", { tiltSidewaysDegrees: 4 }, { tiltSidewaysDegrees: 0 }],
    ["vents", { vents: "covered" }, {}],
    ["load", { load: "full" }, {}],
    ["dial", { dial: "2" }, {}],
  ] as const satisfies readonly (readonly [string, RunSheet, RunSheet])[]) {
    test(what, () => {
      const result = compared(sooted(then), cleaned(now));
      const gas = changeOn(result, "gas");
      expect(gas.change).toBe("undecided");
      expect(gas.reasons).toContainEqual({
        code: "withheld",
        change: "better",
        differences: result.differences.map(({ code }) => code),
      });
      expect(result.differences).toHaveLength(1);
    });
  }

  test("mains volts, which gas does not feel, withhold nothing on gas", () => {
    const result = compared(sooted({ supplyVolts: { mains: 215 } }), cleaned({ supplyVolts: { mains: 230 } }));
    expect(result.differences.map(({ code }) => code)).toEqual(["mains-volts"]);
    expect(changeOn(result, "gas").change).toBe("better");
  });

  test("unless the control, which felt them too, clears it", () => {
    const gas = changeOn(compared(sooted({ load: "full" }), cleaned(mainsUntouched)), "gas");
    expect(gas.change).toBe("better");
    expect(gas.reasons).toContainEqual({ code: "control-clears", control: "mains", differences: ["load"] });
  });

  test("which mains cannot do for another gas", () => {
    const gas = changeOn(
      compared(sooted({ gasKind: "butane" }), cleaned({ ...mainsUntouched, gasKind: "propane" })),
      "gas",
    );
    expect(gas.change).toBe("undecided");
  });
});

test("what both sources gained, nobody's service did: the control speaks against it", () => {
  // A better ventilated fridge cools better on every source, whatever was done to the burner.
  const poor = run(20, { faults: [{ name: "cooling-unit", size: 0.3 }] });
  const result = compared(poor, run(25, { sheet: mainsUntouched }));
  expect(changeOn(result, "mains").change).toBe("better");
  expect(changeOn(result, "gas").change).not.toBe("better");
});

test("a probe clipped on elsewhere moves the bare ratio, and not the ratio over the control", () => {
  const moved = { probes: { evaporator: {} }, faults: [{ name: "probe", size: 0.3 }] } as const;
  const gas = changeOn(compared(run(20, moved), run(25, { sheet: mainsUntouched })), "gas");
  if (!isKnown(gas.overControl)) throw new Error("no ratio over the control");
  expect(gas.overControl.value).toBeGreaterThan(0.9);
  expect(gas.overControl.value).toBeLessThan(1.1);
  expect(gas.change).not.toBe("better");
});

describe("several runs", () => {
  const before = [20, 21].map((seed) => run(seed, sootedFlue));
  const after = [25, 26].map((seed) => run(seed, { sheet: mainsUntouched }));

  test("are combined into a narrower answer", () => {
    const widthOf = (result: RunsCompared) => {
      const { coolingStrength } = changeOn(result, "gas");
      return isKnown(coolingStrength) ? (coolingStrength.high ?? 0) - (coolingStrength.low ?? 0) : Number.NaN;
    };
    expect(widthOf(compared(before, after))).toBeLessThan(widthOf(compared(before[0], after[0])));
  });

  test("may be given in any order", () => {
    const forth = compareRuns(before, after, { knownGood, margin });
    const back = compareRuns(before.toReversed(), after.toReversed(), { knownGood: knownGood.toReversed(), margin });
    expect(back).toEqual(forth);
  });
});

test("a source that ran on one side only is undecided, with the reason", () => {
  const onMains = [
    { source: "off", hours: 1 },
    { source: "mains", hours: 8 },
  ] as const;
  const gas = changeOn(compared(run(20, { schedule: onMains }), run(25)), "gas");
  expect(gas).toMatchObject({
    change: "undecided",
    coolingStrength: { why: { code: "not-run", source: "gas", when: "before" } },
  });
});

test("an untouched source that ran in other logs is no control, and is said to be none", () => {
  const only = (source: HeatSource) =>
    [
      { source: "off", hours: 1 },
      { source, hours: 7 },
    ] as const;
  const before = [run(20, { schedule: only("mains") }), run(21, { schedule: only("gas"), ...sootedFlue })];
  const after = [run(25, { schedule: only("mains"), sheet: mainsUntouched }), run(26, { schedule: only("gas") })];
  expect(changeOn(compared(before, after), "gas").overControl).toEqual({
    why: { code: "untouched-not-comparable", source: "mains" },
  });
});

test("without run sheets conditions are taken as equal, and that is said once", () => {
  expect(compared(run(20), run(25)).warnings).toEqual([{ code: "no-run-sheet", when: "both" }]);
});

describe("odd logs", () => {
  const column = (value: number) => new Float64Array(180).fill(value);
  const odd = (name: string, change: Partial<Recording> = {}): Recording => ({
    name,
    unixMs: Float64Array.from({ length: 180 }, (_, i) => Date.UTC(2026, 5, 4) + i * 120_000),
    utcOffsetMinutes: 0,
    columns: { evaporator: column(20), cabinet: column(20), ambient: column(20) },
    sourceCodes: new Uint8Array(180).fill(1),
    sourceMarks: [],
    sheet: null,
    unreadable: [],
    ...change,
  });
  const oddities: readonly Recording[] = [
    odd("constant"),
    odd("nothing", { unixMs: new Float64Array(0), columns: {}, sourceCodes: null }),
    odd("no ambient", { columns: { evaporator: column(2), cabinet: column(8), ambient: column(Number.NaN) } }),
    odd("swapped", { columns: { evaporator: column(20), cabinet: column(-5), ambient: column(20) } }),
    odd("nobody said", { sourceCodes: null }),
    odd("backwards", { unixMs: Float64Array.from({ length: 180 }, (_, i) => Date.UTC(2026, 5, 4) - i * 120_000) }),
  ];
  const sound = run(20);

  for (const one of oddities) {
    test(`"${one.name}" before or after holds no number that is none, and is never better or worse than a night it cannot be compared with`, () => {
      for (const result of [compared(one, sound), compared(sound, one), compared(one, odd("other"))]) {
        const { sources, ...rest } = result;
        const figures = numbersIn([rest, sources.map(({ curves: _, ...source }) => source)]);
        expect(figures.filter((figure) => !Number.isFinite(figure))).toEqual([]);
        for (const { change, reasons } of sources) {
          const dead = reasons.some(({ code }) => code === "dead-before" || code === "dead-after");
          expect(dead || change === "undecided" || change === "same").toBe(true);
        }
      }
    });
  }
});

describe("the limits of a change", () => {
  for (const [low, high, change] of [
    [1.09, 1.5, "better"],
    [1.08, 1.5, "undecided"],
    [0.5, 0.92, "worse"],
    [0.5, 0.93, "undecided"],
    [0.86, 1.17, "same"],
    [0.84, 1.1, "undecided"],
    [0.9, 1.18, "undecided"],
    [1.09, null, "better"],
    [null, 0.9, "worse"],
    [null, 1.1, "undecided"],
    // First match wins: wholly above the line is better, even where all of it would count as the same.
    [1.1, 1.15, "better"],
    [0.87, 0.91, "worse"],
  ] as const) {
    test(`${low ?? "open"} to ${high ?? "open"} at 15 % allowed loss is ${change}`, () => {
      expect(changeOf(estimate("1", 1, low, high), margin)).toBe(change);
    });
  }

  test("no ratio is undecided", () => {
    expect(changeOf(unknown({ code: "no-numbers" }), margin)).toBe("undecided");
  });

  property.prop([
    fc.double({ min: 0.3, max: 3, noNaN: true }),
    fc.double({ min: 1.001, max: 2, noNaN: true }),
    fc.double({ min: 0.02, max: 0.6, noNaN: true }),
  ])("after over before and before over after are mirror images", (value, reach, allowed) => {
    const mirrored = { better: "worse", worse: "better", same: "same", undecided: "undecided" } as const;
    const forth = changeOf(estimate("1", value, value / reach, value * reach), allowed);
    const back = changeOf(estimate("1", 1 / value, 1 / value / reach, reach / value), allowed);
    expect(back).toBe(mirrored[forth]);
  });
});
