import { expect, test } from "vitest";
import { unbroken } from "../../web/parts/unbroken.ts";

test("a figure and its unit stay on one line; other words part as they like", () => {
  const shown = unbroken(
    "Cooling strength 63 % of known-good (54 to 74), 2 h 37 min at 32 °C, 5 K below, 12 V; 3 Kelvin 4 min.",
  );
  expect(shown.replaceAll("\u00a0", "_")).toBe(
    "Cooling strength 63_% of known-good (54 to 74), 2_h 37_min at 32_°C, 5_K below, 12_V; 3 Kelvin 4_min.",
  );
});
