// Another logger's file, understood from its own text: what is sure, and what can be read in two ways. Nothing that
// has two readings is ever decided here; the user's answers come in as hints.

import {
  type EnergySource,
  type LogFound,
  type LogMapping,
  type LogQuestion,
  type LogUnderstanding,
  type Position,
  positions,
  type TemperatureUnit,
  type UnderstoodRow,
} from "../schema/index.ts";
import { headerSays, sourceMeant } from "./column-meaning.ts";
import { isElapsed } from "./elapsed-time.ts";
import { elapsedColumns, isElapsedTime, runsOn, settledForm } from "./elapsed-understanding.ts";
import { isPosition } from "./log-columns.ts";
import {
  type Column,
  columnFound,
  columnQuestion,
  Findings,
  firstFilled,
  type LogHints,
  sourceWordQuestion,
  type TimeColumns,
  whichColumn,
} from "./log-findings.ts";
import { type LogParts, logPartsOf } from "./log-rows.ts";
import { mappedDialect } from "./mapped-log.ts";
import { numberFormOf } from "./number-form.ts";
import { type NumberForm, numberOf, otherMark, quantityOf } from "./number-text.ts";
import { areBeyondUnits, namesOhms } from "./ohms.ts";
import { probePerRow } from "./probe-per-row.ts";
import { celsiusOf, isInMillivolts, isInVolts, unitsIn, unitsPossible } from "./temperature-unit.ts";
import { encodingOf, textOf } from "./text-encoding.ts";
import { timeTogether } from "./text-log.ts";
import { type Clock, clockOf, datedColumns } from "./time-understanding.ts";
import { refuseUnknownColumns } from "./told-columns.ts";
import { showable } from "./unreadable-cells.ts";

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

const hasDecimals = (probes: readonly Probe[]) =>
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

// The readings

/** Decimals and thousands, as the columns show that hold times and readings; asked where they can be either. */
function numbersOf(
  time: TimeColumns,
  others: readonly Column[],
  parts: LogParts,
  hints: LogHints,
  findings: Findings,
): NumberForm {
  const counts = time.form === undefined || time.form === "elapsed-clock" ? [] : [{ ...time.time, isPossible: runsOn }];
  const readings = others.flatMap((column) => {
    const says = saysOf(column);
    const isUsed =
      says.kind === "several" || says.kind === "nothing" || (says.kind === "meaning" && isPosition(says.meaning));
    return isUsed ? [{ ...column, isPossible: isPossibleFor(says, column) }] : [];
  });
  const { form, decimalExample, thousandsExample, open } = numberFormOf([...counts, ...readings], hints.decimal);
  if (open !== undefined) {
    const { cells, name } = open.column;
    const readingsOf = ([".", ","] as const).map((answer) => ({
      answer,
      value: numberOf(open.text, { decimal: answer, thousands: otherMark(answer) }),
    }));
    const line = parts.rows[cells.indexOf(open.text)].line;
    findings.questions.push({ about: "decimal", line, column: name, text: open.text, readings: readingsOf });
    return form;
  }
  // A point is what everyone expects, and worth a word only where it was told.
  if (decimalExample !== undefined && (form.decimal === "," || hints.decimal !== undefined)) {
    const code = form.decimal === "," ? "decimal-comma" : "decimal-point";
    findings.sure.push({ code, example: decimalExample });
  }
  if (thousandsExample !== undefined && form.thousands !== undefined) {
    findings.sure.push({ code: "thousands", mark: form.thousands, example: thousandsExample });
  }
  return form;
}

/** Whether values are possible for a probe where a column says that it is; anywhere, where it says nothing. */
function isPossibleFor(says: ReturnType<typeof saysOf>, { texts }: Column): (values: readonly number[]) => boolean {
  if (says.kind !== "meaning" || !isPosition(says.meaning)) return (values) => unitsPossible(values, "flue").length > 0;
  const { meaning } = says;
  if (meaning === "supply") {
    const most = texts.some(isInMillivolts) ? mostVolts * 1000 : mostVolts;
    return (values) => values.filter((value) => !(Math.abs(value) <= most)).length * 20 <= values.length;
  }
  return (values) => unitsPossible(values, meaning).length > 0;
}

/** More than any supply of a fridge has. */
const mostVolts = 500;

interface Probe {
  readonly position: Position;
  readonly column: Column;
}

function probeColumns(
  columns: readonly Column[],
  source: Column | undefined,
  numbers: NumberForm,
  parts: LogParts,
  findings: Findings,
): Probe[] {
  const numeric = columns.filter(({ cells, told }) => {
    if (told !== undefined && !isPosition(told)) return false;
    const filled = cells.filter((cell) => cell !== "");
    const readings = filled.filter((cell) => !Number.isNaN(numberOf(cell, numbers)));
    // A probe that was pulled out writes words for hours, so half is enough where the header is plain.
    return readings.length > 0 && readings.length * 2 >= filled.length;
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
  // Where the headers name what is needed, the others are left out. An answer to one question is no such header: it must
  // not close the next.
  const isNamed = (position: Position) => candidates.get(position)?.some(({ told }) => told === undefined) === true;
  const mayBe = (position: "ambient", column: Column) =>
    !column.texts.some((text) => isInVolts(text) || isInMillivolts(text)) &&
    unitsPossible(numbersIn(column, numbers), position).length > 0;
  const isNeedless = (column: Column) =>
    isNamed("cabinet") && isNamed("evaporator") && (isNamed("ambient") || !mayBe("ambient", column));
  for (const { column, says } of said) {
    if (says.kind === "several") {
      const [first, second] = says.meanings;
      // The word for a room is the room before the door where another column already is the air at the vent.
      const rest = says.meanings.filter((position) => !isKnown(position));
      if (rest.length === 1 && first === "ambient" && second === "room") probes.push({ position: rest[0], column });
      else if (rest.length > 0) findings.questions.push(columnQuestion(column, says.meanings, parts));
    } else if (says.kind === "nothing" && !isNeedless(column)) {
      findings.questions.push(columnQuestion(column, openPositions(isKnown), parts));
    }
  }
  for (const { column, position } of probes) findings.sure.push(columnFound(column, position));
  for (const column of columns) {
    const isUsed = probes.some((probe) => probe.column === column) || column === source;
    if (!isUsed && !findings.questions.some((question) => isAbout(question, column)))
      findings.sure.push({ code: "column-left-out", column: column.name });
  }
  return probes;
}

const isAbout = (question: LogQuestion, { name, key }: Column) =>
  question.about === "which-column"
    ? question.readings.some(({ answer }) => answer === `${key}`)
    : (question.about === "column" || question.about === "source-word") && question.column === name;

/**
 * The first column that is a probe, or is asked about, and says that it is in ohms; or a probe that could be °C in no unit. A
 * column that is only asked about may be anything while it is no probe: a pressure, a brightness.
 */
function ohmsIn(
  columns: readonly Column[],
  probes: readonly Probe[],
  numbers: NumberForm,
  { questions }: Findings,
): LogUnderstanding["ohms"] {
  const found = columns.find((column) => {
    const isProbe = probes.some((probe) => probe.column === column && probe.position !== "supply");
    const isAsked = questions.some((question) => question.about === "column" && question.column === column.name);
    // "Pt100 (100 ohm), °C" is in °C.
    const isInOhms = column.texts.some(namesOhms) && column.texts.flatMap(unitsIn).length === 0;
    return ((isProbe || isAsked) && isInOhms) || (isProbe && areBeyondUnits(numbersIn(column, numbers)));
  });
  return found && { column: showable(found.name), text: showable(firstFilled(found)) };
}

const numbersIn = ({ cells }: Column, numbers: NumberForm) =>
  cells.map((cell) => numberOf(cell, numbers)).filter((value) => !Number.isNaN(value));

/** What a column without a place may be: one of the usual places, the others once those are taken. */
function openPositions(isKnown: (position: Position) => boolean): readonly Position[] {
  const usual = usualPositions.filter((position) => !isKnown(position));
  return usual.length > 0 ? usual : positions.filter((position) => !isKnown(position));
}

const usualPositions = ["evaporator", "cabinet", "ambient"] as const satisfies readonly Position[];

function saysOf({ told, texts }: Column): ReturnType<typeof headerSays> {
  if (told === "none") return { kind: "other" };
  return told === undefined ? headerSays(texts.join(" ")) : { kind: "meaning", meaning: told };
}

interface SourceFound {
  readonly column: Column;
  readonly names: Record<string, EnergySource>;
}

/** What holds the energy sources, and what is unsure about it: by its header, by its cells where the header is silent. */
function sourceColumn(
  columns: readonly Column[],
  { sourceWords = new Map() }: LogHints,
  parts: LogParts,
): { readonly found: SourceFound | null; readonly question: LogQuestion | null } {
  const told = new Map([...sourceWords].map(([word, source]) => [word.trim().toLowerCase(), source] as const));
  const meantBy = (word: string) => told.get(word.toLowerCase()) ?? sourceMeant(word);
  const candidates = columns.map((column) => ({ column, says: saysOf(column) }));
  const named = candidates.find(({ says }) => says.kind === "meaning" && says.meaning === "source")?.column;
  const silent = candidates.find(
    ({ column, says }) => says.kind === "nothing" && holdsSources(column, meantBy),
  )?.column;
  const column = named ?? silent;
  if (column === undefined) return { found: null, question: null };
  const words = wordsIn(column);
  const known = words.flatMap((word) => {
    const source = meantBy(word);
    return source === undefined ? [] : [[word, source] as const];
  });
  // A logger itself may run on mains or a battery, but never on gas.
  if (named === undefined && (known.length < words.length || known.every(([, source]) => source !== "gas")))
    return { found: null, question: columnQuestion(column, ["source"], parts) };
  // "Energy (Wh)" is a measure, and no list of words.
  if (known.length === 0 && words.length > mostSourceWords && column.told === undefined)
    return { found: null, question: null };
  const unknown = words.find((word) => meantBy(word) === undefined);
  const names = [...known, ...sourceWords].filter(([word, source]) => word.toLowerCase() !== source);
  return {
    found: { column, names: Object.fromEntries(names) },
    question: unknown === undefined ? null : sourceWordQuestion(column, unknown, parts),
  };
}

const wordsIn = ({ cells }: Column) => [...new Set(cells.filter((cell) => cell !== ""))].slice(0, 100);

/** There are four sources, and a logger may have a word or two of its own besides. */
const mostSourceWords = 8;

/** Whether most cells name a source, and not only that something is off: a lamp or a fan is that too. */
function holdsSources({ cells }: Column, meantBy: (word: string) => EnergySource | undefined): boolean {
  const filled = cells.filter((cell) => cell !== "");
  const sources = filled.map(meantBy).filter((source) => source !== undefined);
  return sources.length * 2 >= filled.length && sources.some((source) => source !== "off");
}

type Units = ReadonlyMap<Position, TemperatureUnit>;

function unitsOf(
  probes: readonly Probe[],
  numbers: NumberForm,
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
    const cells = cellUnits(column, numbers).filter((unit) => unit !== "V" && unit !== "mV");
    const values = numbersIn(column, numbers);
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
  const text = column.cells.find((cell) => !Number.isNaN(numberOf(cell, numbers))) ?? "";
  const answers = shared.length > 1 ? shared : (["Cel", "[degF]"] as const);
  const readings = answers.map((answer) => ({ answer, celsius: celsiusOf(numberOf(text, numbers), answer) }));
  const line = parts.rows[Math.max(column.cells.indexOf(text), 0)].line;
  findings.questions.push({ about: "unit", line, column: column.name, text, readings });
  return units;
}

/** Units behind the numbers in the cells: "4.5 °C". */
const cellUnits = ({ cells }: Column, numbers: NumberForm) => [
  ...new Set(cells.slice(0, 1000).flatMap((cell) => quantityOf(cell, numbers).unit ?? [])),
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
  readonly numbers: NumberForm;
  readonly probes: readonly Probe[];
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
