// How much deeper a fall goes than its one mode says: the air falls fast, and what stands in it creeps after. Two free modes
// (two-modes.ts) trade their numbers against each other; with the air's rate held the slow one is told.

import { solveLeastSquares } from "../numbers/least-squares.ts";
import { lowestBetween, type Point } from "../numbers/lowest-between.ts";
import type { FittedPullDown } from "./pull-down-fit.ts";
import { type Decay, decayOf } from "./two-modes.ts";

/**
 * How fast the air closes on goods that stand in it, 1/h: with 3 to 12 kg of them the simulated cabinets show 0.7 to 1.7, and
 * the empty ones 1.6 and more, which takes nothing away here.
 */
const airRate = 1.3;

/** The slow mode is looked for between these shares of the one mode's rate. */
const [leastShare, mostShare, shares] = [0.1, 1.1, 20];
/** The share of that way below which a better rate is not worth a step. */
const enough = 1e-3;

/** The end of a fall by two modes. */
export interface SlowEnd {
  /** How far below the one mode's end, K; negative where above. */
  readonly further: number;
  /** How far above its end the cabinet still was at the last reading, K. */
  readonly left: number;
}

/** @returns null where too little is there for a shape, or the modes cannot be told apart. */
export function slowEnd(fit: FittedPullDown): SlowEnd | null {
  const decay = decayOf(fit);
  if (decay === null) return null;
  const rates = Array.from(
    { length: shares },
    (_, i) => fit.pullDown.rate * (leastShare + ((mostShare - leastShare) * i) / (shares - 1)),
  );
  const costAt = (at: number) => modesAt(decay, at)?.rss ?? Number.POSITIVE_INFINITY;
  const points = rates.map((at): Point => ({ at, cost: costAt(at) }));
  const lowest = points.reduce((best, { cost }, i) => (cost < points[best].cost ? i : best), 0);
  const [low, high] = [points[lowest - 1], points[lowest + 1]];
  const isInside = low !== undefined && high !== undefined;
  const { at } = isInside ? lowestBetween(low, points[lowest], high, enough, costAt) : points[lowest];
  const found = modesAt(decay, at);
  return found === null ? null : { further: -found.end, left: found.last - found.end };
}

/** Least squares in both amplitudes and the end, for one rate of the slow mode. */
function modesAt({ since, gap }: Decay, slowRate: number) {
  const columns = [slowRate, airRate].map((rate) => since.map((hours) => Math.exp(-rate * hours)));
  const ones = new Float64Array(since.length).fill(1);
  const solved = solveLeastSquares([...columns.map((column) => column.slice()), ones.slice()], gap.slice());
  if (solved === null) return null;
  const [slow, air, end] = solved.solution;
  const curve = since.map((_, i) => slow * columns[0][i] + air * columns[1][i] + end);
  const rss = gap.reduce((sum, value, i) => sum + (value - curve[i]) ** 2, 0);
  return { rss, end, last: curve[curve.length - 1] };
}
