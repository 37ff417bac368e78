// One pass over the readings of a pull-down: everything that a Gauss-Newton step and the standard errors need.
// The whole fit is little more than one of these passes (see pull-down-fit.ts).
//
// From the onset on every column of the Jacobian is a combination of 1, E = exp(-k (t - onset)) and
// W = dT/dk, so that a handful of running sums (pull-down-sums.ts) gives the whole system:
//     dT/dk = W     dT/d(onset) = lead E     dT/dD = E - 1     dT/d(start) = held E

import { huberShare, noLimit } from "../numbers/huber-weights.ts";
import { zeros } from "../numbers/normal-equations.ts";
import { meanDecay, type PullDown } from "./pull-down.ts";
import { type PullDownReadings, sameStep } from "./pull-down-readings.ts";
import { type CurvePoint, segmentsFrom } from "./pull-down-sums.ts";

/** Order of the parameters in every system; the jumps follow. */
export const rateRow = 0;
export const onsetRow = 1;
export const depthRow = 2;
export const startRow = 3;
export const firstJumpRow = 4;

/** Normal equations at one pull-down: `matrix` (size x size, row by row) times a step = `right`. */
export interface PullDownSystem {
  readonly size: number;
  readonly matrix: readonly number[];
  readonly right: readonly number[];
  /** Weighted sum of squared residuals, K², and the cost that a step has to lower: the same without a limit. */
  readonly rss: number;
  readonly cost: number;
  /** Index of the first reading from the onset on, and how much warmer the curve is there per hour of later onset. */
  readonly from: number;
  readonly lead: number;
  /** Residuals beyond this counted less, K. */
  readonly limit: number;
}

/**
 * @param residual receives cabinet minus model, K; same length as the readings.
 * @param limit residuals beyond it count less (huber-weights.ts), K.
 */
export function passOver(
  readings: PullDownReadings,
  pullDown: PullDown,
  warmingRate: number,
  residual: Float64Array,
  limit = noLimit,
): PullDownSystem {
  const { rate, depth, jumps } = pullDown;
  const size = firstJumpRow + jumps.length;
  const matrix = zeros(size * size);
  const right = zeros(size);
  const before = beforeOnset(readings, pullDown, warmingRate, residual, limit);
  const { onset, fading: held } = before;
  const lead = (rate - warmingRate) * (onset.v - depth) + rate * depth;
  let { rss, cost } = before;
  const add = (row: number, column: number, value: number) => {
    matrix[row * size + column] += value;
    if (row !== column) matrix[column * size + row] += value;
  };
  add(startRow, startRow, before.fadingSquares);
  right[startRow] += before.fadingResiduals;
  for (const [open, s] of segmentsFrom(readings, pullDown, onset, residual, limit).entries()) {
    // What is left at the segment's beginning of the onset's E, and of every jump so far.
    const left = Math.exp(-rate * (s.time - onset.time));
    const [E, EE, WE, RE] = [left * s.E, left * left * s.EE, left * s.WE, left * s.RE];
    add(rateRow, rateRow, s.WW);
    add(rateRow, onsetRow, lead * WE);
    add(rateRow, depthRow, WE - s.W);
    add(rateRow, startRow, held * WE);
    add(onsetRow, onsetRow, lead * lead * EE);
    add(onsetRow, depthRow, lead * (EE - E));
    add(onsetRow, startRow, lead * held * EE);
    add(depthRow, depthRow, EE - 2 * E + s.count);
    add(depthRow, startRow, held * (EE - E));
    add(startRow, startRow, held * held * EE);
    right[rateRow] += s.RW;
    right[onsetRow] += lead * RE;
    right[depthRow] += RE - s.R;
    right[startRow] += held * RE;
    rss += s.RR;
    cost += s.cost;
    for (let j = 0; j < open; j++) {
      const row = firstJumpRow + j;
      const decay = Math.exp(-rate * (s.time - jumps[j].hours));
      add(row, rateRow, decay * s.WE);
      add(row, onsetRow, lead * decay * left * s.EE);
      add(row, depthRow, decay * (left * s.EE - s.E));
      add(row, startRow, held * decay * left * s.EE);
      for (let l = 0; l <= j; l++) {
        add(row, firstJumpRow + l, decay * Math.exp(-rate * (s.time - jumps[l].hours)) * s.EE);
      }
      right[row] += decay * s.RE;
    }
  }
  return { size, matrix, right, rss, cost, from: onset.index, lead, limit };
}

interface BeforeOnset {
  readonly onset: CurvePoint;
  /** What is left at the onset of a kelvin at the start. */
  readonly fading: number;
  readonly fadingSquares: number;
  readonly fadingResiduals: number;
  readonly rss: number;
  /** As in a Segment. */
  readonly cost: number;
}

/** Before the onset only the start temperature acts, fading with the warming rate. */
function beforeOnset(
  readings: PullDownReadings,
  { start, onset, depth }: PullDown,
  warmingRate: number,
  residual: Float64Array,
  limit: number,
): BeforeOnset {
  const { hours, cabinetCelsius, ambientCelsius, weights } = readings;
  const n = hours.length;
  let time = hours[0];
  let ambient = ambientCelsius[0];
  let lift = start - ambient;
  let fading = 1;
  let fadingSquares = 0;
  let fadingResiduals = 0;
  let rss = 0;
  let cost = 0;
  let lastStep = 0;
  let e = 1;
  let g = 1;
  let i = 0;
  for (; i < n && hours[i] < onset; i++) {
    const h = hours[i] - time;
    if (!(Math.abs(h - lastStep) < sameStep)) {
      lastStep = h;
      e = Math.exp(-warmingRate * h);
      g = meanDecay(warmingRate * h);
    }
    if (i > 0) {
      lift = e * lift - g * (ambientCelsius[i] - ambient);
      fading *= e;
      time = hours[i];
      ambient = ambientCelsius[i];
    }
    const r = cabinetCelsius[i] - ambient - lift;
    const share = huberShare(r, limit);
    const w = weights === null ? share : share * weights[i];
    residual[i] = r;
    rss += w * r * r;
    cost += (2 - share) * w * r * r;
    fadingSquares += w * fading * fading;
    fadingResiduals += w * fading * r;
  }
  // Over to the onset, which may lie between two readings.
  if (i > 0 && i < n) {
    const h = onset - time;
    const rise = ((ambientCelsius[i] - ambient) / (hours[i] - time)) * h;
    const decay = Math.exp(-warmingRate * h);
    lift = decay * lift - meanDecay(warmingRate * h) * rise;
    fading *= decay;
    ambient += rise;
    time = onset;
  }
  const atOnset = { index: i, time, ambient, v: lift + depth, w: 0 };
  return { onset: atOnset, fading, fadingSquares, fadingResiduals, rss, cost };
}
