// Fewer points for the same picture: of each short span of time only the first, lowest, highest and last reading stay, so that
// no spike and no gap is lost. For curves on a screen; thinner ones are fetched anew on zooming in.

import { firstAtOrAfter } from "../numbers/first-at-or-after.ts";
import { gapMs } from "./gaps.ts";

/** Readings that stay. */
export interface KeptReadings {
  /** Indices, ascending. */
  readonly indices: Uint32Array;
  /** Readings between the two instants, kept or not. */
  readonly readings: number;
  /** Pairs of indices: the last reading before a gap, the first after it. */
  readonly gaps: readonly (readonly [before: number, after: number])[];
}

/**
 * Chooses the readings to draw between two instants, and one on either side so that lines run on to the edge.
 *
 * @param unixMs strictly ascending
 * @param values as long; finite
 * @param points about so many are wanted at most: four for each span of time
 */
export function keepExtremes(
  unixMs: Float64Array,
  values: Float64Array,
  span: { readonly fromUnixMs: number; readonly toUnixMs: number },
  points: number,
): KeptReadings {
  const from = firstAtOrAfter(unixMs, span.fromUnixMs);
  const to = firstAtOrAfter(unixMs, span.toUnixMs);
  const [begin, end] = [Math.max(0, from - 1), Math.min(unixMs.length, to + 1)];
  const longest = gapMs(unixMs);
  const gaps: [number, number][] = [];
  for (let i = begin + 1; i < end; i++) if (unixMs[i] - unixMs[i - 1] > longest) gaps.push([i - 1, i]);
  const kept = end - begin <= points ? everyIndex(begin, end) : tellingIndices(unixMs, values, begin, end, points);
  return { indices: withGapEnds(kept, gaps), readings: to - from, gaps };
}

const everyIndex = (begin: number, end: number) => Uint32Array.from({ length: end - begin }, (_, i) => begin + i);

function tellingIndices(
  unixMs: Float64Array,
  values: Float64Array,
  begin: number,
  end: number,
  points: number,
): Uint32Array {
  const spans = Math.max(1, Math.floor(points / 4));
  const kept = new Uint32Array(4 * spans);
  const start = unixMs[begin];
  // The last reading belongs to the last span.
  const width = ((unixMs[end - 1] - start) / spans) * (1 + 1e-9);
  let count = 0;
  let i = begin;
  while (i < end) {
    const edge = start + (Math.floor((unixMs[i] - start) / width) + 1) * width;
    const first = i;
    let lowest = i;
    let highest = i;
    for (i++; i < end && unixMs[i] < edge; i++) {
      if (values[i] < values[lowest]) lowest = i;
      if (values[i] > values[highest]) highest = i;
    }
    const last = i - 1;
    const [early, late] = lowest < highest ? [lowest, highest] : [highest, lowest];
    kept[count++] = first;
    if (early > first) kept[count++] = early;
    if (late > early && late < last) kept[count++] = late;
    if (last > Math.max(first, early)) kept[count++] = last;
  }
  return kept.subarray(0, count);
}

/** Both ends of every gap stay, so that a lifted pen is lifted at the right place. */
function withGapEnds(kept: Uint32Array, gaps: readonly (readonly [number, number])[]): Uint32Array {
  if (gaps.length === 0) return kept;
  return Uint32Array.from(new Set([...kept, ...gaps.flat()])).sort();
}
