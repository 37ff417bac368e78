// Another logger's file, understood from its own text: what is sure, and what can be read in two ways. Nothing that
// has two readings is ever decided here; the user's answers come in as hints.

import {
  type ColumnMeaning,
  type DateOrder,
  type LogFound,
  type LogMapping,
  type LogQuestion,
  type LogUnderstanding,
  msPerDay,
  msPerHour,
  msPerMinute,
  type Position,
  positions,
  type TemperatureUnit,
  type UnderstoodRow,
} from "../schema/index.ts";
import { headerSays, plainWords, sourceMeant } from "./column-meaning.ts";
import { dateOrderOf } from "./date-order.ts";
import { isPosition } from "./log-columns.ts";
import { type LogParts, logPartsOf, type Separator } from "./log-rows.ts";
import { mappedDialect, spreadsheetWallMs } from "./mapped-log.ts";
import { hasDecimalComma, numberOf, quantityOf } from "./number-text.ts";
import { celsiusOf, unitsIn, unitsPossible } from "./temperature-unit.ts";
import { encodingOf, textOf } from "./text-encoding.ts";
import {
  isDateAlone,
  isOffset,
  isTimeAlone,
  offsetMinutesOf,
  type TimeText,
  timeTextOf,
  wallMsOf,
} from "./time-text.ts";
import { ZoneClock } from "./zone-clock.ts";

/** What the user said already. */
export interface LogHints {
  readonly separator?: Separator;
  readonly dateOrder?: DateOrder;
  readonly unit?: TemperatureUnit;
  /** As `isTimeZone` accepts. */
  readonly zone?: string;
  /** By header text, or by number from 1. */
  readonly columns?: ReadonlyMap<string, ColumnMeaning>;
  /** The zone of this computer: offered as a reading, never assumed. */
  readonly here?: string;
}

/** Bytes looked at first; more where these leave a question open that later rows may answer. */
const firstLook = 256 * 1024;

/**
 * Finds out how a log is to be read.
 *
 * @param bytes the file, or its beginning
 * @param isWhole false for a beginning that may end in the middle of a row
 * @returns null when no rows with a time and a number are found in it
 */
export function understandLog(bytes: Uint8Array, hints: LogHints = {}, isWhole = true): LogUnderstanding | null {
  for (let size = firstLook; ; size *= 4) {
    const isAll = size >= bytes.length;
    const found = understandText(textIn(bytes.subarray(0, size), isAll && isWhole), hints);
    if (isAll || (found !== null && !found.hasMoreToTell)) {
      return found && withEncoding(found.understanding, encodingOf(bytes).encoding);
    }
  }
}

function withEncoding(understanding: LogUnderstanding, encoding: ReturnType<typeof encodingOf>["encoding"]) {
  return { ...understanding, sure: [{ code: "encoding" as const, encoding }, ...understanding.sure] };
}

function textIn(bytes: Uint8Array, isWhole: boolean): string {
  const text = textOf(bytes).replaceAll(/\r\n?/g, "\n");
  return isWhole ? text : text.slice(0, text.lastIndexOf("\n") + 1);
}

/** One column of the unknown log. */
interface Column {
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

/** What is gathered while one log is understood. */
class Findings {
  readonly sure: LogFound[] = [];
  readonly questions: LogQuestion[] = [];
}

function understandText(
  text: string,
  hints: LogHints,
): { readonly understanding: LogUnderstanding; readonly hasMoreToTell: boolean } | null {
  const parts = logPartsOf(text, hints.separator);
  if (parts === null) return null;
  const columns = columnsOf(parts, hints);
  const findings = new Findings();
  findings.sure.push({ code: "separator", separator: parts.separator });
  if (parts.before.length > 0) findings.sure.push({ code: "lines-before", lines: parts.before.length });
  if (parts.header === null) findings.sure.push({ code: "no-header" });
  const time = timeColumns(columns, parts, findings);
  if (time === null) return null;
  const isTimeColumn = (column: Column) => column === time.time || column === time.date;
  const others = columns.filter((column) => !isTimeColumn(column));
  const decimal = decimalOf(others, findings);
  const probes = probeColumns(others, decimal, parts, findings);
  const source = sourceColumn(others, findings);
  const units = unitsOf(probes, decimal, time.time.name, parts, hints, findings);
  const clock = clockOf(time, parts, hints, findings);
  if (findings.questions.length === 0 && probes.length === 0) return null;

  const draft = mappingOf({ parts, time, decimal, probes, source, units, clock });
  const mapping = findings.questions.length === 0 ? draft : null;
  const isOpen = (about: LogQuestion["about"]) => findings.questions.some((question) => question.about === about);
  const isTimeOpen = isOpen("date-order") || isOpen("zone") || isOpen("half-of-day") || isOpen("which-column");
  return {
    understanding: {
      mapping,
      sure: findings.sure,
      questions: findings.questions,
      firstRows: firstRows(parts, columns, draft, { isTimeOpen, isUnitOpen: isOpen("unit") }),
    },
    hasMoreToTell: isOpen("date-order") || isOpen("unit") || !hasDecimals(probes),
  };
}

const hasDecimals = (probes: readonly Probe[]) =>
  probes.some(({ column }) => column.cells.some((cell) => /\d[.,]\d/.test(cell)));

function columnsOf({ header, over, units, rows, width }: LogParts, { columns: told }: LogHints): Column[] {
  const names = Array.from({ length: width }, (_, index) => header?.cells[index] ?? "");
  return names.map((name, index) => {
    const number = index + 1;
    const isOnly = name !== "" && names.indexOf(name) === names.lastIndexOf(name);
    return {
      number,
      name: isOnly ? name : name === "" ? `${number}` : `${name} (${number})`,
      texts: [over?.cells[index] ?? "", name, units?.cells[index] ?? ""].filter((text) => text !== ""),
      cells: rows.map(({ cells }) => cells[index] ?? ""),
      told: told?.get(name) ?? told?.get(`${number}`),
      key: isOnly ? name : number,
    };
  });
}

// The time

interface TimeColumns {
  readonly time: Column;
  readonly date: Column | undefined;
  readonly form: LogMapping["timeForm"];
}

function timeColumns(columns: readonly Column[], parts: LogParts, findings: Findings): TimeColumns | null {
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
  findings.sure.push(columnFound(time, "time"));
  if (date.length > 0) findings.sure.push(columnFound(date[0], "date"));
  if (form !== undefined) findings.sure.push({ code: "time-form", form, example: firstFilled(time) });
  return { time, date: date[0], form };
}

const columnFound = (column: Column, meaning: Exclude<ColumnMeaning, "none">): LogFound => ({
  code: "column",
  column: column.name,
  meaning,
  told: column.told !== undefined,
});

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

/** Columns of rising numbers under a header that speaks of time. */
function countedColumns(columns: readonly Column[]) {
  return columns.flatMap((column) => {
    const says = headerSays(column.texts.join(" "));
    const speaksOfTime = says.kind === "meaning" && (says.meaning === "time" || says.meaning === "date");
    const isUnix = plainWords(column.texts.join(" ")).some((word) => word === "unix" || word === "epoch");
    const values = column.cells.map((cell) => numberOf(cell, cell.includes(",") ? "," : "."));
    const isRising = values.every((value, index) => index === 0 || value >= values[index - 1]);
    const form = countedForm(values);
    return (speaksOfTime || isUnix || column.told === "time") && isRising && form ? [{ column, form }] : [];
  });
}

/** The instants from 2001 to 2100 lie in ranges that do not meet: seconds, milliseconds, days since 1900. */
function countedForm(values: readonly number[]): LogMapping["timeForm"] {
  const within = (least: number, most: number) => values.every((value) => value >= least && value < most);
  if (within(978_307_200, 4_102_444_800)) return "unix-seconds";
  if (within(978_307_200_000, 4_102_444_800_000)) return "unix-milliseconds";
  return within(36_892, 73_051) ? "spreadsheet-days" : undefined;
}

interface Clock {
  readonly dateOrder: DateOrder | undefined;
  readonly zone: string | undefined;
}

function clockOf(time: TimeColumns, parts: LogParts, hints: LogHints, findings: Findings): Clock {
  if (time.form === "unix-seconds" || time.form === "unix-milliseconds")
    return { dateOrder: undefined, zone: undefined };
  const texts = time.time.cells.map((cell, row) =>
    time.date === undefined ? cell : `${time.date.cells[row]} ${cell}`,
  );
  if (time.form === "spreadsheet-days") {
    const wallMs = spreadsheetWallMs(numberOf(texts[0], texts[0].includes(",") ? "," : "."));
    return { dateOrder: undefined, zone: zoneOf([], wallMs, texts[0], time, parts, hints, findings) };
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
  const wallMs = wallMsOf(rows[0].parsed, firstOrder);
  return { dateOrder, zone: zoneOf(times, wallMs, rows[0].text, time, parts, hints, findings) };
}

interface TimeRow {
  readonly text: string;
  readonly parsed: TimeText;
  readonly line: number;
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

/** Undefined when every time carries its own, or nobody knows. */
function zoneOf(
  times: readonly TimeText[],
  wallMs: number,
  text: string,
  { time, date }: TimeColumns,
  parts: LogParts,
  hints: LogHints,
  findings: Findings,
): string | undefined {
  const own = times.find(({ offsetMinutes }) => offsetMinutes !== null)?.offsetMinutes ?? null;
  if (own !== null && times.every(({ offsetMinutes }) => offsetMinutes !== null)) {
    findings.sure.push({ code: "zone", zone: zoneText(own), from: "text" });
    return undefined;
  }
  const stated = statedZone([...time.texts, ...(date?.texts ?? [])], parts);
  const zone = stated ?? hints.zone;
  if (zone !== undefined) {
    findings.sure.push({ code: "zone", zone, from: stated === undefined ? "told" : "header" });
    return zone;
  }
  const offered = [...new Set([hints.here ?? "Z", "Z"])].filter((zone) => zone !== "UTC" || hints.here !== "UTC");
  const readings = offered.map((answer) => ({ answer, unixMs: instantIn(answer, wallMs) }));
  findings.questions.push({ about: "zone", line: parts.rows[0].line, text, readings });
  return undefined;
}

function instantIn(zone: string, wallMs: number): number {
  if (Number.isNaN(wallMs)) return wallMs;
  if (isOffset(zone)) return wallMs - offsetMinutesOf(zone) * msPerMinute;
  return new ZoneClock(zone).instants(wallMs)[0]?.unixMs ?? Number.NaN;
}

const zoneText = (minutes: number) => {
  if (minutes === 0) return "Z";
  const size = Math.abs(minutes);
  const two = (value: number) => String(value).padStart(2, "0");
  return `${minutes < 0 ? "-" : "+"}${two(Math.floor(size / 60))}:${two(size % 60)}`;
};

/** "Time (UTC)", "Date Time, GMT+02:00", or a line before the header that speaks of the time zone. */
function statedZone(timeTexts: readonly string[], { before }: LogParts): string | undefined {
  const lines = before
    .map(({ cells }) => cells.join(" "))
    .filter((line) => /time ?zone|zeitzone|fuseau|fuso|tijdzone|tidszon|huso/i.test(line));
  const zones = [...timeTexts, ...lines].flatMap((text) => {
    const said = /\b(?:UTC|GMT)\s*([+\u2212-]\d{1,2}(?::?\d\d)?)?(?!\w)/i.exec(text);
    if (said === null) return [];
    const [sign, digits] = [said[1]?.[0] === "+" ? "+" : "-", said[1]?.slice(1) ?? ""];
    const hours = digits.split(":")[0].length === 1 ? `0${digits}` : digits;
    const minutes = digits === "" ? 0 : offsetMinutesOf(sign + hours);
    return Number.isNaN(minutes) ? [] : [zoneText(minutes)];
  });
  return new Set(zones).size === 1 ? zones[0] : undefined;
}

// The readings

function decimalOf(columns: readonly Column[], findings: Findings): "." | "," {
  const commas = columns.flatMap(({ cells }) => cells.find(hasDecimalComma) ?? []);
  const points = columns.some(({ cells }) => cells.some((cell) => /^[+-]?\d+\.\d+\D*$/.test(cell)));
  if (commas.length === 0 || points) return ".";
  findings.sure.push({ code: "decimal-comma", example: commas[0] });
  return ",";
}

interface Probe {
  readonly position: Position;
  readonly column: Column;
}

function probeColumns(columns: readonly Column[], decimal: "." | ",", parts: LogParts, findings: Findings): Probe[] {
  const numeric = columns.filter(({ cells, told }) => {
    if (told === "none" || told === "source" || told === "time" || told === "date") return false;
    const filled = cells.filter((cell) => cell !== "");
    const numbers = filled.filter((cell) => !Number.isNaN(numberOf(cell, decimal)));
    // A probe that was pulled out writes words for hours, so half is enough where the header is plain.
    return numbers.length > 0 && numbers.length * 2 >= filled.length;
  });
  const said = numeric.map((column) => ({ column, says: saysOf(column) }));
  const candidates = new Map<Position, Column[]>();
  for (const { column, says } of said) {
    if (says.kind !== "meaning" || !isPosition(says.meaning)) continue;
    candidates.set(says.meaning, [...(candidates.get(says.meaning) ?? []), column]);
  }
  const isKnown = (position: Position) => candidates.has(position);
  const probes = [...candidates].map(([position, found]) => {
    const told = found.filter((column) => column.told !== undefined);
    const kept = told.length === 1 ? told : found;
    if (kept.length > 1) findings.questions.push(whichColumn(position, kept, parts));
    return { position, column: kept[0] };
  });
  for (const { column, says } of said) {
    if (says.kind === "several") {
      const [first, second] = says.meanings;
      // The word for a room is the room before the door where another column already is the air at the vent.
      const rest = says.meanings.filter((position) => !isKnown(position));
      if (rest.length === 1 && first === "ambient" && second === "room") probes.push({ position: rest[0], column });
      else if (rest.length > 0) findings.questions.push(columnQuestion(column, says.meanings, parts));
    } else if (says.kind === "nothing" && !(isKnown("cabinet") && isKnown("evaporator"))) {
      findings.questions.push(
        columnQuestion(
          column,
          usualPositions.filter((position) => !isKnown(position)),
          parts,
        ),
      );
    }
  }
  for (const { column, position } of probes) findings.sure.push(columnFound(column, position));
  for (const column of columns) {
    const isUsed = probes.some((probe) => probe.column === column) || column.told === "source";
    const isAsked = findings.questions.some(
      (question) => question.about === "column" && question.column === column.name,
    );
    if (!isUsed && !isAsked && saysOf(column).kind !== "meaning")
      findings.sure.push({ code: "column-left-out", column: column.name });
  }
  return probes;
}

const usualPositions = ["evaporator", "cabinet", "ambient"] as const satisfies readonly Position[];

function saysOf({ told, texts }: Column): ReturnType<typeof headerSays> {
  if (told === "none") return { kind: "other" };
  return told === undefined ? headerSays(texts.join(" ")) : { kind: "meaning", meaning: told };
}

const firstFilled = ({ cells }: Column) => cells.find((cell) => cell !== "") ?? "";
const firstFilledLine = ({ cells }: Column, { rows }: LogParts) =>
  rows[
    Math.max(
      cells.findIndex((cell) => cell !== ""),
      0,
    )
  ].line;

const columnQuestion = (column: Column, meanings: readonly Position[], parts: LogParts): LogQuestion => ({
  about: "column",
  line: firstFilledLine(column, parts),
  column: column.name,
  text: firstFilled(column),
  readings: [...meanings, "none" as const].map((answer) => ({ answer })),
});

const whichColumn = (
  meaning: Exclude<ColumnMeaning, "none">,
  columns: readonly Column[],
  parts: LogParts,
): LogQuestion => ({
  about: "which-column",
  meaning,
  line: firstFilledLine(columns[0], parts),
  readings: columns.map((column) => ({ answer: `${column.key}`, text: firstFilled(column) })),
});

/** A source column is used only when every word in it is known. */
function sourceColumn(
  columns: readonly Column[],
  findings: Findings,
): { column: Column; names: Record<string, "gas" | "mains" | "dc12" | "off"> } | null {
  const column = columns.find((candidate) => {
    const says = saysOf(candidate);
    return says.kind === "meaning" && says.meaning === "source";
  });
  if (column === undefined) return null;
  const words = [...new Set(column.cells.filter((cell) => cell !== ""))].slice(0, 100);
  const meant = words.map((word) => [word, sourceMeant(word)] as const);
  const known = meant.flatMap(([word, source]) => (source === undefined ? [] : [[word, source] as const]));
  if (known.length < meant.length && column.told === undefined) {
    findings.sure.push({ code: "column-left-out", column: column.name });
    return null;
  }
  findings.sure.push(columnFound(column, "source"));
  return { column, names: Object.fromEntries(known.filter(([word, source]) => word.toLowerCase() !== source)) };
}

type Units = ReadonlyMap<Position, TemperatureUnit>;

function unitsOf(
  probes: readonly Probe[],
  decimal: "." | ",",
  timeName: string,
  parts: LogParts,
  hints: LogHints,
  findings: Findings,
): Units {
  const units = new Map<Position, TemperatureUnit>();
  const stated = statedUnits(parts);
  const isOwn =
    timeName.toLowerCase() === "time" &&
    probes.every(({ position, column }) => column.name.toLowerCase() === position.toLowerCase());
  const open: { readonly probe: Probe; readonly possible: readonly TemperatureUnit[] }[] = [];
  for (const probe of probes) {
    const { position, column } = probe;
    if (position === "supply") continue;
    const found = (unit: TemperatureUnit, from: (LogFound & { code: "unit-of" })["from"]) => {
      units.set(position, unit);
      findings.sure.push({ code: "unit-of", column: column.name, unit, from });
    };
    const header = new Set(column.texts.flatMap(unitsIn));
    const cells = cellUnits(column, decimal).filter((unit) => unit !== "V");
    const values = column.cells.map((cell) => numberOf(cell, decimal)).filter((value) => !Number.isNaN(value));
    const possible = unitsPossible(values, position);
    if (header.size === 1) found([...header][0], "header");
    else if (header.size === 0 && cells.length === 1) found(cells[0], "cells");
    else if (header.size === 0 && stated.length === 1) found(stated[0], "header");
    else if (hints.unit !== undefined) found(hints.unit, "told");
    else if (isOwn && possible.includes("Cel")) found("Cel", "own-format");
    else open.push({ probe, possible });
  }
  if (open.length === 0) return units;
  const shared = (["Cel", "[degF]", "K"] as const).filter((unit) =>
    open.every(({ possible }) => possible.includes(unit)),
  );
  if (shared.length === 1) {
    for (const { probe } of open) {
      units.set(probe.position, shared[0]);
      findings.sure.push({ code: "unit-of", column: probe.column.name, unit: shared[0], from: "values" });
    }
    return units;
  }
  const { column } = open[0].probe;
  const text = column.cells.find((cell) => !Number.isNaN(numberOf(cell, decimal))) ?? "";
  const answers = shared.length > 1 ? shared : (["Cel", "[degF]"] as const);
  const readings = answers.map((answer) => ({ answer, celsius: celsiusOf(numberOf(text, decimal), answer) }));
  const line = parts.rows[Math.max(column.cells.indexOf(text), 0)].line;
  findings.questions.push({ about: "unit", line, column: column.name, text, readings });
  return units;
}

/** Units behind the numbers in the cells: "4.5 °C". */
const cellUnits = ({ cells }: Column, decimal: "." | ",") => [
  ...new Set(cells.slice(0, 1000).flatMap((cell) => quantityOf(cell, decimal).unit ?? [])),
];

/** Units named in the lines before the header, or in a column that says the unit of each row. */
function statedUnits({ before, rows }: LogParts): readonly TemperatureUnit[] {
  const lines = before.flatMap(({ cells }) => cells).filter((cell) => !/\d/.test(cell));
  const constant = rows[0].cells.filter(
    (cell, index) => !/\d/.test(cell) && rows.every(({ cells }) => cells[index] === cell),
  );
  return [...new Set([...lines, ...constant].flatMap(unitsIn))];
}

// Together

function mappingOf(found: {
  readonly parts: LogParts;
  readonly time: TimeColumns;
  readonly decimal: "." | ",";
  readonly probes: readonly Probe[];
  readonly source: ReturnType<typeof sourceColumn>;
  readonly units: Units;
  readonly clock: Clock;
}): LogMapping {
  const { parts, time, decimal, probes, source, units, clock } = found;
  const unit = units.values().next().value;
  const differing = [...units].filter(([, own]) => own !== unit);
  const isNone = (object: object) => Object.keys(object).length === 0;
  return {
    format: "coldfall-log-mapping-2",
    separator: parts.separator,
    decimal,
    time: time.time.key,
    ...(time.date === undefined ? {} : { date: time.date.key }),
    ...(time.form === undefined ? {} : { timeForm: time.form }),
    ...(clock.dateOrder === undefined ? {} : { dateOrder: clock.dateOrder }),
    ...(clock.zone === undefined ? {} : { timeZone: clock.zone }),
    ...(unit === undefined ? {} : { unit }),
    ...(differing.length === 0 ? {} : { units: Object.fromEntries(differing) }),
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
  { isTimeOpen, isUnitOpen }: { readonly isTimeOpen: boolean; readonly isUnitOpen: boolean },
): UnderstoodRow[] {
  const dialect = mappedDialect(mapping, "");
  const at = (key: string | number | undefined) => columns.find((column) => column.key === key);
  const [time, date] = [at(mapping.time), at(mapping.date)];
  return parts.rows.slice(0, shownRows).map(({ line }, row) => {
    const timeText = [date, time].flatMap((column) => (column === undefined ? [] : [column.cells[row]])).join(" ");
    const { unixMs, utcOffsetMinutes } = dialect.instant(timeText);
    const values = Object.entries(mapping.positions).map(([position, key]) => {
      const value = dialect.reading(at(key)?.cells[row] ?? "", position as Position);
      return [position, isUnitOpen && position !== "supply" ? null : value];
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
