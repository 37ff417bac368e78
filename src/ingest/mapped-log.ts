// Another logger's CSV, read through a mapping (src/schema/log-mapping.ts) that the user stated or confirmed.
// Nothing is guessed: what the mapping does not say and the file does not show is refused.

import {
  BadInput,
  type EnergySource,
  energySources,
  isOffset,
  type LogMapping,
  msPerDay,
  offsetMinutesOf,
  type Position,
} from "../schema/index.ts";
import { elapsedMsOf, isElapsed } from "./elapsed-time.ts";
import { type Meaning, slashedDate, type TimeProblem } from "./log-columns.ts";
import { type NumberForm, numberOf, quantityOf } from "./number-text.ts";
import { celsiusOf } from "./temperature-unit.ts";
import { type Dialect, type Instant, timeTogether } from "./text-log.ts";
import { timeTextOf, wallMsOf } from "./time-text.ts";
import { showable } from "./unreadable-cells.ts";
import { atOffset, ZoneClock } from "./zone-clock.ts";
import { offsetsOfLetters } from "./zone-letters.ts";

/**
 * How the cells of a mapped log are understood. It follows the log's clock: take a new one for each log.
 *
 * @param startsAt when elapsed time was 0; a log that counts so has no instant without it
 */
export function mappedDialect(mapping: LogMapping, file: string, startsAt?: Instant): Dialect {
  const separator = mapping.separator ?? (mapping.decimal === "," ? ";" : ",");
  const sourceCodes = sourceCodesOf(mapping);
  const numbers: NumberForm = { decimal: mapping.decimal ?? ".", thousands: mapping.thousands };
  const instant = instantReader(mapping, numbers, startsAt);
  return {
    separator,
    meanings: (cells) => mappedMeanings(cells, mapping, file, separator, instant),
    noHeader: (firstLine) => missingColumn(namedColumns(mapping)[0] ?? `${mapping.time}`, firstLine, file, separator),
    instant,
    reading: (cell, position) => mappedReading(cell, position, mapping, numbers),
    sourceCode: (cell) => (cell === "" ? 0 : (sourceCodes.get(cell.toLowerCase()) ?? -1)),
    timeProblem: (cell) => mappedTimeProblem(cell, mapping),
    isMapped: true,
    hasHeader: namedColumns(mapping).length > 0,
  };
}

/** A mapping with more words for energy sources than it names itself; what is told now goes before what it says. */
export const withSourceWords = (
  mapping: LogMapping,
  words: ReadonlyMap<string, EnergySource> | undefined,
): LogMapping =>
  words === undefined ? mapping : { ...mapping, sourceNames: { ...mapping.sourceNames, ...Object.fromEntries(words) } };

/** @throws BadInput "two-readings" for a log of elapsed times of which nobody said when it began */
export function refuseWithoutStart(mapping: LogMapping, file: string, startsAt: Instant | undefined): void {
  if (!isElapsed(mapping.timeForm) || startsAt !== undefined) return;
  const question = { about: "starts-at", line: 1, column: `${mapping.time}`, readings: [] } as const;
  throw new BadInput({ code: "two-readings", file, question });
}

/** Column by column what the mapping says: header text, or number from 1. */
const columnsOf = ({ time, date, zone, source, positions }: LogMapping) =>
  Object.entries({ time, date, zone, source, ...positions }).filter(([, column]) => column !== undefined) as [
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
  const zone = mapping.zone === undefined ? undefined : cellOf("zone");
  const time = timeTogether([mapping.date === undefined ? undefined : cellOf("date"), cellOf("time"), zone]);
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
function mappedReading(cell: string, position: Position, mapping: LogMapping, numbers: NumberForm): number {
  const { value, unit } = quantityOf(cell, numbers);
  const isVoltage = unit === "V" || unit === "mV";
  if (position === "supply") {
    if (unit !== undefined && !isVoltage) return Number.NaN;
    return (unit ?? mapping.supplyUnit) === "mV" ? value / 1000 : value;
  }
  if (isVoltage) return Number.NaN;
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

function instantReader(
  mapping: LogMapping,
  numbers: NumberForm,
  startsAt: Instant | undefined,
): (cell: string) => Instant {
  const { timeForm, dateOrder, timeZone } = mapping;
  if (isElapsed(timeForm)) {
    const { unixMs, utcOffsetMinutes } = startsAt ?? noInstant;
    return (cell) => ({ unixMs: unixMs + elapsedMsOf(cell, timeForm, numbers), utcOffsetMinutes });
  }
  const fromWall = wallReader(timeZone);
  if (timeForm === "spreadsheet-days") return (cell) => fromWall(spreadsheetWallMs(numberOf(cell, numbers)));
  if (timeForm !== undefined) {
    const scale = timeForm === "unix-seconds" ? 1000 : 1;
    return (cell) => ({ unixMs: Math.round(numberOf(cell, numbers) * scale), utcOffsetMinutes: 0 });
  }
  const named = namedZoneReader(mapping);
  return (cell) => {
    const text = timeTextOf(cell);
    if (text === undefined) return noInstant;
    const wallMs = wallMsOf(text, dateOrder);
    if (text.offsetMinutes !== null) return atOffset(wallMs, text.offsetMinutes);
    return text.zoneName === null ? fromWall(wallMs) : named(text.zoneName, wallMs);
  };
}

/** Times with letters or a zone's name behind them: as the mapping says, else as they say themselves. */
function namedZoneReader({ zoneNames = {}, timeZone }: LogMapping): (name: string, wallMs: number) => Instant {
  const said = new Map(Object.entries(zoneNames).map(([name, zone]) => [name.toUpperCase(), zone] as const));
  const readers = new Map<string, (wallMs: number) => Instant>();
  const readerOf = (name: string) => {
    const told = said.get(name.toUpperCase());
    if (told !== undefined) return wallReader(told);
    return name.includes("/") ? wallReader(name) : lettersReader(name, timeZone);
  };
  return (name, wallMs) => {
    const reader = readers.get(name) ?? readerOf(name);
    readers.set(name, reader);
    return reader(wallMs);
  };
}

/** Letters nobody explained: the one offset they have, or the one that the log's zone has then; no instant otherwise. */
function lettersReader(letters: string, timeZone: string | undefined): (wallMs: number) => Instant {
  const offsets = [...new Set(offsetsOfLetters(letters))];
  if (offsets.length === 1) return (wallMs) => atOffset(wallMs, offsets[0]);
  if (timeZone === undefined || isOffset(timeZone)) return () => noInstant;
  const clock = new ZoneClock(timeZone);
  return (wallMs) =>
    clock.instants(wallMs).find(({ utcOffsetMinutes }) => offsets.includes(utcOffsetMinutes)) ?? noInstant;
}

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
