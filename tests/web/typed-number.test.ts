import { expect, test } from "vitest";
import { typedNumber } from "../../web/typed-number.ts";

for (const [text, value] of [
  ["32,5", 32.5],
  [" \u22124.5 ", -4.5],
  ["", null],
  ["abc", Number.NaN],
  ["30 mbar", Number.NaN],
  ["0x10", Number.NaN],
  ["1e3", Number.NaN],
] as const) {
  test(`"${text}" typed is ${value}`, () => {
    expect(typedNumber(text)).toBe(value);
  });
}

test("a number outside what a field takes is none", () => {
  expect(typedNumber("80", { least: -45, most: 45 })).toBeNaN();
  expect(typedNumber("-45", { least: -45, most: 45 })).toBe(-45);
  expect(typedNumber("0", { above: 0 })).toBeNaN();
});
