// Dates and times of day as people and loggers write them, taken apart. What order day and month stand in, and in
// what zone the clock ran, the text does not say: date-order.ts and zone-clock.ts know.

import { type DateOrder, isTimeZone, msPerHour, msPerMinute, offsetMinutesOf } from "../schema/index.ts";
import { utcMs } from "./instants.ts";
import { isZoneLetters } from "./zone-letters.ts";

/** A date and time of day. */
export interface TimeText {
  /** The date's three parts as written; year, month, day where the month had a name. */
  readonly date: readonly [string, string, string];
  readonly hasMonthName: boolean;
  /** Since midnight; 24 h for "24:00". */
  readonly msOfDay: number;
  /** The half of the day was written: "7:00 pm". */
  readonly hasHalf: boolean;
  /** Minutes east of UTC; null when the text does not say. */
  readonly offsetMinutes: number | null;
  /** Letters such as "CEST", or a zone such as "Europe/Berlin", where they stand in the place of an offset. */
  readonly zoneName: string | null;
}

const numbers = String.raw`(\d{1,4})([-./ ])(\d{1,2})\MARK(\d{1,4})`;
const named = String.raw`(\d{1,4}([-./ ])\p{L}{3,10}\.?\MARK\d{1,4}|\p{L}{3,10}\.? \d{1,2}, ?\d{4})`;
const timeOfDay = String.raw`(\d{1,2})([:.])(\d\d)(?:\MARK(\d\d)(?:[.,](\d+))?)?(?:\s*([ap])\.?\s?m\.?)?`;
const offset = String.raw`\s*(?:\(?(Z|(?:UTC|GMT)?\s?[+-]\d\d(?::?\d\d)?|[A-Z]{3,5}|[A-Z]+(?:\/[A-Z_]+)+)\)?)?`;
const between = String.raw`(?:T|\s*,\s*|\s+-\s+|[ _]+)`;
/** `group`: the number of the part's mark, which has to come again. */
const marked = (part: string, group: number) => part.replace("MARK", `${group}`);
const numbersFirst = new RegExp(`^${marked(numbers, 2)}${between}${marked(timeOfDay, 6)}${offset}$`, "i");
const nameFirst = new RegExp(`^${marked(named, 2)}${between}${marked(timeOfDay, 4)}${offset}$`, "iu");
const numbersLast = new RegExp(`^${marked(timeOfDay, 2)}${between}${marked(numbers, 8)}${offset}$`, "i");
const nameLast = new RegExp(`^${marked(timeOfDay, 2)}${between}${marked(named, 8)}${offset}$`, "iu");

/** Date and time of day in a cell, or undefined when it holds anything else. */
export function timeTextOf(cell: string): TimeText | undefined {
  // Most cells of a log are numbers: a look at their length spares them the long patterns.
  if (cell.length < 8 || cell.length > 60) return undefined;
  const usual = numbersFirst.exec(cell);
  if (usual !== null) {
    const [, first, , second, third, hour, , ...time] = usual;
    return timeText({ date: [first, second, third], hasMonthName: false }, hour, time);
  }
  if (!/[:.]\d\d/.test(cell)) return undefined;
  const withName = nameFirst.exec(cell);
  if (withName !== null) {
    const [, date, , hour, , ...time] = withName;
    return timeText(namedDate(date), hour, time);
  }
  const last = numbersLast.exec(cell);
  if (last !== null) {
    const [, hour, , minute, second, fraction, half, ...date] = last;
    return timeText({ date: [date[0], date[2], date[3]], hasMonthName: false }, hour, [
      minute,
      second,
      fraction,
      half,
      date[4],
    ]);
  }
  const nameBehind = nameLast.exec(cell);
  if (nameBehind === null) return undefined;
  const [, hour, , minute, second, fraction, half, date, , offsetText] = nameBehind;
  return timeText(namedDate(date), hour, [minute, second, fraction, half, offsetText]);
}

/** Whether a cell holds a date and no time of day. */
export const isDateAlone = (cell: string) =>
  cell.length >= 6 && cell.length <= 30 && !cell.includes(":") && timeTextOf(`${cell} 00:00`) !== undefined;

/** Whether a cell holds a time of day and no date. */
export const isTimeAlone = (cell: string) =>
  cell.length >= 4 && cell.length <= 30 && cell.includes(":") && timeTextOf(`2000-01-01 ${cell}`) !== undefined;

type DateText = Pick<TimeText, "date" | "hasMonthName">;
/** Minute, second, fraction, half of the day, offset; all but the first may be missing. */
type TimeParts = readonly (string | undefined)[];

function timeText(dateText: DateText | undefined, hour: string, parts: TimeParts): TimeText | undefined {
  const msOfDay = msOfDayOf(hour, parts);
  const [, , , half, offsetText] = parts;
  const zone = offsetText === undefined ? noZone : zoneOf(offsetText);
  if (dateText === undefined || Number.isNaN(msOfDay) || zone === undefined) return undefined;
  const { date, hasMonthName } = dateText;
  return { date, hasMonthName, msOfDay, hasHalf: half !== undefined, ...zone };
}

type ZoneText = Pick<TimeText, "offsetMinutes" | "zoneName">;
const noZone: ZoneText = { offsetMinutes: null, zoneName: null };

/** What a text behind a time says of its zone; undefined when that is none. */
export function zoneOf(text: string): ZoneText | undefined {
  if (/^(?:Z|(?:UTC|GMT)?\s?[+-].*|UTC|GMT)$/i.test(text)) {
    const offsetMinutes = offsetMinutesOf(text);
    return Number.isNaN(offsetMinutes) ? undefined : { offsetMinutes, zoneName: null };
  }
  if (text.includes("/")) return isNamedZone(text) ? { offsetMinutes: null, zoneName: text } : undefined;
  const letters = text.toUpperCase();
  return isZoneLetters(letters) ? { offsetMinutes: null, zoneName: letters } : undefined;
}

const namedZones = new Map<string, boolean>();
/** Looked up once: a log writes the same name in every row. */
function isNamedZone(text: string): boolean {
  const isKnown = namedZones.get(text) ?? isTimeZone(text);
  namedZones.set(text, isKnown);
  return isKnown;
}

/** "4 June 2026", "2026-Jun-4" or "June 4, 2026"; a year of two digits comes last. */
function namedDate(text: string): DateText | undefined {
  const parts = text.split(/[-./, ]+/);
  const named = parts.findIndex((part) => monthNumber(part) !== undefined);
  if (named < 0) return undefined;
  const [one, two] = parts.filter((_, index) => index !== named);
  const [year, day] = one.length === 4 ? [one, two] : [two, one];
  return { date: [year, `${monthNumber(parts[named])}`, day], hasMonthName: true };
}

/** Beginnings of the months' names in English, German, French, Italian, Spanish, Dutch and the northern languages. */
const monthNames = [
  ["jan", "jän", "gen", "ene"],
  ["feb", "fév", "fev"],
  ["mar", "mär", "mae", "mrt", "maa"],
  ["apr", "avr", "abr"],
  ["may", "mai", "mag", "mei", "maj"],
  ["jun", "juin", "giu"],
  ["jul", "juil", "lug"],
  ["aug", "aoû", "aou", "ago"],
  ["sep", "set"],
  ["oct", "okt", "ott"],
  ["nov"],
  ["dec", "dez", "déc", "dic", "des"],
] as const;

function monthNumber(text: string): number | undefined {
  const lower = text.toLowerCase();
  const index = monthNames.findIndex((names) => names.some((name) => lower.startsWith(name)));
  return index < 0 ? undefined : index + 1;
}

/** One digit or two, as the patterns give them; many times faster than `Number`, which every row would call six times. */
const twoDigits = (digits: string) =>
  digits.length === 1 ? digits.charCodeAt(0) - zero : (digits.charCodeAt(0) - zero) * 10 + digits.charCodeAt(1) - zero;
const zero = 0x30;

/** NaN when there is no such time of day. 12 am is midnight, 12 pm is noon; 24:00 is the end of the day. */
function msOfDayOf(hourText: string, [minuteText = "", secondText = "0", fraction, half]: TimeParts): number {
  const written = twoDigits(hourText);
  const minute = twoDigits(minuteText);
  const second = twoDigits(secondText);
  if (half !== undefined && (written < 1 || written > 12)) return Number.NaN;
  const hour = half === undefined ? written : (written % 12) + (half.toLowerCase() === "p" ? 12 : 0);
  const ms = second * 1000 + (fraction === undefined ? 0 : Math.round(Number(`0.${fraction}`) * 1000));
  if (hour === 24 && minute === 0 && ms === 0) return 24 * msPerHour;
  // Second 60 is a leap second; the next second stands for it.
  if (hour > 23 || minute > 59 || second > (minute === 59 ? 60 : 59)) return Number.NaN;
  return hour * msPerHour + minute * msPerMinute + ms;
}

/**
 * The wall clock's date and time as if it ran on UTC, ms; NaN when the order is not known or there is no such date.
 *
 * @param order undefined: only a year of four digits in front, or a month's name, tells it
 */
export function wallMsOf(text: TimeText, order: DateOrder | undefined): number {
  const [first, second, third] = text.date;
  const { date } = last;
  const isAsLast =
    first === date[0] &&
    second === date[1] &&
    third === date[2] &&
    order === last.order &&
    text.hasMonthName === last.hasMonthName;
  if (!isAsLast)
    Object.assign(last, { date: text.date, order, hasMonthName: text.hasMonthName, dayMs: dayMsOf(text, order) });
  return last.dayMs + text.msOfDay;
}

/** The date that was asked for last: a log's rows seldom change it. */
const last: {
  date: TimeText["date"];
  order: DateOrder | undefined;
  hasMonthName: boolean;
  dayMs: number;
} = { date: ["", "", ""], order: undefined, hasMonthName: false, dayMs: Number.NaN };

function dayMsOf(text: TimeText, order: DateOrder | undefined): number {
  const parts = yearMonthDay(text, order);
  if (parts === undefined) return Number.NaN;
  const [year, month, day] = parts;
  return utcMs(year, month, day, 0, 0, 0, 0);
}

function yearMonthDay(
  { date: [first, second, third], hasMonthName }: TimeText,
  order: DateOrder | undefined,
): readonly [number, number, number] | undefined {
  const inOrder = hasMonthName || first.length === 4 ? "year-month-day" : order;
  if (!hasMonthName && first.length === 4 && order !== undefined && order !== "year-month-day") return undefined;
  if (inOrder === "year-month-day") return numbered(first, second, third);
  if (inOrder === "day-month-year") return numbered(third, second, first);
  return inOrder === "month-day-year" ? numbered(third, first, second) : undefined;
}

/** Two-digit years are this century's: probes that log are younger than that. */
function numbered(year: string, month: string, day: string): readonly [number, number, number] | undefined {
  if ((year.length !== 4 && year.length !== 2) || month.length > 2 || day.length > 2) return undefined;
  return [Number(year) + (year.length === 2 ? 2000 : 0), Number(month), Number(day)];
}
