// One stretch as the fits want it: hours since the switch-on, gaps closed in the ambient, doors known.

import { msPerHour } from "../../schema/index.ts";
import type { RunEvent } from "../findings.ts";
import { firstAtOrAfter } from "../numbers/first-at-or-after.ts";
import type { Series, Stretch } from "./series.ts";

/** A heated stretch (or one that warms back) cut out of its series. All arrays have the same length. */
export interface StretchView {
  readonly stretch: Stretch;
  /** Hours since the stretch began; ascending. */
  readonly hours: Float64Array;
  /** °C; NaN where missing. */
  readonly cabinet: Float64Array;
  readonly evaporator: Float64Array;
  /**
   * What the box leaks to and the unit gives its heat to, °C: the air at the lower vent, with the room's share where that was
   * logged; straight across missing readings and sun on the probe; null when there is none at all.
   */
  readonly ambient: Float64Array | null;
  /** Volts at the fridge's terminals; NaN where missing. */
  readonly supply: Float64Array;
  /** Door openings within the stretch, h. */
  readonly doorHours: readonly number[];
  /** Where the pull-down part ends (thermostat, cooling stopped), h. */
  readonly endHours: number;
}

/** How long readings after a door opening are left out: the air recovers before the contents do. */
export const doorCutHours = 0.5;

/** @param pullDownEnd row of `series` where the pull-down part ends. */
export function viewOf(
  series: Series,
  stretch: Stretch,
  events: readonly RunEvent[],
  pullDownEnd: number,
): StretchView {
  const { from, to, startMs, endMs } = stretch;
  const hours = Float64Array.from(series.unixMs.subarray(from, to), (ms) => Math.max(0, (ms - startMs) / msPerHour));
  const column = (name: "cabinet" | "evaporator" | "ambient" | "supply" | "room") =>
    series.columns[name]?.slice(from, to) ?? new Float64Array(to - from).fill(Number.NaN);
  const doorHours = events
    .filter((event) => event.kind === "door-opening" && event.startMs >= startMs && event.startMs < endMs)
    .map((event) => (event.startMs - startMs) / msPerHour)
    .sort((a, b) => a - b);
  const suns = events.filter((event) => event.kind === "sun-on-probe");
  const isSunny = (row: number) =>
    suns.some((sun) => series.unixMs[from + row] >= sun.startMs && series.unixMs[from + row] <= sun.endMs);
  const endRow = Math.min(to, Math.max(from + 1, pullDownEnd));
  return {
    stretch,
    hours,
    cabinet: column("cabinet"),
    evaporator: column("evaporator"),
    ambient: withoutHoles(hours, aroundFridge(column("ambient"), column("room"), isSunny)),
    supply: column("supply"),
    doorHours,
    endHours: endRow > from ? hours[endRow - 1 - from] : 0,
  };
}

/**
 * Share of the vent's air in what a fridge in a vehicle feels; the rest is the room's, which its front stands in. Common practice,
 * no source. Where the two are alike, as on a bench, it does not matter.
 */
export const ventShare = 0.35;

/** The air around the fridge, °C: without what the sun adds to the probe, and with the room's share wherever that was logged. */
const aroundFridge = (vent: Float64Array, room: Float64Array, isSunny: (row: number) => boolean): Float64Array =>
  vent.map((celsius, row) => {
    const here = isSunny(row) ? Number.NaN : celsius;
    return Number.isNaN(room[row]) ? here : ventShare * here + (1 - ventShare) * room[row];
  });

/** Straight lines across missing readings, level beyond the ends; null when nothing is there. */
function withoutHoles(hours: Float64Array, values: Float64Array): Float64Array | null {
  const result = Float64Array.from(values);
  let last = -1;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) continue;
    for (let hole = last + 1; hole < i; hole++) {
      const share = last < 0 ? 1 : (hours[hole] - hours[last]) / (hours[i] - hours[last]);
      result[hole] = last < 0 ? values[i] : values[last] + share * (values[i] - values[last]);
    }
    last = i;
  }
  if (last < 0) return null;
  result.fill(values[last], last + 1);
  return result;
}

/** The values of some rows. */
export function picked(values: Float64Array, rows: readonly number[]): Float64Array {
  // Float64Array.from with a function takes some thirty times a loop's time.
  const result = new Float64Array(rows.length);
  for (let i = 0; i < rows.length; i++) result[i] = values[rows[i]];
  return result;
}

/** Mean and standard error of `valueAt` over the rows between two hours; null when under `fewest` readings. */
export function meanBetween(
  view: StretchView,
  fromHours: number,
  toHours: number,
  valueAt: (row: number) => number,
  fewest = 3,
): { mean: number; standardError: number; readings: number } | null {
  const values: number[] = [];
  for (let i = firstAtOrAfter(view.hours, fromHours); i < view.hours.length && view.hours[i] <= toHours; i++) {
    const value = valueAt(i);
    if (Number.isFinite(value)) values.push(value);
  }
  if (values.length < fewest) return null;
  return { ...meanOfRemembering(values), readings: values.length };
}

/** Mean ambient between two hours, °C; NaN without the probe. */
export const meanAmbient = (view: StretchView, fromHours: number, toHours: number): number =>
  meanBetween(view, fromHours, toHours, (row) => view.ambient?.[row] ?? Number.NaN, 1)?.mean ?? Number.NaN;

/** Neighbouring readings remember each other: the error of the mean comes from the means of up to six blocks. */
function meanOfRemembering(values: readonly number[]): { mean: number; standardError: number } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const blocks = Math.min(6, values.length);
  let squares = 0;
  for (let block = 0; block < blocks; block++) {
    const part = values.slice(
      Math.floor((block * values.length) / blocks),
      Math.floor(((block + 1) * values.length) / blocks),
    );
    squares += (part.reduce((sum, value) => sum + value, 0) / part.length - mean) ** 2;
  }
  return { mean, standardError: blocks > 1 ? Math.sqrt(squares / (blocks * (blocks - 1))) : 0 };
}
