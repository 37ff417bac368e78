// A log file of any size: looked over, understood from its beginning, and read piece by piece.

import { createHash } from "node:crypto";
import { closeSync, fstatSync, openSync, readSync } from "node:fs";
import { BadInput, type LogMapping, type LogUnderstanding } from "../schema/index.ts";
import { type BoardHints, boardOfFile, readBoardLog } from "./board-log.ts";
import { isElapsed } from "./elapsed-time.ts";
import { readWholeFile, systemCode } from "./files.ts";
import type { LogEnd, LogPiece } from "./log-columns.ts";
import type { LogHints } from "./log-findings.ts";
import { readLogPieces } from "./log-pieces.ts";
import { understandLog } from "./log-understanding.ts";
import { refuseWithoutStart } from "./mapped-log.ts";
import { refuseNoLog } from "./no-log.ts";
import { HotColumns, refuseOhms } from "./ohms.ts";
import { refuseProbePerRow } from "./probe-per-row.ts";
import { isOfAnotherLogger, isToldOtherwise } from "./read-log.ts";
import { beginsLikeSenml, readSenml } from "./senml.ts";
import { encodingOf } from "./text-encoding.ts";
import type { Instant } from "./text-log.ts";
import { namingLog } from "./told-columns.ts";

/** What one pass over the bytes shows. */
export interface LookedOver {
  readonly file: string;
  /** SHA-256, lower-case hex. */
  readonly sha256: string;
  readonly hasQuotes: boolean;
  /** The file's beginning, the whole of a small one. */
  readonly head: Uint8Array;
  /** Its end; empty where the head is the whole. */
  readonly tail: Uint8Array;
}

/** More would only lie in memory; fewer would cost calls. */
const chunkBytes = 256 * 1024;
const headBytes = 4 * 1024 * 1024;
const tailBytes = 64 * 1024;

/** @throws BadInput "no-such-file" or "unreadable-file" */
export function lookOver(file: string): LookedOver {
  const hash = createHash("sha256");
  let hasQuotes = false;
  const heads: Uint8Array[] = [];
  const end = new Uint8Array(tailBytes);
  let headed = 0;
  let ended = 0;
  for (const chunk of chunksOf(file)) {
    hash.update(chunk);
    hasQuotes ||= chunk.includes(quote);
    if (headed < headBytes) {
      heads.push(chunk.slice());
      headed += chunk.length;
      continue;
    }
    const newest = chunk.subarray(-tailBytes);
    end.copyWithin(0, newest.length);
    end.set(newest, tailBytes - newest.length);
    ended = Math.min(tailBytes, ended + newest.length);
  }
  const tail = end.subarray(tailBytes - ended);
  return { file, sha256: hash.digest("hex"), hasQuotes, head: Buffer.concat(heads), tail };
}

const quote = 0x22;

/** The file's bytes in order. Each chunk is overwritten by the next. */
function* chunksOf(file: string): Generator<Uint8Array> {
  const buffer = new Uint8Array(chunkBytes);
  const descriptor = opened(file);
  try {
    for (;;) {
      const filled = readUpTo(descriptor, buffer, file);
      if (filled > 0) yield buffer.subarray(0, filled);
      if (filled < buffer.length) return;
    }
  } finally {
    closeSync(descriptor);
  }
}

function opened(file: string): number {
  try {
    const descriptor = openSync(file, "r");
    if (fstatSync(descriptor).isDirectory()) throw Object.assign(new Error("a folder"), { code: "EISDIR" });
    return descriptor;
  } catch (error) {
    throw unreadable(file, error);
  }
}

/** A pipe gives less at a time than is asked for. */
function readUpTo(descriptor: number, buffer: Uint8Array, file: string): number {
  let filled = 0;
  try {
    while (filled < buffer.length) {
      const read = readSync(descriptor, buffer, filled, buffer.length - filled, null);
      if (read === 0) break;
      filled += read;
    }
  } catch (error) {
    throw unreadable(file, error);
  }
  return filled;
}

function unreadable(file: string, error: unknown): BadInput {
  const errorCode = systemCode(error);
  return new BadInput(
    errorCode === "ENOENT" ? { code: "no-such-file", file } : { code: "unreadable-file", file, errorCode },
  );
}

/** How a file is to be read. */
export type LogWay =
  | { readonly format: "native" }
  /** `startsAt`: when elapsed time was 0, for a log that counts so. */
  | { readonly format: "mapped"; readonly mapping: LogMapping; readonly startsAt?: Instant }
  | { readonly format: "senml"; readonly hints: ImportHints }
  | { readonly format: "board"; readonly hints: BoardHints };

export interface ImportHints
  extends LogHints,
    Pick<BoardHints, "readOut" | "anchors" | "places" | "curves" | "utcOffsetMinutes"> {
  /** What "now" was for a SenML file with relative times. */
  readonly nowUnixMs?: number;
}

/** How a file is to be read, null while a question is open; and what was understood, null for our own format. */
export interface FoundWay {
  readonly way: LogWay | null;
  readonly understanding: LogUnderstanding | null;
}

/**
 * Finds out how a file is to be read.
 *
 * @throws BadInput as `readLog` does where there is nothing to understand
 */
export function wayToRead(log: LookedOver, hints: ImportHints = {}): FoundWay {
  refuseNoLog(log.head, log.file);
  if (beginsLikeSenml(log.head)) {
    const { understanding } = namingLog(log.file, () => readSenml(readWholeFile(log.file), log.file, hints));
    return {
      way: understanding.questions.length > 0 ? null : { format: "senml", hints: plainly(hints) },
      understanding,
    };
  }
  if (boardOfFile(log.head) !== null) {
    const { understanding } = namingLog(log.file, () => readBoardLog(readWholeFile(log.file), log.file, hints));
    return {
      way: understanding.questions.length > 0 ? null : { format: "board", hints: plainly(hints) },
      understanding,
    };
  }
  try {
    readBeginning(log, { format: "native" });
  } catch (error) {
    if (!(error instanceof BadInput) || !isOfAnotherLogger(error, hints)) throw error;
    const found = wayUnderstood(log, hints);
    if (found === null) throw error;
    return found;
  }
  const asOwnFormat = { way: { format: "native" }, understanding: null } as const;
  return isToldOtherwise(hints) ? (wayUnderstood(log, hints) ?? asOwnFormat) : asOwnFormat;
}

/** Without the look-up of the zone, which only questions need: a way is handed to other threads, and a function cannot be. */
const plainly = ({ here, ...hints }: ImportHints): ImportHints => hints;

function wayUnderstood(log: LookedOver, hints: ImportHints): FoundWay | null {
  const understanding = namingLog(log.file, () => understandLog(log.head, hints, log.tail.length === 0));
  if (understanding === null) return null;
  refuseOhms(understanding, log.file);
  refuseProbePerRow(understanding, log.file);
  const { mapping } = understanding;
  return { way: mapping && mappedWay(mapping, hints.startsAt), understanding };
}

/** A way by a mapping; when a log's elapsed time began goes with it and never into the mapping, which serves other logs. */
export const mappedWay = (
  mapping: LogMapping,
  startsAt: Instant | undefined,
): LogWay & { readonly format: "mapped" } => ({
  format: "mapped",
  mapping,
  ...(startsAt === undefined || !isElapsed(mapping.timeForm) ? {} : { startsAt }),
});

/**
 * Reads the whole file piece by piece.
 *
 * @param take is given the rows in the file's order; a piece's arrays are written over by the next
 * @throws BadInput as `readLog` does, maybe only after pieces were taken
 */
export function readLogFilePieces(log: LookedOver, way: LogWay, take: (piece: LogPiece) => void): LogEnd {
  if (isByRows(way)) return readPieces(log, way, chunksOf(log.file), take);
  const bytes = readWholeFile(log.file);
  const { columns, understanding } =
    way.format === "senml" ? readSenml(bytes, log.file, way.hints) : readBoardLog(bytes, log.file, way.hints);
  if (columns === null)
    throw new BadInput({ code: "two-readings", file: log.file, question: understanding.questions[0] });
  take(columns);
  return columns;
}

/** A format whose rows are read as they come; the others are read whole. */
type WayByRows = Exclude<LogWay, { format: "senml" | "board" }>;

const isByRows = (way: LogWay): way is WayByRows => way.format === "native" || way.format === "mapped";

const readPieces = (
  { file, hasQuotes }: LookedOver,
  way: WayByRows,
  chunks: Iterable<Uint8Array>,
  take: (piece: LogPiece) => void,
): LogEnd => {
  if (way.format === "native") return readLogPieces(chunks, { file, hasQuotes, take });
  refuseWithoutStart(way.mapping, file, way.startsAt);
  return readLogPieces(chunks, { file, hasQuotes, take, mapping: way.mapping, startsAt: way.startsAt });
};

/** From when to when a log reaches, as its beginning and its end tell. */
export interface LogExtent {
  readonly firstUnixMs: number;
  readonly lastUnixMs: number;
  readonly utcOffsetMinutes: number;
}

/** @throws BadInput as `readLog` does */
export function extentOf(log: LookedOver, way: LogWay): LogExtent {
  let firstUnixMs = Number.POSITIVE_INFINITY;
  let lastUnixMs = Number.NEGATIVE_INFINITY;
  const take = ({ unixMs }: LogPiece) => {
    for (const instant of unixMs) {
      firstUnixMs = Math.min(firstUnixMs, instant);
      lastUnixMs = Math.max(lastUnixMs, instant);
    }
  };
  const { utcOffsetMinutes } = isByRows(way) ? readBeginning(log, way, take) : readLogFilePieces(log, way, take);
  return { firstUnixMs, lastUnixMs, utcOffsetMinutes };
}

/** Reads the header, the first rows, and the last rows where the file is longer than its head. */
function readBeginning(log: LookedOver, way: WayByRows, take: (piece: LogPiece) => void = () => {}): LogEnd {
  const hot = new HotColumns();
  const end = readPieces(log, way, beginningOf(log), (piece) => {
    hot.see(piece);
    take(piece);
  });
  hot.refuse(log.file);
  return end;
}

function beginningOf({ head, tail }: LookedOver): readonly Uint8Array[] {
  if (tail.length === 0) return [head];
  // A row of UTF-16 cannot be cut out by a byte; its end then tells nothing.
  const isCuttable = encodingOf(head.subarray(0, 4096)).encoding !== "utf-16le";
  const begin = head.subarray(0, head.lastIndexOf(lineFeed, beginBytes) + 1 || beginBytes);
  const end = isCuttable ? tail.subarray(tail.indexOf(lineFeed) + 1) : new Uint8Array();
  return [begin, end];
}

const lineFeed = 0x0a;
const beginBytes = 256 * 1024;
