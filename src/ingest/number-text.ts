// Numbers as other loggers write them: a decimal comma, marks between thousands, a unit behind, a true minus sign.
// Which of these a log uses, number-form.ts finds out.

import type { DecimalMark, TemperatureUnit, ThousandsMark } from "../schema/index.ts";
import { decimalOf } from "./text-log.ts";

/** How a log writes its numbers. */
export interface NumberForm {
  readonly decimal: DecimalMark;
  /** None where it is left out. */
  readonly thousands?: ThousandsMark | undefined;
}

/** Behind a number. */
export type VoltageUnit = "V" | "mV";

/** Blanks and apostrophes of several kinds part thousands. */
const groupMarks: { readonly [M in ThousandsMark]: string } = {
  ",": ",",
  ".": "\\.",
  " ": "[ \u00a0\u2009\u202f]",
  "'": "['\u2019]",
};
const grouped = (mark: string, decimal: string) =>
  new RegExp(`^[+-]?[1-9]\\d{0,2}(?:${mark}\\d{3})+(?:${decimal}\\d*)?$`);
const groupPatterns = new Map(
  (Object.keys(groupMarks) as ThousandsMark[]).flatMap((mark) =>
    ([".", ","] as const).map((decimal) => [mark + decimal, grouped(groupMarks[mark], `\\${decimal}`)] as const),
  ),
);
const groupMark = new Map(
  (Object.keys(groupMarks) as ThousandsMark[]).map((mark) => [mark, new RegExp(groupMarks[mark], "g")] as const),
);

const numberAndUnit =
  /^([+-]?[\d.,](?:[\d.,'\u2019 \u00a0\u2009\u202f]*[\d.,])?(?:e[+-]?\d+)?)\s*((?:[°º˚]|deg)\s*[CFK]|[CFK]|m?V|℃|℉)$/i;

/** The number in a cell, or NaN. */
export const numberOf = (cell: string, form: NumberForm): number => quantityOf(cell, form).value;

/** The numbers in a column's cells; those that hold none are left out. */
export const numbersIn = ({ cells }: { readonly cells: readonly string[] }, form: NumberForm): number[] =>
  cells.map((cell) => numberOf(cell, form)).filter((value) => !Number.isNaN(value));

/** The number in a cell with the unit behind it, if there is one. */
export function quantityOf(
  cell: string,
  { decimal, thousands }: NumberForm,
): { readonly value: number; readonly unit: TemperatureUnit | VoltageUnit | undefined } {
  const { number, unit } = numberApart(cell);
  const bare = thousands === undefined ? number : withoutGroups(number, thousands, decimal);
  return { value: decimalOf(bare, decimal), unit };
}

/** A cell's number as it is written, with a plain minus sign, and the unit behind it. */
export function numberApart(cell: string): {
  readonly number: string;
  readonly unit: TemperatureUnit | VoltageUnit | undefined;
} {
  const plain = cell.startsWith("\u2212") ? `-${cell.slice(1)}` : cell;
  const parts = endsInUnit(plain) ? numberAndUnit.exec(plain) : null;
  return parts === null ? { number: plain, unit: undefined } : { number: parts[1], unit: unitOf(parts[2]) };
}

/** Whether a number's thousands are parted by this mark. */
export const isGrouped = (number: string, mark: ThousandsMark, decimal: DecimalMark): boolean =>
  mark !== decimal && groupPatterns.get(mark + decimal)?.test(number) === true;

function withoutGroups(number: string, mark: ThousandsMark, decimal: DecimalMark): string {
  return isGrouped(number, mark, decimal) ? number.replaceAll(groupMark.get(mark) ?? mark, "") : number;
}

/** All marks that can stand between thousands. */
export const thousandsMarks = Object.keys(groupMarks) as readonly ThousandsMark[];

/** Whether a cell holds a number in any of the forms. */
export const isNumber = (cell: string): boolean =>
  !Number.isNaN(numberOf(cell, { decimal: cell.includes(",") ? "," : "." })) || groupsIn(cell) !== undefined;

/** The form of a cell whose number has its thousands parted, when no other reading of it is a number too. */
export function groupsIn(cell: string): NumberForm | undefined {
  if (!/\d[., '\u2019\u00a0\u2009\u202f]\d{3}/.test(cell)) return undefined;
  const { number } = numberApart(cell);
  for (const thousands of thousandsMarks) {
    for (const decimal of [".", ","] as const) {
      if (isGrouped(number, thousands, decimal) && Number.isNaN(numberOf(number, { decimal: otherMark(decimal) })))
        return { decimal, thousands };
    }
  }
  return undefined;
}

/** Whether no value is below the one before. */
export const isRising = (values: readonly number[]) =>
  values.every((value, index) => index === 0 || value >= values[index - 1]);

/** The mark that is not the decimal one. */
export const otherMark = (decimal: DecimalMark): DecimalMark => (decimal === "." ? "," : ".");

/** Most cells end in a digit, and need no second look. */
const endsInUnit = (cell: string) => cell !== "" && !(cell.charCodeAt(cell.length - 1) <= 0x39);

function unitOf(text: string): TemperatureUnit | VoltageUnit {
  if (text.toLowerCase() === "mv") return "mV";
  const letter = text.charAt(text.length - 1).toUpperCase();
  if (letter === "C" || letter === "℃") return "Cel";
  if (letter === "F" || letter === "℉") return "[degF]";
  return letter === "K" ? "K" : "V";
}
