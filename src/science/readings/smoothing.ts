// Levels and noise of one probe of the working series. Windows are minutes of time, never rows: sampling differs.

import { medianAbsoluteDeviation, medianSorted } from "simple-statistics";
import { msPerMinute } from "../../schema/index.ts";

/**
 * Median of the readings within half of `minutes` on either side of each row. A window wholly without readings gives
 * NaN; with slow sampling it holds the row alone.
 */
export function movingMedian(unixMs: Float64Array, values: Float64Array, minutes: number): Float64Array {
  const half = (minutes / 2) * msPerMinute;
  const result = new Float64Array(values.length);
  // Kept in order while the window moves on: a handful of readings, and sorting anew costs ten times as much.
  const window: number[] = [];
  let from = 0;
  let to = 0;
  for (let i = 0; i < values.length; i++) {
    for (; to < values.length && unixMs[to] <= unixMs[i] + half; to++) insert(window, values[to]);
    for (; unixMs[from] < unixMs[i] - half; from++) remove(window, values[from]);
    const middle = window.length >> 1;
    if (window.length === 0) result[i] = Number.NaN;
    else result[i] = window.length % 2 === 1 ? window[middle] : (window[middle - 1] + window[middle]) / 2;
  }
  return result;
}

function insert(window: number[], value: number): void {
  if (Number.isNaN(value)) return;
  let place = window.length;
  window.push(value);
  for (; place > 0 && window[place - 1] > value; place--) window[place] = window[place - 1];
  window[place] = value;
}

function remove(window: number[], value: number): void {
  if (Number.isNaN(value)) return;
  for (let place = window.indexOf(value); place < window.length - 1; place++) window[place] = window[place + 1];
  window.pop();
}

/** Median of the readings between two instants (both included); NaN when there are none. `near` is a row to look around. */
export function medianBetween(
  unixMs: Float64Array,
  values: Float64Array,
  fromMs: number,
  toMs: number,
  near: number,
): number {
  let row = Math.min(Math.max(near, 0), unixMs.length - 1);
  while (row > 0 && unixMs[row - 1] >= fromMs) row--;
  while (row < unixMs.length && unixMs[row] < fromMs) row++;
  const window: number[] = [];
  for (; row < unixMs.length && unixMs[row] <= toMs; row++) if (!Number.isNaN(values[row])) window.push(values[row]);
  return window.length === 0 ? Number.NaN : medianSorted(window.sort((a, b) => a - b));
}

/** Standard deviation that Gaussian noise of this spread would have; events, being rare, do not count. 0 without values. */
export function robustDeviation(values: ArrayLike<number>): number {
  const finite: number[] = [];
  for (let i = 0; i < values.length; i++) if (Number.isFinite(values[i])) finite.push(values[i]);
  // 1.4826 = 1 / (the normal distribution's upper quartile).
  return finite.length === 0 ? 0 : 1.4826 * medianAbsoluteDeviation(finite);
}

/** Noise of a single reading, from the differences of neighbours; slow changes hardly enter. */
export function readingNoise(values: Float64Array): number {
  const differences = new Float64Array(Math.max(0, values.length - 1));
  for (let i = 1; i < values.length; i++) differences[i - 1] = values[i] - values[i - 1];
  return robustDeviation(differences) / Math.SQRT2;
}
