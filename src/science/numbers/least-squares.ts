// Linear least squares by Householder reflections, on plain columns. A matrix library (ml-matrix) gave the same digits,
// but the two-mode fit solves hundreds of small systems per analysis, and the library's copies took two thirds of the
// time from file to verdict (measured with tests/bench/analyse-speed.ts).
//
// Source of the method: Golub & Van Loan, Matrix Computations, 4th ed. (2013), section 5.3.2.

/** Below this share of the largest, a pivot says that the columns cannot be told apart. */
const leastPivot = 1e-14;

export interface LeastSquares {
  readonly solution: Float64Array;
  /** Diagonal of the inverse of A'A: times s² it is the variance of each coefficient. */
  readonly inverseDiagonal: Float64Array;
}

/**
 * Minimises |columns · solution - right|.
 *
 * @param columns n columns of m ≥ n numbers; overwritten.
 * @param right m numbers; overwritten.
 * @returns null when the columns cannot be told apart.
 */
export function solveLeastSquares(columns: readonly Float64Array[], right: Float64Array): LeastSquares | null {
  const size = columns.length;
  const diagonal = new Float64Array(size);
  let largest = 0;
  for (let k = 0; k < size; k++) {
    const reflector = columns[k];
    let square = 0;
    for (let i = k; i < right.length; i++) square += reflector[i] * reflector[i];
    const pivot = reflector[k] > 0 ? -Math.sqrt(square) : Math.sqrt(square);
    largest = Math.max(largest, Math.abs(pivot));
    if (!(Math.abs(pivot) > leastPivot * largest)) return null;
    diagonal[k] = pivot;
    reflector[k] -= pivot;
    const scale = -pivot * reflector[k];
    for (let j = k + 1; j <= size; j++) {
      const target = j < size ? columns[j] : right;
      let product = 0;
      for (let i = k; i < right.length; i++) product += reflector[i] * target[i];
      const share = product / scale;
      for (let i = k; i < right.length; i++) target[i] -= share * reflector[i];
    }
  }
  return { solution: backSubstituted(columns, diagonal, right), inverseDiagonal: inverseDiagonal(columns, diagonal) };
}

/** Solves R x = right, R above the diagonal in the columns. */
function backSubstituted(columns: readonly Float64Array[], diagonal: Float64Array, right: Float64Array): Float64Array {
  const solution = new Float64Array(diagonal.length);
  for (let row = diagonal.length - 1; row >= 0; row--) {
    let sum = right[row];
    for (let j = row + 1; j < diagonal.length; j++) sum -= columns[j][row] * solution[j];
    solution[row] = sum / diagonal[row];
  }
  return solution;
}

/** Squared length of each row of the inverse of R. */
function inverseDiagonal(columns: readonly Float64Array[], diagonal: Float64Array): Float64Array {
  const result = new Float64Array(diagonal.length);
  const unit = new Float64Array(diagonal.length);
  for (let j = 0; j < diagonal.length; j++) {
    unit.fill(0);
    unit[j] = 1;
    const column = backSubstituted(columns, diagonal, unit);
    for (let row = 0; row <= j; row++) result[row] += column[row] ** 2;
  }
  return result;
}
