// A straight line through readings by least squares, with the slope's error.

import { SimpleLinearRegression } from "ml-regression";
import { mean } from "simple-statistics";

/** A least-squares line y = intercept + slope·x. The errors assume independent readings of equal scatter. */
export interface StraightLine {
  readonly slope: number;
  readonly intercept: number;
  readonly slopeStandardError: number;
  readonly residualStandardDeviation: number;
  readonly degreesOfFreedom: number;
  readonly readings: number;
  readonly meanX: number;
}

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
    residualStandardDeviation: Math.sqrt(variance),
    degreesOfFreedom,
    readings,
    meanX,
  };
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
