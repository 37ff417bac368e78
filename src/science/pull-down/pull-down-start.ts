// Where a fit begins: the best of many rate constants, each with its best onset, depth, start and jumps. No start
// values are needed, and no valley can trap it (pull-down-scan.ts).

import type { PullDown } from "./pull-down.ts";
import { PullDownBins } from "./pull-down-bins.ts";
import type { FitContext } from "./pull-down-descent.ts";
import type { PullDownReadings } from "./pull-down-readings.ts";
import { PullDownScan } from "./pull-down-scan.ts";

/** Rate times duration beyond which there is no need to look: a thousandth of a stretch, or a line. */
export const scanRange = { lowest: 0.01, highest: 120 };
const scanRatio = 2;
const coarseBins = 32;

/** A pull-down close to the best, seen on coarse bins; null when no rate explains anything. */
export function startOfFit(
  readings: PullDownReadings,
  { warmingRate, held }: FitContext,
  doorHours: readonly number[],
): PullDown | null {
  const coarse = new PullDownBins(readings, coarseBins).means;
  const scan = new PullDownScan(coarse, warmingRate, held, doorHours);
  const duration = coarse.hours[coarse.hours.length - 1];
  let best = { rate: 0, rss: Number.POSITIVE_INFINITY };
  const look = (rate: number) => {
    const rss = scan.leastCostAt(rate);
    if (rss < best.rss) best = { rate, rss };
  };
  for (let reach = scanRange.lowest; reach <= scanRange.highest; reach *= scanRatio) look(reach / duration);
  if (best.rate === 0) return null;
  // Between the grid's rates the cost has one minimum; two more looks bring the rate within a tenth.
  for (let ratio = Math.sqrt(scanRatio); ratio > 1.1; ratio = Math.sqrt(ratio)) {
    const { rate, rss } = best;
    look(rate * ratio);
    if (best.rss === rss) look(rate / ratio);
  }
  const { start, onset, rate, depth, jumps } = scan.bestAt(best.rate);
  return {
    start,
    onset,
    rate,
    depth,
    jumps: doorHours.map((hours, j) => ({ hours, kelvin: jumps[j] })).filter((jump) => jump.kelvin > 0),
  };
}
