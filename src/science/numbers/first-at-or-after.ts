// Where something begins in a row in order.

/**
 * The index of the first value that is not before `at`; the length when there is none.
 *
 * @param ascending values in order; equal ones may stand together
 */
export function firstAtOrAfter(ascending: Float64Array, at: number): number {
  let low = 0;
  let high = ascending.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (ascending[middle] < at) low = middle + 1;
    else high = middle;
  }
  return low;
}
