import { describe, expect, test } from "vitest";
import { gasHeatRatio, wobbeOverPropane } from "../../../src/science/strength/gas-heat.ts";

describe("gas heat", () => {
  // Gross Wobbe indices of propane 80.7 and butane 92.3 MJ/m3: handbook values from memory; ratio 1.14. Here net, ideal.
  test("butane instead of propane gives some 12 to 15 % more heat through the same jet", () => {
    expect(wobbeOverPropane("butane")).toBeGreaterThan(1.12);
    expect(wobbeOverPropane("butane")).toBeLessThan(1.15);
    expect(wobbeOverPropane("mixed")).toBeCloseTo((1 + wobbeOverPropane("butane")) / 2, 12);
  });

  test("heat goes as the root of the pressure: 25 mbar instead of 30 is 8.7 % less", () => {
    const { logRatio } = gasHeatRatio({ gasPressureMbar: 25 }, { gasPressureMbar: 30 });
    expect(Math.exp(logRatio)).toBeCloseTo(Math.sqrt(25 / 30), 12);
  });

  test("at 2000 m a burner gets 11 % less than at the sea", () => {
    expect(Math.exp(gasHeatRatio({ altitudeMetres: 2000 }, { altitudeMetres: 0 }).logRatio)).toBeCloseTo(
      Math.sqrt(794.952 / 1013.25),
      4,
    );
  });

  test("what neither sheet states is taken as equal and widens nothing", () => {
    expect(gasHeatRatio(null, {})).toEqual({ logRatio: 0, variance: 0, unknown: [] });
  });

  test("what only one sheet states moves nothing, widens, and is named", () => {
    const one = gasHeatRatio({ gasKind: "butane" }, null);
    expect(one.logRatio).toBe(0);
    expect(one.variance).toBeGreaterThan(0);
    expect(one.unknown.map(({ condition }) => condition)).toEqual(["gas"]);
  });
});
