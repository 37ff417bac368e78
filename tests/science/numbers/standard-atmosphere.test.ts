import { expect, test } from "vitest";
import { standardPressure } from "../../../src/science/numbers/standard-atmosphere.ts";
import thermo from "../../reference/thermo.json" with { type: "json" };

// ISO 2533:1975, rows of tests/reference/thermo.json; to the printed digits.
for (const { geopotentialMetres, hPa } of thermo.standardAtmosphere.rows) {
  test(`the standard air at ${geopotentialMetres} m has ${hPa} hPa`, () => {
    expect(Math.abs(standardPressure(geopotentialMetres) - hPa)).toBeLessThan(0.006);
  });
}
