import { describe, expect, test } from "vitest";
import { understandingText, understoodRemark } from "../../src/report/import/index.ts";
import { handOf, say, words } from "../../src/report/index.ts";
import type { BadInputSayings, LogFoundSayings, LogQuestion, SayingOf } from "../../src/schema/index.ts";

const { importWords, badInput } = words("en");
const unixMs = Date.UTC(2026, 3, 3, 7);

/** One set of values for everything that can be found; the type demands that none is left out. */
const found: LogFoundSayings = {
  encoding: { encoding: "utf-16le" },
  separator: { separator: "\t" },
  "decimal-comma": { example: "4,5" },
  "decimal-point": { example: "4.5" },
  thousands: { mark: " ", example: "1 234.5" },
  "zone-letters": { letters: "BST", zone: "+01:00", from: "only-one" },
  "starts-at": { unixMs, utcOffsetMinutes: 120 },
  "lines-before": { lines: 1 },
  "no-header": {},
  column: { column: "Probe 1", meaning: "evaporator", told: true },
  "column-left-out": { column: "Humidity" },
  millivolts: { column: "Supply (mV)" },
  "unit-of": { column: "Probe 1", unit: "[degF]", from: "values" },
  "date-order": { order: "day-month-year", from: "steady-time", example: "03/04/2026 07:00" },
  zone: { zone: "+02:00", from: "header" },
  "time-form": { form: "spreadsheet-days", example: "46177.29" },
  "twelve-hours": { example: "7:00 pm" },
  "hour-24": { example: "24:00" },
  senml: { records: 12 },
  "board-file": { board: "b1", starts: 2, damaged: 1 },
  "board-start": { start: 7, isBeforeNext: true, slackMinutes: 40 },
  "probe-without-curve": { probe: "b1-a0", unit: "Ohm" },
  "senml-unit": { unit: "", records: 1 },
};

const questions: readonly LogQuestion[] = [
  {
    about: "date-order",
    line: 2,
    text: "03/04/2026 07:00",
    readings: [
      { answer: "day-month-year", wallMs: unixMs },
      { answer: "month-day-year", wallMs: Date.UTC(2026, 2, 4, 7) },
    ],
  },
  { about: "zone", line: 2, text: "2026-04-03 07:00", letters: null, readings: [{ answer: "Z", unixMs }] },
  {
    about: "zone",
    line: 2,
    text: "2026-04-03 07:00 BST",
    letters: "BST",
    readings: [
      { answer: "Europe/London", unixMs },
      { answer: "Asia/Dhaka", unixMs: unixMs - 18_000_000 },
    ],
  },
  {
    about: "decimal",
    line: 2,
    column: "Flue",
    text: "1,250",
    readings: [
      { answer: ".", value: 1250 },
      { answer: ",", value: 1.25 },
    ],
  },
  {
    about: "elapsed-unit",
    line: 9,
    column: "Elapsed",
    text: "20000",
    readings: [
      { answer: "ms", hours: 0.0056 },
      { answer: "s", hours: 5.6 },
    ],
  },
  { about: "starts-at", line: 2, column: "Elapsed", readings: [] },
  {
    about: "unit",
    line: 2,
    column: "Fridge",
    text: "4.5",
    readings: [
      { answer: "Cel", celsius: 4.5 },
      { answer: "[degF]", celsius: -15.28 },
    ],
  },
  { about: "column", line: 2, column: "Probe 1", text: "4.5", readings: [{ answer: "cabinet" }, { answer: "none" }] },
  {
    about: "source-word",
    line: 2,
    column: "Mode",
    text: "standby",
    readings: [{ answer: "gas" }, { answer: "mains" }, { answer: "none" }],
  },
  {
    about: "which-column",
    meaning: "cabinet",
    line: 2,
    readings: [
      { answer: "Top", text: "4.5" },
      { answer: "Low", text: "5" },
    ],
  },
  {
    about: "half-of-day",
    line: 9,
    text: "2026-04-03 01:00",
    readings: [
      { answer: "am", text: "2026-04-03 01:00 am" },
      { answer: "pm", text: "2026-04-03 01:00 pm" },
    ],
  },
];

const unitQuestion = questions.filter(({ about }) => about === "unit")[0];

const whole = (sentence: string) => {
  expect(sentence).toMatch(/^[\p{Lu}"\d]/u);
  expect(sentence).toMatch(/\.$/);
  expect(sentence).not.toMatch(/undefined|NaN|null|\[object|Infinity|Invalid/);
};

for (const [code, values] of Object.entries(found)) {
  test(`what was found is told in a whole sentence: ${code}`, () => {
    whole(say(importWords.found, { code, ...values } as SayingOf<LogFoundSayings>, handOf("en", 0)));
  });
}

describe("a question names the readings, and what settles it", () => {
  for (const question of questions) {
    test(`${question.about}, line ${question.line}${"letters" in question && question.letters ? ", by letters" : ""}`, () => {
      whole(importWords.ask(question));
      const saying: SayingOf<BadInputSayings> = { code: "two-readings", file: "a.csv", question };
      const refusal = say(badInput, saying, handOf("en", 0));
      whole(refusal);
      expect(refusal).toMatch(new RegExp(`^"a\\.csv", line ${question.line}: `));
      if (question.about === "half-of-day") expect(refusal).toContain("24 hours");
      else expect(refusal).toMatch(/--(date-order|zone|unit|column|decimal|elapsed-unit|starts-at) /);
    });
  }

  test("a date shows both days, a unit both temperatures", () => {
    expect(importWords.ask(questions[0])).toBe('"03/04/2026 07:00" can be 3 April 2026 07:00 or 4 March 2026 07:00.');
    expect(importWords.ask(unitQuestion)).toContain("4.5 °C if it is in °C, and \u221215.3 °C if it is in °F");
  });
});

test("an understanding is shown with what is sure, the first rows and what is open, a line each", () => {
  const text = understandingText("a.csv", {
    mapping: null,
    sure: [{ code: "separator", separator: ";" }],
    questions: [unitQuestion],
    firstRows: [
      {
        line: 2,
        timeText: "07:00",
        unixMs: null,
        utcOffsetMinutes: 0,
        values: { cabinet: null, evaporator: Number.NaN },
      },
      { line: 3, timeText: "07:01", unixMs, utcOffsetMinutes: 120, values: { cabinet: 4.5, supply: 12.8 } },
    ],
  });
  expect(text.replaceAll("\u00a0", " ").split("\n")).toEqual([
    "a.csv, as it is understood:",
    "  Cells separated by a semicolon.",
    "The first rows then read:",
    '  line 2: "07:00" (not settled)  cabinet not settled, evaporator missing',
    "  line 3: 3 April 09:00 UTC+02:00  cabinet 4.50 °C, supply voltage 12.80 V",
    "Still open:",
    `  ${importWords.ask(unitQuestion)}`,
    "  Answer with --unit C or F.",
    "",
  ]);
});

test("a log that was understood by itself is told of in one remark", () => {
  const understanding = {
    mapping: null,
    sure: [{ code: "separator" as const, separator: ";" as const }],
    questions: [],
    firstRows: [],
  };
  expect(understoodRemark("a.csv", understanding)).toBe(
    "a.csv is another logger's file, understood from its own text: Cells separated by a semicolon.",
  );
});
