// Another logger's CSV, read through a mapping (src/schema/log-mapping.ts) that the user stated or confirmed.
// Nothing is guessed: what the mapping does not say and the file does not show is refused.

import { BadInput, energySources, type LogMapping, msPerDay, msPerMinute, type Position } from "../schema/index.ts";
import { type Meaning, slashedDate, type TimeProblem } from "./log-columns.ts";
import { numberOf, quantityOf } from "./number-text.ts";
import { celsiusOf } from "./temperature-unit.ts";
import type { Dialect, Instant } from "./text-log.ts";
import { isOffset, offsetMinutesOf, timeTextOf, wallMsOf } from "./time-text.ts";
import { showable } from "./unreadable-cells.ts";
import { ZoneClock } from "./zone-clock.ts";

/** How the cells of a mapped log are understood. It follows the log's clock: take a new one for each log. */
export function mappedDialect(mapping: LogMapping, file: string): Dialect {
  const separator = mapping.separator ?? (mapping.decimal === "," ? ";" : ",");
  const sourceCodes = sourceCodesOf(mapping);
  const instant = instantReader(mapping);
  return {
    separator,
    meanings: (cells) => mappedMeanings(cells, mapping, file, separator, instant),
    noHeader: (firstLine) => missingColumn(namedColumns(mapping)[0] ?? `${mapping.time}`, firstLine, file, separator),
    instant,
    reading: (cell, position) => mappedReading(cell, position, mapping),
    sourceCode: (cell) => (cell === "" ? 0 : (sourceCodes.get(cell.toLowerCase()) ?? -1)),
    timeProblem: (cell) => mappedTimeProblem(cell, mapping),
    isMapped: true,
    hasHeader: namedColumns(mapping).length > 0,
  };
}

/** Column by column what the mapping says: header text, or number from 1. */
const columnsOf = ({ time, date, source, positions }: LogMapping) =>
  Object.entries({ time, date, source, ...positions }).filter(([, column]) => column !== undefined) as [
    Meaning & string,
    string | number,
  ][];

const namedColumns = (mapping: LogMapping) =>
  columnsOf(mapping).flatMap(([, column]) => (typeof column === "string" ? [column.trim()] : []));

/**
 * The first line that holds a column's header text is the header; loggers like to write a preamble. A mapping by
 * numbers alone needs none: there the first row with a readable time begins the log.
 */
function mappedMeanings(
  cells: readonly string[],
  mapping: LogMapping,
  file: string,
  separator: string,
  instant: (cell: string) => Instant,
): readonly Meaning[] | undefined {
  const names = namedColumns(mapping);
  if (names.length === 0) return numberedMeanings(cells, mapping, instant);
  const first = typeof mapping.time === "string" ? mapping.time.trim() : names[0];
  if (!cells.includes(first)) return undefined;
  const meanings: Meaning[] = cells.map(() => null);
  for (const [meaning, column] of columnsOf(mapping)) {
    const index = typeof column === "number" ? column - 1 : cells.indexOf(column.trim());
    const name = typeof column === "number" ? `${column}` : column.trim();
    if (!(index >= 0 && index < cells.length)) throw missingColumn(name, cells, file, separator);
    const isTwice = typeof column === "string" && index !== cells.lastIndexOf(name);
    if (isTwice || meanings[index] !== null)
      throw new BadInput({ code: "doubled-column", file, column: showable(name) });
    meanings[index] = meaning;
  }
  return meanings;
}

function numberedMeanings(
  cells: readonly string[],
  mapping: LogMapping,
  instant: (cell: string) => Instant,
): readonly Meaning[] | undefined {
  const columns = columnsOf(mapping) as [Meaning & string, number][];
  if (columns.some(([, number]) => number > cells.length)) return undefined;
  const cellOf = (wanted: Meaning) => cells[(columns.find(([meaning]) => meaning === wanted)?.[1] ?? 0) - 1];
  const time = mapping.date === undefined ? cellOf("time") : `${cellOf("date")} ${cellOf("time")}`;
  if (Number.isNaN(instant(time).unixMs)) return undefined;
  const meanings: Meaning[] = cells.map(() => null);
  for (const [meaning, number] of columns) meanings[number - 1] = meaning;
  return meanings;
}

const missingColumn = (column: string, header: readonly string[], file: string, separator: string) =>
  new BadInput({
    code: "mapping-column-missing",
    file,
    column: showable(column),
    header: showable(header.join(separator)),
  });

/** °C from the cell's own unit, else the file's; volts stay volts. A cell in volts is no temperature, nor the other way. */
function mappedReading(cell: string, position: Position, mapping: LogMapping): number {
  const { value, unit } = quantityOf(cell, mapping.decimal ?? ".");
  if (position === "supply") return unit === undefined || unit === "V" ? value : Number.NaN;
  if (unit === "V") return Number.NaN;
  return celsiusOf(value, unit ?? mapping.units?.[position] ?? mapping.unit ?? "Cel");
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

function instantReader(mapping: LogMapping): (cell: string) => Instant {
  const { timeForm, dateOrder, timeZone, decimal = "." } = mapping;
  const fromWall = wallReader(timeZone);
  if (timeForm === "spreadsheet-days") return (cell) => fromWall(spreadsheetWallMs(numberOf(cell, decimal)));
  if (timeForm !== undefined) {
    const scale = timeForm === "unix-seconds" ? 1000 : 1;
    return (cell) => ({ unixMs: Math.round(numberOf(cell, decimal) * scale), utcOffsetMinutes: 0 });
  }
  return (cell) => {
    const text = timeTextOf(cell);
    if (text === undefined) return noInstant;
    const wallMs = wallMsOf(text, dateOrder);
    return text.offsetMinutes === null ? fromWall(wallMs) : atOffset(wallMs, text.offsetMinutes);
  };
}

const atOffset = (wallMs: number, utcOffsetMinutes: number): Instant => ({
  unixMs: wallMs - utcOffsetMinutes * msPerMinute,
  utcOffsetMinutes,
});

/** From the wall clock's time to the instant, in the zone of the mapping; no instant when it names none. */
function wallReader(timeZone: string | undefined): (wallMs: number) => Instant {
  if (timeZone === undefined) return () => noInstant;
  if (isOffset(timeZone)) {
    const minutes = offsetMinutesOf(timeZone);
    return (wallMs) => atOffset(wallMs, minutes);
  }
  const clock = new ZoneClock(timeZone);
  return (wallMs) => clock.instant(wallMs);
}

/**
 * Spreadsheets count days since the end of 1899 (from memory: day 60 is a 29 February 1900 that never was, so the
 * count is right from March 1900 on). Rounded to 1 ms.
 */
export const spreadsheetWallMs = (days: number) => Math.round((days - 25_569) * msPerDay);

function mappedTimeProblem(cell: string, mapping: LogMapping): TimeProblem {
  if (mapping.dateOrder === undefined && slashedDate.test(cell)) return "ambiguous-dates";
  const text = timeTextOf(cell);
  const isWithoutOffset = text !== undefined && text.offsetMinutes === null && mapping.timeZone === undefined;
  return isWithoutOffset ? "time-without-offset" : "nothing-readable";
}
