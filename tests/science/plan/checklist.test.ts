import { describe, expect, test } from "vitest";
import type { RunSheet } from "../../../src/schema/index.ts";
import { runSheetSchema } from "../../../src/schema/shapes/index.ts";
import { checklistCodes, checklistFor } from "../../../src/science/plan/checklist.ts";
import { uncheckedItems } from "../../../src/science/plan/index.ts";

const everything: RunSheet = {
  tiltSidewaysDegrees: 1,
  tiltLengthwaysDegrees: 0,
  uprightSince: "2026-06-03T18:00:00+02:00",
  sourceChosenByHand: true,
  vents: "open",
  ventCovers: "off",
  flueCap: "clear",
  gasKind: "propane",
  gasChecked: true,
  supplyVolts: { mains: 231, dc12: 12.6 },
  fanInside: false,
  fanAtRear: false,
  fins: "clear",
  load: "empty",
  sealPaperTest: "drags",
  lampGoesOut: true,
  dial: "coldest",
  checkedBy: "the workshop",
};

const open = (sheet: RunSheet | null, sources?: Parameters<typeof uncheckedItems>[1]) =>
  uncheckedItems(sheet, sources).map(({ item }) => item);

describe("the checklist", () => {
  test("a run sheet that answers everything leaves nothing open", () => {
    expect(runSheetSchema.parse(everything)).toEqual(everything);
    expect(open(everything)).toEqual([]);
  });

  test("without a run sheet everything is open", () => {
    expect(open(null)).toEqual([...checklistCodes]);
  });

  test("every field of an item opens it when it is missing, and each is a field of the run sheet", () => {
    for (const { item, fields } of checklistFor(["gas", "mains", "dc12"])) {
      for (const field of fields) {
        expect(Object.keys(runSheetSchema.shape), item).toContain(field);
        expect(open({ ...everything, [field]: undefined }), field).toContain(item);
      }
    }
  });

  test("a fridge left to choose its own source, and gas that was not checked, are no ticks", () => {
    expect(open({ ...everything, sourceChosenByHand: false, gasChecked: false })).toEqual([
      "source-by-hand",
      "gas-checked",
    ]);
  });

  test("what belongs to gas is asked only where gas runs", () => {
    expect(open({}, ["mains"])).not.toEqual(expect.arrayContaining(["flue-cap"]));
    expect(open({}, ["mains"])).toContain("mains-volts");
    expect(open({}, ["gas"])).toEqual(expect.arrayContaining(["flue-cap", "gas-kind", "gas-checked"]));
  });

  test("an item near gas, mains, 12 V or the cooling unit carries its caution in the same object", () => {
    const cautions = Object.fromEntries(
      checklistFor(["gas", "mains", "dc12"]).map(({ item, cautions: own }) => [item, own]),
    );
    for (const item of ["vents", "vent-covers", "flue-cap", "gas-kind", "gas-checked", "fans"]) {
      expect(cautions[item], item).toContain("gas");
    }
    expect(cautions["mains-volts"]).toContain("mains");
    expect(cautions["dc12-volts"]).toContain("dc12");
    expect(cautions.fins).toContain("cooling-unit");
    expect(cautions.tilt).toContain("no-cold");
    expect(cautions["source-by-hand"]).toEqual(expect.arrayContaining(["night", "two-sources"]));
  });
});
