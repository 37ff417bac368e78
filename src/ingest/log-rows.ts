// The rows of an unknown log: what separates its cells, where its header stands, and which rows hold readings.
// log-understanding.ts asks what the cells mean.

import Papa from "papaparse";
import type { LogMapping } from "../schema/index.ts";
import { isElapsedClock } from "./elapsed-time.ts";
import { isNumber } from "./number-text.ts";
import { isInVolts, unitsIn } from "./temperature-unit.ts";
import { isDateAlone, isTimeAlone, timeTextOf } from "./time-text.ts";

export type Separator = NonNullable<LogMapping["separator"]>;

export interface LogRow {
  /** From 1. */
  readonly line: number;
  /** Without the blanks around each, and without empty ones at the end. */
  readonly cells: readonly string[];
  /** How many there are with the empty ones at the end. */
  readonly width: number;
}

/** A log cut into what stands before its header, the header, and the rows with readings. */
export interface LogParts {
  readonly separator: Separator;
  readonly before: readonly LogRow[];
  /** Null when no line names the columns. */
  readonly header: LogRow | null;
  /** A line of group names over the header, or null. */
  readonly over: LogRow | null;
  /** A line of units below it, or null. */
  readonly units: LogRow | null;
  readonly rows: readonly LogRow[];
  /** Cells of a full row. */
  readonly width: number;
}

const separators = ["\t", ";", ","] as const satisfies readonly Separator[];

/** Characters by which the separator is found. */
const lookLength = 64 * 1024;

/** What makes a row one of readings: a time of the calendar or a count of it since a known day; or any numbers at all. */
export type RowKind = "dated" | "counted";

/**
 * Cuts a log into its parts.
 *
 * @param text with line ends "\n" only
 * @param told the separator, when the user said it
 * @returns null when no separator gives rows with a time and a number; of kind "counted", with two numbers
 */
export function logPartsOf(text: string, kind: RowKind, told?: Separator): LogParts | null {
  const isData = kind === "dated" ? isDated : isOfNumbers;
  const stated = /^sep=([,;\t])\n/i.exec(text)?.[1] as Separator | undefined;
  const look = text.slice(0, lookLength);
  const scored = (told ? [told] : stated ? [stated] : separators)
    .map((separator) => ({ separator, score: rowsOf(look, separator).filter(isData).length }))
    .sort((a, b) => b.score - a.score);
  const [{ separator, score }] = scored;
  return score === 0 ? null : cut(rowsOf(text, separator), separator, isData);
}

/** All rows that are not blank; papaparse knows the quoting rules (RFC 4180). */
function rowsOf(text: string, separator: Separator): LogRow[] {
  const rows: LogRow[] = [];
  let line = 1;
  Papa.parse<string[]>(text, {
    delimiter: separator,
    newline: "\n",
    step: ({ data }) => {
      const cells = data.map((cell) => cell.trim());
      while (cells.length > 0 && cells[cells.length - 1] === "") cells.pop();
      if (cells.length > 0) rows.push({ line, cells, width: data.length });
      line += 1 + data.reduce((sum, cell) => sum + cell.split("\n").length - 1, 0);
    },
  });
  return rows;
}

function cut(rows: readonly LogRow[], separator: Separator, isData: (row: LogRow) => boolean): LogParts | null {
  const data = rows.filter(isData);
  const usual = mostCommon(data.map(({ width }) => width));
  const full = data.filter((row) => row.width === usual);
  const [first] = full;
  if (first === undefined) return null;
  const width = full.reduce((most, { cells }) => Math.max(most, cells.length), 0);
  const above = rows.slice(0, rows.indexOf(first));
  const isHeader = (row: LogRow | undefined) => row !== undefined && namesColumns(row, width);
  let at = above.length - 1;
  const units = isHeader(above[at - 1]) && givesUnits(above[at]) ? above[at--] : null;
  const header = isHeader(above[at]) ? above[at] : null;
  const over = header !== null && width > 2 && isHeader(above[at - 1]) ? above[at - 1] : null;
  const before = above.slice(0, header === null ? above.length : at - (over ? 1 : 0));
  const widest = Math.max(width, header?.cells.length ?? 0);
  return {
    separator,
    before,
    header,
    over,
    units,
    rows: data.filter(({ cells }) => cells.length <= widest),
    width: widest,
  };
}

/** A time, and a number besides. */
function isDated({ cells }: LogRow): boolean {
  if (cells.length < 2 || cells[0].startsWith("#")) return false;
  const times = cells.filter((cell) => timeTextOf(cell) !== undefined || isCounted(cell));
  const hasTime = times.length > 0 || (cells.some(isDateAlone) && cells.some(isTimeAlone));
  const numbers = cells.filter(isNumber);
  return hasTime && numbers.length > times.filter(isCounted).length - (times.length > 1 ? 1 : 0);
}

/** Two numbers, one of which may be written as h:mm:ss. */
function isOfNumbers({ cells }: LogRow): boolean {
  if (cells.length < 2 || cells[0].startsWith("#")) return false;
  const numbers = cells.filter(isNumber).length;
  return numbers > 1 || (numbers === 1 && cells.some(isElapsedClock));
}

/** Could be a time counted in seconds, milliseconds or spreadsheet days, its thousands parted or not. */
const isCounted = (cell: string) =>
  /^\d{5,13}([.,]\d+)?$/.test(cell) || /^\d{1,3}([,. '\u2019\u00a0\u202f])\d{3}(?:\1\d{3}){1,3}$/.test(cell);

/** As wide as the rows, mostly filled, and nothing in it is a number or a time. */
function namesColumns({ cells }: LogRow, width: number): boolean {
  const filled = cells.filter((cell) => cell !== "");
  const isNamed = filled.every((cell) => !isNumber(cell) && timeTextOf(cell) === undefined);
  return isNamed && filled.length >= 2 && cells.length >= width / 2 && filled.length * 2 >= cells.length;
}

/** A line of units and forms of dates, under a header. */
const givesUnits = ({ cells }: LogRow) => cells.every(isUnit);

const isUnit = (cell: string) =>
  cell === "" ||
  unitsIn(cell).length > 0 ||
  isInVolts(cell) ||
  /^[[(]?(%|%?\s?r\.?h\.?|[dmyhsajt:./\s-]+|h?pa|-)[\])]?$/i.test(cell);

function mostCommon(counts: readonly number[]): number {
  const tally = new Map<number, number>();
  for (const count of counts) tally.set(count, (tally.get(count) ?? 0) + 1);
  return [...tally].reduce((best, entry) => (entry[1] > best[1] ? entry : best), [0, 0])[0];
}
