// The files of ours that come in beside a log.

import type { BaselineFile, LogMapping, Recording, RunSheet } from "../../schema/index.ts";
import { baselineFileSchema, logMappingSchema, runSheetSchema } from "../../schema/shapes/index.ts";
import { baselineLogs } from "../baseline-file.ts";
import { readShape } from "./json-shapes.ts";

/** @throws BadInput "not-json", "wrong-shape" or "newer-format". */
export const readRunSheet = (bytes: Uint8Array, file: string): RunSheet =>
  readShape(bytes, file, runSheetSchema, "coldfall-run-sheet-1");

/** @throws BadInput "not-json", "wrong-shape" or "newer-format". */
export const readLogMapping = (bytes: Uint8Array, file: string): LogMapping =>
  readShape(bytes, file, logMappingSchema, "coldfall-log-mapping-2");

/**
 * Reads a baseline file back into recordings, one per run.
 *
 * @throws BadInput "not-json", "wrong-shape" or "newer-format".
 */
export function readBaseline(
  bytes: Uint8Array,
  file: string,
): { readonly kind: BaselineFile["kind"]; readonly runs: readonly Recording[] } {
  return baselineLogs(parseBaseline(bytes, file), file);
}

/** A baseline file as it stands. @throws BadInput as `readBaseline` does */
export const parseBaseline = (bytes: Uint8Array, file: string): BaselineFile =>
  readShape(bytes, file, baselineFileSchema, "coldfall-baseline-1");
