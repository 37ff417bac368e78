// The general core: a sum of decaying exponentials, with or without a constant, by least squares. Two modes of
// a cabinet (air and contents) are one use of it; see two-modes.ts.

import { solveLeastSquares } from "./least-squares.ts";

export interface ExponentialSumFit {
  /** Decay rates in the reciprocal unit of x, ascending, and the amplitude of each. */
  readonly rates: readonly number[];
  readonly amplitudes: readonly number[];
  readonly constant: number;
  readonly rss: number;
  /** In the order of rates and amplitudes; the constant's is 0 when there is none. */
  readonly standardErrors: {
    readonly rates: readonly number[];
    readonly amplitudes: readonly number[];
    readonly constant: number;
  };
  readonly residual: Float64Array;
}

const mostSteps = 200;
/** Where the rates stand still to every digit of a double. */
const toTheLastDigit = 1e-13;

/**
 * Fits y = constant + sum of amplitude exp(-rate x).
 *
 * For given rates the rest is linear and is solved by reflections; the rates move by Gauss-Newton steps on the whole
 * Jacobian, damped until the sum of squares falls (separable least squares; Ruhe & Wedin, SIAM Rev. 22, 1980).
 *
 * @param startRates one rate per term, all different; from a scan when left out.
 * @param enough the relative change of the rates below which the search ends.
 * @returns null when the terms cannot be told apart in these readings.
 */
export function fitExponentialSum(
  x: Float64Array,
  y: Float64Array,
  terms: 1 | 2 | 3,
  withConstant: boolean,
  startRates: readonly number[] = scannedRates(x, y, terms, withConstant),
  enough = toTheLastDigit,
): ExponentialSumFit | null {
  let now = linearAt(x, y, startRates, withConstant);
  if (now === null) return null;
  let damping = 1e-3;
  let jacobian = jacobianAt(x, now);
  for (let step = 0; step < mostSteps; step++) {
    const change = dampedStep(jacobian, now.residual, terms, damping);
    if (change === null) return null;
    const rates = now.rates.map((rate, j) => rate * Math.exp(Math.max(-1, Math.min(1, change[j]))));
    const next = linearAt(x, y, rates, withConstant);
    const size = Math.max(...change.map(Math.abs));
    if (next !== null && next.rss <= now.rss) {
      now = next;
      jacobian = jacobianAt(x, now);
      damping = Math.max(damping / 10, 1e-18);
      if (size < enough) break;
    } else if (damping > 1e8 || size < enough) break;
    else damping *= 10;
  }
  return finished(now, jacobian, withConstant);
}

interface LinearPart {
  readonly rates: readonly number[];
  /** One decay per rate, and ones for a constant. */
  readonly columns: readonly Float64Array[];
  /** Amplitudes, then the constant when there is one. */
  readonly coefficients: Float64Array;
  readonly residual: Float64Array;
  readonly rss: number;
}

function columnsFor(x: Float64Array, rates: readonly number[], withConstant: boolean): Float64Array[] {
  const columns = rates.map((rate) => x.map((value) => Math.exp(-rate * value)));
  return withConstant ? [...columns, new Float64Array(x.length).fill(1)] : columns;
}

function linearAt(
  x: Float64Array,
  y: Float64Array,
  rates: readonly number[],
  withConstant: boolean,
): LinearPart | null {
  const columns = columnsFor(x, rates, withConstant);
  const solved = solveLeastSquares(copied(columns), y.slice());
  if (solved === null) return null;
  const coefficients = solved.solution;
  const residual = y.slice();
  for (const [j, column] of columns.entries()) {
    for (let i = 0; i < residual.length; i++) residual[i] -= coefficients[j] * column[i];
  }
  const rss = residual.reduce((sum, r) => sum + r * r, 0);
  return Number.isFinite(rss) ? { rates, columns, coefficients, residual, rss } : null;
}

/** Columns: d/d ln(rate) per term, then the amplitudes and the constant. */
function jacobianAt(x: Float64Array, { rates, columns, coefficients }: LinearPart): Float64Array[] {
  const slopes = rates.map((rate, j) => x.map((value, i) => -coefficients[j] * rate * value * columns[j][i]));
  return [...slopes, ...columns];
}

const copied = (columns: readonly Float64Array[]) => columns.map((column) => column.slice());

/** Change of the log rates; Levenberg's damping as extra rows, scaled by each column. */
function dampedStep(
  jacobian: readonly Float64Array[],
  residual: Float64Array,
  terms: number,
  damping: number,
): readonly number[] | null {
  const rows = residual.length;
  const extended = jacobian.map((column, j) => {
    const longer = new Float64Array(rows + terms);
    longer.set(column);
    if (j < terms) longer[rows + j] = Math.sqrt(damping * column.reduce((sum, value) => sum + value * value, 0));
    return longer;
  });
  const right = new Float64Array(rows + terms);
  right.set(residual);
  const solved = solveLeastSquares(extended, right);
  return solved?.solution.every(Number.isFinite) ? Array.from(solved.solution.subarray(0, terms)) : null;
}

function finished(
  part: LinearPart,
  jacobian: readonly Float64Array[],
  withConstant: boolean,
): ExponentialSumFit | null {
  const terms = part.rates.length;
  const variance = part.rss / Math.max(1, part.residual.length - jacobian.length);
  const solved = solveLeastSquares(copied(jacobian), part.residual.slice());
  if (solved === null) return null;
  const errors = solved.inverseDiagonal.map((entry) => Math.sqrt(variance * entry));
  const order = part.rates.map((_, j) => j).sort((a, b) => part.rates[a] - part.rates[b]);
  return {
    rates: order.map((j) => part.rates[j]),
    amplitudes: order.map((j) => part.coefficients[j]),
    constant: withConstant ? part.coefficients[terms] : 0,
    rss: part.rss,
    standardErrors: {
      rates: order.map((j) => errors[j] * part.rates[j]),
      amplitudes: order.map((j) => errors[terms + j]),
      constant: withConstant ? errors[2 * terms] : 0,
    },
    residual: part.residual,
  };
}

/** The best set of rates on a grid of factor 2, seen on at most 64 evenly picked readings. */
function scannedRates(x: Float64Array, y: Float64Array, terms: number, withConstant: boolean): readonly number[] {
  const stride = Math.max(1, Math.floor(x.length / 64));
  const fewX = x.filter((_, i) => i % stride === 0);
  const fewY = y.filter((_, i) => i % stride === 0);
  const span = x[x.length - 1] - Math.min(0, x[0]);
  const grid = Array.from({ length: 9 }, (_, i) => (0.25 * 2 ** i) / span);
  let best: LinearPart | null = null;
  for (const rates of choices(grid, terms)) {
    const found = linearAt(fewX, fewY, rates, withConstant);
    if (found !== null && (best === null || found.rss < best.rss)) best = found;
  }
  return best?.rates ?? grid.slice(0, terms);
}

/** Every way to take `count` of the values, in order. */
function choices(values: readonly number[], count: number): readonly (readonly number[])[] {
  if (count === 0) return [[]];
  return values.flatMap((value, at) => choices(values.slice(at + 1), count - 1).map((rest) => [value, ...rest]));
}
