// Known readings, written the way loggers and spreadsheets write them, must come back equal; and where the text can be
// read in two ways, nothing may come back until someone says which.

import { fc, test } from "@fast-check/vitest";
import { describe, expect } from "vitest";
import { type LogHints, readLog, understandLog } from "../../src/ingest/index.ts";
import { BadInput, type DateOrder, type TemperatureUnit } from "../../src/schema/index.ts";
import { bytesOf, listed } from "./log-texts.ts";

interface Known {
  readonly startMs: number;
  readonly stepMs: number;
  /** °C: evaporator, cabinet, ambient; null is a missing reading. */
  readonly rows: readonly (readonly [number | null, number | null, number | null])[];
}

interface Dialect {
  readonly separator: "," | ";" | "\t";
  readonly decimal: "." | ",";
  readonly order: DateOrder;
  readonly dateMark: "." | "/" | "-";
  readonly twoDigitYear: boolean;
  readonly twelveHours: boolean;
  readonly hour24: boolean;
  readonly isApart: boolean;
  readonly unit: TemperatureUnit;
  readonly headers: readonly [string, string, string, string, string];
  readonly unitIn: "header" | "row" | "cells";
  readonly preamble: readonly string[];
  readonly lineEnd: "\n" | "\r\n" | "\r";
  readonly encoding: "utf-8" | "utf-8-bom" | "utf-16le" | "utf-16be";
  readonly trailing: boolean;
  readonly quoted: boolean;
  readonly remarkAfter: boolean;
}

const unitText = { Cel: "°C", "[degF]": "°F", K: "K" } as const;
const headers = [
  ["Time", "Date", "Evaporator", "Fridge", "Outside"],
  ["Uhrzeit", "Datum", "Verdampfer", "Kühlschrank", "Außen"],
  ["Heure", "Date", "Évaporateur", "Intérieur", "Extérieur"],
  ["Tijd", "Datum", "Koelribben", "Koelkast", "Buiten"],
  ["Hora", "Fecha", "Evaporador", "Nevera", "Exterior"],
] as const;

const temperature = fc.option(
  fc.integer({ min: -300, max: 450 }).map((tenths) => tenths / 10),
  { freq: 8 },
);
const known: fc.Arbitrary<Known> = fc.record({
  startMs: fc
    .integer({ min: Date.UTC(2001, 0, 1), max: Date.UTC(2098, 0, 1) })
    .map((ms) => Math.floor(ms / 60_000) * 60_000),
  stepMs: fc.constantFrom(60_000, 120_000, 600_000),
  rows: fc
    .array(fc.tuple(temperature, temperature, temperature), { minLength: 3, maxLength: 40 })
    .map((rows) => [[4.5, 5.5, 20.5] as const, ...rows]),
});
const dialect: fc.Arbitrary<Dialect> = fc
  .record({
    separator: fc.constantFrom(",", ";", "\t"),
    decimal: fc.constantFrom(".", ","),
    order: fc.constantFrom("day-month-year", "month-day-year", "year-month-day"),
    dateMark: fc.constantFrom(".", "/", "-"),
    twoDigitYear: fc.boolean(),
    twelveHours: fc.boolean(),
    hour24: fc.boolean(),
    isApart: fc.boolean(),
    unit: fc.constantFrom("Cel", "[degF]", "K"),
    headers: fc.constantFrom(...headers),
    unitIn: fc.constantFrom("header", "row", "cells"),
    preamble: fc.constantFrom([], ["Logger"], ["# a remark", "", "Report of the night"]),
    lineEnd: fc.constantFrom("\n", "\r\n", "\r"),
    encoding: fc.constantFrom("utf-8", "utf-8-bom", "utf-16le", "utf-16be"),
    trailing: fc.boolean(),
    quoted: fc.boolean(),
    remarkAfter: fc.boolean(),
  } as const)
  .filter(({ separator, decimal, quoted }) => quoted || separator !== decimal) as fc.Arbitrary<Dialect>;

const two = (value: number) => String(value).padStart(2, "0");

function dateText(ms: number, { order, dateMark, twoDigitYear }: Dialect): string {
  const date = new Date(ms);
  const year = twoDigitYear ? two(date.getUTCFullYear() % 100) : String(date.getUTCFullYear());
  const [month, day] = [two(date.getUTCMonth() + 1), two(date.getUTCDate())];
  const parts = {
    "day-month-year": [day, month, year],
    "month-day-year": [month, day, year],
    "year-month-day": [year, month, day],
  };
  return parts[order].join(dateMark);
}

/** Date and time; midnight as the end of the day before where the dialect has it so. */
function timeTexts(ms: number, dialect: Dialect): readonly [string, string] {
  const date = new Date(ms);
  const [hour, minute] = [date.getUTCHours(), two(date.getUTCMinutes())];
  if (dialect.twelveHours) {
    return [dateText(ms, dialect), `${hour % 12 || 12}:${minute} ${hour < 12 ? "AM" : "PM"}`];
  }
  if (dialect.hour24 && hour === 0 && minute === "00") return [dateText(ms - 1, dialect), "24:00"];
  return [dateText(ms, dialect), `${two(hour)}:${minute}`];
}

/** Rounded as a logger rounds; `celsius` is what its text then says. */
function valueText(celsius: number | null, { unit, decimal, unitIn }: Dialect): string {
  if (celsius === null) return "";
  const value = unit === "K" ? celsius + 273.15 : unit === "[degF]" ? celsius * 1.8 + 32 : celsius;
  return value.toFixed(2).replace(".", decimal) + (unitIn === "cells" ? ` ${unitText[unit]}` : "");
}

function written({ startMs, stepMs, rows }: Known, dialect: Dialect): Uint8Array {
  const { separator, isApart, unit, unitIn, trailing, quoted } = dialect;
  const line = (cells: readonly string[]) => {
    const shown = cells.map((cell) => (quoted ? `"${cell}"` : cell));
    return shown.join(separator) + (trailing ? separator : "");
  };
  const [time, date, ...probes] = dialect.headers;
  const timeHeader = isApart ? [date, time] : [time];
  const named = probes.map((probe) => (unitIn === "header" ? `${probe} (${unitText[unit]})` : probe));
  const body = rows.flatMap((values, row) => {
    const [day, clock] = timeTexts(startMs + row * stepMs, dialect);
    const cells = [
      ...(isApart ? [day, clock] : [`${day} ${clock}`]),
      ...values.map((value) => valueText(value, dialect)),
    ];
    return dialect.remarkAfter && row === 1 ? [line(cells), "# a remark between the rows"] : [line(cells)];
  });
  const units = unitIn === "row" ? [line([...timeHeader.map(() => ""), ...probes.map(() => unitText[unit])])] : [];
  const text = [...dialect.preamble, line([...timeHeader, ...named]), ...units, ...body, ""].join(dialect.lineEnd);
  return encoded(text, dialect.encoding);
}

function encoded(text: string, encoding: Dialect["encoding"]): Uint8Array {
  if (encoding === "utf-8") return bytesOf(text);
  if (encoding === "utf-8-bom") return bytesOf(`\uFEFF${text}`);
  const units = [0xfeff, ...Array.from({ length: text.length }, (_, at) => text.charCodeAt(at))];
  const pair = (unit: number) => [unit & 0xff, unit >> 8];
  return Uint8Array.from(units.flatMap((unit) => (encoding === "utf-16le" ? pair(unit) : pair(unit).reverse())));
}

const instants = ({ startMs, stepMs, rows }: Known) => rows.map((_, row) => startMs + row * stepMs);
const near = (values: ArrayLike<number> | undefined, expected: readonly (number | null)[]) => {
  expect(values?.length).toBe(expected.length);
  expected.forEach((value, row) => {
    if (value === null) expect(values?.[row]).toBeNaN();
    // Half of the last decimal that was written, in the coarser of the units.
    else expect(Math.abs((values?.[row] ?? Number.NaN) - value)).toBeLessThan(0.00501);
  });
};

function expectRead(bytes: Uint8Array, log: Known, hints: LogHints): void {
  const understanding = understandLog(bytes, hints);
  expect(understanding?.questions).toEqual([]);
  const recording = readLog(bytes, { file: "a.csv", mapping: understanding?.mapping ?? undefined });
  expect(listed(recording.unixMs)).toEqual(instants(log));
  (["evaporator", "cabinet", "ambient"] as const).forEach((position, column) => {
    near(
      recording.columns[position],
      log.rows.map((row) => row[column]),
    );
  });
  expect(recording.unreadable).toEqual([]);
}

describe("a log written in any dialect", () => {
  test.prop([known, dialect], { numRuns: 400 })("is read back equal once order and zone are told", (log, how) => {
    expectRead(written(log, how), log, { zone: "Z", dateOrder: how.order });
  });

  test.prop([known, dialect], { numRuns: 400 })(
    "is read back equal or asked about when only the zone is told: a wrong day is never taken",
    (log, how) => {
      const bytes = written(log, how);
      const understanding = understandLog(bytes, { zone: "Z" });
      const asked = understanding?.questions.map(({ about }) => about) ?? [];
      if (asked.length > 0) expect(asked).toEqual(["date-order"]);
      else expectRead(bytes, log, { zone: "Z" });
    },
  );

  test.prop([known, dialect])("is never read while its zone is open", (log, how) => {
    const bytes = written(log, how);
    const asked = understandLog(bytes)?.questions.map(({ about }) => about) ?? [];
    expect(asked).toContain("zone");
    expect(() => readLog(bytes, { file: "a.csv" })).toThrow(BadInput);
  });

  test.prop([known, dialect, fc.integer({ min: 0, max: 11 }), fc.integer({ min: 1, max: 12 })])(
    "of one day that could be two is asked about, with both days shown",
    (log, how, month, day) => {
      fc.pre(month + 1 !== day && how.order !== "year-month-day" && !how.hour24);
      const startMs = Date.UTC(2026, month, day, 8);
      const bytes = written({ ...log, startMs, stepMs: 60_000 }, { ...how, twoDigitYear: false });
      const [question] = understandLog(bytes, { zone: "Z" })?.questions ?? [];
      expect(question).toMatchObject({ about: "date-order" });
      const readings = question.about === "date-order" ? question.readings.map(({ wallMs }) => wallMs) : [];
      expect(readings).toEqual(expect.arrayContaining([startMs, Date.UTC(2026, day - 1, month + 1, 8)]));
    },
  );

  test.prop([known, dialect])("whose unit nothing tells is asked about", (log, how) => {
    // °C between 0 and 40 can be °F of a winter's day.
    const mild = (value: number | null) => (value === null ? null : Math.abs(value) % 40);
    const rows = log.rows.map(([fins, air, ambient]) => [mild(fins), mild(air), mild(ambient)] as const);
    const bytes = written({ ...log, rows }, { ...how, unit: "Cel", unitIn: "header" });
    const decode = how.encoding.startsWith("utf-16") ? how.encoding : "utf-8";
    const bare = new TextDecoder(decode).decode(bytes).replaceAll(/ \(°C\)/g, "");
    const asked = understandLog(bytesOf(bare), { zone: "Z", dateOrder: how.order })?.questions ?? [];
    expect(asked.map(({ about }) => about)).toEqual(["unit"]);
  });
});

/** Every number that a cell can hold, in °C, whichever mark separates the cells and whatever unit a flipped byte tells. */
function numbersIn(text: string): ReadonlySet<number> {
  const cells = text.split(/[;\t\n\r"]/).flatMap((cell) => [cell, ...cell.split(",")]);
  return new Set(
    cells.flatMap((cell) => {
      const [, number] = /^\s*(.*?)\s*(?:[°º˚]?\s*[CFK])?\s*$/i.exec(cell.replace(",", ".")) ?? [];
      const value = Number(number);
      return [value, (value - 32) / 1.8, value - 273.15];
    }),
  );
}

describe("whatever the bytes", () => {
  const almost = fc.tuple(
    known,
    dialect,
    fc.array(fc.tuple(fc.nat(), fc.integer({ min: 0, max: 255 })), { maxLength: 8 }),
  );
  test.prop([almost], { numRuns: 300 })(
    "a spoilt log is read, asked about or refused; no reading is invented",
    ([log, how, flips]) => {
      const bytes = Uint8Array.from(written(log, { ...how, unit: "Cel", encoding: "utf-8" }));
      for (const [at, byte] of flips) bytes[at % bytes.length] = byte;
      const numbers = numbersIn(new TextDecoder().decode(bytes));
      try {
        const { columns } = readLog(bytes, {
          file: "a.csv",
          mapping: understandLog(bytes, { zone: "Z" })?.mapping ?? undefined,
        });
        for (const value of Object.values(columns).flatMap((column) => [...column])) {
          if (!Number.isNaN(value)) expect(numbers).toContain(value);
        }
      } catch (error) {
        expect(error).toBeInstanceOf(BadInput);
      }
    },
  );

  test.prop(
    [
      fc.oneof(
        fc.uint8Array({ maxLength: 400 }),
        fc.string({ maxLength: 300, unit: fc.constantFrom(...'0123456789.,;:-/\t\n\r" °CFKTZapm') }).map(bytesOf),
      ),
    ],
    { numRuns: 500 },
  )("understanding ends in an understanding or in none", (bytes) => {
    const found = understandLog(bytes);
    if (found !== null) expect(found.mapping === null).toBe(found.questions.length > 0);
  });
});
