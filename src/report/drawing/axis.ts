// An axis: where numbers fall on paper, and at which round values it is marked.

import type { ResultUnit } from "../../schema/index.ts";
import type { Hand } from "../hand.ts";

export interface Axis {
  readonly low: number;
  readonly high: number;
  readonly ticks: readonly number[];
  /** Decimals that all ticks need. */
  readonly decimals: number;
  /** Of the values, where they may be shown in another one. */
  readonly unit?: ResultUnit;
  /** Where a value falls, 0 at `low`, 1 at `high`. */
  readonly share: (value: number) => number;
}

/** Steps between ticks that people read easily, per power of ten. */
const roundSteps = [1, 2, 2.5, 5, 10];
/** The same for hours of a clock. */
const clockSteps = [0.25, 0.5, 1, 2, 3, 4, 6, 12, 24, 48, 96];

/** Spreads a range about its middle to at least so much: what is steady shall look steady. */
export function atLeast(span: number, low: number, high: number): [low: number, high: number] {
  const missing = Math.max(0, span - (high - low)) / 2;
  return [low - missing, high + missing];
}

/** An axis that holds low to high and ends on ticks, with at most `most` of them. */
export function roundAxis(low: number, high: number, most: number): Axis {
  // Under a thousandth of the unit, ticks would differ by rounding errors alone.
  const step = roundStep(Math.max(high - low, 1e-3) / Math.max(most - 1, 1));
  const from = Math.floor(low / step + 1e-9) * step;
  const to = Math.max(Math.ceil(high / step - 1e-9) * step, from + step);
  return axisOf(from, to, ticksBetween(from, to, step), step);
}

/** The same for values of a unit: round in the degrees that the hand writes. Low, high and ticks are the values themselves. */
export function roundAxisOf(unit: ResultUnit, hand: Hand, low: number, high: number, most: number): Axis {
  const { factor, offset } = hand.scale(unit);
  const shown = roundAxis(low * factor + offset, high * factor + offset, most);
  const value = (figure: number) => (figure - offset) / factor;
  return {
    low: value(shown.low),
    high: value(shown.high),
    ticks: shown.ticks.map(value),
    decimals: shown.decimals,
    unit,
    share: (one) => shown.share(one * factor + offset),
  };
}

/** A tick as it is written beside the axis. */
export const tickFigure =
  ({ unit, decimals }: Axis, hand: Hand) =>
  (tick: number): string =>
    unit === undefined ? hand.number(tick, decimals) : hand.figure(tick, unit, decimals);

/** The same axis, growing downwards: for kelvin below ambient, where more is colder. */
export const downwards = (axis: Axis): Axis => ({ ...axis, share: (value) => 1 - axis.share(value) });

/** An axis that ends exactly at low and high, marked at round hours counted from `zero`. */
export function hourAxis(low: number, high: number, most: number, zero = 0): Axis {
  const wanted = (high - low) / Math.max(most, 1);
  const step = clockSteps.find((candidate) => candidate >= wanted) ?? Math.ceil(wanted / 24) * 24;
  const first = Math.ceil((low - zero) / step - 1e-9) * step + zero;
  return axisOf(low, high, ticksBetween(first, high, step), step);
}

function axisOf(low: number, high: number, ticks: number[], step: number): Axis {
  const span = high - low || 1;
  return { low, high, ticks, decimals: stepDecimals(step), share: (value) => (value - low) / span };
}

/** As few decimals as ticks so far apart need to differ and to be exact; three at the most. */
export const stepDecimals = (step: number) =>
  [0, 1, 2, 3].find((d) => Math.abs(step * 10 ** d - Math.round(step * 10 ** d)) < 1e-9) ?? 3;

/** A drawing of temperatures spans at least this, so that a cabinet that holds is not drawn as unrest, K. */
export const leastTemperatureSpan = 2;

function roundStep(wanted: number): number {
  const power = 10 ** Math.floor(Math.log10(wanted));
  const step = roundSteps.find((candidate) => candidate * power >= wanted * (1 - 1e-9)) ?? 10;
  return step * power;
}

function ticksBetween(first: number, last: number, step: number): number[] {
  const count = Math.floor((last - first) / step + 1e-9) + 1;
  // Multiplying keeps ticks exact where adding step by step would drift; "+ 0" turns -0 into 0.
  return Array.from({ length: Math.max(count, 0) }, (_, i) => Number((first + i * step).toPrecision(12)) + 0);
}

/** 0, 0.5, 1, 1.25: as few decimals as one tick needs by itself. */
export const decimalsOf = (tick: number) => (Number.isInteger(tick) ? 0 : Number.isInteger(tick * 2) ? 1 : 2);
