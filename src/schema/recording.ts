// A log in memory, as every floor hands it on: columns of numbers over one time axis.
// How it comes out of a file is in src/ingest; what is wrong with it is found in src/science.

import type { RunSheet } from "./shapes/run-sheet.ts";

/** Where a probe sits. All °C but `supply`, the volts at the fridge's terminals. */
export const positions = [
  "evaporator",
  "cabinet",
  "ambient",
  "room",
  "freezer",
  "ventOut",
  "flue",
  "boiler",
  "supply",
] as const;
export type Position = (typeof positions)[number];

/** What heats the boiler. */
export const energySources = ["gas", "mains", "dc12", "off"] as const;
export type EnergySource = (typeof energySources)[number];
/** A source that cools. */
export type HeatSource = Exclude<EnergySource, "off">;
export const heatSources = ["gas", "mains", "dc12"] as const satisfies readonly HeatSource[];

/** Whether a source has volts. */
export const isElectric = (source: EnergySource | null): source is "mains" | "dc12" =>
  source === "mains" || source === "dc12";

/** In `Recording.sourceCodes`: 0 says nothing, n says `energySources[n - 1]`. */
export const sourceUnsaid = 0;

/** "From this instant on, the fridge ran on ...", told by the user. */
export interface SourceMark {
  readonly unixMs: number;
  readonly source: EnergySource;
}

/** Readings that did not become numbers while the file was read; kept to be shown. */
export interface UnreadableCells {
  readonly position: Position | "time" | "source";
  readonly reason: "not-a-number" | "unreadable-time" | "wrong-column-count" | "unknown-source";
  readonly readings: number;
  /** The first of them: line number from 1, and the text met. */
  readonly firstLine: number;
  readonly firstText: string;
}

/**
 * One log. All arrays have the same length n, in the file's order (which may be wrong: cleaning
 * finds out). A missing reading is NaN.
 */
export interface Recording {
  /** The log's name as people know it: the file's name without its folder. */
  readonly name: string;
  /** SHA-256 of the file, lower-case hex; absent for data that never was a file. */
  readonly sha256?: string;
  readonly unixMs: Float64Array;
  /** UTC offset that the log writes its times with, minutes; screens show times with it. */
  readonly utcOffsetMinutes: number;
  readonly columns: { readonly [P in Position]?: Float64Array };
  /** Per row; null when the log has no `source` column. */
  readonly sourceCodes: Uint8Array | null;
  readonly sourceMarks: readonly SourceMark[];
  readonly sheet: RunSheet | null;
  readonly unreadable: readonly UnreadableCells[];
  /** Header names of columns that are none of ours, so that a misspelt one is seen; absent for data that never was a file. */
  readonly ignoredColumns?: readonly string[];
}
