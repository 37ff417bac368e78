import { describe, expect, test } from "vitest";
import { heatAtVoltage, logCooling, slopeAtRated } from "../../../src/science/strength/heat-law.ts";
import electrical from "../../reference/electrical.json" with { type: "json" };

const slopeAt = (heat: number) => (logCooling(heat * 1.001) - logCooling(heat / 1.001)) / (2 * Math.log(1.001));

describe("cooling against heat", () => {
  test("rated heat is the point of reference: ln 1 = 0", () => {
    expect(logCooling(1)).toBeCloseTo(0, 12);
  });

  // The three slopes: from a study on simulated fridges; no published source.
  for (const [heat, low, high] of [
    [0.6, 1.35, 1.45],
    [0.9, 1.2, 1.42],
    [1.1, 0.6, 1.4],
    [1.6, 0.38, 0.45],
  ] as const) {
    test(`at ${heat} times rated heat the slope lies between ${low} and ${high}`, () => {
      expect(slopeAt(heat)).toBeGreaterThan(low);
      expect(slopeAt(heat)).toBeLessThan(high);
    });
  }

  test("the slope that near-rated heats are compared by is the bend's own", () => {
    expect(Math.abs(slopeAt(1) - slopeAtRated)).toBeLessThan(0.05);
  });

  test("more heat never cools less", () => {
    for (let heat = 0.1; heat < 3; heat += 0.05) expect(logCooling(heat + 0.05)).toBeGreaterThan(logCooling(heat));
  });

  // Najjaran et al. (2019), Applied Energy 256, 113899, as quoted in absorption.json: at half of the best heat the COP is
  // 0.62 of the best, so cooling is 0.31 of it; their "best" heat lies well above what a fridge is rated at.
  test("half the heat leaves between a third and a half of the cooling", () => {
    const half = Math.exp(logCooling(0.5));
    expect(half).toBeGreaterThan(0.3);
    expect(half).toBeLessThan(0.5);
  });
});

describe("heat against voltage", () => {
  // Ohm's law; values computed in tests/reference/electrical.json from its definition.
  test("a 12 V element of 170 W gives 142.85 W at 11.0 V and 224.83 W at 13.8 V", () => {
    expect(170 * heatAtVoltage(11, 12)).toBeCloseTo(142.85, 2);
    expect(170 * heatAtVoltage(13.8, 12)).toBeCloseTo(224.83, 2);
    expect(JSON.stringify(electrical)).toContain("142.8");
  });

  test("a 230 V element of 190 W gives 153.9 W at 207 V and 229.9 W at 253 V", () => {
    expect(190 * heatAtVoltage(207, 230)).toBeCloseTo(153.9, 1);
    expect(190 * heatAtVoltage(253, 230)).toBeCloseTo(229.9, 1);
  });
});
