// Another logger's file, understood from its own text: what is sure, and what can be read in two ways. Nothing that
// has two readings is ever decided here; the user's answers come in as hints. What the columns hold is found in the files
// named …-understanding.ts beside this one; here it is put together.

import {
  type LogMapping,
  type LogUnderstanding,
  type Position,
  positions,
  type UnderstoodRow,
} from "../schema/index.ts";
import { sourceMeant } from "./column-meaning.ts";
import { isElapsed } from "./elapsed-time.ts";
import { elapsedColumns, isElapsedTime, settledForm } from "./elapsed-understanding.ts";
import { type Column, columnFound, Findings, type LogHints, type TimeColumns } from "./log-findings.ts";
import { type LogParts, logPartsOf } from "./log-rows.ts";
import { mappedDialect } from "./mapped-log.ts";
import type { NumberForm } from "./number-text.ts";
import { numbersOf } from "./number-understanding.ts";
import { probePerRow } from "./probe-per-row.ts";
import { ohmsIn, type ProbeColumn, probeColumns } from "./probe-understanding.ts";
import { type SourceFound, sourceColumn } from "./source-understanding.ts";
import { isInMillivolts } from "./temperature-unit.ts";
import { encodingOf, textOf } from "./text-encoding.ts";
import { timeTogether } from "./text-log.ts";
import { type Clock, clockOf, datedColumns } from "./time-understanding.ts";
import { refuseUnknownColumns } from "./told-columns.ts";
import { type Units, unitsOf } from "./unit-understanding.ts";

/** Bytes looked at first; all of them where these leave a question open that later rows may answer. */
const firstLook = 64 * 1024;

/**
 * Finds out how a log is to be read.
 *
 * @param bytes the file, or its beginning
 * @param isWhole false for a beginning that may end in the middle of a row
 * @returns null when no rows with a time and a number are found in it
 */
export function understandLog(bytes: Uint8Array, hints: LogHints = {}, isWhole = true): LogUnderstanding | null {
  const look = (part: Uint8Array, isAll: boolean) => understandText(textIn(part, isAll && isWhole), hints);
  const isLong = bytes.length > firstLook;
  const first = isLong ? look(bytes.subarray(0, firstLook), false) : look(bytes, true);
  const found = isLong && (first === null || first.hasMoreToTell) ? look(thinned(bytes), true) : first;
  return found && withEncoding(found.understanding, encodingOf(bytes).encoding);
}

function withEncoding(understanding: LogUnderstanding, encoding: ReturnType<typeof encodingOf>["encoding"]) {
  return { ...understanding, sure: [{ code: "encoding" as const, encoding }, ...understanding.sure] };
}

function textIn(bytes: Uint8Array, isWhole: boolean): string {
  const text = textOf(bytes).replaceAll(/\r\n?/g, "\n");
  return isWhole ? text : text.slice(0, text.lastIndexOf("\n") + 1);
}

/** Of the rows further down only so many are looked at: they tell as much, and take less memory. */
const oneRowOf = 64;

/** The bytes with most rows beyond the first look left blank, so that the lines keep their numbers. */
function thinned(bytes: Uint8Array): Uint8Array {
  const isByteText = !encodingOf(bytes.subarray(0, 4096)).encoding.startsWith("utf-16");
  const head = isByteText ? bytes.lastIndexOf(lineFeed, firstLook) + 1 : 0;
  if (head === 0) return bytes;
  const kept = new Uint8Array(bytes.length);
  kept.set(bytes.subarray(0, head));
  let filled = head;
  for (let at = head, row = 0; at < bytes.length; row++) {
    const end = bytes.indexOf(lineFeed, at) + 1 || bytes.length;
    const line = bytes.subarray(at, end);
    // A quoted cell that spans lines: then no line stands for itself.
    if (hasOpenQuote(line)) return bytes;
    if (row % oneRowOf === 0) kept.set(line, filled);
    else kept[filled] = lineFeed;
    filled += row % oneRowOf === 0 ? line.length : 1;
    at = end;
  }
  return kept.slice(0, filled);
}

function hasOpenQuote(line: Uint8Array): boolean {
  let quotes = 0;
  for (let at = line.indexOf(quote); at >= 0; at = line.indexOf(quote, at + 1)) quotes++;
  return quotes % 2 === 1;
}

const lineFeed = 0x0a;
const quote = 0x22;

interface Understood {
  readonly understanding: LogUnderstanding;
  readonly hasMoreToTell: boolean;
}

/** By its calendar; or, where a log has none, by a column that counts. */
const understandText = (text: string, hints: LogHints): Understood | null =>
  understandRows(logPartsOf(text, "dated", hints.separator), "dated", hints) ??
  understandRows(logPartsOf(text, "counted", hints.separator), "counted", hints);

function understandRows(parts: LogParts | null, kind: "dated" | "counted", hints: LogHints): Understood | null {
  if (parts === null) return null;
  const columns = columnsOf(parts, hints);
  const findings = new Findings();
  findings.sure.push({ code: "separator", separator: parts.separator });
  if (parts.before.length > 0) findings.sure.push({ code: "lines-before", lines: parts.before.length });
  if (parts.header === null) findings.sure.push({ code: "no-header" });
  const found = (kind === "dated" ? datedColumns : elapsedColumns)(columns, parts, findings);
  if (found === null) return null;
  const names = columns.map(({ number }) => parts.header?.cells[number - 1] || `${number}`);
  // Of two columns with one header each also has the name that a question calls it by.
  const told = [...(hints.columns ?? [])].filter(([name]) => columns.every((column) => column.name !== name));
  refuseUnknownColumns(new Map(told), names, { areNumbered: true });
  const others = columns.filter((column) => column !== found.time && column !== found.date && column !== found.zone);
  const numbers = numbersOf(found, others, parts, hints, findings);
  if (isElapsed(found.form) && !isElapsedTime(found.time, found.form, numbers)) return null;
  const time = { ...found, form: settledForm(found, numbers, parts, hints, findings) };
  const { found: source, question: openSource } = sourceColumn(others, hints, parts);
  if (openSource !== null) findings.questions.push(openSource);
  const probes = probeColumns(others, source?.column, numbers, parts, findings);
  const ohms = ohmsIn(others, probes, numbers, findings);
  if (source !== null) findings.sure.push(columnFound(source.column, "source"));
  const units = unitsOf(probes, numbers, time.time.name, parts, hints, findings);
  const supply = probes.find(({ position }) => position === "supply")?.column;
  const supplyUnit = supply?.texts.some(isInMillivolts) ? "mV" : undefined;
  if (supply && supplyUnit) findings.sure.push({ code: "millivolts", column: supply.name });
  const clock = clockOf(time, parts, hints, findings);
  if (findings.questions.length === 0 && probes.length === 0) return null;

  const draft = mappingOf({ parts, time, numbers, probes, source, units, supplyUnit, clock });
  const mapping = findings.questions.length === 0 ? draft : null;
  const isTimeOpen = openTimes.some((about) => findings.isOpen(about));
  const isValueOpen = findings.isOpen("unit") || findings.isOpen("decimal");
  return {
    understanding: {
      mapping,
      sure: findings.sure,
      questions: findings.questions,
      firstRows: firstRows(parts, columns, draft, { isTimeOpen, isValueOpen }, hints),
      ...(ohms === undefined ? {} : { ohms }),
      probePerRow: probePerRow(others, time),
    },
    hasMoreToTell:
      clock.mayBeTwelveHours ||
      findings.isOpen("date-order") ||
      findings.isOpen("unit") ||
      findings.isOpen("decimal") ||
      !hasDecimals(probes) ||
      others.some(({ cells }) => cells.some((cell) => sourceMeant(cell) !== undefined)),
  };
}

/** Questions that leave the instants open. */
const openTimes = ["date-order", "zone", "half-of-day", "which-column", "starts-at", "elapsed-unit"] as const;

const hasDecimals = (probes: readonly ProbeColumn[]) =>
  probes.some(({ column }) => column.cells.some((cell) => /\d[.,]\d/.test(cell)));

function columnsOf({ header, over, units, rows, width }: LogParts, { columns: told }: LogHints): Column[] {
  const names = Array.from({ length: width }, (_, index) => header?.cells[index] ?? "");
  return names.map((name, index) => {
    const number = index + 1;
    const isOnly = name !== "" && names.indexOf(name) === names.lastIndexOf(name);
    const shownName = isOnly ? name : name === "" ? `${number}` : `${name} (${number})`;
    return {
      number,
      name: shownName,
      texts: [over?.cells[index] ?? "", name, units?.cells[index] ?? ""].filter((text) => text !== ""),
      cells: rows.map(({ cells }) => cells[index] ?? ""),
      // Also by the name that a question calls it by.
      told: told?.get(name) ?? told?.get(`${number}`) ?? told?.get(shownName),
      key: isOnly ? name : number,
    };
  });
}

function mappingOf(found: {
  readonly parts: LogParts;
  readonly time: TimeColumns;
  readonly numbers: NumberForm;
  readonly probes: readonly ProbeColumn[];
  readonly source: SourceFound | null;
  readonly units: Units;
  readonly supplyUnit: LogMapping["supplyUnit"];
  readonly clock: Clock;
}): LogMapping {
  const { parts, time, numbers, probes, source, units, supplyUnit, clock } = found;
  const unit = units.values().next().value;
  const differing = [...units].filter(([, own]) => own !== unit);
  const isNone = (object: object) => Object.keys(object).length === 0;
  return {
    format: "coldfall-log-mapping-2",
    separator: parts.separator,
    decimal: numbers.decimal,
    ...(numbers.thousands === undefined ? {} : { thousands: numbers.thousands }),
    time: time.time.key,
    ...(time.date === undefined ? {} : { date: time.date.key }),
    ...(time.zone === undefined ? {} : { zone: time.zone.key }),
    ...(time.form === undefined ? {} : { timeForm: time.form }),
    ...(clock.dateOrder === undefined ? {} : { dateOrder: clock.dateOrder }),
    ...(clock.zone === undefined ? {} : { timeZone: clock.zone }),
    ...(isNone(clock.zoneNames) ? {} : { zoneNames: clock.zoneNames }),
    ...(unit === undefined ? {} : { unit }),
    ...(differing.length === 0 ? {} : { units: Object.fromEntries(differing) }),
    ...(supplyUnit === undefined ? {} : { supplyUnit }),
    positions: Object.fromEntries(
      positions.flatMap((position) => {
        const probe = probes.find((candidate) => candidate.position === position);
        return probe === undefined ? [] : [[position, probe.column.key]];
      }),
    ),
    ...(source === null ? {} : { source: source.column.key }),
    ...(source === null || isNone(source.names) ? {} : { sourceNames: source.names }),
  };
}

/** Rows shown to be confirmed. */
const shownRows = 3;

function firstRows(
  parts: LogParts,
  columns: readonly Column[],
  mapping: LogMapping,
  { isTimeOpen, isValueOpen }: { readonly isTimeOpen: boolean; readonly isValueOpen: boolean },
  { startsAt }: LogHints,
): UnderstoodRow[] {
  const dialect = mappedDialect(mapping, "", startsAt);
  const at = (key: string | number | undefined) => columns.find((column) => column.key === key);
  const timeCells = [at(mapping.date), at(mapping.time), at(mapping.zone)];
  return parts.rows.slice(0, shownRows).map(({ line }, row) => {
    const timeText = timeTogether(timeCells.map((column) => column?.cells[row]));
    const { unixMs, utcOffsetMinutes } = dialect.instant(timeText);
    const values = Object.entries(mapping.positions).map(([position, key]) => {
      const value = dialect.reading(at(key)?.cells[row] ?? "", position as Position);
      return [position, isValueOpen && position !== "supply" ? null : value];
    });
    return {
      line,
      timeText,
      unixMs: isTimeOpen || Number.isNaN(unixMs) ? null : unixMs,
      utcOffsetMinutes,
      values: Object.fromEntries(values),
    };
  });
}
