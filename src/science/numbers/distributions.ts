// Quantiles and upper tails of the t, F, chi-square and normal distributions, for any degrees of freedom
// above 0, whole or not. The arithmetic is that of the Cephes library (S. L. Moshier); here are only the
// identities that lead to its incomplete beta and gamma functions without losing digits in a tail.
// Quantiles are right to 8 digits or more, tails to 12.

import { compiled, igamc, igami, incbet, incbi, ndtr, ndtri } from "./cephes.cjs";

// The library is WebAssembly and compiles once, when this module is loaded.
await compiled;

/**
 * The value that a standard normal variable stays below with the given probability.
 *
 * @param probability from 1e-6 to 1 - 1e-6.
 * @throws RangeError for any other probability.
 */
export function normalQuantile(probability: number): number {
  checkProbability(probability);
  return ndtri(probability);
}

/**
 * The probability that a standard normal variable stays below a value.
 *
 * @example normalBelow(1.96) // 0.975
 */
export const normalBelow = (value: number): number => ndtr(value);

/**
 * The value that Student's t stays below with the given probability.
 *
 * @param probability from 1e-6 to 1 - 1e-6; 0.975 for a two-sided 95 % interval.
 * @param degreesOfFreedom above 0; Infinity gives the normal quantile.
 * @throws RangeError for any other argument.
 * @example tQuantile(0.975, 9) // 2.262
 */
export function tQuantile(probability: number, degreesOfFreedom: number): number {
  checkProbability(probability);
  if (degreesOfFreedom === Infinity) return ndtri(probability);
  checkDegreesOfFreedom(degreesOfFreedom);
  const bothTails = 2 * Math.min(probability, 1 - probability);
  // The square of t is an F with one degree of freedom above.
  const size = Math.sqrt(ratioBetweenTails(1 - bothTails, bothTails, 1, degreesOfFreedom));
  return probability < 0.5 ? -size : size;
}

/**
 * The probability that Student's t exceeds `t`. Twice the tail of |t| is the two-sided p-value.
 *
 * @throws RangeError when t is NaN or the degrees of freedom are not above 0 and finite.
 */
export function tUpperTail(t: number, degreesOfFreedom: number): number {
  checkDegreesOfFreedom(degreesOfFreedom);
  checkStatistic(t);
  const tail = fUpperTail(t * t, 1, degreesOfFreedom) / 2;
  return t < 0 ? 1 - tail : tail;
}

/**
 * The value that Fisher's F stays below with the given probability.
 *
 * @param upperFreedom degrees of freedom of the numerator, `lowerFreedom` those of the denominator; above 0.
 * @throws RangeError for a probability outside 1e-6 to 1 - 1e-6 or degrees of freedom not above 0 and finite.
 * @example fQuantile(0.95, 2, 100) // 3.087
 */
export function fQuantile(probability: number, upperFreedom: number, lowerFreedom: number): number {
  checkProbability(probability);
  checkDegreesOfFreedom(upperFreedom);
  checkDegreesOfFreedom(lowerFreedom);
  return ratioBetweenTails(probability, 1 - probability, upperFreedom, lowerFreedom);
}

/**
 * The probability that Fisher's F exceeds `ratio`.
 *
 * @throws RangeError when the ratio is negative or NaN, or the degrees of freedom are not above 0 and finite.
 */
export function fUpperTail(ratio: number, upperFreedom: number, lowerFreedom: number): number {
  checkDegreesOfFreedom(upperFreedom);
  checkDegreesOfFreedom(lowerFreedom);
  checkStatistic(ratio, 0);
  if (ratio === Infinity) return 0;
  return incbet(lowerFreedom / 2, upperFreedom / 2, lowerFreedom / (lowerFreedom + upperFreedom * ratio));
}

/**
 * The value that chi-square stays below with the given probability.
 *
 * @throws RangeError for a probability outside 1e-6 to 1 - 1e-6 or degrees of freedom not above 0 and finite.
 * @example chiSquareQuantile(0.95, 1) // 3.841
 */
export function chiSquareQuantile(probability: number, degreesOfFreedom: number): number {
  checkProbability(probability);
  checkDegreesOfFreedom(degreesOfFreedom);
  return 2 * igami(degreesOfFreedom / 2, 1 - probability);
}

/**
 * The probability that chi-square exceeds `statistic`.
 *
 * @throws RangeError when the statistic is negative or NaN, or the degrees of freedom are not above 0 and finite.
 */
export function chiSquareUpperTail(statistic: number, degreesOfFreedom: number): number {
  checkDegreesOfFreedom(degreesOfFreedom);
  checkStatistic(statistic, 0);
  return statistic === Infinity ? 0 : igamc(degreesOfFreedom / 2, statistic / 2);
}

/** The F between two tails that add to 1. */
function ratioBetweenTails(below: number, above: number, upperFreedom: number, lowerFreedom: number): number {
  // lower / (lower + upper F) is a beta variable, and so is 1 less it. The library finds a beta variable from a small
  // tail well, and goes astray from one close to 1: ask for the side whose tail is the smaller.
  if (above <= below) {
    const share = incbi(lowerFreedom / 2, upperFreedom / 2, above);
    return (lowerFreedom * (1 - share)) / (upperFreedom * share);
  }
  const share = incbi(upperFreedom / 2, lowerFreedom / 2, below);
  return (lowerFreedom * share) / (upperFreedom * (1 - share));
}

/** Beyond, the library's inverse of the beta distribution can be wrong in every digit (t, 10^5 degrees, 1e-7). */
const smallestTail = 1e-6;

function checkProbability(probability: number): void {
  if (!(probability >= smallestTail && probability <= 1 - smallestTail)) {
    throw new RangeError(
      `a quantile needs a probability from ${smallestTail} to 1 - ${smallestTail}, not ${probability}`,
    );
  }
}

function checkDegreesOfFreedom(degreesOfFreedom: number): void {
  if (!(degreesOfFreedom > 0 && degreesOfFreedom < Infinity)) {
    throw new RangeError(`degrees of freedom must be above 0 and finite, not ${degreesOfFreedom}`);
  }
}

function checkStatistic(value: number, least = -Infinity): void {
  if (!(value >= least)) throw new RangeError(`a tail needs a statistic of at least ${least}, not ${value}`);
}
