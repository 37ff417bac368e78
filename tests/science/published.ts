// Published data sets and measured series of tests/reference, in the shape that the fits take.

import { readFileSync } from "node:fs";
import { type FitOptions, type FittedPullDown, fitPullDown } from "../../src/science/pull-down/pull-down-fit.ts";
import type { StretchReadings } from "../../src/science/pull-down/pull-down-readings.ts";

const text = (file: string) => readFileSync(new URL(`../reference/${file}`, import.meta.url), "utf8");

export const published = (file: string) => JSON.parse(text(file));

export interface Certified {
  readonly data: { readonly x: readonly number[]; readonly y: readonly number[] };
  readonly starts: readonly (readonly number[])[];
  readonly certified: {
    readonly parameters: readonly number[];
    readonly standardDeviations: readonly number[];
    readonly residualSumOfSquares: number;
  };
}

/** A data set of NIST's Statistical Reference Datasets. */
export const certified = (name: string): Certified => published(`nist-strd/${name}.json`);

/** A rising curve as a pull-down: y negated, in surroundings of 0 °C. */
export const asPullDown = (x: ArrayLike<number>, y: ArrayLike<number>): StretchReadings => ({
  hours: Float64Array.from(x),
  cabinetCelsius: Float64Array.from(y, (value) => -value),
  ambientCelsius: new Float64Array(x.length),
});

/** Column of the measured step, °C against seconds. */
export function heaterStep(column: "T1" | "T2"): { seconds: number[]; celsius: number[] } {
  const [header, ...lines] = text("series/heater-step.csv").trim().split("\n");
  const names = header.split(",");
  const rows = lines.map((line) => line.split(",").map(Number));
  return {
    seconds: rows.map((row) => row[names.indexOf("Time")]),
    celsius: rows.map((row) => row[names.indexOf(column)]),
  };
}

/** The fit, or a failed test. */
export function fitted(stretch: StretchReadings, options: FitOptions = {}): FittedPullDown {
  const fit = fitPullDown(stretch, options);
  if (fit.outcome !== "fitted") throw new Error(`not fitted: ${fit.reason}`);
  return fit;
}

/** Relative distance from what is expected. */
export const off = (found: number, expected: number): number => Math.abs(found / expected - 1);
