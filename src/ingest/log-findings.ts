// What is gathered while an unknown log is understood: its columns, what is sure, what is asked.
// log-understanding.ts puts it together, time-understanding.ts asks about the times.

import type {
  ColumnMeaning,
  DateOrder,
  DecimalMark,
  ElapsedUnit,
  EnergySource,
  LogFound,
  LogMapping,
  LogQuestion,
  TemperatureUnit,
} from "../schema/index.ts";
import { energySources } from "../schema/index.ts";
import type { LogParts, Separator } from "./log-rows.ts";
import type { Instant } from "./text-log.ts";

/** What the user said already. */
export interface LogHints {
  readonly separator?: Separator;
  readonly decimal?: DecimalMark;
  readonly dateOrder?: DateOrder;
  readonly unit?: TemperatureUnit;
  /** As `isTimeZone` accepts. */
  readonly zone?: string;
  /** What a column of elapsed time counts. */
  readonly elapsedUnit?: ElapsedUnit;
  /** When elapsed time was 0. */
  readonly startsAt?: Instant;
  /** By header text, or by number from 1. */
  readonly columns?: ReadonlyMap<string, ColumnMeaning>;
  /** What a word in the column of energy sources means; letters in either case. */
  readonly sourceWords?: ReadonlyMap<string, EnergySource>;
  /** Looks up the zone of this computer: offered as a reading, never assumed. Most logs say theirs, and a look-up takes its time. */
  readonly here?: () => string;
}

/** One column of the unknown log. */
export interface Column {
  /** From 1. */
  readonly number: number;
  /** Header text, or "column 3". */
  readonly name: string;
  /** All that stands over it: group, header, unit. */
  readonly texts: readonly string[];
  readonly cells: readonly string[];
  readonly told: ColumnMeaning | undefined;
  /** How a mapping names it. */
  readonly key: string | number;
}

/** The columns that time is read from. */
export interface TimeColumns {
  readonly time: Column;
  readonly date: Column | undefined;
  /** Says each row's zone. */
  readonly zone: Column | undefined;
  readonly form: LogMapping["timeForm"];
}

/** What is gathered while one log is understood. */
export class Findings {
  readonly sure: LogFound[] = [];
  readonly questions: LogQuestion[] = [];

  isOpen(about: LogQuestion["about"]): boolean {
    return this.questions.some((question) => question.about === about);
  }
}

/** That a column was recognised, or told. */
export const columnFound = (column: Column, meaning: Exclude<ColumnMeaning, "none">): LogFound => ({
  code: "column",
  column: column.name,
  meaning,
  told: column.told !== undefined,
});

/** The first cell that is not blank; an empty text where all are. */
export const firstFilled = ({ cells }: Column) => cells.find((cell) => cell !== "") ?? "";

function firstFilledLine({ cells }: Column, { rows }: LogParts): number {
  const row = cells.findIndex((cell) => cell !== "");
  return rows[Math.max(row, 0)].line;
}

/** Asks what a column is; `meanings` are what it may be. */
export const columnQuestion = (
  column: Column,
  meanings: readonly Exclude<ColumnMeaning, "none">[],
  parts: LogParts,
): LogQuestion => ({
  about: "column",
  line: firstFilledLine(column, parts),
  column: column.name,
  text: firstFilled(column),
  readings: [...meanings, "none" as const].map((answer) => ({ answer })),
});

const cellLine = ({ cells }: Column, text: string, { rows }: LogParts) => rows[Math.max(cells.indexOf(text), 0)].line;

/** @param text the word that nobody knows */
export const sourceWordQuestion = (column: Column, text: string, parts: LogParts): LogQuestion => ({
  about: "source-word",
  line: cellLine(column, text, parts),
  column: column.name,
  text,
  readings: [...energySources, "none" as const].map((answer) => ({ answer })),
});

/** Asks which of several columns is the one with this meaning. */
export const whichColumn = (
  meaning: Exclude<ColumnMeaning, "none">,
  columns: readonly Column[],
  parts: LogParts,
): LogQuestion => ({
  about: "which-column",
  meaning,
  line: firstFilledLine(columns[0], parts),
  readings: columns.map((column) => ({ answer: `${column.key}`, text: firstFilled(column) })),
});
