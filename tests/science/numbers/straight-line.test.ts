import { readFileSync } from "node:fs";
import { sampleStandardDeviation } from "simple-statistics";
import { expect, test } from "vitest";
import {
  fitRobustLine,
  fitStraightLine,
  lineValue,
  mostRobustReadings,
} from "../../../src/science/numbers/straight-line.ts";

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
interface RobustExample {
  readonly name: string;
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly slope: number;
  readonly interceptMedianOfResiduals: number;
  readonly ci95: readonly [number, number];
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
  expect(off(fitted.interceptStandardError, certified.standardDeviations[0])).toBeLessThan(1e-11);
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
  expect(fitted.interceptStandardError.toFixed(4)).toBe("0.0029");
  expect(fitted.slope.toFixed(5)).toBe("0.00218");
  expect(fitted.slopeStandardError.toFixed(5)).toBe("0.00067");
  expect(fitted.residualStandardDeviation.toFixed(4)).toBe("0.0035");
  const correlation = fitted.covariance / (fitted.slopeStandardError * fitted.interceptStandardError);
  expect(correlation.toFixed(2)).toBe("-0.93");
  // The predicted correction at 30 °C, H.3.4.
  const at30 = lineValue(fitted, 10);
  expect(at30.value.toFixed(4)).toBe("-0.1494");
  expect(at30.standardError.toFixed(4)).toBe("0.0041");
});

test("the interval for a new reading joins the line's error and the readings' scatter", () => {
  const { gumH3 } = reference("statistics.json");
  const fitted = line(
    gumH3.readings.map((reading: number) => reading - gumH3.t0),
    gumH3.corrections,
  );
  const at30 = lineValue(fitted, 10);
  // t for 95 % and 9 degrees of freedom is 2.2622 (any Student t table); u and s as GUM H.3 gives them, 12 digits.
  expect(at30.high - at30.value).toBeCloseTo(2.262157 * gumH3.computed.u_b30, 8);
  const scatter = Math.hypot(gumH3.computed.u_b30, gumH3.computed.s);
  expect(at30.value - at30.newReadingLow).toBeCloseTo(2.262157 * scatter, 8);
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

// Estimator: Theil (1950), Sen (1968); illustration of Helsel & Hirsch, Statistical Methods in Water Resources (USGS),
// section 10.1; `nhtemp` of R's datasets (Tukey 1977); slopes and limits by SciPy 1.10.1 theilslopes.
const robustExamples: readonly RobustExample[] = reference("statistics.json").theilSen.examples;
for (const example of robustExamples) {
  test(`the Theil-Sen line and Sen's limits of ${example.name} agree with the reference library`, () => {
    const fitted = fitRobustLine(example.x, example.y);
    expect(fitted?.slope).toBeCloseTo(example.slope, 12);
    expect(fitted?.intercept).toBeCloseTo(example.interceptMedianOfResiduals, 9);
    expect(fitted?.low).toBeCloseTo(example.ci95[0], 12);
    expect(fitted?.high).toBeCloseTo(example.ci95[1], 12);
    expect(fitted?.readings).toBe(example.x.length);
  });
}

test("one wild reading turns the least-squares line but not the robust one", () => {
  const { x, y } = robustExamples[0];
  // Helsel & Hirsch, section 10.1: 1 by Theil-Sen, 1.714 by least squares.
  expect(fitRobustLine(x, y)?.slope).toBe(1);
  expect(line(x, y).slope.toFixed(3)).toBe("1.714");
});

// Invented readings in steps of 1/16 K, as cheap probes give them; limits by SciPy 1.17.1 theilslopes. Without the ties
// of x or those of y they would be 0 and 0.0833.
test("equal readings, as coarse probes give them, narrow Sen's limits", () => {
  const ambient = [0, 1, 2, 2, 2, 3, 3, 3, 4, 4, 5, 5];
  const sixteenths = [64, 63, 65, 65, 65, 65, 67, 67, 67, 65, 68, 66];
  const fitted = fitRobustLine(
    ambient,
    sixteenths.map((steps) => steps / 16),
  );
  expect(fitted).toMatchObject({ slope: 0.046875, low: 0.015625, high: 0.078125 });
});

// By hand: the pairs' slopes are 1, 2, 7/3 | 5/2, 3, 4. ml-regression 6.3.0 takes 7/3 for their median.
test("of an even number of slopes and readings the median is the mean of the middle two", () => {
  const fitted = fitRobustLine([0, 1, 2, 3], [0, 1, 5, 7]);
  expect(fitted?.slope).toBeCloseTo((7 / 3 + 5 / 2) / 2, 14);
  // Less the slope, the readings are -17/12, -1/4 | 0, 1/6.
  expect(fitted?.intercept).toBeCloseTo(-1 / 8, 14);
});

test("three readings leave both limits of the robust slope open", () => {
  // By hand: the slopes are 1, 1.5, 2.
  expect(fitRobustLine([1, 2, 3], [1, 2, 4])).toMatchObject({ slope: 1.5, low: null, high: null });
});

test("readings all at one place, or too few, hold no line", () => {
  expect(fitStraightLine([25, 25, 25], [1, 2, 3])).toBeNull();
  expect(fitStraightLine([1, 2], [1, 2])).toBeNull();
  expect(fitRobustLine([25, 25, 25], [1, 2, 3])).toBeNull();
  expect(fitRobustLine([1], [1])).toBeNull();
});

test("unequal lengths, missing values and too many readings are refused", () => {
  expect(() => fitStraightLine([1, 2, 3], [1, 2])).toThrow("as many x as y, not 3 and 2");
  expect(() => fitStraightLine([1, 2, 3], [1, Number.NaN, 3])).toThrow("leave missing readings out");
  const many = new Float64Array(mostRobustReadings + 1);
  expect(() => fitRobustLine(many, many)).toThrow("at most 2000 readings, not 2001");
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
