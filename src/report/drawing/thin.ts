// Fewer points for the same picture: of each run of neighbours only the first, the lowest, the highest
// and the last stay, so that no spike and no gap is lost.

/**
 * Indices to keep, ascending.
 *
 * @param values the series; NaN is a missing reading, and the first of each gap is kept so that the pen lifts there.
 * @param buckets into how many runs of neighbours the series is cut; short series stay whole.
 */
export function thin(values: Float64Array, buckets: number): number[] {
  if (values.length <= 4 * buckets) return Array.from(values.keys());
  const kept: number[] = [];
  for (let bucket = 0; bucket < buckets; bucket++) {
    // Multiplied before divided, so that the last run ends exactly at the last reading.
    const from = Math.floor((bucket * values.length) / buckets);
    const to = Math.floor(((bucket + 1) * values.length) / buckets);
    kept.push(...tellingOf(values, from, to));
  }
  return kept;
}

function tellingOf(values: Float64Array, from: number, to: number): number[] {
  const wanted = new Set([from, to - 1]);
  let lowest = -1;
  let highest = -1;
  for (let i = from; i < to; i++) {
    if (!Number.isFinite(values[i])) {
      if (i === from || Number.isFinite(values[i - 1])) wanted.add(i);
      continue;
    }
    if (lowest < 0 || values[i] < values[lowest]) lowest = i;
    if (highest < 0 || values[i] > values[highest]) highest = i;
  }
  if (lowest >= 0) wanted.add(lowest).add(highest);
  return [...wanted].sort((a, b) => a - b);
}

/** About `rows` indices, evenly spread, first and last included: for tables, where even steps read best. */
export function evenly(length: number, rows: number): number[] {
  if (length <= rows) return Array.from({ length }, (_, i) => i);
  return Array.from({ length: rows }, (_, row) => Math.round((row * (length - 1)) / (rows - 1)));
}
