// How far below ambient a source brings the cabinet, against the ambient: the law through the depths of all given runs
// (stretch-depth.ts), with its uncertainty. keeps-up.ts and hot-day.ts both predict from it.

import type { StretchEvidence } from "../evidence/run-evidence.ts";
import { factor, inverse, solve, zeros } from "../numbers/normal-equations.ts";
import { isUntold } from "../strength/night-spread.ts";
import { combinedVariance, finWeight, type WitnessSpread } from "../strength/witness-spread.ts";
import { type SettledDepth, settledDepth } from "./stretch-depth.ts";

/** Colder runs prove cooling, but the charge behaves differently: they must not feed hot days. °C; common practice, no source. */
export const coolestAmbient = 15;

/**
 * The depth relative to that at `bendsFrom`, as 1 + slope·x + bend·max(0, x)², x the ambient above it in K: nearly level
 * on ordinary days, and losing ground as the heat behind the fridge nears what the charge can still condense in. Absorption
 * fridges lose ground above about 32 °C (common practice, no source); the two figures and their errors are held against
 * simulated fridges in tests/bench/hot-day-study.ts. They give way to the fridge's own runs as soon as those tell more.
 */
export const bendsFrom = 27;
const usualSlope = { perKelvin: -0.002, error: 0.0025 } as const;
const usualBend = { perSquareKelvin: -0.0014, error: 0.0005 } as const;

/**
 * How much weaker cooling costs of the depth, K per unit of its logarithm. Not a share of the depth: of little heat most
 * only keeps the boiler warm, so the cooling of a weak source scatters more, and it loses nearly as many kelvin in a poor
 * night as a sound one. Simulated fridges, tests/bench/hot-day-study.ts.
 */
const kelvinPerLogCooling = 17;

/** However alike the nights are, air, frost and probes leave a settled cabinet open by this much, K: the same study. */
const leastNightly = 0.5;

/** How much the depth differs from night to night, K, where the cooling of these stretches' source differs so much. */
export function nightlyDepth(spread: WitnessSpread, stretches: readonly StretchEvidence[] = []): number {
  const untold = stretches.length > 0 && stretches.every(isUntold) ? (spread.untoldSupply ?? 0) : 0;
  const cooling = Math.sqrt(combinedVariance(spread, finWeight(spread)) + untold);
  return Math.max(leastNightly, kelvinPerLogCooling * cooling);
}

/** That belief weighs like so many degrees of freedom against the runs' own. */
const nightlyFreedom = 3;

/** Depth against ambient. */
export interface DepthLaw {
  readonly points: readonly SettledDepth[];
  /** K per K of ambient on ordinary days, and its error. */
  readonly slope: number;
  readonly slopeError: number;
  /** Whether the runs tell the slope better than the default does. */
  readonly isOwnSlope: boolean;
  readonly coolest: number;
  readonly warmest: number;
  /** Mean of the points. */
  readonly meanAmbient: number;
  readonly meanDepth: number;
  /** How far a run of its own lies from the law, K, standard deviation. */
  readonly nightly: number;
  /** How a depth at `ambient` is made of the law's three numbers. */
  readonly terms: readonly [level: number, slope: number, bend: number];
  /** Lower Cholesky factor of their covariance, row by row. */
  readonly covarianceFactor: readonly number[];
}

/**
 * @param stretches all of one source.
 * @param nightly how much the depth is believed to differ from night to night before these runs tell, K.
 * @returns null when no stretch holds a depth at 15 °C or more.
 */
export function depthLaw(stretches: readonly StretchEvidence[], nightly: number): DepthLaw | null {
  const points = stretches
    .filter((stretch) => stretch.ambient >= coolestAmbient)
    .map(settledDepth)
    .filter((depth) => depth !== null);
  return points.length === 0 ? null : lawThrough(points, nightly);
}

/** The law through points that are there; `believedNightly` as the `nightly` of `depthLaw`. */
export function lawThrough(points: readonly SettledDepth[], believedNightly: number): DepthLaw {
  const level = mean(points.map((point) => point.depth));
  const width = Math.max(level, leastLevel);
  const first = regression(points, level, believedNightly);
  const squares = points.map((point) => {
    const miss = point.depth - depthBy(first.terms, point.ambient);
    return Math.max(0, miss ** 2 - point.standardError ** 2);
  });
  // One run cannot tell how much runs differ.
  const nightly = Math.sqrt(
    (nightlyFreedom * believedNightly ** 2 + sum(squares)) / (nightlyFreedom + points.length - 1),
  );
  const { terms, covariance } = regression(points, level, nightly);
  const ambients = points.map((point) => point.ambient);
  const slopeError = Math.sqrt(covariance[4]);
  return {
    points,
    slope: terms[1],
    slopeError,
    isOwnSlope: slopeError < 0.7 * usualSlope.error * width,
    coolest: Math.min(...ambients),
    warmest: Math.max(...ambients),
    meanAmbient: mean(ambients),
    meanDepth: level,
    nightly,
    terms,
    covarianceFactor: factored(covariance),
  };
}

/** A fridge that hardly cools has hardly a slope, but never one without a width: widths count from here, K. */
const leastLevel = 5;

/** The law at an ambient, °C: K below it, and the error of one more run there. */
export function depthAt(law: DepthLaw, ambient: number): { readonly depth: number; readonly error: number } {
  const reach = basis(ambient);
  const l = law.covarianceFactor;
  const spread = [0, 1, 2].map((column) => sum(reach.map((value, row) => value * l[row * 3 + column])));
  return { depth: Math.max(0, depthBy(law.terms, ambient)), error: Math.hypot(...spread, law.nightly) };
}

/**
 * One law among those that the readings allow: four standard normal numbers pick it.
 *
 * @param further spread of the depth that comes on top of that from run to run, K.
 */
export function drawnTerms(
  law: DepthLaw,
  normals: readonly number[],
  further = 0,
): readonly [level: number, slope: number, bend: number] {
  const l = law.covarianceFactor;
  const [level, slope, bend] = [0, 1, 2].map(
    (row) => law.terms[row] + sum([0, 1, 2].map((column) => l[row * 3 + column] * normals[column])),
  );
  // More heat outside never makes it colder inside: the cabinet is ambient less depth.
  return [level + Math.hypot(law.nightly, further) * normals[3], Math.min(slope, 0.5), Math.min(bend, 0)];
}

/** Kelvins below an ambient (°C) by a law's three terms; below 0 where the law goes there. */
export const depthBy = (terms: readonly [number, number, number], ambient: number): number => {
  const [one, slope, bend] = basis(ambient);
  return terms[0] * one + terms[1] * slope + terms[2] * bend;
};

const basis = (ambient: number): readonly [number, number, number] => [
  1,
  ambient - bendsFrom,
  Math.max(0, ambient - bendsFrom) ** 2,
];

/** Least squares in level, slope and bend; the usual slope and bend stand beside the points as two more readings. */
function regression(points: readonly SettledDepth[], level: number, nightly: number) {
  const matrix = zeros(9);
  const right = zeros(3);
  const add = (row: readonly number[], value: number, error: number) => {
    for (let i = 0; i < 3; i++) {
      right[i] += (row[i] * value) / error ** 2;
      for (let j = 0; j < 3; j++) matrix[i * 3 + j] += (row[i] * row[j]) / error ** 2;
    }
  };
  for (const { ambient, depth, standardError } of points)
    add(basis(ambient), depth, Math.hypot(standardError, nightly));
  const width = Math.max(level, leastLevel);
  add([0, 1, 0], usualSlope.perKelvin * level, usualSlope.error * width);
  add([0, 0, 1], usualBend.perSquareKelvin * level, usualBend.error * width);
  factor(matrix, 3, 3);
  const covariance = inverse(matrix, 3, 3);
  solve(matrix, 3, 3, right);
  return { terms: right as unknown as readonly [number, number, number], covariance };
}

/** Lower Cholesky factor with zeros above the diagonal. */
function factored(covariance: readonly number[]): readonly number[] {
  const lower = [...covariance];
  factor(lower, 3, 3);
  return lower.map((value, i) => (i % 3 > Math.floor(i / 3) ? 0 : value));
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
const mean = (values: readonly number[]) => sum(values) / values.length;
