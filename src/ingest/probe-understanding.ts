// Which columns of a log are probes, and where each sits: by its header, by what was told, or to be asked.

import { type LogQuestion, type LogUnderstanding, type Position, positions } from "../schema/index.ts";
import { saysOf } from "./column-meaning.ts";
import { isPosition } from "./log-columns.ts";
import { type Column, columnFound, columnQuestion, type Findings, firstFilled, whichColumn } from "./log-findings.ts";
import type { LogParts } from "./log-rows.ts";
import { type NumberForm, numberOf, numbersIn } from "./number-text.ts";
import { areBeyondUnits, namesOhms } from "./ohms.ts";
import { isInMillivolts, isInVolts, unitsIn, unitsPossible } from "./temperature-unit.ts";
import { showable } from "./unreadable-cells.ts";

/** A column that holds a probe's readings. */
export interface ProbeColumn {
  readonly position: Position;
  readonly column: Column;
}

/**
 * The probes among the columns; findings say which column is which, what is asked, and what is left out.
 *
 * @param source the column of the energy sources, which is no probe
 */
export function probeColumns(
  columns: readonly Column[],
  source: Column | undefined,
  numbers: NumberForm,
  parts: LogParts,
  findings: Findings,
): ProbeColumn[] {
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
export function ohmsIn(
  columns: readonly Column[],
  probes: readonly ProbeColumn[],
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

/** What a column without a place may be: one of the usual places, the others once those are taken. */
function openPositions(isKnown: (position: Position) => boolean): readonly Position[] {
  const usual = usualPositions.filter((position) => !isKnown(position));
  return usual.length > 0 ? usual : positions.filter((position) => !isKnown(position));
}

const usualPositions = ["evaporator", "cabinet", "ambient"] as const satisfies readonly Position[];
