// Columns of numbers come back bit for bit, in few bytes where they have a step.

import { fc, test } from "@fast-check/vitest";
import { describe, expect } from "vitest";
import { packColumn, unpackColumn } from "../../../src/store/blocks/number-column.ts";

const back = (values: Float64Array) => unpackColumn(packColumn(values), values.length).values;
/** Bytes beyond those that every column has. */
const dataBytes = (values: Float64Array) => packColumn(values).length - packColumn(Float64Array.of(1)).length;
const column = (count: number, value: (i: number) => number) =>
  Float64Array.from({ length: count }, (_, i) => value(i));

describe("a column", () => {
  test.prop([fc.float64Array({ minLength: 1, maxLength: 50 })])("of any numbers comes back bit for bit", (values) => {
    expect(new BigUint64Array(back(values).buffer)).toEqual(canonical(values));
  });

  test.prop([
    fc.array(fc.integer({ min: -10_000, max: 10_000 }), { minLength: 1, maxLength: 60 }),
    fc.constantFrom(1, 10, 16, 100, 1000, 8, 7, 1e6),
  ])("in steps comes back bit for bit, whatever the step", (steps, perUnit) => {
    const values = Float64Array.from(steps, (step) => step / perUnit);
    expect(back(values)).toEqual(values);
  });

  for (const [what, values, bytes] of [
    ["a steady clock", column(1000, (i) => 1.78e12 + i * 1000), 0],
    ["1/16 K steps that move by little", column(1000, (i) => 20 + ((i * 7) % 13) / 16), 999],
    ["hundredths that jump by degrees", column(1000, (i) => (((i * 7919) % 4001) - 2000) / 100), 2 * 999],
    ["whole numbers far apart", column(1000, (i) => (i % 2) * 1e9), 4 * 999],
    ["thirds, which have no step", column(1000, (i) => i / 3), 8 * 1000],
    ["steps with a missing reading among them", column(1000, (i) => (i === 500 ? Number.NaN : 1)), 8 * 1000],
    ["-0, which whole numbers do not have", column(1000, () => -0), 8 * 1000],
    ["whole numbers beyond 32 bits apart", column(1000, (i) => (i % 2) * 1e13), 8 * 1000],
  ] as const) {
    test(`of ${what} takes ${bytes} bytes and comes back`, () => {
      expect(dataBytes(values)).toBe(bytes);
      expect(back(values)).toEqual(values);
    });
  }
});

/** The bits, any NaN being the usual one. */
const canonical = (values: Float64Array) =>
  new BigUint64Array(values.map((value) => (Number.isNaN(value) ? Number.NaN : value)).buffer);
