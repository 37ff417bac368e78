import { describe, expect, test } from "vitest";
import type { RunSheet } from "../../../src/schema/index.ts";
import { differencesFelt, sheetDifferences } from "../../../src/science/before-after/sheet-differences.ts";

const between = (before: RunSheet, after: RunSheet) => sheetDifferences([before], [after]);

describe("differences between run sheets", () => {
  test("carry what either side states", () => {
    expect(between({ load: "empty", vents: "open" }, { load: "full", vents: "open" }).differences).toEqual([
      { code: "load", before: ["empty"], after: ["full"] },
    ]);
  });

  test("of several runs hold every value stated", () => {
    expect(sheetDifferences([{ load: "empty" }, { load: "part" }], [{ load: "empty" }]).differences).toEqual([
      { code: "load", before: ["empty", "part"], after: ["empty"] },
    ]);
  });

  test("ignore what is no condition of the run: who checked it, notes, untouched sources", () => {
    const { differences, oneSided } = between(
      { checkedBy: "one", notes: "a", format: "coldfall-run-sheet-1" },
      { checkedBy: "other", notes: "b", untouchedSources: ["mains"] },
    );
    expect(differences).toEqual([]);
    expect(oneSided).toEqual({ before: [], after: [] });
  });

  for (const [what, before, after, differ] of [
    ["230 and 231 V", { supplyVolts: { mains: 230 } }, { supplyVolts: { mains: 231 } }, false],
    ["230 and 222 V", { supplyVolts: { mains: 230 } }, { supplyVolts: { mains: 222 } }, true],
    ["tilts of 1 and 2 degrees", { tiltSidewaysDegrees: 1 }, { tiltSidewaysDegrees: 2 }, false],
    ["tilts of 1 and 3 degrees", { tiltSidewaysDegrees: 1 }, { tiltSidewaysDegrees: 3 }, true],
    ["30 and 31 mbar", { gasPressureMbar: 30 }, { gasPressureMbar: 31 }, false],
    ["30 and 26 mbar", { gasPressureMbar: 30 }, { gasPressureMbar: 26 }, true],
    ['"Coldest" and "coldest "', { dial: "Coldest" }, { dial: "coldest " }, false],
    ["150 and 900 m", { altitudeMetres: 150 }, { altitudeMetres: 900 }, true],
  ] as const satisfies readonly (readonly [string, RunSheet, RunSheet, boolean])[]) {
    test(`${what} ${differ ? "differ" : "are the same"}`, () => {
      expect(between(before, after).differences).toHaveLength(differ ? 1 : 0);
    });
  }

  test("a condition that one side leaves out is taken as equal and named as one-sided", () => {
    const { differences, oneSided } = between({ load: "empty" }, { vents: "open" });
    expect(differences).toEqual([]);
    expect(oneSided).toEqual({ before: ["load"], after: ["vents"] });
  });

  test("but a fan that only one side mentions is a difference: nobody writes down the fan that was not there", () => {
    expect(between({}, { fanInside: true }).differences).toEqual([{ code: "fan-inside", before: [], after: [true] }]);
    expect(between({}, { fanInside: false }).differences).toEqual([]);
  });
});

describe("what a source feels of them", () => {
  const { differences } = between(
    { load: "empty", gasKind: "butane", supplyVolts: { mains: 210 }, dial: "2" },
    { load: "full", gasKind: "propane", supplyVolts: { mains: 230 }, dial: "5" },
  );

  test("is what acts on the whole fridge, and what acts on its own heat", () => {
    expect(differencesFelt(differences, "gas")).toEqual({ byAll: ["dial", "load"], byItAlone: ["gas-kind"] });
    expect(differencesFelt(differences, "mains")).toEqual({ byAll: ["dial", "load"], byItAlone: ["mains-volts"] });
    expect(differencesFelt(differences, "dc12")).toEqual({ byAll: ["dial", "load"], byItAlone: [] });
  });

  test("a load cannot stop the cooling altogether; a dial, gas or volts can", () => {
    expect(differencesFelt(differences, "gas", true)).toEqual({ byAll: ["dial"], byItAlone: ["gas-kind"] });
  });
});
