// From a pull-down close by down to the least sum of squares: Gauss-Newton steps, with the onset's kinks taken into
// account (onset-kinks.ts). Where "close by" comes from is in pull-down-start.ts.

import { huberWeights } from "../numbers/huber-weights.ts";
import { factor, solve, zeros } from "../numbers/normal-equations.ts";
import { bestOnsetChange } from "./onset-kinks.ts";
import type { PullDown } from "./pull-down.ts";
import { firstFrom } from "./pull-down-bins.ts";
import {
  depthRow,
  firstJumpRow,
  onsetRow,
  type PullDownSystem,
  passOver,
  rateRow,
  startRow,
} from "./pull-down-pass.ts";
import type { PullDownReadings } from "./pull-down-readings.ts";

/** Parameters known beforehand: h, °C, K. */
export interface Held {
  readonly onset?: number;
  readonly start?: number;
  readonly depth?: number;
}

/** What every step of a fit is told. */
export interface FitContext {
  readonly held: Held;
  readonly warmingRate: number;
}

/** Weights have settled when a step is this many standard errors; the next would be a tenth of it. */
const settled = 0.1;
/** Robust steps after which the weights have settled, or never will. */
const mostRounds = 20;

export interface Descent {
  readonly pullDown: PullDown;
  readonly system: PullDownSystem;
  /** Sum of squares at `pullDown`: a last small step's gain is known without another pass. */
  readonly rss: number;
  readonly residual: Float64Array;
}

/** What `system` and `rss` were weighted with; null where all readings count alike. */
interface RobustDescent extends Descent {
  readonly weights: Float64Array | null;
}

/**
 * Steps, halved until the sum of squares falls, until a step is under `enough` standard errors.
 * That last step is still taken: it costs no pass.
 */
export function descend(
  readings: PullDownReadings,
  from: PullDown,
  context: FitContext,
  enough: number,
  mostPasses: number,
): Descent {
  const n = readings.hours.length;
  let residual = new Float64Array(n);
  let spare: Float64Array<ArrayBuffer> | null = null;
  let pullDown = from;
  let system = passOver(readings, pullDown, context.warmingRate, residual);
  let gained = 0;
  for (let pass = 0; pass < mostPasses; pass++) {
    const step = bestStep(readings, residual, system, pullDown, context.held);
    if (step === null) break;
    const variance = system.rss / Math.max(1, n - system.size);
    const whole = stepped(pullDown, step.change, 1, readings);
    // Across a kink the gain is known less well: that step is worth a pass.
    const free = crossesReading(readings.hours, pullDown.onset, whole.onset) ? 1e-9 : enough;
    if (step.gain <= free * free * variance) {
      pullDown = whole;
      gained = Math.max(0, step.gain);
      break;
    }
    let taken = false;
    spare ??= new Float64Array(n);
    for (let share = 1; share > 1e-4; share /= 2) {
      const tried = stepped(pullDown, step.change, share, readings);
      const next = passOver(readings, tried, context.warmingRate, spare);
      // The last digits of the sum are rounding: they must not stop steps that still move the numbers.
      if (next.rss < system.rss * (1 + 1e-14)) {
        pullDown = tried;
        system = next;
        [residual, spare] = [spare, residual];
        taken = true;
        break;
      }
    }
    if (!taken) break;
  }
  return { pullDown, system, residual, rss: Math.max(0, system.rss - gained) };
}

/** Whether a reading lies between two onsets; one that lies on either is not crossed. */
function crossesReading(hours: Float64Array, from: number, to: number): boolean {
  const margin = 1e-9;
  return firstFrom(hours, Math.min(from, to) + margin) < firstFrom(hours, Math.max(from, to) - margin);
}

/**
 * Steps with Huber's weights, renewed from the residuals at every step: one pass each.
 *
 * The residuals of `from` are overwritten: fresh memory for as many numbers takes as long as half a pass.
 *
 * Weighted steps alone creep: the weights hold back what lies beyond the limit, which in truth no longer pulls at
 * all. Longer by `stride` they land nearly at once (the step of Huber's own modified-residual algorithm).
 */
export function descendRobustly(readings: PullDownReadings, from: Descent, context: FitContext): RobustDescent {
  const { residual } = from;
  const weights = new Float64Array(residual.length);
  const weighted = { ...readings, weights };
  let found: RobustDescent = { ...from, weights: readings.weights };
  for (let round = 0; round < mostRounds; round++) {
    const stride = huberWeights(residual, readings.weights, weights);
    if (stride === null) break; // no spread, no outliers
    const { pullDown } = found;
    const system = passOver(weighted, pullDown, context.warmingRate, residual);
    const step = bestStep(weighted, residual, system, pullDown, context.held);
    found = { pullDown, system, residual, rss: system.rss, weights };
    if (step === null) break;
    found = {
      ...found,
      pullDown: stepped(pullDown, step.change, stride, readings),
      rss: Math.max(0, system.rss - step.gain),
    };
    if (step.gain <= (settled * settled * system.rss) / Math.max(1, residual.length - system.size)) break;
  }
  return found;
}

/** Rows of the system that are free at this pull-down. */
export function freeRows(size: number, pullDown: PullDown, held: Held): number[] {
  const rows = [rateRow];
  // An onset at the switch-on is at its bound: before it, onset and start would say the same.
  if (held.onset === undefined && pullDown.onset > 0) rows.push(onsetRow);
  if (held.depth === undefined) rows.push(depthRow);
  if (held.start === undefined) rows.push(startRow);
  for (let row = firstJumpRow; row < size; row++) rows.push(row);
  return rows;
}

/** Rows and columns of the system's matrix, packed. */
export function packed(system: PullDownSystem, rows: readonly number[]): number[] {
  const matrix = zeros(rows.length * rows.length);
  for (let a = 0; a < rows.length; a++) {
    for (let b = 0; b < rows.length; b++) matrix[a * rows.length + b] = system.matrix[rows[a] * system.size + rows[b]];
  }
  return matrix;
}

/** The step of least expected cost, by row of the system, and by how much the sum of squares should fall. */
function bestStep(
  readings: PullDownReadings,
  residual: Float64Array,
  system: PullDownSystem,
  pullDown: PullDown,
  held: Held,
): { change: readonly number[]; gain: number } | null {
  const rows = freeRows(system.size, pullDown, held);
  const size = rows.length;
  const matrix = packed(system, rows);
  if (!factor(matrix, size, size)) return null;
  const step = rows.map((row) => system.right[row]);
  solve(matrix, size, size, step);
  let gain = 0;
  for (let at = 0; at < size; at++) gain += step[at] * system.right[rows[at]];
  const onsetAt = rows.indexOf(onsetRow);
  if (onsetAt >= 0) {
    // How the other parameters follow the onset: the onset's column of the inverse.
    const follow = zeros(size);
    follow[onsetAt] = 1;
    solve(matrix, size, size, follow);
    const variance = system.rss / Math.max(1, readings.hours.length - size);
    const { change, excess } = bestOnsetChange(readings, residual, system, pullDown.onset, {
      best: step[onsetAt],
      curvature: 1 / follow[onsetAt],
      reach: 2 * Math.sqrt(variance * follow[onsetAt]),
    });
    const shift = (change - step[onsetAt]) / follow[onsetAt];
    for (let at = 0; at < size; at++) step[at] += shift * follow[at];
    gain -= excess;
  }
  const change = zeros(system.size);
  for (let at = 0; at < size; at++) change[rows[at]] = step[at];
  return { change, gain };
}

/** A share of a step, kept inside what a pull-down can be. */
function stepped(pullDown: PullDown, change: readonly number[], share: number, readings: PullDownReadings): PullDown {
  const rateChange = Math.max(-0.7 * pullDown.rate, Math.min(2 * pullDown.rate, share * change[rateRow]));
  // The end must show some of the pull-down, and every jump falls into it.
  const latest = Math.min(0.95 * readings.hours[readings.hours.length - 1], pullDown.jumps[0]?.hours ?? Infinity);
  return {
    rate: pullDown.rate + rateChange,
    onset: Math.min(latest, Math.max(0, pullDown.onset + share * change[onsetRow])),
    depth: pullDown.depth + share * change[depthRow],
    start: pullDown.start + share * change[startRow],
    jumps: pullDown.jumps.map((jump, j) => ({
      hours: jump.hours,
      kelvin: Math.max(0, jump.kelvin + share * change[firstJumpRow + j]),
    })),
  };
}
