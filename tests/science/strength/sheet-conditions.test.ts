import { describe, expect, test } from "vitest";
import type { RunSheet } from "../../../src/schema/index.ts";
import { isKnown } from "../../../src/science/index.ts";
import { referSheets } from "../../../src/science/strength/sheet-conditions.ts";
import type { SimulationPlan } from "../../../src/simulate/index.ts";
import { judged, simulated, sourceIn } from "../simulated-runs.ts";

const bench: RunSheet = { setting: "bench", load: "empty", vents: "open", fanInside: false, fanAtRear: false };
const known = [1, 2, 3].map((seed) => simulated(seed, { sheet: bench }).recording);

/** A sound fridge judged under a sheet, and whatever else was so. */
function judgedUnder(sheet: RunSheet, change: Partial<SimulationPlan> = {}) {
  const analysis = judged(simulated(9, { sheet, ...change }), { knownGood: known });
  const mains = sourceIn(analysis, "mains");
  const { coolingStrength } = mains;
  const width = isKnown(coolingStrength) ? (coolingStrength.high ?? Infinity) - (coolingStrength.low ?? 0) : null;
  const reasons = [...mains.reasons, ...analysis.stretches.flatMap((stretch) => stretch.reasons)];
  const about = (code: string) => reasons.filter((reason) => reason.code === code);
  const differing = analysis.warnings.flatMap((warning) => (warning.code === "different-conditions" ? [warning] : []));
  const checks = analysis.nextChecks.map(({ check }) => check);
  return { mains, coolingStrength, width, about, differing, checks };
}

describe("conditions that the run sheets state", () => {
  const same = judgedUnder(bench);

  test("a fan at the rear on one side leaves the more open the hotter it was, and from 36 °C on nothing to compare", () => {
    const slopeAt = (warmest: number) => {
      const refer = referSheets({ fanAtRear: true }, {}, warmest);
      return "why" in refer ? Number.POSITIVE_INFINITY : Math.sqrt(refer.slope ?? Number.NaN);
    };
    expect(slopeAt(20)).toBeCloseTo(0.05, 6);
    expect(slopeAt(35)).toBeCloseTo(0.2, 6);
    expect(slopeAt(37)).toBe(Number.POSITIVE_INFINITY);
    expect(slopeAt(Number.NaN)).toBeCloseTo(0.05, 6);
  });

  test("the same on both sheets leave the interval as it is and say nothing", () => {
    expect(same.width).not.toBeNull();
    expect(same.about("condition-differs")).toEqual([]);
    expect(same.differing).toEqual([]);
  });

  test("a fridge built in where the known-good runs stood on the bench gets a wider interval, its size said, and a warning", () => {
    const indoors = judgedUnder({ ...bench, setting: "vehicle-indoors" });
    const outdoors = judgedUnder({ ...bench, setting: "vehicle-outdoors" });
    expect(indoors.width).toBeGreaterThan(same.width ?? 0);
    expect(outdoors.width).toBeGreaterThan(indoors.width ?? 0);
    expect(outdoors.about("condition-differs")[0]).toMatchObject({ effect: "wider", slopeShare: 0.18, finShare: 0.08 });
    expect(outdoors.differing).toMatchObject([{ condition: "setting", effect: "wider" }]);
  });

  test("the widths cover what a room 4 K off does to both witnesses of a simulated fridge", () => {
    for (const room of [21, 29]) {
      const { coolingStrength } = judgedUnder(
        { ...bench, setting: "vehicle-outdoors" },
        { room: { meanCelsius: room, swingKelvin: 2 } },
      );
      expect(isKnown(coolingStrength) && (coolingStrength.low ?? 0) < 1 && (coolingStrength.high ?? 9) > 1).toBe(true);
    }
  });

  test("driving is not compared with the bench, nor with a run whose sheet says nothing: no strength, undecided, and why", () => {
    const driving = judgedUnder({ ...bench, setting: "driving" });
    expect(driving.mains.verdict).toBe("undecided");
    expect(driving.coolingStrength).toMatchObject({
      why: { code: "conditions-differ", condition: "setting", here: "driving", knownGood: "bench" },
    });
    expect(driving.differing).toMatchObject([{ effect: "refused" }]);
    expect(driving.checks).toEqual(["record-another-night"]);
    expect(referSheets({ setting: "driving" }, null, 25)).toHaveProperty("why");
    expect(referSheets({ setting: "driving" }, { setting: "driving" }, 25)).not.toHaveProperty("why");
  });

  test("a fan inside in one only silences the fins it halves: the slope alone finds the sound fridge sound or undecided, never weak", () => {
    const fan = judgedUnder({ ...bench, fanInside: true }, { fanInside: true });
    expect(fan.about("slope-alone").length).toBeGreaterThan(0);
    expect(fan.about("condition-differs")[0]).toMatchObject({ condition: "fan-inside", effect: "fins-silent" });
    expect(isKnown(fan.coolingStrength) && fan.coolingStrength.value).toBeCloseTo(1, 1);
    expect(fan.mains.verdict).not.toBe("weak");
  });

  test("a full fridge against an empty one is judged by its fins alone", () => {
    const full = judgedUnder({ ...bench, load: "full" }, { load: { kilograms: 10 } });
    expect(full.about("fins-alone").length).toBeGreaterThan(0);
    expect(full.mains.verdict).not.toBe("weak");
  });

  test("a fan inside and another load together leave no witness, so they are not compared", () => {
    expect(referSheets({ ...bench, fanInside: true, load: "full" }, bench, 25)).toHaveProperty(
      "why.code",
      "conditions-differ",
    );
  });

  test("a condition on one sheet only widens, and so does every further one", () => {
    const variance = (here: RunSheet | null, there: RunSheet | null) => {
      const refer = referSheets(here, there, 25);
      if ("why" in refer) throw new Error(refer.why.code);
      return (refer.slope ?? 0) + (refer.fins ?? 0);
    };
    expect(variance(null, null)).toBe(0);
    expect(variance({ setting: "bench" }, null)).toBeGreaterThan(0);
    expect(variance({ setting: "bench", load: "empty" }, null)).toBeGreaterThan(variance({ setting: "bench" }, null));
    expect(variance({ fanInside: false }, null)).toBe(0);
  });

  test("what neither side states is taken as equal and said once per stretch, with the gas only on gas", () => {
    const analysis = judged(simulated(9), { knownGood: [1, 2, 3].map((seed) => simulated(seed).recording) });
    const told = analysis.stretches.map((stretch) =>
      stretch.reasons.flatMap((reason) => (reason.code === "conditions-taken-equal" ? [reason.conditions] : [])),
    );
    const [mains, gas] = told.filter((conditions) => conditions.length > 0);
    expect(mains).toEqual([["setting", "level", "dial", "load", "vents", "supply"]]);
    expect(gas).toEqual([["setting", "level", "dial", "load", "vents", "gas", "gas-pressure", "altitude"]]);
  });

  test("another gas is allowed for with a wider interval and a warning", () => {
    const propane = [1, 2, 3].map((seed) => simulated(seed, { sheet: { ...bench, gasKind: "propane" } }).recording);
    const on = (gasKind: "propane" | "butane") =>
      judged(simulated(9, { sheet: { ...bench, gasKind }, supply: { gas: { kind: gasKind } } }), {
        knownGood: propane,
      });
    const widthOn = (gasKind: "propane" | "butane") => {
      const { coolingStrength } = sourceIn(on(gasKind), "gas");
      if (!isKnown(coolingStrength)) throw new Error("no strength");
      return (coolingStrength.high ?? Infinity) - (coolingStrength.low ?? 0);
    };
    expect(widthOn("butane")).toBeGreaterThan(widthOn("propane"));
    const warning = on("butane").warnings.find(({ code }) => code === "different-conditions");
    expect(warning).toMatchObject({ condition: "gas", here: ["butane"], knownGood: ["propane"], effect: "referred" });
  });
});
