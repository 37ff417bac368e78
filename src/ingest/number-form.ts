// How a log writes its numbers: which mark stands before the decimals, and which between thousands. "1,234" alone
// can be either; what a probe can read, or time that has to run on, tells, or else nobody knows.

import type { DecimalMark, ThousandsMark } from "../schema/index.ts";
import {
  groupsIn,
  isGrouped,
  type NumberForm,
  numberApart,
  numberOf,
  otherMark,
  thousandsMarks,
} from "./number-text.ts";

/** One column's cells, and whether they can be what the column holds when they are read so. */
export interface NumberColumn {
  readonly cells: readonly string[];
  isPossible(values: readonly number[]): boolean;
}

export interface FoundForm<Column extends NumberColumn> {
  readonly form: NumberForm;
  /** A cell in which the decimal mark stands, if there is one. */
  readonly decimalExample: string | undefined;
  readonly thousandsExample: string | undefined;
  /** A cell with two readings, and its column, where nothing tells which is right. */
  readonly open: { readonly column: Column; readonly text: string } | undefined;
}

/**
 * @param columns those that hold what the log is read for
 * @param told the decimal mark, when the user said it
 */
export function numberFormOf<Column extends NumberColumn>(
  columns: readonly Column[],
  told: DecimalMark | undefined,
): FoundForm<Column> {
  const marks = columns.flatMap(({ cells }) => cells.flatMap((cell) => marksOf(cell) ?? []));
  const decidable = told === undefined && !marks.some(({ decimal }) => decimal !== undefined);
  const doubtful = columns.filter(({ cells }) => cells.some((cell) => marksOf(cell)?.either !== undefined));
  const possible = decidable ? decimalsPossible(doubtful) : [];
  const decimal = told ?? provenDecimal(marks) ?? (possible.length === 1 ? possible[0] : usualDecimal(doubtful));
  const thousands = thousandsOf(columns, decimal);
  const [column] = doubtful;
  return {
    form: thousands === undefined ? { decimal } : { decimal, thousands: thousands.mark },
    decimalExample: columns.flatMap(({ cells }) => cells.find((cell) => holdsDecimals(cell, decimal)) ?? [])[0],
    thousandsExample: thousands?.example,
    open:
      possible.length > 1
        ? { column, text: column.cells.find((cell) => marksOf(cell)?.either !== undefined) ?? "" }
        : undefined,
  };
}

/** What the marks in a cell prove: the decimal mark; or `either`, the one mark that can be both. */
interface Marks {
  readonly decimal?: DecimalMark;
  readonly either?: DecimalMark;
}

function marksOf(cell: string): Marks | undefined {
  if (!/[., '\u2019\u00a0\u2009\u202f]\d/.test(cell)) return undefined;
  const number = numberApart(cell).number.replace(/[^\d.,]+$/, "");
  const single = /^[+-]?\d*([.,])\d+$/.exec(number)?.[1] as DecimalMark | undefined;
  if (single !== undefined) {
    // "0,625" and "12,5" hold decimals; "1,234" alone does not tell.
    return /^[+-]?[1-9]\d{0,2}[.,]\d{3}$/.test(number) ? { either: single } : { decimal: single };
  }
  const groups = groupsIn(number);
  if (groups === undefined) return undefined;
  // "1 234" proves nothing about decimals; "1,234,567" says that they cannot stand behind a comma.
  const isByBlanks = groups.thousands === " " || groups.thousands === "'";
  return isByBlanks && !number.includes(groups.decimal) ? {} : { decimal: groups.decimal };
}

/** A point where both are proven: the cells with a comma are counted as unreadable then. */
function provenDecimal(marks: readonly Marks[]): DecimalMark | undefined {
  if (marks.some(({ decimal }) => decimal === ".")) return ".";
  return marks.some(({ decimal }) => decimal === ",") ? "," : undefined;
}

/** A mark alone stands before decimals far more often than between thousands. */
const usualDecimal = (doubtful: readonly NumberColumn[]): DecimalMark =>
  doubtful.some(({ cells }) => cells.some((cell) => marksOf(cell)?.either === ",")) ? "," : ".";

/** The decimal marks under which every doubtful column holds something possible; none where nothing is doubtful. */
function decimalsPossible(doubtful: readonly NumberColumn[]): DecimalMark[] {
  if (doubtful.length === 0) return [];
  return ([".", ","] as const).filter((decimal) =>
    doubtful.every((column) => column.isPossible(valuesOf(column, { decimal, thousands: otherMark(decimal) }))),
  );
}

const valuesOf = ({ cells }: NumberColumn, form: NumberForm) =>
  cells.map((cell) => numberOf(cell, form)).filter((value) => !Number.isNaN(value));

/** The mark between thousands that is met, where what is read so is possible. */
function thousandsOf(
  columns: readonly NumberColumn[],
  decimal: DecimalMark,
): { readonly mark: ThousandsMark; readonly example: string } | undefined {
  for (const mark of thousandsMarks) {
    for (const column of columns) {
      const isMarked = (cell: string) => isGrouped(numberApart(cell).number, mark, decimal);
      const sure = column.cells.find((cell) => isMarked(cell) && groupsIn(cell) !== undefined);
      if (sure !== undefined) return { mark, example: sure };
      const example = column.cells.find(isMarked);
      if (example !== undefined && column.isPossible(valuesOf(column, { decimal, thousands: mark })))
        return { mark, example };
    }
  }
  return undefined;
}

const holdsDecimals = (cell: string, decimal: DecimalMark) => {
  const { number } = numberApart(cell);
  return number.includes(decimal) && /\d/.test(number);
};
