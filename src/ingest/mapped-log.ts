// Another logger's CSV, understood through the mapping that the user stated (src/schema/log-mapping.ts).
// Nothing is guessed: what the mapping does not say and the file does not show is refused.

import { BadInput, energySources, type LogMapping, type Position } from "../schema/index.ts";
import { utcMs } from "./instants.ts";
import { type Meaning, slashedDate, type TimeProblem } from "./log-columns.ts";
import { type Dialect, decimalOf, type Instant } from "./text-log.ts";
import { showable } from "./unreadable-cells.ts";

/** How the cells of a mapped log are understood. */
export function mappedDialect(mapping: LogMapping, file: string): Dialect {
  const separator = mapping.separator ?? (mapping.decimal === "," ? ";" : ",");
  const sourceCodes = sourceCodesOf(mapping);
  return {
    separator,
    meanings: (cells) => mappedMeanings(cells, mapping, file, separator),
    noHeader: (firstLine) => missingColumn(mapping.time, firstLine, file, separator),
    instant: (cell) => mappedInstant(cell, mapping),
    reading: (cell, position) => mappedReading(cell, position, mapping),
    sourceCode: (cell) => (cell === "" ? 0 : (sourceCodes.get(cell.toLowerCase()) ?? -1)),
    timeProblem: (cell) => mappedTimeProblem(cell, mapping),
    isMapped: true,
  };
}

/** The first line that holds the time column's header is the header; loggers like to write a preamble. */
function mappedMeanings(
  cells: readonly string[],
  mapping: LogMapping,
  file: string,
  separator: string,
): readonly Meaning[] | undefined {
  if (!cells.includes(mapping.time.trim())) return undefined;
  const wanted = new Map<string, Meaning>();
  const { time, date, source } = mapping;
  for (const [meaning, name] of Object.entries({ time, date, source, ...mapping.positions }) as [Meaning, string?][]) {
    const column = name?.trim();
    if (column === undefined) continue;
    if (wanted.has(column)) throw new BadInput({ code: "doubled-column", file, column: showable(column) });
    wanted.set(column, meaning);
  }
  for (const column of wanted.keys()) {
    if (!cells.includes(column)) throw missingColumn(column, cells, file, separator);
    if (cells.indexOf(column) !== cells.lastIndexOf(column)) {
      throw new BadInput({ code: "doubled-column", file, column: showable(column) });
    }
  }
  return cells.map((name) => wanted.get(name) ?? null);
}

const missingColumn = (column: string, header: readonly string[], file: string, separator: string) =>
  new BadInput({
    code: "mapping-column-missing",
    file,
    column: showable(column),
    header: showable(header.join(separator)),
  });

/** °C from the file's unit; volts stay volts. */
function mappedReading(cell: string, position: Position, mapping: LogMapping): number {
  const value = decimalOf(mapping.decimal === "," ? cell.replace(",", ".") : cell);
  if (position === "supply") return value;
  if (mapping.unit === "[degF]") return (value - 32) / 1.8;
  return mapping.unit === "K" ? value - 273.15 : value;
}

/** Our own names always serve, besides those that the mapping gives. */
function sourceCodesOf(mapping: LogMapping): ReadonlyMap<string, number> {
  const codes = new Map<string, number>(energySources.map((source, index) => [source, index + 1]));
  for (const [name, source] of Object.entries(mapping.sourceNames ?? {})) {
    codes.set(name.trim().toLowerCase(), energySources.indexOf(source) + 1);
  }
  return codes;
}

const noInstant: Instant = { unixMs: Number.NaN, utcOffsetMinutes: 0 };

/** Date, time of day, perhaps "am" or "pm", perhaps an offset. */
const dateAndTime =
  /^(\d{1,4})([-./])(\d{1,2})\2(\d{1,4})[T ,]\s*(\d{1,2}):(\d\d)(?::(\d\d)(?:[.,](\d+))?)?(?:\s*([ap])\.?m\.?)?\s*(Z|[+-]\d\d:?\d\d)?$/i;

function mappedInstant(cell: string, mapping: LogMapping): Instant {
  const parts = dateAndTime.exec(cell);
  if (parts === null) return noInstant;
  const [, first, , second, third, hourText, minute, seconds = "0", fraction = "", half, ownOffset] = parts;
  const date = dateOf([first, second, third], mapping.dateOrder);
  const hour = hourOf(Number(hourText), half);
  const offset = offsetOf(ownOffset ?? mapping.timeZone);
  if (date === undefined || hour === undefined || offset === undefined) return noInstant;
  const [year, month, day] = date;
  const unixMs =
    utcMs(year, month, day, hour, Number(minute), Number(seconds), offset) +
    Math.round(Number(`0.${fraction}0`) * 1000);
  return { unixMs, utcOffsetMinutes: offset };
}

function mappedTimeProblem(cell: string, mapping: LogMapping): TimeProblem {
  if (mapping.dateOrder === undefined && slashedDate.test(cell)) return "ambiguous-dates";
  const ownOffset = dateAndTime.exec(cell)?.[10];
  const isWithoutOffset = dateAndTime.test(cell) && ownOffset === undefined && mapping.timeZone === undefined;
  return isWithoutOffset ? "time-without-offset" : "nothing-readable";
}

/** Year, month, day; undefined when the order is neither stated nor plain from a four-digit year in front. */
function dateOf(
  [first, second, third]: readonly [string, string, string],
  order: LogMapping["dateOrder"],
): readonly [number, number, number] | undefined {
  const isYearFirst = first.length === 4;
  if (isYearFirst || order === "year-month-day") {
    return order === undefined || order === "year-month-day" ? yearMonthDay(first, second, third) : undefined;
  }
  if (order === "day-month-year") return yearMonthDay(third, second, first);
  if (order === "month-day-year") return yearMonthDay(third, first, second);
  return undefined;
}

/** Two-digit years are this century's: probes that log are younger than that. */
function yearMonthDay(year: string, month: string, day: string): readonly [number, number, number] | undefined {
  if (year.length !== 4 && year.length !== 2) return undefined;
  return [Number(year) + (year.length === 2 ? 2000 : 0), Number(month), Number(day)];
}

/** 12 am is midnight, 12 pm is noon. */
function hourOf(hour: number, half: string | undefined): number | undefined {
  if (half === undefined) return hour;
  if (hour < 1 || hour > 12) return undefined;
  return (hour % 12) + (half.toLowerCase() === "p" ? 12 : 0);
}

/** Minutes east of UTC; undefined when nobody stated it. */
function offsetOf(text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  if (text.toUpperCase() === "Z") return 0;
  const hours = Number(text.slice(1, 3));
  const minutes = Number(text.slice(-2));
  if (hours > 23 || minutes > 59) return undefined;
  return text.startsWith("-") ? 0 - (hours * 60 + minutes) : hours * 60 + minutes;
}
