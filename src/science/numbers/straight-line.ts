// Straight lines through readings: by least squares, with errors, covariance and prediction; and by
// Theil and Sen where a few outliers must not turn the line. Distributions are in distributions.ts.

import { SimpleLinearRegression } from "ml-regression";
import { mean, median, medianSorted } from "simple-statistics";
import { normalQuantile, tQuantile } from "./distributions.ts";

/** A least-squares line y = intercept + slope·x. The errors assume independent readings of equal scatter. */
export interface StraightLine {
  readonly slope: number;
  readonly intercept: number;
  readonly slopeStandardError: number;
  readonly interceptStandardError: number;
  /** Of slope and intercept. */
  readonly covariance: number;
  readonly residualStandardDeviation: number;
  readonly degreesOfFreedom: number;
  readonly readings: number;
  readonly meanX: number;
}

/** A line's value at one x, with two 95 % intervals: of the line itself, and of one new reading there. */
export interface LineValue {
  readonly value: number;
  readonly standardError: number;
  readonly low: number;
  readonly high: number;
  readonly newReadingLow: number;
  readonly newReadingHigh: number;
}

/** A Theil-Sen line; `low` and `high` are the 95 % limits of its slope, null where so few readings leave that end open. */
export interface RobustLine {
  readonly slope: number;
  readonly low: number | null;
  readonly high: number | null;
  readonly intercept: number;
  readonly readings: number;
}

/** Theil-Sen looks at every pair of readings: 2,000 make two million. */
export const mostRobustReadings = 2000;

/**
 * Fits a straight line by least squares.
 *
 * @param x and `y` of the same length n, finite, in any order.
 * @returns null when the readings hold no line with an error: fewer than three, or all at the same x.
 * @throws RangeError when the lengths differ or a value is not finite.
 */
export function fitStraightLine(x: ArrayLike<number>, y: ArrayLike<number>): StraightLine | null {
  const [xs, ys] = checkedPairs(x, y);
  const readings = xs.length;
  if (readings < 3 || hasOneValue(xs)) return null;
  const [meanX, meanY] = [mean(xs), mean(ys)];
  // The library sums raw squares, which lose digits far from zero (years, pascals); about the means they do not.
  const fromMeanX = xs.map((value) => value - meanX);
  const fromMeanY = ys.map((value) => value - meanY);
  const { slope } = new SimpleLinearRegression(fromMeanX, fromMeanY);
  const degreesOfFreedom = readings - 2;
  const spreadX = sumOfSquares(fromMeanX);
  const residuals = fromMeanY.map((value, i) => value - slope * fromMeanX[i]);
  const variance = sumOfSquares(residuals) / degreesOfFreedom;
  return {
    slope,
    intercept: meanY - slope * meanX,
    slopeStandardError: Math.sqrt(variance / spreadX),
    interceptStandardError: Math.sqrt(variance * (1 / readings + meanX ** 2 / spreadX)),
    covariance: (-meanX * variance) / spreadX,
    residualStandardDeviation: Math.sqrt(variance),
    degreesOfFreedom,
    readings,
    meanX,
  };
}

/** What a least-squares line says at `x`, and how far it and a new reading may lie from that. */
export function lineValue(line: StraightLine, x: number): LineValue {
  const value = line.intercept + line.slope * x;
  const standardError = Math.hypot(
    line.residualStandardDeviation / Math.sqrt(line.readings),
    line.slopeStandardError * (x - line.meanX),
  );
  const reach = tQuantile(0.975, line.degreesOfFreedom);
  const ofLine = reach * standardError;
  const ofReading = reach * Math.hypot(standardError, line.residualStandardDeviation);
  return {
    value,
    standardError,
    low: value - ofLine,
    high: value + ofLine,
    newReadingLow: value - ofReading,
    newReadingHigh: value + ofReading,
  };
}

/**
 * The median of all pairs' slopes (Theil 1950), with limits from the ranks of the sorted slopes
 * (Sen, J. Am. Stat. Assoc. 63, 1379, 1968; ties of x and of y counted). The intercept is the median of y - slope·x.
 *
 * @param x and `y` of the same length, at most `mostRobustReadings`, finite, in any order.
 * @returns null when there are fewer than two readings or all are at the same x.
 * @throws RangeError when the lengths differ, a value is not finite, or there are too many.
 */
export function fitRobustLine(x: ArrayLike<number>, y: ArrayLike<number>): RobustLine | null {
  const [xs, ys] = checkedPairs(x, y);
  if (xs.length > mostRobustReadings) {
    throw new RangeError(
      `a robust line takes at most ${mostRobustReadings} readings, not ${xs.length}; thin them first`,
    );
  }
  if (xs.length < 2 || hasOneValue(xs)) return null;
  const slopes = pairSlopes(xs, ys);
  // Not ml-regression's own Theil-Sen: of an even number of slopes it takes the lower middle one as the median.
  const slope = medianSorted(slopes);
  const intercept = median(ys.map((value, i) => value - slope * xs[i]));
  return { slope, ...slopeLimits(slopes, xs, ys), intercept, readings: xs.length };
}

function slopeLimits(
  slopes: readonly number[],
  x: readonly number[],
  y: readonly number[],
): Pick<RobustLine, "low" | "high"> {
  const half = normalQuantile(0.975) * concordanceDeviation(x, y);
  const lowRank = Math.round((slopes.length - half) / 2) - 1;
  const highRank = Math.round((slopes.length + half) / 2);
  // A rank beyond the slopes there are: so few readings cannot bound the line on that side.
  return {
    low: lowRank >= 0 ? slopes[lowRank] : null,
    high: highRank < slopes.length ? slopes[highRank] : null,
  };
}

/** The slopes of all pairs, ascending. */
function pairSlopes(x: readonly number[], y: readonly number[]): number[] {
  const slopes: number[] = [];
  for (let i = 0; i < x.length; i++) {
    for (let j = i + 1; j < x.length; j++) {
      if (x[i] !== x[j]) slopes.push((y[j] - y[i]) / (x[j] - x[i]));
    }
  }
  // A typed array sorts numbers, and quicker than a comparison function.
  return [...Float64Array.from(slopes).sort()];
}

/** Standard deviation of the number of rising less falling pairs when there is no slope. */
function concordanceDeviation(x: readonly number[], y: readonly number[]): number {
  const term = (count: number) => count * (count - 1) * (2 * count + 5);
  const ties = (values: readonly number[]) =>
    [...Map.groupBy(values, (value) => value).values()].reduce((sum, group) => sum + term(group.length), 0);
  return Math.sqrt((term(x.length) - ties(x) - ties(y)) / 18);
}

function checkedPairs(x: ArrayLike<number>, y: ArrayLike<number>): [number[], number[]] {
  if (x.length !== y.length) throw new RangeError(`a line needs as many x as y, not ${x.length} and ${y.length}`);
  const pairs: [number[], number[]] = [Array.from(x), Array.from(y)];
  if (!pairs.flat().every(Number.isFinite))
    throw new RangeError("a line needs finite numbers; leave missing readings out");
  return pairs;
}

const hasOneValue = (values: readonly number[]) => values.every((value) => value === values[0]);

const sumOfSquares = (values: readonly number[]) => values.reduce((sum, value) => sum + value * value, 0);
