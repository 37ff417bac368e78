// Where a fit begins: the best of many rate constants, each with its best onset, depth, start and jumps. No start
// values are needed, and no valley can trap it (pull-down-scan.ts).

import { lowestBetween, type Point } from "../numbers/lowest-between.ts";
import type { PullDown } from "./pull-down.ts";
import { PullDownBins } from "./pull-down-bins.ts";
import type { FitContext } from "./pull-down-descent.ts";
import type { PullDownReadings } from "./pull-down-readings.ts";
import { PullDownScan } from "./pull-down-scan.ts";

/** Rate times duration beyond which there is no need to look: a thousandth of a stretch, or a line. */
export const scanRange = { lowest: 0.01, highest: 120 };
/** Rates looked at, each about three times the one before; a look takes a pass over the coarse bins. */
const looks = 9;
const coarseBins = 32;
/** Coarse bins blur the bend at the onset, and from a wrong onset a descent may not find back: it is sought on these. */
const onsetBins = 64;
/** Parabolas between the looks bring ln(rate) to this share of the way between them. */
const enough = 1e-3;

/** A pull-down close to the best; null when no rate explains anything. */
export function startOfFit(
  readings: PullDownReadings,
  { warmingRate, held }: FitContext,
  doorHours: readonly number[],
): PullDown | null {
  const coarse = new PullDownBins(readings, coarseBins).means;
  const scan = new PullDownScan(coarse, warmingRate, held, doorHours);
  const duration = coarse.hours[coarse.hours.length - 1];
  const costAt = (logRate: number) => scan.leastCostAt(Math.exp(logRate));
  const widest = Math.log(scanRange.highest / scanRange.lowest);
  const grid = Array.from({ length: looks }, (_, i): Point => {
    const at = Math.log(scanRange.lowest / duration) + (i * widest) / (looks - 1);
    return { at, cost: costAt(at) };
  });
  const lowest = grid.reduce((best, look, i) => (look.cost < grid[best].cost ? i : best), 0);
  if (grid[lowest].cost === Number.POSITIVE_INFINITY) return null;
  const [slower, faster] = [grid[Math.max(0, lowest - 1)], grid[Math.min(looks - 1, lowest + 1)]];
  const best = lowestBetween(slower, grid[lowest], faster, enough, costAt);
  const finer = new PullDownScan(new PullDownBins(readings, onsetBins).means, warmingRate, held, doorHours);
  const { start, onset, rate, depth, jumps } = finer.bestAt(Math.exp(best.at));
  return {
    start,
    onset,
    rate,
    depth,
    jumps: doorHours.map((hours, j) => ({ hours, kelvin: jumps[j] })).filter((jump) => jump.kelvin > 0),
  };
}
