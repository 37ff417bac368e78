// From a pull-down close by down to the least sum of squares: Gauss-Newton steps, with the onset's kinks taken into
// account (onset-kinks.ts). Where "close by" comes from is in pull-down-start.ts.

import { firstAtOrAfter } from "../numbers/first-at-or-after.ts";
import { type Huber, huberOf, noLimit } from "../numbers/huber-weights.ts";
import { factor, solve, zeros } from "../numbers/normal-equations.ts";
import { bestOnsetChange } from "./onset-kinks.ts";
import type { PullDown } from "./pull-down.ts";
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

/** When to stop. */
export interface Patience {
  /** A step under so many standard errors is the last. It is still taken: it costs no pass. */
  readonly enough: number;
  /** The same for a step that moves the onset across a reading: its gain is known less well. */
  readonly enoughAcrossReadings: number;
  readonly mostPasses: number;
}

export interface Descent {
  readonly pullDown: PullDown;
  readonly system: PullDownSystem;
  /** Sum of squares at `pullDown`: a last small step's gain is known without another pass. */
  readonly rss: number;
  readonly residual: Float64Array;
}

/**
 * Steps, halved until they lower the cost, until one is small.
 *
 * @param huber makes readings far off count less. The limit is renewed at every step, and only ever falls: the cost falls
 *   with it, so that the steps cannot run in circles.
 */
export function descend(
  readings: PullDownReadings,
  from: PullDown,
  context: FitContext,
  { enough, enoughAcrossReadings, mostPasses }: Patience,
  huber: Huber = { limit: noLimit, stride: 1 },
): Descent {
  const n = readings.hours.length;
  let residual = new Float64Array(n);
  let spare: Float64Array<ArrayBuffer> | null = null;
  let pullDown = from;
  let { limit } = huber;
  let system = passOver(readings, pullDown, context.warmingRate, residual, limit);
  let gained = 0;
  for (let pass = 0; pass < mostPasses; pass++) {
    const step = bestStep(readings, residual, system, pullDown, context.held);
    if (step === null) break;
    const variance = system.rss / Math.max(1, n - system.size);
    const whole = stepped(pullDown, step.change, huber.stride, readings);
    const small = crossesReading(readings.hours, pullDown.onset, whole.onset) ? enoughAcrossReadings : enough;
    // Where the readings hardly hold the rate, little of its standard error is far.
    const isNear = Math.abs(step.change[rateRow]) < 0.1 * pullDown.rate;
    if (isNear && step.gain <= small * small * variance) {
      pullDown = whole;
      gained = Math.max(0, step.gain);
      break;
    }
    let taken = false;
    spare ??= new Float64Array(n);
    if (limit !== noLimit) limit = Math.min(limit, huberOf(residual).limit);
    for (let share = huber.stride; share > 1e-4; share /= 2) {
      const tried = stepped(pullDown, step.change, share, readings);
      const next = passOver(readings, tried, context.warmingRate, spare, limit);
      // The last digits of the sum are rounding: they must not stop steps that still move the numbers.
      if (next.cost < system.cost * (1 + 1e-12)) {
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
  return firstAtOrAfter(hours, Math.min(from, to) + margin) < firstAtOrAfter(hours, Math.max(from, to) - margin);
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
  const rate = pullDown.rate * Math.max(0.3, Math.min(3, 1 + (share * change[rateRow]) / pullDown.rate));
  // The end must show some of the pull-down, and every jump falls into it.
  const latest = Math.min(0.95 * readings.hours[readings.hours.length - 1], pullDown.jumps[0]?.hours ?? Infinity);
  return {
    rate,
    onset: Math.min(latest, Math.max(0, pullDown.onset + share * change[onsetRow])),
    // A short pull-down shows the slope, rate times depth: along a line in rate and slope the sum of squares falls far,
    // along one in rate and depth it soon rises again.
    depth: pullDown.depth + (share * change[depthRow] * pullDown.rate) / rate,
    start: pullDown.start + share * change[startRow],
    jumps: pullDown.jumps.map((jump, j) => ({
      hours: jump.hours,
      kelvin: Math.max(0, jump.kelvin + share * change[firstJumpRow + j]),
    })),
  };
}
