// Logs read by way of strings: native ones with quotes, and other loggers' files through a mapping.
// papaparse knows the quoting rules (RFC 4180); here stands what the cells mean.

import Papa from "papaparse";
import { BadInput, type DecimalMark, type Position, sourceUnsaid } from "../schema/index.ts";
import { decimalFrom } from "./decimals.ts";
import { instantFrom, utcOffsetFrom } from "./instants.ts";
import {
  isPosition,
  type LogColumns,
  type LogEnd,
  type LogPiece,
  type Meaning,
  nativeMeanings,
  nativeSourceCode,
  nativeTimeProblem,
  refuseUnusable,
  type TimeProblem,
} from "./log-columns.ts";
import { ReadingProgress } from "./reading-progress.ts";

/** How the texts of one kind of log are understood. */
export interface Dialect {
  readonly separator: string;
  /** What the columns mean; undefined for a line that stands before the header. */
  meanings(cells: readonly string[]): readonly Meaning[] | undefined;
  /** Called when no line of the file was a header. */
  noHeader(firstLine: readonly string[]): BadInput;
  instant(cell: string): Instant;
  /** NaN when the cell, which is not empty, is no number. */
  reading(cell: string, position: Position): number;
  /** As `nativeSourceCode`. */
  sourceCode(cell: string): number;
  timeProblem(cell: string): TimeProblem;
  readonly isMapped: boolean;
  /** False: the first row that `meanings` knows is a row of readings already. */
  readonly hasHeader: boolean;
}

/** `unixMs` NaN: no instant. */
export interface Instant {
  readonly unixMs: number;
  readonly utcOffsetMinutes: number;
}

/** Our own format, cell by cell. */
export function nativeDialect(file: string): Dialect {
  return {
    separator: ",",
    meanings: (cells) => nativeMeanings(cells, file),
    noHeader: () => new BadInput({ code: "empty-log", file }),
    instant: instantOf,
    reading: (cell) => decimalOf(cell),
    sourceCode: nativeSourceCode,
    timeProblem: nativeTimeProblem,
    isMapped: false,
    hasHeader: true,
  };
}

/** The RFC 3339 instant in a text. */
export function instantOf(text: string): Instant {
  const length = toCellBytes(text, noByte);
  return { unixMs: instantFrom(cellBytes, 0, length), utcOffsetMinutes: utcOffsetFrom(cellBytes, 0, length) };
}

/** The decimal number in a text, or NaN. @param mark a comma stands for a point where it is one */
export function decimalOf(text: string, mark: DecimalMark = "."): number {
  return decimalFrom(cellBytes, 0, toCellBytes(text, mark === "," ? comma : noByte));
}

/** One cell's characters as bytes, so that numbers and instants have one grammar, that of the byte readers. */
const cellBytes = new Uint8Array(512);

const comma = 0x2c;
const point = 0x2e;
const noByte = -1;

/**
 * Fills `cellBytes`; gives the length. What is no ASCII is no number or instant, and becomes a byte that is neither.
 *
 * @param asPoint the character that becomes a point
 */
function toCellBytes(text: string, asPoint: number): number {
  if (text.length > cellBytes.length) return 0;
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    cellBytes[at] = code === asPoint ? point : code < 0x80 ? code : 0xff;
  }
  return text.length;
}

/** @throws BadInput as the dialect's `meanings` and `refuseUnusable` do. */
export function readTextLog(text: string, file: string, dialect: Dialect): LogColumns {
  const lines = withPlainLineEnds(text);
  const rows = new TextRows(file, dialect);
  Papa.parse<string[]>(lines, {
    delimiter: dialect.separator,
    newline: "\n",
    step: ({ data }) => rows.add(data),
  });
  return { ...rows.takePiece(), ...rows.finish(!lines.endsWith("\n")) };
}

/** papaparse takes one kind of line end as that of the whole file; files patched together hold several. */
export const withPlainLineEnds = (text: string) => (text.includes("\r") ? text.replaceAll(/\r\n?/g, "\n") : text);

/** Takes the rows one by one, so that the file's cells are never all in memory as strings. */
export class TextRows {
  readonly #file: string;
  readonly #dialect: Dialect;
  readonly #progress = new ReadingProgress();
  #header: readonly string[] | undefined;
  #firstLine: readonly string[] | undefined;
  #meanings: readonly Meaning[] = [];
  #timeCell = -1;
  /** Cells that belong to the time, in the order in which they are read together: date, time, zone. */
  #timeCells: readonly number[] = [];
  #sourceCell = -1;
  #values: { position: Position; cell: number; values: number[] }[] = [];
  #unixMs: number[] = [];
  #codes: number[] | null = null;
  #utcOffsetMinutes = 0;
  #unitLines = 0;
  /** The line the next row begins on. */
  #nextLine = 1;

  constructor(file: string, dialect: Dialect) {
    this.#file = file;
    this.#dialect = dialect;
  }

  add(untrimmed: readonly string[]): void {
    const line = this.#nextLine;
    this.#nextLine += 1 + lineEndsIn(untrimmed);
    const cells = untrimmed.map(withoutBlanks);
    if (cells.length === 1 && cells[0] === "") return;
    if (!this.#dialect.isMapped) this.#take(cells, line);
    else this.#takeMapped(cells, line);
  }

  /** The rows that were added since the last piece. */
  takePiece(): LogPiece {
    const columns: { [P in Position]?: Float64Array } = {};
    for (const target of this.#values) {
      columns[target.position] = Float64Array.from(target.values);
      target.values = [];
    }
    const unixMs = Float64Array.from(this.#unixMs);
    const sourceCodes = this.#codes && Uint8Array.from(this.#codes);
    this.#unixMs = [];
    this.#codes &&= [];
    return { unixMs, columns, sourceCodes };
  }

  /** @throws BadInput as the dialect's `noHeader` and `refuseUnusable` do */
  finish(endsMidLine: boolean): LogEnd {
    const header = this.#header;
    if (header === undefined) {
      throw this.#firstLine === undefined
        ? new BadInput({ code: "empty-log", file: this.#file })
        : this.#dialect.noHeader(this.#firstLine);
    }
    refuseUnusable(this.#file, header.length, this.#progress, endsMidLine, this.#dialect);
    return {
      utcOffsetMinutes: this.#utcOffsetMinutes,
      unreadable: this.#progress.tally.list(),
      ignoredColumns: header.filter((_, cell) => this.#meanings[cell] === null),
    };
  }

  #take(cells: readonly string[], line: number): void {
    const isBefore = this.#header === undefined;
    if (isBefore) this.#takeHeader(cells);
    if (!isBefore || (this.#header !== undefined && !this.#dialect.hasHeader)) this.#takeRow(cells, line);
  }

  /**
   * Other loggers and spreadsheets write remarks between the rows, lines of separators alone, a line of units below
   * the header, and separators behind the last cell.
   */
  #takeMapped(cells: readonly string[], line: number): void {
    const filled = withoutEmptyEnd(cells);
    if (filled.length === 0) return;
    if (this.#header === undefined) {
      this.#take(this.#dialect.hasHeader ? filled : cells, line);
      return;
    }
    const width = this.#meanings.length;
    const isBelowHeader = this.#progress.rows === 0 && this.#unitLines < mostUnitLines;
    if (isBelowHeader && !/\d/.test(cells[this.#timeCell] ?? "")) this.#unitLines++;
    else if (!cells[0].startsWith("#")) {
      const isShort = filled.length <= width && cells.length !== width;
      this.#take(isShort ? cells.slice(0, width) : filled.length > width ? filled : cells, line);
    }
  }

  #takeHeader(cells: readonly string[]): void {
    this.#firstLine ??= cells;
    const meanings = this.#dialect.meanings(cells);
    if (meanings === undefined) return;
    this.#header = this.#dialect.hasHeader ? cells : cells.map((_, index) => `${index + 1}`);
    this.#meanings = meanings;
    this.#values = meanings.flatMap((position, cell) => (isPosition(position) ? [{ position, cell, values: [] }] : []));
    this.#timeCell = meanings.indexOf("time");
    this.#timeCells = (["date", "time", "zone"] as const)
      .map((meaning) => meanings.indexOf(meaning))
      .filter((cell) => cell >= 0);
    this.#sourceCell = meanings.indexOf("source");
    if (this.#sourceCell >= 0) this.#codes = [];
  }

  #takeRow(cells: readonly string[], line: number): void {
    const progress = this.#progress;
    progress.countRow(line);
    if (cells.length !== this.#meanings.length) {
      progress.setAsideLength(cells.length, cells.join(this.#dialect.separator));
      return;
    }
    const apart = this.#timeCells.length > 1;
    const time = apart ? timeTogether(this.#timeCells.map((cell) => cells[cell])) : cells[this.#timeCell];
    const { unixMs, utcOffsetMinutes } = this.#dialect.instant(time);
    if (Number.isNaN(unixMs)) {
      progress.setAsideTime(time);
      return;
    }
    if (progress.kept === 0) this.#utcOffsetMinutes = utcOffsetMinutes;
    progress.kept++;
    this.#unixMs.push(unixMs);
    for (const { position, cell, values } of this.#values) {
      const value = cells[cell] === "" ? Number.NaN : this.#dialect.reading(cells[cell], position);
      values.push(value);
      if (!Number.isNaN(value)) progress.readings++;
      else if (cells[cell] !== "") progress.tally.add(position, "not-a-number", line, cells[cell]);
    }
    if (this.#codes === null) return;
    const source = cells[this.#sourceCell];
    const code = this.#dialect.sourceCode(source);
    if (code < 0) progress.tally.add("source", "unknown-source", line, source);
    this.#codes.push(code < 0 ? sourceUnsaid : code);
  }
}

/** Date, time of day and zone that stand apart, as one text. */
export const timeTogether = (cells: readonly (string | undefined)[]): string =>
  cells.filter((cell) => cell !== undefined && cell !== "").join(" ");

/** Lines below the header that give units or the form of dates; more would be rows without a readable time. */
const mostUnitLines = 2;

function withoutEmptyEnd(cells: readonly string[]): readonly string[] {
  let end = cells.length;
  while (end > 0 && cells[end - 1] === "") end--;
  return end === cells.length ? cells : cells.slice(0, end);
}

/** Without the spaces and tabs around it, as row-bytes.ts passes them over. */
function withoutBlanks(cell: string): string {
  let from = 0;
  let to = cell.length;
  while (from < to && isBlank(cell[from])) from++;
  while (to > from && isBlank(cell[to - 1])) to--;
  return cell.slice(from, to);
}

const isBlank = (character: string) => character === " " || character === "\t";

/** Line ends inside quoted cells: their rows span lines. */
const lineEndsIn = (cells: readonly string[]) =>
  cells.reduce((sum, cell) => sum + (cell.includes("\n") ? cell.split("\n").length - 1 : 0), 0);
