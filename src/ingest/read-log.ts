// From the bytes of a log to a Recording: the one way in, for our own format and for mapped ones.

import { basename } from "node:path";
import type { LogMapping, Recording, RunSheet, SourceMark } from "../schema/index.ts";
import type { LogColumns } from "./log-columns.ts";
import { mappedDialect } from "./mapped-log.ts";
import { readNativeLog } from "./native-log.ts";
import { nativeDialect, readTextLog } from "./text-log.ts";

export interface ReadLogOptions {
  /** The file as the user typed it: refusals name it. */
  readonly file: string;
  /** How people know the log; the file's name without its folder unless given. */
  readonly name?: string;
  readonly sha256?: string;
  /** For another logger's CSV; our own format without. */
  readonly mapping?: LogMapping;
  readonly sheet?: RunSheet | null;
  readonly sourceMarks?: readonly SourceMark[];
}

/**
 * Reads one log. A cell that is no number is NaN and counted in `unreadable`; a row of the wrong length or
 * without a readable time is left out and counted there too. An empty cell is a missing reading.
 *
 * @param bytes the file: UTF-8, with or without byte order mark, or UTF-16 with one.
 * @throws BadInput when there is nothing to analyse, or its meaning would have to be guessed.
 */
export function readLog(bytes: Uint8Array, options: ReadLogOptions): Recording {
  const { file, name = basename(file), sha256, mapping, sheet = null, sourceMarks = [] } = options;
  const columns = readColumns(withoutMark(bytes), file, mapping);
  return { name, ...(sha256 === undefined ? {} : { sha256 }), ...columns, sourceMarks, sheet };
}

function readColumns(bytes: Uint8Array, file: string, mapping: LogMapping | undefined): LogColumns {
  if (mapping) return readTextLog(textOf(bytes), file, mappedDialect(mapping, file));
  return bytes.includes(quote) ? readTextLog(textOf(bytes), file, nativeDialect(file)) : readNativeLog(bytes, file);
}

const quote = 0x22;

/** UTF-8 without byte order mark. */
function withoutMark(bytes: Uint8Array): Uint8Array {
  const [first, second, third] = bytes;
  if (first === 0xef && second === 0xbb && third === 0xbf) return bytes.subarray(3);
  if (first === 0xff && second === 0xfe) return recoded(bytes, "utf-16le");
  if (first === 0xfe && second === 0xff) return recoded(bytes, "utf-16be");
  return bytes;
}

const recoded = (bytes: Uint8Array, encoding: string) =>
  new TextEncoder().encode(new TextDecoder(encoding).decode(bytes));

/** Older loggers write their degree signs in the Windows code page, which is no valid UTF-8. */
function textOf(bytes: Uint8Array): string {
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return new TextDecoder("windows-1252").decode(bytes);
  }
}
