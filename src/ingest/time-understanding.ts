// The times of an unknown log that has a calendar: in which columns they stand, how they are written, in what order day
// and month. zone-understanding.ts finds their zones, elapsed-understanding.ts reads logs that only count.

import { type ColumnMeaning, type DateOrder, msPerDay, msPerHour } from "../schema/index.ts";
import { headerSays, plainWords } from "./column-meaning.ts";
import { dateOrderOf } from "./date-order.ts";
import { isElapsed, type TimeForm } from "./elapsed-time.ts";
import {
  type Column,
  columnFound,
  type Findings,
  firstFilled,
  type LogHints,
  type TimeColumns,
  whichColumn,
} from "./log-findings.ts";
import type { LogParts } from "./log-rows.ts";
import { spreadsheetWallMs } from "./mapped-log.ts";
import { groupsIn, isRising, numberOf } from "./number-text.ts";
import { timeTogether } from "./text-log.ts";
import { isDateAlone, isTimeAlone, type TimeText, timeTextOf, wallMsOf, zoneOf } from "./time-text.ts";
import { type FoundZones, type TimeRow, zoneOfClock, zonesOf } from "./zone-understanding.ts";

/** The columns that hold dates and times, or counts since a known day; null when there are none. */
export function datedColumns(columns: readonly Column[], parts: LogParts, findings: Findings): TimeColumns | null {
  const free = columns.filter(({ told }) => told === undefined || told === "time" || told === "date");
  const full = preferred(free, "time", (cell) => timeTextOf(cell) !== undefined);
  const clocks = preferred(free, "time", isTimeAlone);
  const dates = preferred(free, "date", isDateAlone);
  const counted = countedColumns(free);
  const found =
    full.length > 0 ? full : clocks.length > 0 && dates.length > 0 ? clocks : counted.map(({ column }) => column);
  if (found.length === 0) return null;
  const date = found === clocks && full.length === 0 ? dates : [];
  if (found.length > 1) findings.questions.push(whichColumn("time", found, parts));
  if (date.length > 1) findings.questions.push(whichColumn("date", date, parts));
  const time = found[0];
  const form = counted.find(({ column }) => column === time && full.length === 0 && date.length === 0)?.form;
  const zone = form === undefined ? columns.find(isZoneColumn) : undefined;
  findings.sure.push(columnFound(time, "time"));
  if (date.length > 0) findings.sure.push(columnFound(date[0], "date"));
  if (zone !== undefined) findings.sure.push(columnFound(zone, "zone"));
  if (form !== undefined) findings.sure.push({ code: "time-form", form, example: firstFilled(time) });
  return { time, date: date[0], zone, form };
}

/** Columns nearly all of whose cells fit; the told one alone, when there is one. */
function preferred(
  columns: readonly Column[],
  meaning: ColumnMeaning,
  fits: (cell: string) => boolean,
): readonly Column[] {
  const fitting = columns.filter(({ cells }) => cells.filter(fits).length >= cells.length * 0.95);
  const told = fitting.filter((column) => column.told === meaning);
  return told.length > 0 ? told : fitting;
}

/** A column of zones alone, under a header that says so. */
function isZoneColumn({ cells, texts, told }: Column): boolean {
  const says = headerSays(texts.join(" "));
  const isNamed = (says.kind === "meaning" && says.meaning === "zone") || /^zone$/i.test(texts.join(" "));
  if (told !== "zone" && !(told === undefined && isNamed)) return false;
  return cells.filter((cell) => zoneOf(cell) !== undefined).length >= cells.length * 0.95;
}

/** Columns of rising numbers under a header that speaks of time. */
function countedColumns(columns: readonly Column[]) {
  return columns.flatMap((column) => {
    const says = headerSays(column.texts.join(" "));
    const speaksOfTime = says.kind === "meaning" && (says.meaning === "time" || says.meaning === "date");
    const isUnix = plainWords(column.texts.join(" ")).some((word) => word === "unix" || word === "epoch");
    const values = column.cells.map(count);
    const form = countedForm(values);
    return (speaksOfTime || isUnix || column.told === "time") && isRising(values) && form ? [{ column, form }] : [];
  });
}

/** A count on its own, before the form of the log's numbers is known. */
const count = (cell: string) => numberOf(cell, groupsIn(cell) ?? { decimal: cell.includes(",") ? "," : "." });

/** The instants from 2001 to 2100 lie in ranges that do not meet: seconds, milliseconds, days since 1900. */
function countedForm(values: readonly number[]): TimeForm | undefined {
  const within = (least: number, most: number) => values.every((value) => value >= least && value < most);
  if (within(978_307_200, 4_102_444_800)) return "unix-seconds";
  if (within(978_307_200_000, 4_102_444_800_000)) return "unix-milliseconds";
  return within(36_892, 73_051) ? "spreadsheet-days" : undefined;
}

export interface Clock extends FoundZones {
  readonly dateOrder: DateOrder | undefined;
  /** Every hour so far is one that a clock of twelve hours shows, and none says which half of the day: later rows tell. */
  readonly mayBeTwelveHours: boolean;
}

const noClock: Clock = { dateOrder: undefined, zone: undefined, zoneNames: {}, mayBeTwelveHours: false };

/** Day and month in which order, and in what zone. */
export function clockOf(time: TimeColumns, parts: LogParts, hints: LogHints, findings: Findings): Clock {
  const { form } = time;
  if (form === "unix-seconds" || form === "unix-milliseconds" || isElapsed(form)) return noClock;
  const asking = { time, parts, hints, findings };
  const texts = time.time.cells.map((cell, row) => timeTogether([time.date?.cells[row], cell, time.zone?.cells[row]]));
  if (form === "spreadsheet-days") {
    const wallMs = spreadsheetWallMs(count(texts[0]));
    return { ...noClock, zone: zoneOfClock({ text: texts[0], wallMs, line: parts.rows[0].line }, asking) };
  }
  const rows = texts.flatMap((text, row) => {
    const parsed = timeTextOf(text);
    return parsed === undefined ? [] : [{ text, parsed, line: parts.rows[row].line }];
  });
  const times = rows.map(({ parsed }) => parsed);
  const dateOrder = orderOf(rows, hints, findings);
  const firstOrder = dateOrder ?? dateOrderOf(times).orders[0];
  askHalfOfDay(rows, firstOrder, findings);
  const example = (holds: (parsed: TimeText) => boolean) => rows.find(({ parsed }) => holds(parsed))?.text;
  const half = example(({ hasHalf }) => hasHalf);
  if (half !== undefined) findings.sure.push({ code: "twelve-hours", example: half });
  const midnight = example(({ msOfDay }) => msOfDay === msPerDay);
  if (midnight !== undefined) findings.sure.push({ code: "hour-24", example: midnight });
  const mayBeTwelveHours = times.every(
    ({ hasHalf, msOfDay }) => !hasHalf && msOfDay >= msPerHour && msOfDay < 13 * msPerHour,
  );
  return { dateOrder, mayBeTwelveHours, ...zonesOf(rows, firstOrder, asking) };
}

/** Undefined when it is not needed, or not known. */
function orderOf(rows: readonly TimeRow[], hints: LogHints, findings: Findings): DateOrder | undefined {
  const found = dateOrderOf(rows.map(({ parsed }) => parsed));
  if (found.from === "year-first") return undefined;
  const [{ text, line, parsed }] = rows;
  const told = hints.dateOrder;
  if (told !== undefined && (found.orders.includes(told) || found.orders.length === 0)) {
    findings.sure.push({ code: "date-order", order: told, from: "told", example: text });
    return told;
  }
  if (found.orders.length === 1 && told === undefined) {
    const [order] = found.orders;
    findings.sure.push({ code: "date-order", order, from: found.from, example: text });
    return order;
  }
  const orders = found.orders.length > 0 ? found.orders : (["day-month-year", "month-day-year"] as const);
  const readings = orders.map((answer) => ({ answer, wallMs: wallMsOf(parsed, answer) }));
  findings.questions.push({ about: "date-order", line, text, readings });
  return undefined;
}

/** Without am and pm, a clock of twelve hours shows itself by falling back half a day. */
function askHalfOfDay(rows: readonly TimeRow[], order: DateOrder | undefined, findings: Findings): void {
  if (rows.some(({ parsed }) => parsed.hasHalf || parsed.msOfDay >= 13 * msPerHour)) return;
  const walls = rows.map(({ parsed }) => wallMsOf(parsed, order));
  const back = walls.findIndex((wall, index) => {
    const hours = (wall - walls[index - 1]) / msPerHour;
    return hours < -10.5 && hours > -12.5;
  });
  if (back < 0) return;
  const { line, text } = rows[back];
  findings.questions.push({
    about: "half-of-day",
    line,
    text,
    readings: [
      { answer: "am", text: `${text} am` },
      { answer: "pm", text: `${text} pm` },
    ],
  });
}
