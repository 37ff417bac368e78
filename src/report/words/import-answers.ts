// What the options that say how a log is to be read take, and units and zones as they are written: the same in every language.

import type { DateOrder, DecimalMark, LogQuestion, TemperatureUnit } from "../../schema/index.ts";

/** What --date-order takes. */
export const orderAnswers: { readonly [O in DateOrder]: string } = {
  "day-month-year": "dmy",
  "month-day-year": "mdy",
  "year-month-day": "ymd",
};

/** What --unit takes. */
export const unitAnswers: { readonly [U in TemperatureUnit]: string } = { Cel: "C", "[degF]": "F", K: "K" };

/** What --decimal takes. */
export const decimalAnswers: { readonly [M in DecimalMark]: string } = { ",": "comma", ".": "point" };

/** What --zone takes. */
export const zoneAnswer = (zone: string) => (zone === "Z" ? "UTC" : zone);

export const unitSigns: { readonly [U in TemperatureUnit]: string } = { Cel: "°C", "[degF]": "°F", K: "K" };

/** "UTC", "UTC+02:00", or the zone's own name. */
export const zoneName = (zone: string) => (zone === "Z" ? "UTC" : /^[+-]/.test(zone) ? `UTC${zone}` : zone);

/**
 * The option that says an answer, as a program would hand it over.
 *
 * @param answer as the words of a question give it
 * @returns empty where no option settles the question
 */
export function answerOption(question: LogQuestion, answer: string): readonly string[] {
  switch (question.about) {
    case "date-order":
      return ["--date-order", answer];
    case "zone":
      return ["--zone", answer];
    case "unit":
      return ["--unit", answer];
    case "decimal":
      return ["--decimal", answer];
    case "elapsed-unit":
      return ["--elapsed-unit", answer];
    case "column":
      return ["--column", `${question.column}=${answer}`];
    case "which-column":
      return ["--column", `${answer}=${question.meaning}`];
    case "source-word":
      return answer === "none"
        ? ["--column", `${question.column}=none`]
        : ["--source-word", `${question.text}=${answer}`];
    case "starts-at":
      return ["--starts-at", answer];
    case "half-of-day":
      return [];
  }
}
