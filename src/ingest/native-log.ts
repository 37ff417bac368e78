// Our own log format from its bytes, in one pass over the rows and without making strings: a million
// rows are read in a fraction of a second. A file with quotes goes through text-log.ts instead.

import { BadInput, type Position, sourceUnsaid } from "../schema/index.ts";
import { decimalFrom } from "./decimals.ts";
import { instantFrom, utcOffsetFrom } from "./instants.ts";
import {
  isPosition,
  type LogColumns,
  type LogEnd,
  type LogPiece,
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
  const log = new NativeRows(rows.cellTexts(), file);
  const piece = log.takeRows(rows);
  return { ...piece, ...log.finish(endsMidLine(bytes)) };
}

/** Characters of a time that can be read; each cell adds the comma or line end behind it. */
const shortestTime = "2026-06-04T07:00:00Z".length;

/** Where rows are put down. */
interface Room {
  readonly unixMs: Float64Array;
  readonly targets: readonly { readonly position: Position; readonly cell: number; readonly values: Float64Array }[];
  readonly codes: Uint8Array | null;
}

/** Takes the rows after the header, all at once or piece by piece. */
export class NativeRows {
  readonly #file: string;
  readonly #header: readonly string[];
  readonly #timeCell: number;
  readonly #targets: readonly { readonly position: Position; readonly cell: number }[];
  readonly #sourceCell: number;
  readonly #ignored: readonly string[];
  readonly #progress = new ReadingProgress();
  #utcOffsetMinutes = 0;
  #room: Room = { unixMs: new Float64Array(), targets: [], codes: null };

  /** @throws BadInput as `nativeMeanings` does */
  constructor(header: readonly string[], file: string) {
    const meanings = nativeMeanings(header, file);
    this.#file = file;
    this.#header = header;
    this.#timeCell = meanings.indexOf("time");
    this.#targets = meanings.flatMap((position, cell) => (isPosition(position) ? [{ position, cell }] : []));
    this.#sourceCell = meanings.indexOf("source");
    this.#ignored = header.filter((_, cell) => meanings[cell] === null);
  }

  /** All rows that are left in `rows`, in arrays that the next call may write over. */
  takeRows(rows: RowBytes): LogPiece {
    const { unixMs, targets, codes } = this.#roomFor(rows.bytes.length);
    const sources = new SourceCells(rows.bytes);
    let taken = 0;
    while (rows.next()) {
      const instant = this.#instant(rows);
      if (Number.isNaN(instant)) continue;
      unixMs[taken] = instant;
      this.#takeReadings(rows, targets, taken);
      if (codes) codes[taken] = this.#sourceCode(rows, sources);
      taken++;
    }
    const columns: { [P in Position]?: Float64Array } = {};
    for (const { position, values } of targets) columns[position] = values.subarray(0, taken);
    return { unixMs: unixMs.subarray(0, taken), columns, sourceCodes: codes?.subarray(0, taken) ?? null };
  }

  #roomFor(bytes: number): Room {
    const mostRows = Math.floor((bytes + 1) / (shortestTime + this.#header.length));
    if (this.#room.unixMs.length >= mostRows) return this.#room;
    // Pages of an array that are never written to cost no memory, so the bound need not be close.
    this.#room = {
      unixMs: new Float64Array(mostRows),
      targets: this.#targets.map((target) => ({ ...target, values: new Float64Array(mostRows) })),
      codes: this.#sourceCell < 0 ? null : new Uint8Array(mostRows),
    };
    return this.#room;
  }

  /** @throws BadInput as `refuseUnusable` does */
  finish(isCutOff: boolean): LogEnd {
    const understood = { isMapped: false, timeProblem: nativeTimeProblem };
    refuseUnusable(this.#file, this.#header.length, this.#progress, isCutOff, understood);
    return {
      utcOffsetMinutes: this.#utcOffsetMinutes,
      unreadable: this.#progress.tally.list(),
      ignoredColumns: this.#ignored,
    };
  }

  /** Of the present row; NaN when the row is set aside. */
  #instant(rows: RowBytes): number {
    const progress = this.#progress;
    progress.countRow(rows.line);
    if (rows.cells !== this.#header.length) {
      progress.setAsideLength(rows.cells, rows.cellTexts().join(","));
      return Number.NaN;
    }
    const from = rows.start(this.#timeCell);
    const to = rows.end(this.#timeCell);
    const unixMs = instantFrom(rows.bytes, from, to);
    if (Number.isNaN(unixMs)) {
      progress.setAsideTime(rows.cellText(this.#timeCell));
      return unixMs;
    }
    if (progress.kept === 0) this.#utcOffsetMinutes = utcOffsetFrom(rows.bytes, from, to);
    progress.kept++;
    return unixMs;
  }

  #takeReadings(rows: RowBytes, targets: Room["targets"], row: number): void {
    for (const { position, cell, values } of targets) {
      const from = rows.start(cell);
      const to = rows.end(cell);
      const value = decimalFrom(rows.bytes, from, to);
      values[row] = value;
      if (!Number.isNaN(value)) this.#progress.readings++;
      else if (from < to) this.#progress.tally.add(position, "not-a-number", rows.line, rows.cellText(cell));
    }
  }

  #sourceCode(rows: RowBytes, sources: SourceCells): number {
    const code = sources.codeOf(rows.start(this.#sourceCell), rows.end(this.#sourceCell));
    if (code >= 0) return code;
    this.#progress.tally.add("source", "unknown-source", rows.line, rows.cellText(this.#sourceCell));
    return sourceUnsaid;
  }
}

/** Whether a file ends without a line end: its last row may be cut off. */
export const endsMidLine = (bytes: Uint8Array) => bytes[bytes.length - 1] !== 0x0a && bytes[bytes.length - 1] !== 0x0d;

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
      const text = to - from > longestSourceName ? "?" : text8.decode(this.#bytes.subarray(from, to));
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

const longestSourceName = 32;
const text8 = new TextDecoder();
