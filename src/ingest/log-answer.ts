// An answer to a question about a log, as the hint that says it.

import type { ColumnMeaning, EnergySource, LogQuestion } from "../schema/index.ts";
import type { LogHints } from "./log-findings.ts";

/** Hints without those that a question cannot give; columns and words as plain pairs, fit for JSON. */
export interface AnswerHints extends Pick<LogHints, "decimal" | "dateOrder" | "unit" | "zone" | "elapsedUnit"> {
  readonly columns?: { readonly [column: string]: ColumnMeaning };
  readonly sourceWords?: { readonly [word: string]: EnergySource };
}

/**
 * @param chosen index of one of the question's readings
 * @returns nothing for a question that no hint settles
 */
export function hintsOfAnswer(question: LogQuestion, chosen: number): AnswerHints {
  switch (question.about) {
    case "date-order":
      return { dateOrder: question.readings[chosen].answer };
    case "unit":
      return { unit: question.readings[chosen].answer };
    case "zone":
      return { zone: question.readings[chosen].answer };
    case "decimal":
      return { decimal: question.readings[chosen].answer };
    case "elapsed-unit":
      return { elapsedUnit: question.readings[chosen].answer };
    case "column":
      return { columns: { [question.column]: question.readings[chosen].answer } };
    case "which-column":
      return { columns: { [question.readings[chosen].answer]: question.meaning } };
    case "source-word": {
      const { answer } = question.readings[chosen];
      return answer === "none"
        ? { columns: { [question.column]: answer } }
        : { sourceWords: { [question.text]: answer } };
    }
    case "half-of-day":
    case "starts-at":
      return {};
  }
}

/** Hints with an answer added. */
export const withAnswer = <Hints extends LogHints>(
  hints: Hints,
  { columns, sourceWords, ...answer }: AnswerHints,
): Hints => ({
  ...hints,
  ...answer,
  ...(columns === undefined ? {} : { columns: new Map([...(hints.columns ?? []), ...Object.entries(columns)]) }),
  ...(sourceWords === undefined
    ? {}
    : { sourceWords: new Map([...(hints.sourceWords ?? []), ...Object.entries(sourceWords)]) }),
});
