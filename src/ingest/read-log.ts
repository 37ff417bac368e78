// From the bytes of a log to a Recording: the one way in, for our own format and for mapped ones.

import { basename } from "node:path";
import {
  BadInput,
  type EnergySource,
  type LogMapping,
  type LogUnderstanding,
  type Recording,
  type RunSheet,
  type SourceMark,
} from "../schema/index.ts";
import { boardOfFile, readBoardLog } from "./board-log.ts";
import type { LogColumns } from "./log-columns.ts";
import type { LogHints } from "./log-findings.ts";
import { understandLog } from "./log-understanding.ts";
import { mappedDialect, refuseWithoutStart, withSourceWords } from "./mapped-log.ts";
import { readNativeLog } from "./native-log.ts";
import { refuseNoLog } from "./no-log.ts";
import { HotColumns, refuseOhms } from "./ohms.ts";
import { refuseProbePerRow } from "./probe-per-row.ts";
import { beginsLikeSenml, readSenml } from "./senml.ts";
import { encodingOf, textOf } from "./text-encoding.ts";
import { type Instant, nativeDialect, readTextLog } from "./text-log.ts";

export interface ReadLogOptions {
  /** The file as the user typed it: refusals name it. */
  readonly file: string;
  /** How people know the log; the file's name without its folder unless given. */
  readonly name?: string;
  readonly sha256?: string;
  /** For another logger's CSV; found, or our own format, without. */
  readonly mapping?: LogMapping;
  /** What words for energy sources mean; letters in either case. */
  readonly sourceWords?: ReadonlyMap<string, EnergySource>;
  /** Looks up the zone of this computer, offered as a reading where a log's clock says none. */
  readonly here?: () => string;
  /** When the last line of a board's own file was read. */
  readonly readOut?: Instant;
  readonly sheet?: RunSheet | null;
  readonly sourceMarks?: readonly SourceMark[];
}

/** A log, and how it was understood when nobody stated that; null for our own format and for a stated mapping. */
export interface ReadLog {
  readonly recording: Recording;
  readonly understanding: LogUnderstanding | null;
}

/**
 * Reads one log. A cell that is no number is NaN and counted in `unreadable`; a row of the wrong length or
 * without a readable time is left out and counted there too. An empty cell is a missing reading. Another logger's
 * file is read without a mapping where it can be understood in one way only.
 *
 * @param bytes the file: UTF-8, with or without byte order mark, UTF-16, or the Windows code page.
 * @throws BadInput when there is nothing to analyse, or its meaning would have to be guessed: then "two-readings".
 */
export function readLogUnderstood(bytes: Uint8Array, options: ReadLogOptions): ReadLog {
  const { file, name = basename(file), sha256, sheet = null, sourceMarks = [] } = options;
  const { columns, understanding } = readColumns(bytes, options);
  const recording = { name, ...(sha256 === undefined ? {} : { sha256 }), ...columns, sourceMarks, sheet };
  return { recording, understanding };
}

/** As `readLogUnderstood`, the log alone. */
export const readLog = (bytes: Uint8Array, options: ReadLogOptions): Recording =>
  readLogUnderstood(bytes, options).recording;

interface ReadColumns {
  readonly columns: LogColumns;
  readonly understanding: LogUnderstanding | null;
}

function readColumns(bytes: Uint8Array, options: ReadLogOptions): ReadColumns {
  const { file, mapping, sourceWords, here, readOut } = options;
  refuseNoLog(bytes, file);
  if (mapping) {
    const told = withSourceWords(mapping, sourceWords);
    return { columns: notHot(readMapped(bytes, file, told), file), understanding: null };
  }
  if (beginsLikeSenml(bytes)) return answered(readSenml(bytes, file), file);
  if (boardOfFile(bytes) !== null) {
    return answered(readBoardLog(bytes, file, readOut === undefined ? {} : { readOut }), file);
  }
  try {
    return { columns: notHot(readNative(nativeBytes(bytes), file), file), understanding: null };
  } catch (error) {
    if (!(error instanceof BadInput) || !isOfAnotherLogger(error, { sourceWords })) throw error;
    const understanding = understandLog(bytes, { here, sourceWords });
    if (understanding === null) throw error;
    refuseOhms(understanding, file);
    refuseProbePerRow(understanding, file);
    return { columns: notHot(readMapped(bytes, file, mappingOf(understanding, file)), file), understanding };
  }
}

/** @throws BadInput "looks-like-ohms" */
function notHot(columns: LogColumns, file: string): LogColumns {
  const hot = new HotColumns();
  hot.see(columns);
  hot.refuse(file);
  return columns;
}

/** @throws BadInput "two-readings" while a question is open */
function answered(
  { columns, understanding }: Pick<ReadColumns, "understanding"> & { readonly columns: LogColumns | null },
  file: string,
): ReadColumns {
  const [question] = understanding?.questions ?? [];
  if (columns === null) throw new BadInput({ code: "two-readings", file, question });
  return { columns, understanding };
}

function readMapped(bytes: Uint8Array, file: string, mapping: LogMapping): LogColumns {
  // When it began is told to an import; nobody has told it here.
  refuseWithoutStart(mapping, file, undefined);
  return readTextLog(textOf(bytes), file, mappedDialect(mapping, file));
}

const readNative = (bytes: Uint8Array, file: string) =>
  bytes.includes(quote) ? readTextLog(textOf(bytes), file, nativeDialect(file)) : readNativeLog(bytes, file);

/**
 * What a log that is not in our format fails on. A slip in one that is, such as a misspelt source, is no such thing, unless
 * somebody says what the words in it mean.
 */
export const isOfAnotherLogger = ({ code }: BadInput, { sourceWords }: Pick<LogHints, "sourceWords">) =>
  (code === "unknown-source" && sourceWords !== undefined) ||
  code === "no-known-column" ||
  code === "no-time-column" ||
  code === "ambiguous-dates" ||
  code === "time-without-offset" ||
  code === "nothing-readable";

/** @throws BadInput "two-readings" while a question is open */
function mappingOf({ mapping, questions: [question] }: LogUnderstanding, file: string): LogMapping {
  if (question !== undefined) throw new BadInput({ code: "two-readings", file, question });
  if (mapping === null) throw new BadInput({ code: "empty-log", file });
  return mapping;
}

const quote = 0x22;

/** The bytes of the byte readers: UTF-8 without byte order mark. What is no UTF-8 is left as it is. */
function nativeBytes(bytes: Uint8Array): Uint8Array {
  const found = encodingOf(bytes.subarray(0, 4096));
  const isUtf16 = found.encoding === "utf-16le" || found.encoding === "utf-16be";
  return isUtf16 ? new TextEncoder().encode(textOf(bytes, found)) : bytes.subarray(found.markLength);
}
