import { describe, expect, test } from "vitest";
import { type LogHints, readLog, understandLog } from "../../src/ingest/index.ts";
import { mappedDialect } from "../../src/ingest/mapped-log.ts";
import type { LogMapping } from "../../src/schema/index.ts";
import { bytesOf, refusal } from "./log-texts.ts";

const startsAt = { unixMs: Date.UTC(2026, 5, 4, 19, 30), utcOffsetMinutes: 120 };

const log = (header: string, ...counts: string[]) =>
  [`${header};Fridge °C`, ...counts.map((count) => `${count};4,5`), ""].join("\n");

const understood = (text: string, hints: LogHints = {}) => understandLog(bytesOf(text), hints);
const asked = (text: string, hints: LogHints = {}) => understood(text, hints)?.questions.map(({ about }) => about);

/** Minutes since the start, as the mapping that was found reads each count. */
function minutes(header: string, counts: readonly string[], hints: LogHints = {}): number[] {
  const found = understood(log(header, ...counts), { startsAt, ...hints });
  expect(found?.questions).toEqual([]);
  const { instant } = mappedDialect(found?.mapping as LogMapping, "a.csv", startsAt);
  return counts.map((count) => (instant(count).unixMs - startsAt.unixMs) / 60_000);
}

describe("a column that counts from the log's start is understood", () => {
  for (const [header, counts, expected] of [
    ["Time (s)", ["0", "60", "120"], [0, 1, 2]],
    ["Zeit [min]", ["0,5", "1,0", "1,5"], [0.5, 1, 1.5]],
    ["Elapsed hours", ["0", "0,25", "30"], [0, 15, 1800]],
    ["t/ms", ["0", "30000", "60000"], [0, 0.5, 1]],
    ["Laufzeit (h)", ["0", "1", "2"], [0, 60, 120]],
    ["Seconds", ["0", "60", "120"], [0, 1, 2]],
    ["Elapsed", ["0:00:00", "0:00:30,5", "36:10:00"], [0, 30.5 / 60, 36 * 60 + 10]],
    ["Time", ["00:00:00", "23:59:00", "24:01:00"], [0, 1439, 1441]],
    ["Time (s)", ["900", "1.020", "1.080"], [15, 17, 18]],
    ["Time (s)", ["1 020", "1 080", "1 140"], [17, 18, 19]],
  ] as const) {
    test(`${header}: ${counts.join(", ")}`, () => {
      expect(minutes(header, counts)).toEqual(expected);
    });
  }

  test("however many rows, past the numbers that could be a date of a spreadsheet", () => {
    const counts = Array.from({ length: 9000 }, (_, row) => `${row * 10}`);
    const found = understood(log("Time (s)", ...counts), { startsAt });
    expect(found?.mapping).toMatchObject({ time: "Time (s)", timeForm: "elapsed-seconds" });
  });

  test("and shown from the start that was told, in its zone", () => {
    const found = understood(log("Time (s)", "0", "60"), { startsAt });
    expect(found?.firstRows.map(({ unixMs, utcOffsetMinutes }) => [unixMs, utcOffsetMinutes])).toEqual([
      [startsAt.unixMs, 120],
      [startsAt.unixMs + 60_000, 120],
    ]);
  });

  test("and left alone where the log has a calendar besides", () => {
    const text = "Time (UTC);Elapsed (s);Fridge °C\n2026-06-04 07:00;0;4,5\n2026-06-04 07:01;60;4,5\n";
    expect(understood(text)?.mapping).toMatchObject({ time: "Time (UTC)", positions: { cabinet: "Fridge °C" } });
  });
});

describe("asked, never guessed", () => {
  test("when it began, and nothing is read before that is said", () => {
    const text = log("Time (s)", "0", "60");
    expect(asked(text)).toEqual(["starts-at"]);
    expect(understood(text)?.firstRows.map(({ unixMs }) => unixMs)).toEqual([null, null]);
    expect(refusal(() => readLog(bytesOf(text), { file: "a.csv" }))).toMatchObject({
      code: "two-readings",
      question: { about: "starts-at", column: "Time (s)", line: 2 },
    });
  });

  test("what it counts, where the header does not say; each reading shows how long the log would be", () => {
    const text = log("Elapsed", "0", "600", "36000");
    expect(understood(text, { startsAt })?.questions).toEqual([
      {
        about: "elapsed-unit",
        line: 4,
        column: "Elapsed",
        text: "36000",
        readings: [
          { answer: "ms", hours: 0.01 },
          { answer: "s", hours: 10 },
          { answer: "min", hours: 600 },
        ],
      },
    ]);
    expect(minutes("Elapsed", ["0", "600"], { elapsedUnit: "s" })).toEqual([0, 10]);
  });

  test("whether h:mm:ss is elapsed, or a clock without a date", () => {
    expect(asked(log("Time", "07:00:00", "07:00:10"), { startsAt })).toEqual(["column"]);
    expect(minutes("Time", ["07:00:00", "07:01:00"], { columns: new Map([["Time", "elapsed"]]) })).toEqual([420, 421]);
  });

  test("whether a mark parts thousands or decimals, where time runs on either way", () => {
    const text = log("Time (s)", "1.020", "1.080").replaceAll("4,5", "4");
    expect(asked(text, { startsAt })).toEqual(["decimal"]);
    expect(asked(text, { startsAt, decimal: "," })).toEqual([]);
  });

  test("a log whose mapping was stated, and its start was not", () => {
    const mapping: LogMapping = {
      format: "coldfall-log-mapping-2",
      time: "Time (s)",
      timeForm: "elapsed-seconds",
      decimal: ",",
      positions: { cabinet: "Fridge °C" },
    };
    expect(refusal(() => readLog(bytesOf(log("Time (s)", "0")), { file: "a.csv", mapping }))).toMatchObject({
      code: "two-readings",
      question: { about: "starts-at" },
    });
  });
});

describe("no elapsed time", () => {
  for (const [what, header, counts] of [
    ["a count that falls back", "Time (s)", ["0", "60", "0"]],
    ["a count longer than any log", "Time (s)", ["20260604070000", "20260604070100"]],
    ["a row number", "No.", ["1", "2"]],
  ] as const) {
    test(what, () => {
      expect(understood(log(header, ...counts), { startsAt })).toBeNull();
    });
  }
});
