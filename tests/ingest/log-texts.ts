// Small logs for the tests of ingest, and ways to read them.

import { readLog } from "../../src/ingest/index.ts";
import { BadInput, type BadInputSaying, type LogMapping, type Recording } from "../../src/schema/index.ts";

export const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

export const nativeLog = (...rows: string[]): string =>
  ["time,evaporator,cabinet,ambient,source", ...rows, ""].join("\n");

export const threeRows = nativeLog(
  "2026-06-04T07:00:00Z,26.9375,26.8125,26.6875,off",
  "2026-06-04T07:00:10Z,26.875,26.8125,26.75,off",
  "2026-06-04T07:00:20Z,26.5,26.75,26.75,gas",
);

export const read = (text: string | Uint8Array, mapping?: LogMapping): Recording =>
  readLog(typeof text === "string" ? bytesOf(text) : text, {
    file: "night.csv",
    ...(mapping === undefined ? {} : { mapping }),
  });

/** The saying an input is refused with; fails when it is not refused. */
export function refusal(attempt: () => unknown): BadInputSaying {
  try {
    attempt();
  } catch (error) {
    if (error instanceof BadInput) return error.saying;
    throw error;
  }
  throw new Error("was not refused");
}

export const listed = (column: ArrayLike<number> | null | undefined): number[] => Array.from(column ?? []);
