// The running sums of a pass from the onset on: where all the time of a fit goes. E, W and the gap V = T - Ta + D
// advance by one multiplication per reading, and regular sampling needs one exponential in all. passOver in
// pull-down-pass.ts makes the normal equations of them.

import { huberShare, noLimit } from "../numbers/huber-weights.ts";
import { meanDecay, type PullDown } from "./pull-down.ts";
import { type PullDownReadings, sameStep } from "./pull-down-readings.ts";

/** The curve at the instant (h) from which a segment runs, and the index of the first reading from there on. */
export interface CurvePoint {
  readonly index: number;
  readonly time: number;
  /** Ambient, °C. */
  readonly ambient: number;
  /** Cabinet minus settled temperature, K, and its derivative by the rate, K h. */
  readonly v: number;
  readonly w: number;
}

/**
 * Weighted sums of products of 1, E, W and the residual R; `count` is the sum of the weights. E is 1 at `time`. `cost` is
 * what the fit makes small: R², but beyond Huber's limit 2 limit R - limit².
 */
export interface Segment {
  readonly time: number;
  readonly count: number;
  readonly E: number;
  readonly EE: number;
  readonly W: number;
  readonly WE: number;
  readonly WW: number;
  readonly R: number;
  readonly RE: number;
  readonly RW: number;
  readonly RR: number;
  readonly cost: number;
}

/**
 * The sums from the onset to the first jump, from there to the next, and so on. Within a segment every jump decays
 * like E, so that jumps need no sums of their own. No jump comes before the onset.
 */
export function segmentsFrom(
  readings: PullDownReadings,
  { rate, depth, jumps }: PullDown,
  onset: CurvePoint,
  residual: Float64Array,
  limit: number,
): Segment[] {
  const sumUp = readings.weights === null && limit === noLimit ? plainSegment : weightedSegment;
  const segments: Segment[] = [];
  let point = onset;
  for (const jump of jumps) {
    let end = point.index;
    while (end < readings.hours.length && readings.hours[end] < jump.hours) end++;
    const { segment, last } = sumUp(readings, rate, depth, point, end, residual, limit);
    segments.push(segment);
    point = afterJump(readings, rate, last, jump);
  }
  segments.push(sumUp(readings, rate, depth, point, readings.hours.length, residual, limit).segment);
  return segments;
}

/** Along the curve to the jump and over it. */
function afterJump(
  { hours, ambientCelsius }: PullDownReadings,
  rate: number,
  { index, time, ambient, v, w }: CurvePoint,
  jump: PullDown["jumps"][number],
): CurvePoint {
  const { h, e, g, he, c } = stepOf(jump.hours - time, rate);
  const hasMoved = h > 0 && index < hours.length;
  const rise = hasMoved ? ((ambientCelsius[index] - ambient) * h) / (hours[index] - time) : 0;
  return {
    index,
    time: jump.hours,
    ambient: ambient + rise,
    v: e * v - g * rise + jump.kelvin,
    w: e * w + c * rise - he * v,
  };
}

/** What one step of h hours does to the curve (e, g) and to its derivative by the rate (he, c). */
function stepOf(h: number, rate: number) {
  const e = Math.exp(-rate * h);
  const g = meanDecay(rate * h);
  return { h, e, g, he: h * e, c: rate * h < 1e-6 ? h / 2 : (g - e) / rate };
}

interface SummedUp {
  readonly segment: Segment;
  readonly last: CurvePoint;
}

// The two loops differ in the weights alone; without them a pass is a third faster, and most fits have none.

function plainSegment(
  { hours, cabinetCelsius, ambientCelsius }: PullDownReadings,
  rate: number,
  depth: number,
  from: CurvePoint,
  end: number,
  residual: Float64Array,
): SummedUp {
  let { index: i, time, ambient, v, w: w1 } = from;
  let e1 = 1;
  let E = 0;
  let EE = 0;
  let W = 0;
  let WE = 0;
  let WW = 0;
  let R = 0;
  let RE = 0;
  let RW = 0;
  let RR = 0;
  while (i < end) {
    const { h, e, g, he, c } = stepOf(hours[i] - time, rate);
    for (; i < end && Math.abs(hours[i] - time - h) < sameStep; i++) {
      time = hours[i];
      const rise = ambientCelsius[i] - ambient;
      ambient = ambientCelsius[i];
      w1 = e * w1 + (c * rise - he * v);
      v = e * v - g * rise;
      e1 *= e;
      const r = cabinetCelsius[i] - ambient + depth - v;
      residual[i] = r;
      E += e1;
      EE += e1 * e1;
      W += w1;
      WE += w1 * e1;
      WW += w1 * w1;
      R += r;
      RE += r * e1;
      RW += r * w1;
      RR += r * r;
    }
  }
  const count = end - from.index;
  const segment = { time: from.time, count, E, EE, W, WE, WW, R, RE, RW, RR, cost: RR };
  return { segment, last: { index: i, time, ambient, v, w: w1 } };
}

function weightedSegment(
  { hours, cabinetCelsius, ambientCelsius, weights }: PullDownReadings,
  rate: number,
  depth: number,
  from: CurvePoint,
  end: number,
  residual: Float64Array,
  limit: number,
): SummedUp {
  let { index: i, time, ambient, v, w: w1 } = from;
  let e1 = 1;
  let count = 0;
  let E = 0;
  let EE = 0;
  let W = 0;
  let WE = 0;
  let WW = 0;
  let R = 0;
  let RE = 0;
  let RW = 0;
  let RR = 0;
  let cost = 0;
  while (i < end) {
    const { h, e, g, he, c } = stepOf(hours[i] - time, rate);
    for (; i < end && Math.abs(hours[i] - time - h) < sameStep; i++) {
      time = hours[i];
      const rise = ambientCelsius[i] - ambient;
      ambient = ambientCelsius[i];
      w1 = e * w1 + (c * rise - he * v);
      v = e * v - g * rise;
      e1 *= e;
      const r = cabinetCelsius[i] - ambient + depth - v;
      residual[i] = r;
      const share = huberShare(r, limit);
      const w = weights === null ? share : share * weights[i];
      const wr = w * r;
      const we = w * e1;
      const ww = w * w1;
      count += w;
      E += we;
      EE += we * e1;
      W += ww;
      WE += ww * e1;
      WW += ww * w1;
      R += wr;
      RE += wr * e1;
      RW += wr * w1;
      RR += wr * r;
      cost += (2 - share) * wr * r;
    }
  }
  const segment = { time: from.time, count, E, EE, W, WE, WW, R, RE, RW, RR, cost };
  return { segment, last: { index: i, time, ambient, v, w: w1 } };
}
