// What the columns of a log mean, and the log as columns of numbers before it gets its name.
// native-log.ts and mapped-log.ts fill it, read-log.ts makes a Recording of it.

import {
  BadInput,
  type ColumnMeaning,
  energySources,
  type Position,
  positions,
  type Recording,
} from "../schema/index.ts";
import { sourceMeant } from "./column-meaning.ts";
import type { ReadingProgress } from "./reading-progress.ts";
import { showable } from "./unreadable-cells.ts";

/** One column's meaning; null is a column that is none of ours. */
export type Meaning = "time" | "date" | "zone" | "source" | Position | null;

/** What of a `Recording` stands in the log itself. */
export type LogColumns = Pick<
  Recording,
  "unixMs" | "utcOffsetMinutes" | "columns" | "sourceCodes" | "unreadable" | "ignoredColumns"
>;

/** Rows of a log, one after the other. */
export type LogPiece = Pick<LogColumns, "unixMs" | "columns" | "sourceCodes">;

/** What is known of a log when its last row was read. */
export type LogEnd = Omit<LogColumns, keyof LogPiece>;

/**
 * What the header of a native log says. Letters in either case, spaces around a name do no harm.
 *
 * @throws BadInput "no-known-column", "no-time-column" or "doubled-column".
 */
export function nativeMeanings(header: readonly string[], file: string): readonly Meaning[] {
  const meanings = header.map((name) => meaningByName.get(name.trim().toLowerCase()) ?? null);
  const doubled = meanings.find((meaning, index) => meaning !== null && meanings.indexOf(meaning) !== index);
  if (doubled) throw new BadInput({ code: "doubled-column", file, column: doubled });
  if (!meanings.some(isPosition)) {
    throw new BadInput({ code: "no-known-column", file, header: showable(header.join(",")) });
  }
  if (!meanings.includes("time")) {
    throw new BadInput({ code: "no-time-column", file, header: showable(header.join(",")) });
  }
  return meanings;
}

const meaningByName: ReadonlyMap<string, Meaning> = new Map(
  ["time" as const, "source" as const, ...positions].map((meaning) => [meaning.toLowerCase(), meaning]),
);

export const isPosition = (meaning: Meaning | ColumnMeaning): meaning is Position =>
  (positions as readonly (Meaning | ColumnMeaning)[]).includes(meaning);

/**
 * The code of a source cell as `Recording.sourceCodes` holds it: 0 when empty, -1 when it means none. The format has words
 * of its own; what another logger's log may say is understood here too.
 */
export function nativeSourceCode(cell: string): number {
  const name = cell.trim().toLowerCase();
  if (name === "") return 0;
  const source = energySources.find((own) => own === name) ?? sourceMeant(name);
  return source === undefined ? -1 : energySources.indexOf(source) + 1;
}

/** Why no time of a log could be read, told from the first of them. */
export type TimeProblem = "ambiguous-dates" | "time-without-offset" | "nothing-readable";

/** Why a cell of our own format's time column is no instant. */
export function nativeTimeProblem(text: string): TimeProblem {
  if (slashedDate.test(text)) return "ambiguous-dates";
  return localTime.test(text) ? "time-without-offset" : "nothing-readable";
}

/** Day and month could be either: 04/06/2026. */
export const slashedDate = /^\d{1,2}([-./])\d{1,2}\1(\d{4}|\d{2})(?!\d)/;
const localTime = /^\d{4}-\d\d-\d\d[T ]\d\d:\d\d(:\d\d(\.\d+)?)?$/i;

/**
 * Refuses a log that holds nothing to analyse. Everything else is odd at most, and goes on to be cleaned.
 *
 * @param endsMidLine the file's last row has no line end, so it may be cut off
 * @throws BadInput "empty-log", "wrong-row-length", "ambiguous-dates", "time-without-offset",
 *   "nothing-readable" or "unknown-source".
 */
export function refuseUnusable(
  file: string,
  expectedCells: number,
  progress: ReadingProgress,
  endsMidLine: boolean,
  understood: { readonly isMapped: boolean; timeProblem(text: string): TimeProblem },
): void {
  const { rows, wrongLength, kept, readings, tally } = progress;
  if (rows === 0) throw new BadInput({ code: "empty-log", file });
  if (wrongLength !== null && wrongLength.rows * 2 > rows) {
    throw new BadInput({ code: "wrong-row-length", file, expected: expectedCells, ...wrongLength });
  }
  const time = tally.find("time", "unreadable-time");
  if (kept === 0 && time) {
    const where = { file, line: time.firstLine, value: time.firstText };
    const code = understood.timeProblem(time.firstText);
    throw new BadInput(code === "nothing-readable" ? { code, column: "time", ...where } : { code, ...where });
  }
  const source = tally.find("source", "unknown-source");
  // A logger that lost its supply leaves half a line: that is no reason to refuse its night.
  const isCutOff = endsMidLine && source?.firstLine === progress.line;
  if (source && !isCutOff) {
    throw new BadInput({
      code: "unknown-source",
      file,
      line: source.firstLine,
      value: source.firstText,
      in: understood.isMapped ? "mapped" : "own-format",
    });
  }
  if (readings === 0) {
    const first = tally.first();
    throw new BadInput({
      code: "nothing-readable",
      file,
      line: first?.firstLine ?? progress.line,
      column: first?.position ?? "",
      value: first?.firstText ?? "",
    });
  }
}
