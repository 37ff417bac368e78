// A part of one position's readings (records.ts), as rows of the open tail, as sealed blocks, and cut and joined.

import type { Position, RawUnit } from "../schema/index.ts";
import { packBlock, type ReadingColumns, unpackBlock } from "./blocks/reading-block.ts";
import type { Series, SeriesPart } from "./records.ts";
import type { BlockRow, OpenReadingRow } from "./tables.ts";

/** What a series is called in the tables: a position, or the source as a log's column tells it. */
export type SeriesName = Position | "source";

/** Readings in one block at most: an hour or so of one reading a second. More packs little better, and is read when few are wanted. */
export const mostInBlock = 4096;

/** @param rows in order of time within each series */
export function partsOfRows(rows: readonly OpenReadingRow[]): SeriesPart[] {
  const together = Map.groupBy(rows, (row) => originKey(row));
  return Array.from(together.values(), (group) => ({
    ...originOf(group[0]),
    unixMs: Float64Array.from(group, (row) => row.unix_ms),
    raw: Float64Array.from(group, (row) => row.raw),
    sequence: optionalColumn(group, "sequence"),
    uptimeMs: optionalColumn(group, "uptime_ms"),
    hostUnixMs: optionalColumn(group, "host_ms"),
  }));
}

function optionalColumn(
  rows: readonly OpenReadingRow[],
  name: "sequence" | "uptime_ms" | "host_ms",
): Float64Array | null {
  return rows.some((row) => row[name] !== null) ? Float64Array.from(rows, (row) => row[name] ?? Number.NaN) : null;
}

type Origin = Pick<SeriesPart, "position" | "probeId" | "unit" | "boardId" | "boot">;
type OriginRow = Pick<OpenReadingRow, "series" | "probe_id" | "unit" | "board_id" | "boot">;

/** The same for readings that may be in one part. */
export const originKey = (row: OriginRow): string =>
  JSON.stringify([row.series, row.probe_id, row.unit, row.board_id, row.boot]);

const originOf = (row: OriginRow): Origin => ({
  position: row.series as SeriesName,
  probeId: row.probe_id,
  unit: row.unit as RawUnit | null,
  boardId: row.board_id,
  boot: row.boot,
});

const noNumbers = new Float64Array();

/** One block. @param part one reading at least, in order of time */
export function blockOfPart(runId: string, part: SeriesPart): BlockRow {
  const sequences = (part.sequence ?? noNumbers).filter((sequence) => !Number.isNaN(sequence)).sort();
  return {
    run_id: runId,
    series: part.position,
    from_ms: part.unixMs[0],
    to_ms: part.unixMs[part.unixMs.length - 1],
    readings: part.unixMs.length,
    unit: part.unit,
    probe_id: part.probeId,
    board_id: part.boardId,
    boot: part.boot,
    first_sequence: sequences.at(0) ?? null,
    last_sequence: sequences.at(-1) ?? null,
    ...packBlock(part),
  };
}

/**
 * Null when the block is damaged: its checksum, count or instants are not what was written.
 *
 * @param areLinesWanted as `unpackBlock`
 */
export function partOfBlock(block: BlockRow, areLinesWanted = true): SeriesPart | null {
  const readings = unpackBlock(block, areLinesWanted);
  if (readings === null) return null;
  const { unixMs } = readings;
  const isAsWritten =
    unixMs.length === block.readings && unixMs[0] === block.from_ms && unixMs[unixMs.length - 1] === block.to_ms;
  return isAsWritten ? { ...originOf(block), ...readings } : null;
}

/** The part in pieces that fit a block. */
export function* cut(part: SeriesPart): Generator<SeriesPart> {
  for (let from = 0; from < part.unixMs.length; from += mostInBlock) {
    yield { ...part, ...pick(part, (column) => column.slice(from, from + mostInBlock)) };
  }
}

/** The readings at these places. */
export function chosen(part: SeriesPart, places: readonly number[]): SeriesPart {
  return { ...part, ...pick(part, (column) => Float64Array.from(places, (place) => column[place])) };
}

/** The readings of all parts, which come from the same probe and board, in order of time. @param parts one at least */
export function joined(parts: readonly SeriesPart[]): SeriesPart {
  const count = parts.reduce((sum, { unixMs }) => sum + unixMs.length, 0);
  const column = (name: keyof ReadingColumns) => {
    const whole = new Float64Array(count).fill(Number.NaN);
    let at = 0;
    for (const part of parts) {
      const own = part[name];
      if (own !== null) whole.set(own, at);
      at += part.unixMs.length;
    }
    return whole;
  };
  const optional = (name: keyof ReadingColumns) => (parts.every((part) => part[name] === null) ? null : column(name));
  const all: SeriesPart = {
    ...parts[0],
    unixMs: column("unixMs"),
    raw: column("raw"),
    sequence: optional("sequence"),
    uptimeMs: optional("uptimeMs"),
    hostUnixMs: optional("hostUnixMs"),
  };
  return isAscending(all.unixMs) ? all : chosen(all, placesInOrder(all.unixMs));
}

function pick(part: ReadingColumns, take: (column: Float64Array) => Float64Array): ReadingColumns {
  const optional = (column: Float64Array | null) => (column === null ? null : take(column));
  return {
    unixMs: take(part.unixMs),
    raw: take(part.raw),
    sequence: optional(part.sequence),
    uptimeMs: optional(part.uptimeMs),
    hostUnixMs: optional(part.hostUnixMs),
  };
}

/** Several pieces of one series as one, in order of time. No instant is in two of them. */
export function seriesOf(pieces: readonly Series[]): Series {
  const count = pieces.reduce((sum, { unixMs }) => sum + unixMs.length, 0);
  const series = { unixMs: new Float64Array(count), values: new Float64Array(count) };
  let at = 0;
  for (const { unixMs, values } of pieces.toSorted((a, b) => a.unixMs[0] - b.unixMs[0])) {
    series.unixMs.set(unixMs, at);
    series.values.set(values, at);
    at += unixMs.length;
  }
  if (isAscending(series.unixMs)) return series;
  const places = placesInOrder(series.unixMs);
  return {
    unixMs: Float64Array.from(places, (place) => series.unixMs[place]),
    values: Float64Array.from(places, (place) => series.values[place]),
  };
}

/** Whether each instant is later than the one before. */
export function isAscending(unixMs: Float64Array): boolean {
  for (let i = 1; i < unixMs.length; i++) if (!(unixMs[i] > unixMs[i - 1])) return false;
  return true;
}

/** The places of the instants from early to late; of equal ones the first comes first. */
export const placesInOrder = (unixMs: Float64Array): number[] =>
  Array.from(unixMs.keys()).sort((a, b) => unixMs[a] - unixMs[b] || a - b);

/** The place of the first instant that is not before `instant`, in ascending instants. */
export function placeFrom(unixMs: Float64Array, instant: number): number {
  let [low, high] = [0, unixMs.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (unixMs[middle] < instant) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The place of exactly this instant, or -1. */
export function placeOf(unixMs: Float64Array, instant: number): number {
  const place = placeFrom(unixMs, instant);
  return unixMs[place] === instant ? place : -1;
}
