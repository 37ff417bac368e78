import { readFileSync } from "node:fs";
import { sampleStandardDeviation } from "simple-statistics";
import { expect, test } from "vitest";
import { fitStraightLine } from "../../../src/science/numbers/straight-line.ts";

const reference = (file: string) =>
  JSON.parse(readFileSync(new URL(`../../reference/${file}`, import.meta.url), "utf8"));

interface Certified {
  readonly data: { readonly x: readonly number[]; readonly y: readonly number[] };
  readonly certified: {
    readonly parameters: readonly number[];
    readonly standardDeviations: readonly number[];
    readonly residualStandardDeviation: number;
    readonly degreesOfFreedom: number;
  };
}
const line = (x: readonly number[], y: readonly number[]) => {
  const fitted = fitStraightLine(x, y);
  if (fitted === null) throw new Error("no line");
  return fitted;
};
const off = (found: number, expected: number) => Math.abs(found / expected - 1);

// NIST StRD, linear regression, dataset Norris, certified to 15 digits; double precision leaves 12 or more.
test("a least-squares line and its errors agree with NIST Norris", () => {
  const { data, certified }: Certified = reference("nist-strd/Norris.json");
  const fitted = line(data.x, data.y);
  expect(off(fitted.intercept, certified.parameters[0])).toBeLessThan(1e-11);
  expect(off(fitted.slope, certified.parameters[1])).toBeLessThan(1e-13);
  expect(off(fitted.slopeStandardError, certified.standardDeviations[1])).toBeLessThan(1e-11);
  expect(off(fitted.residualStandardDeviation, certified.residualStandardDeviation)).toBeLessThan(1e-11);
  expect(fitted.degreesOfFreedom).toBe(certified.degreesOfFreedom);
});

// NIST StRD NoInt1 is a line through the origin. Mirrored in the origin its readings have that very line: the
// slope is the same, and the standard error follows with twice the sums and 2n - 2 in place of n - 1.
test("NIST NoInt1, mirrored in the origin, gives the certified line through the origin", () => {
  const { data, certified }: Certified = reference("nist-strd/NoInt1.json");
  const mirrored = (values: readonly number[]) => [...values, ...values.map((value) => -value)];
  const fitted = line(mirrored(data.x), mirrored(data.y));
  expect(fitted.intercept).toBeCloseTo(0, 12);
  expect(off(fitted.slope, certified.parameters[0])).toBeLessThan(1e-13);
  expect(off(fitted.slopeStandardError * Math.SQRT2, certified.standardDeviations[0])).toBeLessThan(1e-12);
  expect(off(fitted.residualStandardDeviation, certified.residualStandardDeviation)).toBeLessThan(1e-12);
});

// JCGM 100:2008 (GUM), Annex H.3: calibration of a thermometer, correction against reading less 20 °C.
test("the thermometer calibration of GUM H.3 comes out as printed", () => {
  const { gumH3 } = reference("statistics.json");
  const fitted = line(
    gumH3.readings.map((reading: number) => reading - gumH3.t0),
    gumH3.corrections,
  );
  expect(fitted.intercept.toFixed(4)).toBe("-0.1712");
  expect(fitted.slope.toFixed(5)).toBe("0.00218");
  expect(fitted.slopeStandardError.toFixed(5)).toBe("0.00067");
  expect(fitted.residualStandardDeviation.toFixed(4)).toBe("0.0035");
});

test("a line keeps its digits far from zero: years and kelvins give the slope of small numbers", () => {
  const y = [2, 3, 5, 4, 6, 8];
  const near = line([1, 2, 3, 4, 5, 6], y);
  const far = line(
    [1, 2, 3, 4, 5, 6].map((x) => x + 1e8),
    y.map((value) => value + 1e6),
  );
  expect(off(far.slope, near.slope)).toBeLessThan(1e-9);
  expect(off(far.slopeStandardError, near.slopeStandardError)).toBeLessThan(1e-9);
});

test("readings all at one place, or too few, hold no line", () => {
  expect(fitStraightLine([25, 25, 25], [1, 2, 3])).toBeNull();
  expect(fitStraightLine([1, 2], [1, 2])).toBeNull();
});

test("unequal lengths and missing values are refused", () => {
  expect(() => fitStraightLine([1, 2, 3], [1, 2])).toThrow("as many x as y, not 3 and 2");
  expect(() => fitStraightLine([1, 2, 3], [1, Number.NaN, 3])).toThrow("leave missing readings out");
});

// NIST StRD, univariate, NumAcc3 and NumAcc4: the certified standard deviation is 0.1 at 10^6 and 10^7. The stored
// readings themselves are right to 1e-9 of the deviation there, so that is the limit asked for.
for (const name of ["NumAcc3", "NumAcc4"]) {
  test(`the library's standard deviation keeps its digits far from zero: NIST ${name}`, () => {
    const { data, certified } = reference(`nist-strd/${name}.json`);
    const values = [data.first, ...Array.from({ length: data.pairs }, () => data.alternate).flat()];
    expect(values).toHaveLength(certified.observations);
    expect(off(sampleStandardDeviation(values), certified.standardDeviation)).toBeLessThan(3e-8);
  });
}
