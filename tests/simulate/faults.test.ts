// What each fault does, held against what another simulator found (no published source): its signs must
// come out, its sizes within what two models of one thing may differ by.

import { describe, expect, test } from "vitest";
import { faultEffects } from "../../src/simulate/faults.ts";
import {
  type FaultName,
  faultKinds,
  faultNames,
  knownGoodFridge,
  randomFridge,
  settledCabinet,
  simulateRun,
} from "../../src/simulate/index.ts";
import { strengthWatts } from "../../src/simulate/steady-state.ts";
import { courseOf, nightOnMains, runNight } from "./noise-free.ts";
import { type OneMode, oneModeOf } from "./one-mode.ts";

const fridges = [knownGoodFridge(), randomFridge(11), randomFridge(12), randomFridge(13)];
const ratio = (faulty: OneMode, good: OneMode, of: keyof OneMode) => faulty[of] / good[of];
const typical = (name: FaultName) => ({ name, size: faultKinds[name].typicalSize });

describe("cooling against heat: about heat^1.4 below rated, 1.0 ± 0.4 just above, 0.4 well above", () => {
  const exponent = (from: number, to: number) => {
    const fridge = knownGoodFridge();
    const cooling = (heat: number) => strengthWatts(fridge, faultEffects([]), heat * fridge.unit.designHeatWatts);
    return Math.log(cooling(to) / cooling(from)) / Math.log(to / from);
  };
  for (const [from, to, least, most] of [
    [0.6, 1, 1.2, 1.6],
    [1, 1.2, 0.6, 1.4],
    [1.3, 1.6, 0.25, 0.55],
  ] as const) {
    test(`from ${from} to ${to} times rated heat the exponent lies between ${least} and ${most}`, () => {
      expect(exponent(from, to)).toBeGreaterThan(least);
      expect(exponent(from, to)).toBeLessThan(most);
    });
  }
});

for (const fridge of fridges) {
  describe(fridge.name, () => {
    const good = oneModeOf(fridge);

    test("a quarter of the heat lost: rate constant down some 10 %, depth and slope by 20 to 40 %, onset 6 to 24 min later", () => {
      const starved = oneModeOf(fridge, [{ name: "mains-element", size: 0.25 }]);
      expect(ratio(starved, good, "rate")).toBeGreaterThan(0.85);
      expect(ratio(starved, good, "rate")).toBeLessThan(1);
      for (const of of ["depth", "slope"] as const) {
        expect(ratio(starved, good, of)).toBeGreaterThan(0.6);
        expect(ratio(starved, good, of)).toBeLessThan(0.8);
      }
      expect(starved.onsetMinutes - good.onsetMinutes).toBeGreaterThan(6);
      expect(starved.onsetMinutes - good.onsetMinutes).toBeLessThan(24);
    });

    test("a fifth of the heat lost: onset later", () => {
      const starved = oneModeOf(fridge, [{ name: "mains-element", size: 0.2 }]);
      expect(starved.onsetMinutes - good.onsetMinutes).toBeGreaterThan(5);
    });

    test("a leaking seal raises the rate constant, lowers the depth, raises the warming rate to some 1.67 times", () => {
      const leaking = oneModeOf(fridge, [typical("door-seal")]);
      expect(ratio(leaking, good, "rate")).toBeGreaterThan(1.3);
      expect(ratio(leaking, good, "rate")).toBeLessThan(1.7);
      expect(ratio(leaking, good, "depth")).toBeLessThan(0.8);
      expect(ratio(leaking, good, "warmingRate")).toBeGreaterThan(1.5);
      expect(ratio(leaking, good, "warmingRate")).toBeLessThan(1.85);
    });

    test("a warm load raises the rate constant too and lowers the depth, but lowers the warming rate", () => {
      const loaded = oneModeOf(fridge, [typical("warm-load")]);
      expect(ratio(loaded, good, "rate")).toBeGreaterThan(1.05);
      expect(ratio(loaded, good, "rate")).toBeLessThan(1.5);
      expect(ratio(loaded, good, "depth")).toBeLessThan(0.8);
      expect(ratio(loaded, good, "warmingRate")).toBeGreaterThan(0.45);
      expect(ratio(loaded, good, "warmingRate")).toBeLessThan(0.9);
    });

    test("the fin difference hardly notices seal and load", () => {
      for (const name of ["door-seal", "warm-load"] as const) {
        const other = oneModeOf(fridge, [typical(name)]);
        expect(Math.abs(ratio(other, good, "finDifference") - 1)).toBeLessThan(0.1);
      }
    });

    test("cooling goes as the slope and about as the fin difference to the 1.25 or a little more", () => {
      const weak = oneModeOf(fridge, [{ name: "cooling-unit", size: 0.3 }]);
      const slopeExponent = Math.log(0.7) / Math.log(ratio(weak, good, "slope"));
      const finExponent = Math.log(0.7) / Math.log(ratio(weak, good, "finDifference"));
      expect(slopeExponent).toBeGreaterThan(0.9);
      expect(slopeExponent).toBeLessThan(1.1);
      expect(finExponent).toBeGreaterThan(1.25);
      expect(finExponent).toBeLessThan(1.55);
    });

    test("poor ventilation costs some 10 % on a cool day and some 35 % above 32 °C", () => {
      const lost = (ambient: number) =>
        1 - ratio(oneModeOf(fridge, [typical("ventilation")], ambient), oneModeOf(fridge, [], ambient), "slope");
      expect(lost(18)).toBeLessThan(0.15);
      expect(lost(18)).toBeGreaterThan(0.02);
      expect(lost(33)).toBeGreaterThan(0.2);
      expect(lost(33)).toBeLessThan(0.5);
    });
  });
}

describe("which source a fault touches", () => {
  const fridge = knownGoodFridge();
  const strengths = (name: FaultName) => {
    const schedule = (["gas", "mains", "dc12"] as const).map((source) => ({ source, hours: 1 }));
    const { truth } = simulateRun(nightOnMains({ schedule, faults: [typical(name)] }));
    return truth.stretches.map(({ strength }) => (strength?.ofFaults ?? Number.NaN) < 0.97);
  };
  for (const [names, touched] of [
    [
      ["burner", "flue", "gas-supply"],
      [true, false, false],
    ],
    [["mains-element"], [false, true, false]],
    [["dc12-element"], [false, false, true]],
    [["supply-voltage"], [false, true, true]],
    [
      ["boiler-insulation", "ventilation", "not-level", "cooling-unit"],
      [true, true, true],
    ],
    [
      ["door-seal", "warm-load", "lamp", "probe"],
      [false, false, false],
    ],
  ] as const) {
    for (const name of names)
      test(`${name} weakens ${["gas", "mains", "12 V"].filter((_, i) => touched[i]).join(", ") || "no source"}`, () => {
        expect(strengths(name)).toEqual(touched);
      });
  }

  test("every typical fault but load and probe leaves the cabinet warmer in the end", () => {
    const sound = settledCabinet(fridge, [], "mains", 25);
    for (const name of faultNames.filter(
      (one) => !["burner", "flue", "gas-supply", "dc12-element", "warm-load", "probe"].includes(one),
    ))
      expect(settledCabinet(fridge, [typical(name)], "mains", 25), name).toBeGreaterThan(sound + 1);
  });

  test("a moved evaporator probe reads halfway to the air; the cabinet is as it was", () => {
    const seated = runNight();
    const moved = runNight({ faults: [{ name: "probe", size: 0.5 }] });
    const last = seated.hours.length - 1;
    expect(moved.cabinet[last]).toBe(seated.cabinet[last]);
    expect(moved.evaporator[last]).toBeCloseTo((seated.evaporator[last] + seated.cabinet[last]) / 2, 6);
  });

  test("a size that cannot be is refused with the fault's name", () => {
    for (const [name, size] of [
      ["burner", 1.2],
      ["flue", -0.1],
      ["lamp", Number.NaN],
      ["ventilation", 1],
    ] as const)
      expect(() => simulateRun(nightOnMains({ faults: [{ name, size }] }))).toThrow(new RegExp(`"${name}"`));
  });

  test("a burnt-out element gives no heat at all", () => {
    const { recording } = simulateRun(nightOnMains({ faults: [{ name: "mains-element", size: 1 }] }));
    expect(Math.max(...courseOf(recording).boiler)).toBeLessThan(25.001);
  });
});
