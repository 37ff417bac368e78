// How a log's readings are written: which mark parts the decimals, and which the thousands.

import { saysOf } from "./column-meaning.ts";
import { runsOn } from "./elapsed-understanding.ts";
import { isPosition } from "./log-columns.ts";
import type { Column, Findings, LogHints, TimeColumns } from "./log-findings.ts";
import type { LogParts } from "./log-rows.ts";
import { numberFormOf } from "./number-form.ts";
import { type NumberForm, numberOf, otherMark } from "./number-text.ts";
import { isInMillivolts, unitsPossible } from "./temperature-unit.ts";

/** Decimals and thousands, as the columns show that hold times and readings; asked where they can be either. */
export function numbersOf(
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
