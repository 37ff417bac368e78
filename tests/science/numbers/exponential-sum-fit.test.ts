import { describe, expect, test } from "vitest";
import { type ExponentialSumFit, fitExponentialSum } from "../../../src/science/numbers/exponential-sum-fit.ts";
import { type Certified, certified, off, published } from "../published.ts";

const fitted = (fit: ExponentialSumFit | null) => {
  if (fit === null) throw new Error("the terms could not be told apart");
  return fit;
};

/** A published model: where its rates, amplitudes and constant stand among its parameters, rates ascending. */
interface Layout {
  readonly terms: 2 | 3;
  readonly rates: readonly number[];
  readonly amplitudes: readonly number[];
  readonly constant: number | null;
}
const ofMgh17: Layout = { terms: 2, rates: [3, 4], amplitudes: [1, 2], constant: 0 };
const ofLanczos3: Layout = { terms: 3, rates: [1, 3, 5], amplitudes: [0, 2, 4], constant: null };

/** The largest relative distance of a value and of a standard error from the certified ones. */
function worst(set: Certified, layout: Layout, startRates?: readonly number[]) {
  const { parameters, standardDeviations } = set.certified;
  const [x, y] = [Float64Array.from(set.data.x), Float64Array.from(set.data.y)];
  const fit = fitted(fitExponentialSum(x, y, layout.terms, layout.constant !== null, startRates));
  const values: number[] = [];
  const errors: number[] = [];
  const compare = (value: number, error: number, at: number) => {
    values.push(off(value, parameters[at]));
    errors.push(off(error, standardDeviations[at]));
  };
  for (const [j, at] of layout.rates.entries()) compare(fit.rates[j], fit.standardErrors.rates[j], at);
  for (const [j, at] of layout.amplitudes.entries()) compare(fit.amplitudes[j], fit.standardErrors.amplitudes[j], at);
  if (layout.constant !== null) compare(fit.constant, fit.standardErrors.constant, layout.constant);
  return {
    value: Math.max(...values),
    standardError: Math.max(...errors),
    rss: off(fit.rss, set.certified.residualSumOfSquares),
  };
}

// NIST StRD, nonlinear regression, certified to 11 digits. Both starts of MGH17 give the rates alone: the rest is
// linear. Starts 1 are known to defeat weaker codes.
describe("two modes and a constant agree with NIST MGH17 to 9 digits", () => {
  const set = certified("MGH17");
  for (const [name, start] of [
    ["from NIST's first start", set.starts[0]],
    ["from NIST's second start", set.starts[1]],
    ["from the scan", undefined],
  ] as const) {
    test(name, () => {
      const found = worst(set, ofMgh17, start && ofMgh17.rates.map((at) => start[at]));
      expect(found.value).toBeLessThan(1e-9);
      expect(found.standardError).toBeLessThan(1e-9);
      expect(found.rss).toBeLessThan(1e-10);
    });
  }
});

// NIST StRD Lanczos3: three exponentials so alike that the normal equations have a condition number of 1e14; MINPACK
// with numeric derivatives keeps 5 digits (run for this project).
describe("the general core, three exponentials without a constant, agrees with NIST Lanczos3 to 6 digits or more", () => {
  const set = certified("Lanczos3");
  for (const [name, start] of [
    ["from NIST's first start", set.starts[0]],
    ["from NIST's second start", set.starts[1]],
    ["from the scan", undefined],
  ] as const) {
    test(name, () => {
      const found = worst(set, ofLanczos3, start && ofLanczos3.rates.map((at) => start[at]));
      expect(found.value).toBeLessThan(3e-7);
      expect(found.standardError).toBeLessThan(3e-7);
      expect(found.rss).toBeLessThan(1e-9);
    });
  }
});

// R 4.2.2 nls, polished to 13 digits: Indometh, subject 1 (SSbiexp), and the black coffee as two exponentials.
describe("two exponentials agree with R's nls", () => {
  const { fits } = published("curves.json");
  test("Indometh 1, without a constant", () => {
    const { data, parameters, standardErrors, residualSumOfSquares } = fits.indometh1;
    const fit = fitted(fitExponentialSum(Float64Array.from(data.x), Float64Array.from(data.y), 2, false));
    expect(off(fit.amplitudes[1], parameters.A1)).toBeLessThan(1e-9);
    expect(off(Math.log(fit.rates[1]), parameters.lrc1)).toBeLessThan(1e-9);
    expect(off(fit.amplitudes[0], parameters.A2)).toBeLessThan(1e-9);
    expect(off(Math.log(fit.rates[0]), parameters.lrc2)).toBeLessThan(1e-9);
    expect(off(fit.standardErrors.amplitudes[1], standardErrors.A1)).toBeLessThan(1e-8);
    expect(off(fit.standardErrors.rates[1] / fit.rates[1], standardErrors.lrc1)).toBeLessThan(1e-8);
    expect(off(fit.standardErrors.amplitudes[0], standardErrors.A2)).toBeLessThan(1e-8);
    expect(off(fit.standardErrors.rates[0] / fit.rates[0], standardErrors.lrc2)).toBeLessThan(1e-8);
    expect(off(fit.rss, residualSumOfSquares)).toBeLessThan(1e-11);
  });
  // The constant trades against the slow mode (7 ± 33 °C): 5 digits are what is left of the stop.
  test("black coffee, with a constant", () => {
    const { data, parameters, standardErrors, residualSumOfSquares } = fits.coffeeBlackTwoExponentials;
    const fit = fitted(fitExponentialSum(Float64Array.from(data.x), Float64Array.from(data.y), 2, true));
    expect(off(fit.rates[1], parameters.k1)).toBeLessThan(1e-6);
    expect(off(fit.rates[0], parameters.k2)).toBeLessThan(1e-6);
    expect(off(fit.constant, parameters.A)).toBeLessThan(1e-5);
    expect(off(fit.standardErrors.rates[0], standardErrors.k2)).toBeLessThan(1e-5);
    expect(off(fit.rss, residualSumOfSquares)).toBeLessThan(1e-11);
  });
});

test("a constant series holds no second mode, and says so or fits it exactly", () => {
  const x = Float64Array.from({ length: 30 }, (_, i) => i);
  const fit = fitExponentialSum(x, new Float64Array(30).fill(5), 2, true);
  expect(fit === null || fit.rss < 1e-20).toBe(true);
});
