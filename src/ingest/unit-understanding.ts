// Which unit of temperature each probe of a log is in: by its header, its cells, what was told, or what its values can be.

import type { LogFound, Position, TemperatureUnit } from "../schema/index.ts";
import type { Column, Findings, LogHints } from "./log-findings.ts";
import type { LogParts } from "./log-rows.ts";
import { type NumberForm, numberOf, numbersIn, quantityOf } from "./number-text.ts";
import type { ProbeColumn } from "./probe-understanding.ts";
import { celsiusOf, unitsIn, unitsPossible } from "./temperature-unit.ts";

/** The unit of each probe; a question in the findings stands for those that are open. The supply is in volts and not among them. */
export type Units = ReadonlyMap<Position, TemperatureUnit>;

/** @param timeName header of the time column: our own format calls it so */
export function unitsOf(
  probes: readonly ProbeColumn[],
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
  const open: { readonly probe: ProbeColumn; readonly possible: readonly TemperatureUnit[] }[] = [];
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
