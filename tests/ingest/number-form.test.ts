import { fc, test as prop } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { type NumberColumn, numberFormOf } from "../../src/ingest/number-form.ts";
import { type NumberForm, numberOf } from "../../src/ingest/number-text.ts";

/** Whatever it says, as a column of epoch seconds might; or a probe that can be at most so warm. */
const any = (...cells: string[]): NumberColumn => ({ cells, isPossible: () => true });
const upTo = (most: number, ...cells: string[]): NumberColumn => ({
  cells,
  isPossible: (values) => values.every((value) => value <= most),
});

describe("the marks in numbers are told", () => {
  for (const [what, column, form] of [
    ["a point with other than three digits behind", any("4.5", "12.25"), { decimal: "." }],
    ["a comma with other than three digits behind", any("4,5"), { decimal: "," }],
    ["a nought in front", any("0,625"), { decimal: "," }],
    ["both marks", any("1,234.5"), { decimal: ".", thousands: "," }],
    ["both marks, the other way", any("1.234,5 °C"), { decimal: ",", thousands: "." }],
    ["a mark that comes twice", any("1,780,556,400"), { decimal: ".", thousands: "," }],
    ["a mark that comes twice, a point", any("1.780.556.400"), { decimal: ",", thousands: "." }],
    ["blanks", any("1 234,5"), { decimal: ",", thousands: " " }],
    ["narrow blanks that do not break", any("1\u202f234,5"), { decimal: ",", thousands: " " }],
    ["apostrophes", any("1'234.5"), { decimal: ".", thousands: "'" }],
    ["blanks, no decimals", any("1 234"), { decimal: ".", thousands: " " }],
    ["whole numbers", any("4", "5"), { decimal: "." }],
    ["another cell that proves the comma", any("1.234", "4,5"), { decimal: ",", thousands: "." }],
    ["what the probe cannot read", upTo(70, "26,875", "26,125"), { decimal: "," }],
    ["what the probe cannot read, a point", upTo(70, "26.875"), { decimal: "." }],
  ] as const) {
    test(`by ${what}: ${column.cells.join(" ")}`, () => {
      expect(numberFormOf([column], undefined)).toMatchObject({ form, open: undefined });
    });
  }

  test("a lone comma with three digits behind is asked about where both readings are possible", () => {
    const column = any("1,234");
    expect(numberFormOf([column], undefined).open).toEqual({ column, text: "1,234" });
    expect(numberFormOf([column], ".").form).toEqual({ decimal: ".", thousands: "," });
    expect(numberFormOf([column], ",").form).toEqual({ decimal: "," });
  });

  test("a comma is no mark of thousands where the probe could not read that", () => {
    expect(numberFormOf([any("4.5"), upTo(70, "26,875")], undefined).form).toEqual({ decimal: "." });
  });
});

test("thousands are taken together only in groups of three", () => {
  const form: NumberForm = { decimal: ".", thousands: "," };
  expect(["1,234.5", "-1,234", "12,34", "1,2345", "01,234", ",234"].map((cell) => numberOf(cell, form))).toEqual([
    1234.5,
    -1234,
    Number.NaN,
    Number.NaN,
    Number.NaN,
    Number.NaN,
  ]);
});

const forms = fc.constantFrom<NumberForm>(
  { decimal: ".", thousands: "," },
  { decimal: ",", thousands: "." },
  { decimal: ",", thousands: " " },
  { decimal: ".", thousands: "'" },
);
const written = (value: number, { decimal, thousands }: NumberForm) => {
  const [whole, decimals] = Math.abs(value).toFixed(2).split(".");
  return `${value < 0 ? "-" : ""}${whole.replaceAll(/\B(?=(\d{3})+$)/g, thousands ?? "")}${decimal}${decimals}`;
};

prop.prop([forms, fc.array(fc.integer({ min: -1e9, max: 1e9 }), { minLength: 1, maxLength: 20 })])(
  "numbers with two decimals are read back whichever marks they are written with",
  (form, hundredths) => {
    const values = hundredths.map((value) => value / 100);
    const cells = values.map((value) => written(value, form));
    const found = numberFormOf([any(...cells)], undefined);
    expect(found.open).toBeUndefined();
    expect(cells.map((cell) => numberOf(cell, found.form))).toEqual(values.map((value) => value + 0));
  },
);
