import { fc, test } from "@fast-check/vitest";
import { expect, test as plainTest } from "vitest";
import { decimalOf } from "../../src/ingest/text-log.ts";

for (const [text, value] of [
  ["0", 0],
  ["26.9375", 26.9375],
  ["-4.0625", -4.0625],
  ["+4.5", 4.5],
  [".5", 0.5],
  ["5.", 5],
  ["1e-7", 1e-7],
  ["2.5E1", 25],
  ["0.1", 0.1],
  ["123456789012345678", 123456789012345680],
  ["0.30000000000000004", 0.30000000000000004],
] as const) {
  plainTest(`"${text}" is ${value}`, () => {
    expect(decimalOf(text)).toBe(value);
  });
}

for (const text of [
  "",
  "-",
  ".",
  "+.",
  "1,5",
  "4.3 ",
  "4.3.1",
  "--4",
  "0x10",
  "1e",
  "1e999",
  "NaN",
  "Infinity",
  "4,31",
  "٣",
  "4.3°C",
  "1_000",
]) {
  plainTest(`"${text}" is no number, and above all not 0`, () => {
    expect(decimalOf(text)).toBeNaN();
  });
}

test.prop([fc.double({ noNaN: true, noDefaultInfinity: true })])(
  "every finite number is read back exactly as the language writes it",
  (value) => {
    expect(decimalOf(`${value}`)).toBe(value === 0 ? 0 : value);
  },
);

test.prop([fc.integer({ min: -99_999_999, max: 99_999_999 }), fc.integer({ min: 0, max: 12 })])(
  "a number with any count of decimals is the nearest double",
  (whole, decimals) => {
    const digits = String(Math.abs(whole)).padStart(decimals + 1, "0");
    const text = `${whole < 0 ? "-" : ""}${digits.slice(0, digits.length - decimals)}.${digits.slice(digits.length - decimals)}`;
    expect(decimalOf(text)).toBe(Number(text));
  },
);
