// A log of any size, read piece by piece so that it never is in memory whole. read-log.ts reads one whole, with the
// same readers.

import { TextDecoder } from "node:util";
import Papa from "papaparse";
import { BadInput, type LogMapping } from "../schema/index.ts";
import type { LogEnd, LogPiece } from "./log-columns.ts";
import { mappedDialect } from "./mapped-log.ts";
import { endsMidLine, NativeRows } from "./native-log.ts";
import { RowBytes } from "./row-bytes.ts";
import { encodingOf } from "./text-encoding.ts";
import { type Dialect, type Instant, nativeDialect, TextRows, withPlainLineEnds } from "./text-log.ts";
import { showable } from "./unreadable-cells.ts";

export interface ReadPiecesOptions {
  /** The file as the user typed it: refusals name it. */
  readonly file: string;
  /** For another logger's file; our own format without. */
  readonly mapping?: LogMapping;
  /** When elapsed time was 0, for a log that counts so. */
  readonly startsAt?: Instant | undefined;
  /** Whether there is a quote anywhere in the file. */
  readonly hasQuotes: boolean;
  /** Takes the rows, in the file's order; a piece's arrays are written over by the next. */
  readonly take: (piece: LogPiece) => void;
}

/** Hands on a piece that holds rows. */
const handOn = (piece: LogPiece, take: ReadPiecesOptions["take"]) => {
  if (piece.unixMs.length > 0) take(piece);
};

/**
 * Reads a log from its bytes, as they come.
 *
 * @param chunks cut anywhere; each is read before the next is asked for, so they may share their memory
 * @throws BadInput as `readLog` does, maybe only after pieces were taken
 */
export function readLogPieces(chunks: Iterable<Uint8Array>, options: ReadPiecesOptions): LogEnd {
  const { file, mapping, hasQuotes, startsAt } = options;
  if (mapping) return readTextPieces(chunks, mappedDialect(mapping, file, startsAt), options);
  return readNativePieces(chunks, hasQuotes, options);
}

function readNativePieces(chunks: Iterable<Uint8Array>, hasQuotes: boolean, options: ReadPiecesOptions): LogEnd {
  const iterator = chunks[Symbol.iterator]();
  const first = iterator.next();
  if (first.done) throw new BadInput({ code: "empty-log", file: options.file });
  const { encoding, markLength } = encodingOf(first.value.subarray(0, 4096));
  const all = chained(first.value.subarray(markLength), iterator);
  const isUtf16 = encoding === "utf-16le" || encoding === "utf-16be";
  if (hasQuotes || isUtf16) return readTextPieces(chained(first.value, iterator), nativeDialect(options.file), options);
  return readBytePieces(all, options);
}

function* chained(first: Uint8Array, rest: Iterator<Uint8Array>): Generator<Uint8Array> {
  yield first;
  for (let next = rest.next(); !next.done; next = rest.next()) yield next.value;
}

/** Our own format without quotes, from its bytes. */
function readBytePieces(chunks: Iterable<Uint8Array>, { file, take }: ReadPiecesOptions): LogEnd {
  let log: NativeRows | undefined;
  let line = 0;
  let isCutOff = false;
  for (const piece of wholeLines(chunks, file)) {
    const rows = new RowBytes(piece, line);
    if (log === undefined && rows.next()) log = new NativeRows(rows.cellTexts(), file);
    if (log) handOn(log.takeRows(rows), take);
    line = rows.line;
    isCutOff = endsMidLine(piece);
  }
  if (log === undefined) throw new BadInput({ code: "empty-log", file });
  return log.finish(isCutOff);
}

/** The bytes again, cut behind line ends. What is yielded is overwritten by the next. */
function* wholeLines(chunks: Iterable<Uint8Array>, file: string): Generator<Uint8Array> {
  let room: Uint8Array = new Uint8Array();
  let kept = 0;
  for (const chunk of chunks) {
    const filled = kept + chunk.length;
    if (filled > room.length) room = joined(room.subarray(0, kept), new Uint8Array(chunk.length));
    room.set(chunk, kept);
    // A carriage return at the very end may be the first half of a line end.
    const end = chunk.lastIndexOf(lineFeed) + 1 || chunk.lastIndexOf(carriageReturn, -2) + 1;
    if (end > 0) {
      yield room.subarray(0, kept + end);
      room.copyWithin(0, kept + end, filled);
    }
    kept = end > 0 ? chunk.length - end : filled;
    if (kept > longestLine) throw lineTooLong(file, new TextDecoder().decode(room.subarray(0, 200)));
  }
  if (kept > 0) yield room.subarray(0, kept);
}

const lineFeed = 0x0a;
const carriageReturn = 0x0d;

/** Bytes or characters of a row; a longer one is no log's. */
const longestLine = 16 * 1024 * 1024;

const lineTooLong = (file: string, text: string) =>
  new BadInput({ code: "nothing-readable", file, line: 1, column: "", value: showable(text) });

function joined(first: Uint8Array, second: Uint8Array): Uint8Array {
  const both = new Uint8Array(first.length + second.length);
  both.set(first);
  both.set(second, first.length);
  return both;
}

/** Everything else, by way of strings. */
function readTextPieces(chunks: Iterable<Uint8Array>, dialect: Dialect, { file, take }: ReadPiecesOptions): LogEnd {
  const rows = new TextRows(file, dialect);
  let rest = "";
  let wanted = 0;
  for (const text of texts(chunks)) {
    rest += text;
    if (rest.length < wanted) continue;
    const cut = addRows(rows, rest, dialect.separator, "more to come");
    // A quote that does not close until much later: look again when there is twice as much.
    wanted = cut === 0 ? rest.length * 2 : 0;
    rest = rest.slice(cut);
    if (rest.length > longestLine) throw lineTooLong(file, rest.slice(0, 200));
    handOn(rows.takePiece(), take);
  }
  addRows(rows, rest, dialect.separator, "the last");
  handOn(rows.takePiece(), take);
  return rows.finish(rest !== "" && !rest.endsWith("\n"));
}

/** Adds the rows in a text. @returns where the row begins that may go on in the next text */
function addRows(rows: TextRows, text: string, separator: string, which: "more to come" | "the last"): number {
  const parser = new Papa.Parser({ delimiter: separator, newline: "\n" });
  const { data, meta } = parser.parse(text, 0, which === "more to come") as Papa.ParseResult<string[]>;
  for (const cells of data) rows.add(cells);
  return meta.cursor;
}

/** The decoded text with line ends "\n"; a carriage return at the end waits for what follows it. */
function* texts(chunks: Iterable<Uint8Array>): Generator<string> {
  let decoder: TextDecoder | undefined;
  let held = "";
  for (const chunk of inParts(chunks)) {
    const { encoding, markLength } = encodingOf(decoder ? new Uint8Array() : chunk);
    decoder ??= new TextDecoder(encoding, { ignoreBOM: true });
    const text = held + decoder.decode(chunk.subarray(markLength), { stream: true });
    held = text.endsWith("\r") ? "\r" : "";
    yield withPlainLineEnds(held === "" ? text : text.slice(0, -1));
  }
  yield withPlainLineEnds(held + (decoder?.decode() ?? ""));
}

/** Strings die young when there are few at a time; with more, the heap for the young grows by a hundred megabytes. */
const mostTextBytes = 16 * 1024;

function* inParts(chunks: Iterable<Uint8Array>): Generator<Uint8Array> {
  for (const chunk of chunks) {
    for (let at = 0; at < chunk.length; at += mostTextBytes) yield chunk.subarray(at, at + mostTextBytes);
  }
}
