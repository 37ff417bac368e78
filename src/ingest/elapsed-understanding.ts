// An unknown log that has no calendar and counts time from its start: by which column, in what unit, and, asked of the
// user, since when. time-understanding.ts understands logs that have a calendar.

import { type ElapsedUnit, elapsedUnits, msPerDay, msPerHour } from "../schema/index.ts";
import { headerSays } from "./column-meaning.ts";
import {
  type ElapsedForm,
  elapsedForms,
  elapsedMsOf,
  elapsedUnitIn,
  isElapsed,
  isElapsedClock,
  msPerElapsed,
  type TimeForm,
} from "./elapsed-time.ts";
import {
  type Column,
  columnFound,
  columnQuestion,
  type Findings,
  firstFilled,
  type LogHints,
  type TimeColumns,
  whichColumn,
} from "./log-findings.ts";
import type { LogParts } from "./log-rows.ts";
import { isNumber, isRising, type NumberForm, numberOf } from "./number-text.ts";

/** A column of rising counts under a header that speaks of time, or told; h:mm:ss can also be a clock without dates. */
export function elapsedColumns(columns: readonly Column[], parts: LogParts, findings: Findings): TimeColumns | null {
  const free = columns.filter(({ told }) => told === undefined || told === "time" || told === "elapsed");
  const counting = free.filter(speaksOfElapsed);
  const told = counting.filter((column) => column.told !== undefined);
  const found = (told.length > 0 ? told : counting).flatMap((column) => {
    const form = elapsedForm(column);
    return form === undefined ? [] : [{ column, form }];
  });
  if (found.length === 0) return null;
  const [{ column: time, form }] = found;
  if (found.length > 1) {
    const several = found.map(({ column }) => column);
    findings.questions.push(whichColumn("elapsed", several, parts));
  } else if (form === "elapsed-clock" && !isSurelyElapsed(time)) {
    findings.questions.push(columnQuestion(time, ["elapsed"], parts));
  } else findings.sure.push(columnFound(time, "elapsed"));
  return { time, date: undefined, zone: undefined, form };
}

function speaksOfElapsed({ texts, told }: Column): boolean {
  if (told !== undefined) return true;
  const header = texts.join(" ");
  const says = headerSays(header);
  const isTime = says.kind === "meaning" && (says.meaning === "time" || says.meaning === "elapsed");
  return isTime || (/^t\b/i.test(header) && elapsedUnitIn(header) !== undefined);
}

/** Seconds stand in for a unit that the header does not name; `settledForm` asks. */
function elapsedForm({ cells, texts }: Column): ElapsedForm | undefined {
  if (cells.filter(isElapsedClock).length >= cells.length * 0.95) return "elapsed-clock";
  const numbers = cells.filter(isNumber);
  if (numbers.length < cells.length * 0.95) return undefined;
  return elapsedForms[elapsedUnitIn(texts.join(" ")) ?? "s"];
}

/** More hours than a day has, or a header or a user that says so. */
function isSurelyElapsed({ cells, texts, told }: Column): boolean {
  const says = headerSays(texts.join(" "));
  if (told === "elapsed" || (says.kind === "meaning" && says.meaning === "elapsed")) return true;
  return cells.some((cell) => Number(/^(\d+):/.exec(cell)?.[1]) > 23);
}

/** Whether counts can be elapsed time: it runs on. */
export const runsOn = (values: readonly number[]) => values.length > 0 && values[0] >= 0 && isRising(values);

/** Whether a column can be elapsed time in its form: it runs on, and no log is that long. */
export function isElapsedTime({ cells }: Column, form: ElapsedForm, numbers: NumberForm): boolean {
  const values = cells.map((cell) => elapsedMsOf(cell, form, numbers)).filter(Number.isFinite);
  return runsOn(values) && isPossibleSpan(values[values.length - 1]);
}

const isPossibleSpan = (ms: number) => ms <= 366 * msPerDay;

/** The form with its unit settled, asked about where nothing tells it. */
export function settledForm(
  { time, form }: TimeColumns,
  numbers: NumberForm,
  parts: LogParts,
  hints: LogHints,
  findings: Findings,
): TimeForm | undefined {
  if (!isElapsed(form)) return form;
  const unit = hints.elapsedUnit ?? elapsedUnitIn(time.texts.join(" "));
  const settled = form === "elapsed-clock" ? form : unit && elapsedForms[unit];
  if (settled === undefined) askElapsedUnit(time, numbers, parts, findings);
  else findings.sure.push({ code: "time-form", form: settled, example: firstFilled(time) });
  askStart(time, parts, hints, findings);
  return settled ?? form;
}

function askElapsedUnit(time: Column, numbers: NumberForm, parts: LogParts, findings: Findings): void {
  const last = time.cells.findLastIndex(isNumber);
  const text = time.cells[last];
  const hours = (unit: ElapsedUnit) => (numberOf(text, numbers) * msPerElapsed[unit]) / msPerHour;
  findings.questions.push({
    about: "elapsed-unit",
    line: parts.rows[last].line,
    column: time.name,
    text,
    readings: elapsedUnits
      .map((answer) => ({ answer, hours: hours(answer) }))
      .filter(({ hours }) => isPossibleSpan(hours * msPerHour)),
  });
}

function askStart(time: Column, parts: LogParts, { startsAt }: LogHints, findings: Findings): void {
  if (startsAt !== undefined) findings.sure.push({ code: "starts-at", ...startsAt });
  else findings.questions.push({ about: "starts-at", line: parts.rows[0].line, column: time.name, readings: [] });
}
