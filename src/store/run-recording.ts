// A kept run as one log in memory: every position over one time axis, sources as told and as edited.

import {
  type EnergySource,
  energySources,
  type Position,
  positions,
  type Recording,
  type SourceMark,
  sourceUnsaid,
} from "../schema/index.ts";
import { type Correction, corrected, type RawOrigin } from "./corrections.ts";
import type { RunEdits, Series, SeriesPart } from "./records.ts";
import { isAscending, placeFrom, placeOf, type SeriesName, seriesOf } from "./series-part.ts";

type Exclusions = RunEdits["exclusions"];

/** One series over the parts that hold it, without the readings excluded. */
export function joinedSeries(
  parts: readonly SeriesPart[],
  correctionOf: (origin: RawOrigin) => Correction | null,
  exclusions: Exclusions,
): Series {
  const whole = seriesOf(
    parts
      .map((part) => known({ unixMs: part.unixMs, values: corrected(part.raw, correctionOf(part)) }))
      .filter(({ unixMs }) => unixMs.length > 0),
  );
  return exclusions.reduce(without, whole);
}

/** Without the values that no curve makes a temperature. */
function known(series: Series): Series {
  if (!series.values.some(Number.isNaN)) return series;
  const isKnown = (_: number, i: number) => !Number.isNaN(series.values[i]);
  return { unixMs: series.unixMs.filter(isKnown), values: series.values.filter(isKnown) };
}

/** Those of the exclusions that speak of this series. */
export const exclusionsOf = (exclusions: Exclusions, series: SeriesName): Exclusions =>
  exclusions.filter(({ position }) => position === undefined || position === series);

/** The series from one instant (included) up to another (excluded). */
export function between(series: Series, fromUnixMs: number, toUnixMs: number): Series {
  const from = placeFrom(series.unixMs, fromUnixMs);
  const to = placeFrom(series.unixMs, toUnixMs);
  if (from === 0 && to === series.unixMs.length) return series;
  return { unixMs: series.unixMs.slice(from, to), values: series.values.slice(from, to) };
}

function without(series: Series, { fromUnixMs, toUnixMs }: Exclusions[number]): Series {
  const before = between(series, Number.NEGATIVE_INFINITY, fromUnixMs);
  const after = between(series, toUnixMs, Number.POSITIVE_INFINITY);
  return seriesOf([before, after].filter(({ unixMs }) => unixMs.length > 0));
}

/** The rows of a recording: a row per instant at which anything was read. */
export type Rows = Pick<Recording, "unixMs" | "columns" | "sourceCodes" | "sourceMarks">;

/**
 * @param series what each position, and "source", holds
 * @param marks in order of time
 * @param areInRows writes the marks into the rows' sources, as a log file has them, also where no column told any
 */
export function recordingRows(
  series: ReadonlyMap<SeriesName, Series>,
  marks: readonly SourceMark[],
  areInRows: boolean,
): Rows {
  const unixMs = sharedAxis([...series.values()].map((one) => one.unixMs));
  const columns: { [P in Position]?: Float64Array } = {};
  for (const position of positions) {
    const one = series.get(position);
    // Empty where none of its values is a temperature.
    if (one && one.unixMs.length > 0) columns[position] = onAxis(one, unixMs);
  }
  const told = series.get("source");
  if (!told && !(areInRows && marks.length > 0)) return { unixMs, columns, sourceCodes: null, sourceMarks: marks };
  const codes = new Uint8Array(unixMs.length);
  if (told) for (const [i, instant] of told.unixMs.entries()) codes[placeOf(unixMs, instant)] = told.values[i];
  return { unixMs, columns, sourceCodes: withMarks(codes, unixMs, marks), sourceMarks: [] };
}

/** All instants of all axes, each once, ascending. Usually all axes are the same one. */
function sharedAxis(axes: readonly Float64Array[]): Float64Array {
  const [first = new Float64Array(), ...others] = axes;
  if (others.every((axis) => areSame(axis, first))) return first;
  const all = axes.reduce((sum, axis) => sum + axis.length, 0);
  const instants = new Float64Array(all);
  let at = 0;
  for (const axis of axes) {
    instants.set(axis, at);
    at += axis.length;
  }
  instants.sort();
  return isAscending(instants) ? instants : instants.filter((instant, i) => i === 0 || instant !== instants[i - 1]);
}

function areSame(one: Float64Array, other: Float64Array): boolean {
  if (one === other) return true;
  if (one.length !== other.length) return false;
  for (let i = 0; i < one.length; i++) if (one[i] !== other[i]) return false;
  return true;
}

function onAxis(series: Series, axis: Float64Array): Float64Array {
  if (series.unixMs.length === axis.length) return series.values;
  const values = new Float64Array(axis.length).fill(Number.NaN);
  for (let i = 0, row = 0; i < series.unixMs.length; i++, row++) {
    while (axis[row] < series.unixMs[i]) row++;
    values[row] = series.values[i];
  }
  return values;
}

/** A mark holds over what the rows say until the rows themselves change, or the next mark. */
function withMarks(codes: Uint8Array, unixMs: Float64Array, marks: readonly SourceMark[]): Uint8Array {
  let marked: EnergySource | null = null;
  let next = 0;
  let last: number = sourceUnsaid;
  return codes.map((code, row) => {
    if (code !== sourceUnsaid && code !== last) {
      marked = null;
      last = code;
    }
    for (; next < marks.length && marks[next].unixMs <= unixMs[row]; next++) marked = marks[next].source;
    return marked === null ? code : energySources.indexOf(marked) + 1;
  });
}
