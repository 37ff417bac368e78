// Instants: RFC 3339 from bytes, and the calendar arithmetic that other spellings need too.

import { msPerDay, msPerMinute } from "../schema/index.ts";

const zero = 0x30;

/**
 * The RFC 3339 instant written in `bytes` from `from` up to, not including, `to`: with seconds and
 * offset, `T` or a space between date and time, letters in either case, a fraction of any length
 * (rounded to 1 ms), and second 60 where UTC inserts one.
 *
 * @returns unixMs, or NaN when the cell holds anything else.
 */
export function instantFrom(bytes: Uint8Array, from: number, to: number): number {
  if (to - from < "2026-06-04T07:00:00Z".length) return Number.NaN;
  const punctuated =
    bytes[from + 4] === dash && bytes[from + 7] === dash && bytes[from + 13] === colon && bytes[from + 16] === colon;
  const between = bytes[from + 10];
  if (!punctuated || (between !== space && (between | lowerCase) !== letterT)) return Number.NaN;

  let at = from + 19;
  let fraction = 0;
  if (bytes[at] === point) {
    const start = ++at;
    for (let scale = 100; at < to && isDigit(bytes[at]); at++, scale /= 10) fraction += (bytes[at] - zero) * scale;
    if (at === start) return Number.NaN;
  }
  const offset = offsetMinutesAt(bytes, at, to);
  return (
    utcMs(
      twoDigits(bytes, from) * 100 + twoDigits(bytes, from + 2),
      twoDigits(bytes, from + 5),
      twoDigits(bytes, from + 8),
      twoDigits(bytes, from + 11),
      twoDigits(bytes, from + 14),
      twoDigits(bytes, from + 17),
      offset,
    ) + Math.round(fraction)
  );
}

/** The UTC offset of an instant that `instantFrom` could read, minutes; "Z" and "-00:00" are 0. */
export function utcOffsetFrom(bytes: Uint8Array, from: number, to: number): number {
  const isUtc = (bytes[to - 1] | lowerCase) === letterZ;
  return offsetMinutesAt(bytes, isUtc ? to - 1 : Math.max(from, to - 6), to);
}

/**
 * unixMs of a date and time of day at a UTC offset in minutes; NaN when there is no such date or time,
 * or when any argument is NaN.
 */
export function utcMs(
  year: number,
  month: number,
  day: number,
  hour: number,
  minute: number,
  second: number,
  offsetMinutes: number,
): number {
  if (!(hour <= 23 && minute <= 59 && second <= 60)) return Number.NaN;
  const unixMs = startOfDay(year, month, day) + (hour * 60 + minute - offsetMinutes) * msPerMinute + second * 1000;
  // A leap second is the last one of a UTC day; the next day's first second stands for it.
  if (second === 60 && unixMs % msPerDay !== 0) return Number.NaN;
  return unixMs;
}

/** The day that was asked for last: a log's rows seldom change it, and the calendar costs more than all the rest of an instant. */
const lastDay = { year: Number.NaN, month: Number.NaN, day: Number.NaN, startMs: Number.NaN };

/** unixMs of a date's beginning in UTC; NaN when there is no such date. */
function startOfDay(year: number, month: number, day: number): number {
  if (day === lastDay.day && month === lastDay.month && year === lastDay.year) return lastDay.startMs;
  const isDate = month >= 1 && month <= 12 && day >= 1 && day <= daysInMonth(year, month);
  const startMs = isDate ? dayNumber(year, month, day) * msPerDay : Number.NaN;
  Object.assign(lastDay, { year, month, day, startMs });
  return startMs;
}

const dash = 0x2d;
const colon = 0x3a;
const point = 0x2e;
const space = 0x20;
const lowerCase = 0x20;
const letterT = 0x74;
const letterZ = 0x7a;
const plus = 0x2b;

const isDigit = (byte: number) => byte >= zero && byte <= zero + 9;

/** 0 to 99, or NaN. */
function twoDigits(bytes: Uint8Array, at: number): number {
  const tens = bytes[at];
  const ones = bytes[at + 1];
  return isDigit(tens) && isDigit(ones) ? (tens - zero) * 10 + (ones - zero) : Number.NaN;
}

/** "Z", "+hh:mm" or "-hh:mm", filling the cell to its end; NaN otherwise. */
function offsetMinutesAt(bytes: Uint8Array, at: number, to: number): number {
  if (to - at === 1) return (bytes[at] | lowerCase) === letterZ ? 0 : Number.NaN;
  const sign = bytes[at];
  if (to - at !== 6 || (sign !== plus && sign !== dash) || bytes[at + 3] !== colon) return Number.NaN;
  const hours = twoDigits(bytes, at + 1);
  const minutes = twoDigits(bytes, at + 4);
  if (!(hours <= 23 && minutes <= 59)) return Number.NaN;
  // Written so that "-00:00" gives 0, not -0.
  return sign === dash ? 0 - (hours * 60 + minutes) : hours * 60 + minutes;
}

function daysInMonth(year: number, month: number): number {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

/**
 * Days from 1970-01-01 to a date of the Gregorian calendar. Years begin in March here, so that the
 * leap day comes last and month lengths follow one line, 153 days per five months.
 */
function dayNumber(year: number, month: number, day: number): number {
  const marchYear = month > 2 ? year : year - 1;
  const marchMonth = (month + 9) % 12;
  const dayOfYear = Math.floor((153 * marchMonth + 2) / 5) + day - 1;
  const leapDays = Math.floor(marchYear / 4) - Math.floor(marchYear / 100) + Math.floor(marchYear / 400);
  return marchYear * 365 + leapDays + dayOfYear - daysTo1970;
}

/** Days from 0000-03-01 to 1970-01-01. */
const daysTo1970 = 719_468;
