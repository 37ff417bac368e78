// Small symmetric positive systems, solved in place many times per fit. A matrix library allocates an object per call
// and took longer here than the sums themselves. Plain arrays, because a typed array of
// more than eight numbers takes longer to make than such a system to solve.

/** So many zeros, to be filled. The array's own fill takes five times as long. */
export function zeros(length: number): number[] {
  const result = new Array<number>(length);
  for (let i = 0; i < length; i++) result[i] = 0;
  return result;
}

/**
 * Cholesky factor of the leading `size` rows of a symmetric matrix, row by row with `stride` columns.
 * Only the lower triangle is read; it is overwritten by the factor.
 *
 * @returns false when the matrix is not positive definite to 12 digits: the readings do not hold
 *   that many parameters.
 */
export function factor(matrix: number[], size: number, stride: number): boolean {
  for (let row = 0; row < size; row++) {
    for (let column = 0; column <= row; column++) {
      let sum = matrix[row * stride + column];
      const diagonal = sum;
      for (let k = 0; k < column; k++) sum -= matrix[row * stride + k] * matrix[column * stride + k];
      if (row !== column) matrix[row * stride + column] = sum / matrix[column * stride + column];
      else if (sum > 1e-13 * diagonal && diagonal > 0) matrix[row * stride + row] = Math.sqrt(sum);
      else return false;
    }
  }
  return true;
}

/** Solves with the factor; `right` is overwritten by the solution. */
export function solve(factored: number[], size: number, stride: number, right: number[]): void {
  for (let row = 0; row < size; row++) {
    let sum = right[row];
    for (let k = 0; k < row; k++) sum -= factored[row * stride + k] * right[k];
    right[row] = sum / factored[row * stride + row];
  }
  for (let row = size - 1; row >= 0; row--) {
    let sum = right[row];
    for (let k = row + 1; k < size; k++) sum -= factored[k * stride + row] * right[k];
    right[row] = sum / factored[row * stride + row];
  }
}

/** The matrix's inverse from its factor, row by row, `size` columns. */
export function inverse(factored: number[], size: number, stride: number): number[] {
  const result = zeros(size * size);
  const unit = zeros(size);
  for (let column = 0; column < size; column++) {
    unit.fill(0);
    unit[column] = 1;
    solve(factored, size, stride, unit);
    for (let row = 0; row < size; row++) result[row * size + column] = unit[row];
  }
  return result;
}
