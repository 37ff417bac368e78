// What was found out about another logger's file: what is sure, and where two readings are possible. Ingest finds
// it, the report floor words it, a face asks.

import type { EnergySource, Position } from "./recording.ts";
import type { Nothing, SayingOf } from "./sayings.ts";
import type { LogMapping } from "./shapes/log-mapping.ts";
import type { RawUnit } from "./units.ts";

export type DateOrder = NonNullable<LogMapping["dateOrder"]>;
export type TemperatureUnit = NonNullable<LogMapping["unit"]>;
export type DecimalMark = NonNullable<LogMapping["decimal"]>;
export type ThousandsMark = NonNullable<LogMapping["thousands"]>;
export const elapsedUnits = ["ms", "s", "min", "h"] as const;
/** What a column of elapsed time counts. */
export type ElapsedUnit = (typeof elapsedUnits)[number];
export type TextEncoding = "utf-8" | "utf-16le" | "utf-16be" | "windows-1252";

/** What a column can be besides a probe; `elapsed` is time since the log's start, `none` is one to leave out. */
export const otherColumnMeanings = ["time", "date", "zone", "elapsed", "source", "none"] as const;
export type ColumnMeaning = (typeof otherColumnMeanings)[number] | Position;

/** What was found beyond doubt. `from` says what it was seen by; `told` by the user. */
export interface LogFoundSayings {
  encoding: { encoding: TextEncoding };
  separator: { separator: NonNullable<LogMapping["separator"]> };
  "decimal-comma": { example: string };
  "decimal-point": { example: string };
  thousands: { mark: ThousandsMark; example: string };
  "lines-before": { lines: number };
  "no-header": Nothing;
  column: { column: string; meaning: Exclude<ColumnMeaning, "none">; told: boolean };
  "column-left-out": { column: string };
  "unit-of": { column: string; unit: TemperatureUnit; from: "header" | "cells" | "own-format" | "values" | "told" };
  /** The supply's; volts are not told. */
  millivolts: { column: string };
  "date-order": { order: DateOrder; from: "year-first" | "above-12" | "steady-time" | "told"; example: string };
  zone: { zone: string; from: "text" | "header" | "told" };
  /** Letters behind the times. */
  "zone-letters": { letters: string; zone: string; from: "only-one" | "told" };
  /** When a log of elapsed times began. */
  "starts-at": { unixMs: number; utcOffsetMinutes: number };
  "time-form": { form: NonNullable<LogMapping["timeForm"]>; example: string };
  "twelve-hours": { example: string };
  "hour-24": { example: string };
  senml: { records: number };
  /** `damaged`: lines that were not whole. */
  "board-file": { board: string; starts: number; damaged: number };
  /** A board's probe that sends no °C, and whose curve nobody told. */
  "probe-without-curve": { probe: string; unit: RawUnit };
  /**
   * A start of the board that only its neighbours place in time; it can lie so much further from the one it was put
   * beside, null: nobody knows.
   */
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
      /** What stands behind the time, where it can mean several zones; null where nothing does. */
      readonly letters: string | null;
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
      /** `text`: a word of a column of energy sources; "none" leaves the column out. */
      readonly about: "source-word";
      readonly line: number;
      readonly column: string;
      readonly text: string;
      readonly readings: readonly { readonly answer: EnergySource | "none" }[];
    }
  | {
      readonly about: "decimal";
      readonly line: number;
      readonly column: string;
      readonly text: string;
      readonly readings: readonly { readonly answer: DecimalMark; readonly value: number }[];
    }
  | {
      readonly about: "elapsed-unit";
      readonly line: number;
      readonly column: string;
      readonly text: string;
      /** `hours`: what the example would then be. */
      readonly readings: readonly { readonly answer: ElapsedUnit; readonly hours: number }[];
    }
  | {
      /** When elapsed time was 0: nothing in the file tells, so there is nothing to choose from. */
      readonly about: "starts-at";
      readonly line: number;
      readonly column: string;
      readonly readings: readonly { readonly answer: string }[];
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
  /** A column that would be a probe, but whose header names ohms: such a log is refused. */
  readonly ohms?: { readonly column: string; readonly text: string };
  /** A column that names the probe of each row: such a log is refused. */
  readonly probePerRow?: { readonly column: string; readonly probes: readonly string[] } | undefined;
}
