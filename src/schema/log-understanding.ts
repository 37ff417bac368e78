// What was found out about another logger's file: what is sure, and where two readings are possible. Ingest finds
// it, the report floor words it, a face asks.

import type { LogMapping } from "./log-mapping.ts";
import type { Position } from "./recording.ts";
import type { Nothing, SayingOf } from "./sayings.ts";

export type DateOrder = NonNullable<LogMapping["dateOrder"]>;
export type TemperatureUnit = NonNullable<LogMapping["unit"]>;
export type TextEncoding = "utf-8" | "utf-16le" | "utf-16be" | "windows-1252";

/** What a column can be; `none` is one to leave out. */
export type ColumnMeaning = "time" | "date" | "source" | Position | "none";

/** What was found beyond doubt. `from` says what it was seen by; `told` by the user. */
export interface LogFoundSayings {
  encoding: { encoding: TextEncoding };
  separator: { separator: NonNullable<LogMapping["separator"]> };
  "decimal-comma": { example: string };
  "lines-before": { lines: number };
  "no-header": Nothing;
  column: { column: string; meaning: Exclude<ColumnMeaning, "none">; told: boolean };
  "column-left-out": { column: string };
  "unit-of": { column: string; unit: TemperatureUnit; from: "header" | "cells" | "own-format" | "values" | "told" };
  "date-order": { order: DateOrder; from: "year-first" | "above-12" | "steady-time" | "told"; example: string };
  zone: { zone: string; from: "text" | "header" | "told" };
  "time-form": { form: NonNullable<LogMapping["timeForm"]>; example: string };
  "twelve-hours": { example: string };
  "hour-24": { example: string };
  senml: { records: number };
  /** `damaged`: lines that were not whole. */
  "board-file": { board: string; starts: number; damaged: number };
  /** A start of the board that only its neighbours place in time; it can lie so much further from the one it was put beside, null: nobody knows. */
  "board-start": { start: number; isBeforeNext: boolean; slackMinutes: number | null };
  /** Readings in a unit that is not ours, left out. */
  "senml-unit": { unit: string; records: number };
}
export type LogFound = SayingOf<LogFoundSayings>;

/**
 * One thing that can be read in two ways or more. `line` counts from 1; `text` is a cell as the file has it; each
 * reading holds the answer that would settle it, and what the example would then mean.
 */
export type LogQuestion =
  | {
      readonly about: "date-order";
      readonly line: number;
      readonly text: string;
      /** `wallMs`: the date and time as if UTC. */
      readonly readings: readonly { readonly answer: DateOrder; readonly wallMs: number }[];
    }
  | {
      readonly about: "zone";
      readonly line: number;
      readonly text: string;
      readonly readings: readonly { readonly answer: string; readonly unixMs: number }[];
    }
  | {
      readonly about: "unit";
      readonly line: number;
      readonly column: string;
      readonly text: string;
      readonly readings: readonly { readonly answer: TemperatureUnit; readonly celsius: number }[];
    }
  | {
      readonly about: "column";
      readonly line: number;
      readonly column: string;
      readonly text: string;
      readonly readings: readonly { readonly answer: ColumnMeaning }[];
    }
  | {
      readonly about: "which-column";
      readonly meaning: Exclude<ColumnMeaning, "none">;
      readonly line: number;
      readonly readings: readonly { readonly answer: string; readonly text: string }[];
    }
  | {
      readonly about: "half-of-day";
      readonly line: number;
      readonly text: string;
      readonly readings: readonly { readonly answer: "am" | "pm"; readonly text: string }[];
    };

/** A row near the top as it is understood; null where a question is still open. */
export interface UnderstoodRow {
  readonly line: number;
  readonly timeText: string;
  readonly unixMs: number | null;
  readonly utcOffsetMinutes: number;
  /** °C, or V of the supply; NaN where a reading is missing. */
  readonly values: { readonly [P in Position]?: number | null };
}

/** How a log is understood. With no question left, `mapping` reads it. */
export interface LogUnderstanding {
  readonly mapping: LogMapping | null;
  readonly sure: readonly LogFound[];
  readonly questions: readonly LogQuestion[];
  readonly firstRows: readonly UnderstoodRow[];
}
