import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import {
  chiSquareQuantile,
  chiSquareUpperTail,
  fQuantile,
  fUpperTail,
  normalQuantile,
  tQuantile,
  tUpperTail,
} from "../../../src/science/numbers/distributions.ts";

interface Welch {
  readonly name: string;
  readonly welch: { readonly t: number; readonly df: number; readonly p: number };
}
interface Statistics {
  readonly studentT: {
    readonly rows: readonly Record<string, number>[];
    readonly fractionalNu: readonly Record<string, number>[];
    readonly cdf: readonly { readonly t: number; readonly nu: number; readonly cdf: number }[];
  };
  readonly chiSquare: { readonly rows: readonly Record<string, number>[] };
  readonly fisherF: { readonly rows: readonly Record<string, number>[] };
  readonly fTest: { readonly n: readonly number[]; readonly computed: Readonly<Record<string, number>> };
  readonly welch: readonly [
    Welch,
    { readonly computed: { readonly t: number; readonly df: number; readonly p: number } },
  ];
}

const reference: Statistics = JSON.parse(
  readFileSync(new URL("../../reference/statistics.json", import.meta.url), "utf8"),
);

/** Relative difference. */
const off = (found: number, expected: number) => Math.abs(found / expected - 1);

/** The cells of a reference row whose column is a probability, "0.95" or "t0.95". */
const cells = (row: Record<string, number>) =>
  Object.entries(row).flatMap(([column, value]) => {
    const probability = Number(column.replace(/^t/, ""));
    return probability > 0 && probability < 1 ? [{ probability, value }] : [];
  });

// JCGM 100:2008 (GUM), Table G.2, column 95 %, as printed: two digits after the point.
const gumTable = [
  [1, "12.71"],
  [2, "4.30"],
  [3, "3.18"],
  [4, "2.78"],
  [5, "2.57"],
  [10, "2.23"],
  [20, "2.09"],
] as const;
for (const [freedom, printed] of gumTable) {
  test(`t for 95 % and ${freedom} degrees of freedom is ${printed}, as GUM Table G.2 prints it`, () => {
    expect(tQuantile(0.975, freedom).toFixed(2)).toBe(printed);
  });
}

// Columns of any Student t table, whole and fractional degrees of freedom. SciPy 1.10.1's own t quantiles are right
// to 9 digits: at one degree of freedom it has 12.7062047364 where tan(0.475 pi) is 12.7062047362.
test("t quantiles agree with the reference table to 8 digits", () => {
  const rows = [...reference.studentT.rows, ...reference.studentT.fractionalNu];
  const checked = rows.flatMap((row) => cells(row).map((cell) => ({ ...cell, nu: Number(row.nu) })));
  const finite = checked.filter(({ nu }) => nu > 0);
  expect(finite.length).toBeGreaterThan(80);
  for (const { probability, value, nu } of finite) expect(off(tQuantile(probability, nu), value)).toBeLessThan(1e-8);
});

test("a t quantile leads back to its own tail, from 1 to 10,000,000 degrees of freedom and down to 1e-6", () => {
  for (const nu of [1, 2.3, 9, 137, 1e4, 1e7]) {
    for (const tail of [1e-6, 1e-4, 0.025, 0.3, 0.49]) {
      expect(off(tUpperTail(-tQuantile(tail, nu), nu), tail)).toBeLessThan(1e-7);
    }
  }
});

test("t quantiles are mirrored about 0 and go over into the normal's", () => {
  expect(tQuantile(0.025, 7)).toBe(-tQuantile(0.975, 7));
  expect(tQuantile(0.5, 7)).toBe(0);
  expect(tQuantile(0.975, Infinity)).toBe(normalQuantile(0.975));
  // GUM Table G.2, last row: 1.960.
  expect(normalQuantile(0.975).toFixed(3)).toBe("1.960");
});

test("t close to 0 and far out keeps its digits: one degree of freedom is the Cauchy distribution", () => {
  // Closed form: the Cauchy quantile is tan(pi (p - 1/2)).
  for (const tail of [1e-6, 0.1, 0.2499, 0.2501, 0.4]) {
    expect(off(tQuantile(tail, 1), -1 / Math.tan(Math.PI * tail))).toBeLessThan(1e-11);
  }
});

test("tails of t agree with the reference, also at 2e-23", () => {
  for (const { t, nu, cdf } of reference.studentT.cdf) expect(off(tUpperTail(-t, nu), cdf)).toBeLessThan(1e-12);
});

// Welch tests: sleep data (Student 1908; R help page of t.test) and AUTO83B (NIST/SEMATECH e-Handbook 1.3.5.3).
test("the two-sided p-values of two published Welch tests come out, fractional degrees of freedom included", () => {
  const [sleep, cars] = reference.welch;
  expect(off(2 * tUpperTail(Math.abs(sleep.welch.t), sleep.welch.df), sleep.welch.p)).toBeLessThan(1e-10);
  expect(off(2 * tUpperTail(Math.abs(cars.computed.t), cars.computed.df), cars.computed.p)).toBeLessThan(1e-10);
  expect((2 * tUpperTail(1.8608, 17.776)).toFixed(4)).toBe("0.0794");
});

// NIST/SEMATECH e-Handbook 1.3.6.7.4, to full precision (SciPy).
test("chi-square quantiles agree with the reference table to 12 digits, and their tails lead back", () => {
  const checked = reference.chiSquare.rows.flatMap((row) => cells(row).map((cell) => ({ ...cell, nu: row.nu })));
  expect(checked.length).toBeGreaterThan(60);
  for (const { probability, value, nu } of checked) {
    expect(off(chiSquareQuantile(probability, nu), value)).toBeLessThan(1e-12);
    expect(chiSquareUpperTail(value, nu)).toBeCloseTo(1 - probability, 13);
  }
});

test("chi-square of two degrees of freedom is an exponential, out to tails of 1e-40", () => {
  for (const statistic of [0.1, 3, 50, 184]) {
    expect(off(chiSquareUpperTail(statistic, 2), Math.exp(-statistic / 2))).toBeLessThan(1e-13);
  }
});

// NIST/SEMATECH e-Handbook 1.3.6.7.3, to full precision (SciPy).
test("F quantiles agree with the reference table to 11 digits, and their tails lead back", () => {
  const checked = reference.fisherF.rows.flatMap((row) => cells(row).map((cell) => ({ ...cell, row })));
  expect(checked.length).toBeGreaterThan(30);
  for (const { probability, value, row } of checked) {
    expect(off(fQuantile(probability, row.nu1, row.nu2), value)).toBeLessThan(1e-11);
    expect(off(fUpperTail(value, row.nu1, row.nu2), 1 - probability)).toBeLessThan(1e-11);
  }
});

// Closed form: the reciprocal of an F is an F with its degrees of freedom swapped.
test("the lower tail of F keeps its digits, down to 1e-6", () => {
  for (const [upper, lower] of [
    [1, 137],
    [2.3, 5],
    [40, 1],
    [300, 1000],
  ] as const) {
    for (const tail of [1e-6, 1e-3, 0.4]) {
      expect(off(fQuantile(tail, upper, lower), 1 / fQuantile(1 - tail, lower, upper))).toBeLessThan(1e-8);
    }
  }
});

// NIST/SEMATECH e-Handbook 1.3.5.9 (JAHANMI2.DAT): limits 0.7756 and 1.2894 with 239 and 239 degrees of freedom.
test("the limits of the handbook's F test come out, the lower one too", () => {
  expect(fQuantile(0.025, 239, 239).toFixed(4)).toBe("0.7756");
  expect(fQuantile(0.975, 239, 239).toFixed(4)).toBe("1.2894");
});

const nonsense: readonly (readonly [string, () => number])[] = [
  ["a probability beyond 1e-6", () => tQuantile(1e-7, 5)],
  ["probability 0", () => tQuantile(0, 5)],
  ["probability 1", () => fQuantile(1, 5, 5)],
  ["probability NaN", () => chiSquareQuantile(Number.NaN, 5)],
  ["no degrees of freedom", () => tUpperTail(2, 0)],
  ["degrees of freedom NaN", () => tQuantile(0.9, Number.NaN)],
  ["a negative chi-square", () => chiSquareUpperTail(-1, 3)],
  ["an F of NaN", () => fUpperTail(Number.NaN, 3, 3)],
];
for (const [what, call] of nonsense) {
  test(`${what} is refused, never answered with NaN`, () => {
    expect(call).toThrow(RangeError);
  });
}
