// The only place of ingest that touches files: read one whole, write one whole.

import { createHash } from "node:crypto";
import { existsSync, fstatSync, readFileSync, realpathSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { BadInput, type RunSheet } from "../schema/index.ts";
import { descriptorOf, isStream, type OutputKind, refuseToReplace } from "./output-file.ts";
import { type ReadLog, type ReadLogOptions, readLogUnderstood } from "./read-log.ts";

/** @throws BadInput "no-such-file" or "unreadable-file". */
export function readWholeFile(file: string): Uint8Array {
  try {
    return readFileSync(file);
  } catch (error) {
    const errorCode = systemCode(error);
    throw new BadInput(
      errorCode === "ENOENT" ? { code: "no-such-file", file } : { code: "unreadable-file", file, errorCode },
    );
  }
}

/** SHA-256, lower-case hex. */
export const sha256 = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("hex");

export interface ReadLogFileOptions extends Omit<ReadLogOptions, "file" | "sha256" | "sheet"> {
  /** The run sheet's file; left out, the one beside the log is taken if there is one. */
  readonly sheetFile?: string;
}

/** A log with the files it was read from. */
export interface LogFile extends ReadLog {
  /** The run sheet's file and hash; null when there was none. */
  readonly sheet: { readonly file: string; readonly sha256: string } | null;
}

/**
 * Reads a log and its run sheet.
 *
 * @throws BadInput as `readWholeFile`, `readLog` and `readRunSheet` do.
 */
export async function readLogFile(file: string, options: ReadLogFileOptions = {}): Promise<LogFile> {
  const { sheetFile = sheetBeside(file), ...others } = options;
  const bytes = readWholeFile(file);
  const sheet = sheetFile === undefined ? null : await sheetIn(sheetFile);
  return {
    ...readLogUnderstood(bytes, { ...others, file, sha256: sha256(bytes), sheet: sheet?.content ?? null }),
    sheet: sheet && { file: sheet.file, sha256: sheet.sha256 },
  };
}

/**
 * The run sheet of a log: as stated, else the one beside it, else none.
 *
 * @throws BadInput as `readWholeFile` and `readRunSheet` do
 */
export async function sheetOf(file: string, stated?: string): Promise<RunSheet | null> {
  const sheetFile = stated ?? sheetBeside(file);
  return sheetFile === undefined ? null : (await sheetIn(sheetFile)).content;
}

/** What checks a sheet is loaded with the first one. */
async function sheetIn(file: string): Promise<{ file: string; sha256: string; content: RunSheet }> {
  const bytes = readWholeFile(file);
  const { readRunSheet } = await import("./json-files/index.ts");
  return { file, sha256: sha256(bytes), content: readRunSheet(bytes, file) };
}

/** `night.csv` has its run sheet in `night.sheet.json`. */
function sheetBeside(file: string): string | undefined {
  const beside = `${file.replace(/\.[^./\\]*$/, "")}.sheet.json`;
  return existsSync(beside) ? beside : undefined;
}

/**
 * Writes a file whole or not at all: the content goes into a new file beside it that then takes the name.
 * A pipe or device (`/dev/stdout`) is written to as it is.
 *
 * @param kind what it is: only an earlier one of that kind is replaced, see `refuseToReplace`
 * @throws BadInput "cannot-write"; nothing is left behind then.
 */
export function writeWholeFile(file: string, content: string | Uint8Array, kind: OutputKind): void {
  refuseToReplace({ [kind]: file });
  try {
    if (isStream(file)) writeFileSync(streamOf(file), content);
    else replaceFile(existsSync(file) ? realpathSync(file) : file, content);
  } catch (error) {
    throw new BadInput({ code: "cannot-write", file, errorCode: systemCode(error) });
  }
}

/** A file behind /dev/stdout belongs to the shell, which may be adding to it: opened anew it would be emptied. */
function streamOf(file: string): string | number {
  const descriptor = descriptorOf(file);
  return descriptor !== null && fstatSync(descriptor).isFile() ? descriptor : file;
}

function replaceFile(file: string, content: string | Uint8Array): void {
  const unfinished = `${file}.${process.pid}.unfinished`;
  try {
    writeFileSync(unfinished, content, { flag: "wx" });
    renameSync(unfinished, file);
  } catch (error) {
    rmSync(unfinished, { force: true });
    throw error;
  }
}

/** The operating system's code of an error, such as EACCES; empty when it has none. */
export const systemCode = (error: unknown): string =>
  error instanceof Error && "code" in error && typeof error.code === "string" ? error.code : "";
