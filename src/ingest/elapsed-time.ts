// Columns that count time since the log's start: what they count, and from a count to milliseconds. When the log
// started, no such column says.

import { type ElapsedUnit, type LogMapping, msPerHour, msPerMinute } from "../schema/index.ts";
import { plainWords } from "./column-meaning.ts";
import { type NumberForm, numberOf } from "./number-text.ts";

export type TimeForm = NonNullable<LogMapping["timeForm"]>;
export type ElapsedForm = Extract<TimeForm, `elapsed-${string}`>;

/** Whether a time column counts from the log's start. */
export const isElapsed = (form: TimeForm | undefined): form is ElapsedForm => form?.startsWith("elapsed-") === true;

/** The form of a column that counts whole units. */
export const elapsedForms: { readonly [U in ElapsedUnit]: ElapsedForm } = {
  ms: "elapsed-milliseconds",
  s: "elapsed-seconds",
  min: "elapsed-minutes",
  h: "elapsed-hours",
};

/** Milliseconds in each unit that a column may count. */
export const msPerElapsed: { readonly [U in ElapsedUnit]: number } = { ms: 1, s: 1000, min: msPerMinute, h: msPerHour };

/** Milliseconds since the start, rounded; NaN when the cell holds none. */
export function elapsedMsOf(cell: string, form: ElapsedForm, numbers: NumberForm): number {
  if (form === "elapsed-clock") return clockMsOf(cell);
  const unit = (Object.keys(elapsedForms) as ElapsedUnit[]).find((name) => elapsedForms[name] === form) ?? "s";
  return Math.round(numberOf(cell, numbers) * msPerElapsed[unit]);
}

/** "36:10:05" or "0:00:10.5"; hours may go beyond a day. */
function clockMsOf(cell: string): number {
  const parts = /^(\d{1,5}):([0-5]\d):([0-5]\d)(?:[.,](\d{1,9}))?$/.exec(cell);
  if (parts === null) return Number.NaN;
  const [hours, minutes, seconds] = parts.slice(1, 4).map(Number);
  return ((hours * 60 + minutes) * 60 + seconds) * 1000 + Math.round(Number(`0.${parts[4] ?? 0}`) * 1000);
}

/** Whether a cell counts as a clock does: 12:34:56. */
export const isElapsedClock = (cell: string): boolean => !Number.isNaN(clockMsOf(cell));

/** Words for what is counted, of the languages of column-meaning.ts. */
const unitWords: readonly (readonly [ElapsedUnit, RegExp])[] = [
  ["ms", /^(ms|msec|millis|millise[ck]\w*|milisegundos)$/],
  ["s", /^(s|sec|secs|sek|seconds?|sekunden?|secondes?|secondi|segundos|seconden|sekunder)$/],
  ["min", /^(min|mins|minutes?|minuten?|minuti|minutos|minuter|minutter)$/],
  ["h", /^(h|hr|hrs|std|hours?|stunden?|heures?|ore|horas|uur|timmar|timer)$/],
];

/** The unit that a header names; undefined when it names none, or several. */
export function elapsedUnitIn(header: string): ElapsedUnit | undefined {
  const words = plainWords(header);
  const units = unitWords.filter(([, pattern]) => words.some((word) => pattern.test(word)));
  return units.length === 1 ? units[0][0] : undefined;
}
