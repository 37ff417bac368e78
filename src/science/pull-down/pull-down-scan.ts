// The best pull-down for a given rate constant, over every onset at once.
//
// With the rate k held, the model is linear in depth, start and jumps, and the onset only says how far the sums reach.
// So one pass forwards and one backwards (onset-sums.ts) give the exact sum of squares for every onset. No start values
// are needed and no valley can trap it.

import { firstAtOrAfter } from "../numbers/first-at-or-after.ts";
import { lowestBetween } from "../numbers/lowest-between.ts";
import { factor, inverse, solve, zeros } from "../numbers/normal-equations.ts";
import { type OnsetState, OnsetSums } from "./onset-sums.ts";
import type { Held } from "./pull-down-descent.ts";
import type { PullDownReadings } from "./pull-down-readings.ts";

/** The best pull-down at one rate. */
export interface BestAtRate {
  readonly rate: number;
  readonly rss: number;
  readonly onset: number;
  readonly depth: number;
  readonly start: number;
  readonly jumps: readonly number[];
  /** Variances at this rate for unit weight, onset, start and jumps left free: K² and h². */
  readonly depthVariance: number;
  readonly onsetVariance: number;
}

/** Order of the linear parameters; the jumps follow. */
const depthTerm = 0;
const startTerm = 1;
const firstJumpTerm = 2;

/** Readings prepared for many rates. */
export class PullDownScan {
  private readonly readings: PullDownReadings;
  private readonly warmingRate: number;
  private readonly held: Held;
  private readonly jumpHours: readonly number[];
  private readonly jumpFrom: readonly number[];
  private readonly lastOnsetIndex: number;
  private readonly sums: OnsetSums;
  private readonly matrix: number[];
  private readonly right: number[];
  /** Product of each free column with the onset's decay E. */
  private readonly withE: number[];
  /** Nothing held and no doors. */
  private readonly isPlain: boolean;
  /** Which linear parameters are free: depth, start, then jumps by index. */
  private free: number[] = [];

  constructor(readings: PullDownReadings, warmingRate: number, held: Held, jumpHours: readonly number[]) {
    const { hours } = readings;
    const n = hours.length;
    this.readings = readings;
    this.warmingRate = warmingRate;
    this.held = held;
    this.isPlain = held.depth === undefined && held.start === undefined && jumpHours.length === 0;
    this.jumpHours = jumpHours;
    this.jumpFrom = jumpHours.map((jump) => firstAtOrAfter(hours, jump));
    // A fifth of the stretch must remain to see the pull-down; every jump falls into the pull-down.
    const latest = Math.min(hours[0] + 0.8 * (hours[n - 1] - hours[0]), ...jumpHours);
    const after = firstAtOrAfter(hours, latest);
    this.lastOnsetIndex = Math.max(0, hours[after] === latest ? after : after - 1);
    this.sums = new OnsetSums(readings, warmingRate);
    const size = firstJumpTerm + jumpHours.length;
    this.matrix = zeros(size * size);
    this.right = zeros(size);
    this.withE = zeros(size);
  }

  /**
   * The best onset, depth, start and jumps at this rate (1/h), and what they cost.
   *
   * @param near an onset (h) to walk downhill from; without it every reading is tried as onset.
   */
  bestAt(rate: number, near?: number): BestAtRate {
    this.sums.sumBehind(rate);
    this.free = this.freeAtFirst();
    for (;;) {
      const best = this.bestOnset(rate, near);
      // An opened door lets heat in, never out: a jump that comes out negative is not there.
      const negative = this.free.filter((row) => row >= firstJumpTerm && best.jumps[row - firstJumpTerm] < 0);
      if (negative.length === 0) return best;
      this.free = this.free.filter((row) => !negative.includes(row));
    }
  }

  /** What the best pull-down at this rate costs, with its onset at a reading: all that a scan needs. */
  leastCostAt(rate: number): number {
    if (!this.isPlain || this.held.onset !== undefined) return this.bestAt(rate).rss;
    this.sums.sumBehind(rate);
    let least = Number.POSITIVE_INFINITY;
    for (let j = 0; j <= this.lastOnsetIndex; j++) least = Math.min(least, this.plainCostAt(j));
    return least;
  }

  private freeAtFirst(): number[] {
    const free: number[] = [];
    if (this.held.depth === undefined) free.push(depthTerm);
    if (this.held.start === undefined) free.push(startTerm);
    this.jumpFrom.forEach((from, j) => {
      if (from < this.readings.hours.length) free.push(firstJumpTerm + j);
    });
    return free;
  }

  private bestOnset(rate: number, near: number | undefined): BestAtRate {
    const { hours } = this.readings;
    if (this.held.onset !== undefined)
      return this.answerAt(rate, this.held.onset, firstAtOrAfter(hours, this.held.onset));
    let index = near === undefined ? 0 : Math.min(firstAtOrAfter(hours, near), this.lastOnsetIndex);
    let cost = this.costAt(rate, hours[index], index);
    const tryAt = (j: number): boolean => {
      const other = this.costAt(rate, hours[j], j);
      if (!(other < cost)) return false;
      cost = other;
      index = j;
      return true;
    };
    if (near === undefined) for (let j = 1; j <= this.lastOnsetIndex; j++) tryAt(j);
    else {
      while (index < this.lastOnsetIndex && tryAt(index + 1));
      while (index > 0 && tryAt(index - 1));
    }
    // Between readings the cost is smooth: look into the two gaps beside the best reading.
    let bestHours = hours[index];
    let bestGap = index;
    for (const j of [index, index + 1]) {
      if (j < 1 || j > this.lastOnsetIndex) continue;
      const costInGap = (at: number) => this.costAt(rate, at, j);
      const pointAt = (at: number) => ({ at, cost: costInGap(at) });
      const low = { at: hours[j - 1], cost: this.costAt(rate, hours[j - 1], j - 1) };
      const found = lowestBetween(low, pointAt((hours[j - 1] + hours[j]) / 2), pointAt(hours[j]), 1e-6, costInGap);
      if (!(found.cost < cost)) continue;
      cost = found.cost;
      bestHours = found.at;
      bestGap = j;
    }
    return this.answerAt(rate, bestHours, bestGap);
  }

  /**
   * Fills `matrix`, `right` and `withE` for an onset in the gap before reading `j`.
   * Columns: depth (E - 1), start (fading E), jump (its own decay); target: readings minus the ambient's answer.
   *
   * @returns the cost while every free term is zero.
   */
  private assemble(rate: number, onset: number, j: number, state: OnsetState): number {
    const { hours, ambientCelsius } = this.readings;
    const { sums, withE, matrix, right, free, held, jumpFrom, jumpHours } = this;
    const size = free.length;
    const sW = sums.sumW[j];
    const sE = state.decay * sums.sumE[j];
    const sEE = state.decay * state.decay * sums.sumEE[j];
    const c = state.warmLag - state.lag;
    const w = state.fading;
    const yE = state.decay * sums.sumYE[j] - c * sEE;
    const y1 = sums.sumY[j] - c * sE;
    const depthDepth = sEE - 2 * sE + sW;
    const depthStart = w * (sEE - sE);
    const startStart = w * w * sEE + sums.aheadGG[j];
    const depthTarget = yE - y1;
    const startTarget = w * yE + sums.aheadGX[j];
    const depth = held.depth ?? 0;
    const start = held.start === undefined ? 0 : held.start - ambientCelsius[0];
    for (let a = 0; a < size; a++) {
      const row = free[a];
      let withDepth = depthDepth;
      let withStart = depthStart;
      let target = depthTarget;
      if (row === depthTerm) withE[a] = sEE - sE;
      else if (row === startTerm) {
        withDepth = depthStart;
        withStart = startStart;
        target = startTarget;
        withE[a] = w * sEE;
      } else {
        const m = jumpFrom[row - firstJumpTerm];
        const late = Math.exp(-rate * (hours[m] - jumpHours[row - firstJumpTerm]));
        withE[a] = late * Math.exp(-rate * (hours[m] - onset)) * sums.sumEE[m];
        withDepth = withE[a] - late * sums.sumE[m];
        withStart = w * withE[a];
        target = late * sums.sumYE[m] - c * withE[a];
        for (let b = 0; b <= a; b++) {
          if (free[b] >= firstJumpTerm) {
            matrix[a * size + b] =
              late * Math.exp(-rate * (hours[m] - jumpHours[free[b] - firstJumpTerm])) * sums.sumEE[m];
          }
        }
      }
      for (let b = 0; b <= a; b++) {
        if (free[b] === depthTerm) matrix[a * size + b] = withDepth;
        else if (free[b] === startTerm) matrix[a * size + b] = withStart;
      }
      right[a] = target - depth * withDepth - start * withStart;
    }
    return (
      sums.sumYY[j] -
      c * (2 * state.decay * sums.sumYE[j] - c * sEE) +
      sums.aheadXX[j] -
      2 * (depth * depthTarget + start * startTarget) +
      depth * depth * depthDepth +
      2 * depth * start * depthStart +
      start * start * startStart
    );
  }

  /** At a reading itself, with depth and start free and no doors, the cost is a few sums: what the scan asks most. */
  private plainCostAt(j: number): number {
    const { sums } = this;
    const sE = sums.sumE[j];
    const sEE = sums.sumEE[j];
    const c = sums.warmLag[j] - sums.lag[j];
    const w = sums.fading[j];
    const sYE = sums.sumYE[j];
    const yE = sYE - c * sEE;
    const dd = sEE - 2 * sE + sums.sumW[j];
    const ds = w * (sEE - sE);
    const ss = w * w * sEE + sums.aheadGG[j];
    const bd = yE - sums.sumY[j] + c * sE;
    const bs = w * yE + sums.aheadGX[j];
    const determinant = dd * ss - ds * ds;
    if (!(determinant > 1e-13 * dd * ss)) return Number.POSITIVE_INFINITY;
    return (
      sums.sumYY[j] -
      c * (2 * sYE - c * sEE) +
      sums.aheadXX[j] -
      (bd * bd * ss - 2 * bd * bs * ds + bs * bs * dd) / determinant
    );
  }

  private costAt(rate: number, onset: number, j: number): number {
    if (this.isPlain && onset === this.readings.hours[j]) return this.plainCostAt(j);
    const { matrix, right, free } = this;
    const cost = this.assemble(rate, onset, j, this.sums.stateAt(onset, j));
    const size = free.length;
    if (size === 0) return cost;
    if (!factor(matrix, size, size)) return Number.POSITIVE_INFINITY;
    // What the free terms explain is |L^-1 right|².
    let explained = 0;
    for (let row = 0; row < size; row++) {
      let sum = right[row];
      for (let k = 0; k < row; k++) sum -= matrix[row * size + k] * right[k];
      right[row] = sum / matrix[row * size + row];
      explained += right[row] * right[row];
    }
    return cost - explained;
  }

  private answerAt(rate: number, onset: number, j: number): BestAtRate {
    const { sums, matrix, right, free, held } = this;
    const state = this.sums.stateAt(onset, j);
    const cost = this.assemble(rate, onset, j, state);
    const size = free.length;
    const wide = size + 1;
    // The system once more, with room for the onset's own column, lead E, as last row.
    const full = zeros(wide * wide);
    for (let a = 0; a < size; a++) for (let b = 0; b <= a; b++) full[a * wide + b] = matrix[a * size + b];
    const solution = right.slice(0, size);
    const solved = factor(matrix, size, size);
    if (solved) solve(matrix, size, size, solution);
    let rss = solved ? cost : Number.POSITIVE_INFINITY;
    for (let a = 0; a < size; a++) rss -= right[a] * solution[a];

    const freeValue = (row: number, otherwise: number) =>
      free.includes(row) ? solution[free.indexOf(row)] : otherwise;
    const ambientAtFirst = this.readings.ambientCelsius[0];
    const depth = freeValue(depthTerm, held.depth ?? 0);
    const startLift = freeValue(startTerm, (held.start ?? 0) - ambientAtFirst);
    const lift = state.fading * startLift + state.warmLag;
    const lead = (rate - this.warmingRate) * lift + rate * depth;
    const onsetFree = held.onset === undefined && j > 0 && lead !== 0;
    if (onsetFree) {
      for (let a = 0; a < size; a++) full[size * wide + a] = lead * this.withE[a];
      full[size * wide + size] = lead * lead * state.decay * state.decay * sums.sumEE[j];
    }
    const variances = variancesOf(full, onsetFree ? wide : size, wide);
    const depthRow = free.indexOf(depthTerm);
    return {
      rate,
      rss,
      onset,
      depth,
      start: startLift + ambientAtFirst,
      jumps: this.jumpHours.map((_, jump) => freeValue(firstJumpTerm + jump, 0)),
      depthVariance: depthRow < 0 ? 0 : (variances?.[depthRow] ?? Number.POSITIVE_INFINITY),
      onsetVariance: onsetFree ? (variances?.[size] ?? Number.POSITIVE_INFINITY) : 0,
    };
  }
}

/** Diagonal of the inverse; null when the readings do not hold the parameters. */
function variancesOf(matrix: number[], size: number, stride: number): readonly number[] | null {
  if (!factor(matrix, size, stride)) return null;
  const all = inverse(matrix, size, stride);
  return all.filter((_, at) => at % (size + 1) === 0);
}
