// From the bytes of a log to a Recording: the one way in, for our own format and for mapped ones.

import { basename } from "node:path";
import {
  BadInput,
  type LogMapping,
  type LogUnderstanding,
  type Recording,
  type RunSheet,
  type SourceMark,
} from "../schema/index.ts";
import { type BoardHints, boardOfFile, readBoardLog } from "./board-log.ts";
import type { LogColumns } from "./log-columns.ts";
import type { LogHints } from "./log-findings.ts";
import { understandLog } from "./log-understanding.ts";
import { mappedDialect, refuseWithoutStart, withSourceWords } from "./mapped-log.ts";
import { readNativeLog } from "./native-log.ts";
import { refuseNoLog } from "./no-log.ts";
import { HotColumns, refuseOhms } from "./ohms.ts";
import { refuseProbePerRow } from "./probe-per-row.ts";
import { beginsLikeSenml, readSenml, type SenmlHints } from "./senml.ts";
import { encodingOf, textOf } from "./text-encoding.ts";
import { type Instant, nativeDialect, readTextLog } from "./text-log.ts";
import { namingLog } from "./told-columns.ts";

/** What was told of a log; hints for a kind of log that it is not change nothing. */
export interface ReadLogOptions extends LogHints, Pick<BoardHints, "readOut">, SenmlHints {
  /** The file as the user typed it: refusals name it. */
  readonly file: string;
  /** How people know the log; the file's name without its folder unless given. */
  readonly name?: string;
  readonly sha256?: string;
  /** For another logger's CSV; found, or our own format, without. Of the hints `startsAt` and `sourceWords` go with it. */
  readonly mapping?: LogMapping;
  /** A log in our own format is read as such, whatever the hints say of columns and unit: they are meant for another one. */
  readonly isOwnFormatKept?: boolean;
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
  const { file, mapping, startsAt, sourceWords, isOwnFormatKept = false } = options;
  refuseNoLog(bytes, file);
  if (mapping) {
    const told = withSourceWords(mapping, sourceWords);
    return { columns: notHot(readMapped(bytes, file, told, startsAt), file), understanding: null };
  }
  if (beginsLikeSenml(bytes))
    return answered(
      namingLog(file, () => readSenml(bytes, file, options)),
      file,
    );
  if (boardOfFile(bytes) !== null)
    return answered(
      namingLog(file, () => readBoardLog(bytes, file, options)),
      file,
    );
  let own: LogColumns;
  try {
    own = notHot(readNative(nativeBytes(bytes), file), file);
  } catch (error) {
    if (!(error instanceof BadInput) || !isOfAnotherLogger(error, options)) throw error;
    const understood = readUnderstood(bytes, options);
    if (understood === null) throw error;
    return understood;
  }
  const understood = isOwnFormatKept || !isToldOtherwise(options) ? null : readUnderstood(bytes, options);
  return understood ?? { columns: own, understanding: null };
}

/** Null where there is nothing to understand. @throws BadInput "two-readings" while a question is open */
function readUnderstood(bytes: Uint8Array, options: ReadLogOptions): ReadColumns | null {
  const { file, startsAt } = options;
  const understanding = namingLog(file, () => understandLog(bytes, options));
  if (understanding === null) return null;
  refuseOhms(understanding, file);
  refuseProbePerRow(understanding, file);
  const mapping = mappingOf(understanding, file, options);
  return { columns: notHot(readMapped(bytes, file, mapping, startsAt), file), understanding };
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
  const [question, ...others] = understanding?.questions ?? [];
  if (columns === null) throw new BadInput({ code: "two-readings", file, question, others });
  return { columns, understanding };
}

function readMapped(bytes: Uint8Array, file: string, mapping: LogMapping, startsAt: Instant | undefined): LogColumns {
  refuseWithoutStart(mapping, file, startsAt);
  return readTextLog(textOf(bytes), file, mappedDialect(mapping, file, startsAt));
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

/** What is said of a column, or of the unit, goes before what our own format takes them for. */
export const isToldOtherwise = ({ columns, unit = "Cel" }: Pick<LogHints, "columns" | "unit">) =>
  columns !== undefined || unit !== "Cel";

/** @throws BadInput "date-order-unfit": an order that was told and still leaves the question open fits no date */
export function refuseUnfitOrder(
  { questions }: Pick<LogUnderstanding, "questions">,
  file: string,
  { dateOrder }: Pick<LogHints, "dateOrder">,
): void {
  const open = questions.find((question) => question.about === "date-order");
  if (open === undefined || dateOrder === undefined) return;
  const { line, text, readings } = open;
  throw new BadInput({
    code: "date-order-unfit",
    file,
    line,
    text,
    told: dateOrder,
    fits: readings.map(({ answer }) => answer),
  });
}

/** @throws BadInput "two-readings" while a question is open; "date-order-unfit" */
function mappingOf(understanding: LogUnderstanding, file: string, hints: LogHints): LogMapping {
  refuseUnfitOrder(understanding, file, hints);
  const {
    mapping,
    questions: [question, ...others],
  } = understanding;
  if (question !== undefined) throw new BadInput({ code: "two-readings", file, question, others });
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
