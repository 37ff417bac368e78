// Our own log format from its bytes, in one pass over the rows and without making strings: a million
// rows are read in a fraction of a second. A file with quotes goes through text-log.ts instead.

import { BadInput, type Position, sourceUnsaid } from "../schema/index.ts";
import { decimalFrom } from "./decimals.ts";
import { instantFrom, utcOffsetFrom } from "./instants.ts";
import {
  isPosition,
  type LogColumns,
  nativeMeanings,
  nativeSourceCode,
  nativeTimeProblem,
  refuseUnusable,
} from "./log-columns.ts";
import { ReadingProgress } from "./reading-progress.ts";
import { RowBytes } from "./row-bytes.ts";

/**
 * Reads a native log without quotes.
 *
 * @param bytes UTF-8 without byte order mark.
 * @throws BadInput as `nativeMeanings` and `refuseUnusable` do.
 */
export function readNativeLog(bytes: Uint8Array, file: string): LogColumns {
  const rows = new RowBytes(bytes);
  if (!rows.next()) throw new BadInput({ code: "empty-log", file });
  const log = new NativeRows(rows, file);
  while (rows.next()) log.takeRow();
  return log.finish();
}

/** Characters of a time that can be read; each cell adds the comma or line end behind it. */
const shortestTime = "2026-06-04T07:00:00Z".length;

/** Takes the present row of `rows` after the header, again and again. */
class NativeRows {
  readonly #rows: RowBytes;
  readonly #file: string;
  readonly #header: readonly string[];
  readonly #timeCell: number;
  readonly #targets: readonly { readonly position: Position; readonly cell: number; readonly values: Float64Array }[];
  readonly #sourceCell: number;
  readonly #sources: SourceCells;
  readonly #unixMs: Float64Array;
  readonly #codes: Uint8Array | null;
  readonly #ignored: readonly string[];
  readonly #progress = new ReadingProgress();
  #utcOffsetMinutes = 0;

  /** @param rows at the header */
  constructor(rows: RowBytes, file: string) {
    const header = rows.cellTexts();
    const meanings = nativeMeanings(header, file);
    // Pages of an array that are never written to cost no memory, so the bound need not be close.
    const mostRows = Math.floor((rows.bytes.length + 1) / (shortestTime + header.length));
    this.#rows = rows;
    this.#file = file;
    this.#header = header;
    this.#timeCell = meanings.indexOf("time");
    this.#targets = meanings.flatMap((position, cell) =>
      isPosition(position) ? [{ position, cell, values: new Float64Array(mostRows) }] : [],
    );
    this.#sourceCell = meanings.indexOf("source");
    this.#sources = new SourceCells(rows.bytes);
    this.#unixMs = new Float64Array(mostRows);
    this.#codes = this.#sourceCell < 0 ? null : new Uint8Array(mostRows);
    this.#ignored = header.filter((_, cell) => meanings[cell] === null);
  }

  takeRow(): void {
    const rows = this.#rows;
    const progress = this.#progress;
    progress.countRow(rows.line);
    if (rows.cells !== this.#header.length) {
      progress.setAsideLength(rows.cells, rows.cellTexts().join(","));
      return;
    }
    const from = rows.start(this.#timeCell);
    const to = rows.end(this.#timeCell);
    const unixMs = instantFrom(rows.bytes, from, to);
    if (Number.isNaN(unixMs)) {
      progress.setAsideTime(rows.cellText(this.#timeCell));
      return;
    }
    if (progress.kept === 0) this.#utcOffsetMinutes = utcOffsetFrom(rows.bytes, from, to);
    this.#unixMs[progress.kept] = unixMs;
    this.#takeReadings(progress.kept);
    if (this.#codes) this.#codes[progress.kept] = this.#sourceCode();
    progress.kept++;
  }

  finish(): LogColumns {
    const { kept, tally } = this.#progress;
    const understood = { isMapped: false, timeProblem: nativeTimeProblem };
    refuseUnusable(this.#file, this.#header.length, this.#progress, endsMidLine(this.#rows.bytes), understood);
    const columns: { [P in Position]?: Float64Array } = {};
    for (const { position, values } of this.#targets) columns[position] = values.subarray(0, kept);
    return {
      unixMs: this.#unixMs.subarray(0, kept),
      utcOffsetMinutes: this.#utcOffsetMinutes,
      columns,
      sourceCodes: this.#codes?.subarray(0, kept) ?? null,
      unreadable: tally.list(),
      ignoredColumns: this.#ignored,
    };
  }

  #takeReadings(row: number): void {
    const rows = this.#rows;
    for (const { position, cell, values } of this.#targets) {
      const from = rows.start(cell);
      const to = rows.end(cell);
      const value = decimalFrom(rows.bytes, from, to);
      values[row] = value;
      if (!Number.isNaN(value)) this.#progress.readings++;
      else if (from < to) this.#progress.tally.add(position, "not-a-number", rows.line, rows.cellText(cell));
    }
  }

  #sourceCode(): number {
    const rows = this.#rows;
    const code = this.#sources.codeOf(rows.start(this.#sourceCell), rows.end(this.#sourceCell));
    if (code >= 0) return code;
    this.#progress.tally.add("source", "unknown-source", rows.line, rows.cellText(this.#sourceCell));
    return sourceUnsaid;
  }
}

/** Whether the file ends without a line end: its last row may be cut off. */
const endsMidLine = (bytes: Uint8Array) => bytes[bytes.length - 1] !== 0x0a && bytes[bytes.length - 1] !== 0x0d;

/** Source cells seldom change from row to row: only a cell unlike the last one is looked up. */
class SourceCells {
  readonly #bytes: Uint8Array;
  #from = 0;
  #to = 0;
  #code: number = sourceUnsaid;

  constructor(bytes: Uint8Array) {
    this.#bytes = bytes;
  }

  /** As `nativeSourceCode`. */
  codeOf(from: number, to: number): number {
    if (!this.#isAsBefore(from, to)) {
      const text = to - from > longestSourceName ? "?" : String.fromCharCode(...this.#bytes.subarray(from, to));
      this.#code = nativeSourceCode(text);
    }
    this.#from = from;
    this.#to = to;
    return this.#code;
  }

  #isAsBefore(from: number, to: number): boolean {
    if (to - from !== this.#to - this.#from) return false;
    for (let at = from, before = this.#from; at < to; at++, before++) {
      if (this.#bytes[at] !== this.#bytes[before]) return false;
    }
    return true;
  }
}

const longestSourceName = 16;
