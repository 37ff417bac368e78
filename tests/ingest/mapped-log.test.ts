import { describe, expect, test } from "vitest";
import { energySources, type LogMapping } from "../../src/schema/index.ts";
import { listed, nativeLog, read, refusal } from "./log-texts.ts";

const mapping: LogMapping = {
  format: "coldfall-log-mapping-1",
  time: "Datum/Zeit",
  timeZone: "+02:00",
  dateOrder: "day-month-year",
  separator: ";",
  decimal: ",",
  positions: { evaporator: "Kanal 1", cabinet: "Kanal 2", ambient: "Raum" },
  source: "Betrieb",
  sourceNames: { Netz: "mains", Gas: "gas", "12V": "dc12", aus: "off" },
};

const foreign = `Logger Nr. 12;;
Werkstatt;"Kühlschrank; hinten"

Datum/Zeit;Kanal 1;Kanal 2;Raum;Feuchte;Betrieb
04.06.2026 09:00:00;26,9375;26,8125;26,6875;51;aus
04.06.2026 09:00:10;-4,5;26,8;;52;Netz
04.06.2026 09:00:20;1.234,5;26,8;26,7;52;GAS
`;

test("another logger's file is read as its mapping says, preamble and all", () => {
  const log = read(foreign, mapping);
  expect(listed(log.unixMs)).toEqual([0, 10, 20].map((second) => Date.UTC(2026, 5, 4, 7, 0, second)));
  expect(log.utcOffsetMinutes).toBe(120);
  expect(listed(log.columns.evaporator)).toEqual([26.9375, -4.5, Number.NaN]);
  expect(listed(log.columns.ambient)).toEqual([26.6875, Number.NaN, 26.7]);
  expect(listed(log.sourceCodes).map((code) => energySources[code - 1])).toEqual(["off", "mains", "gas"]);
  expect(log.ignoredColumns).toEqual(["Feuchte"]);
  expect(log.unreadable).toEqual([
    { position: "evaporator", reason: "not-a-number", readings: 1, firstLine: 7, firstText: "1.234,5" },
  ]);
});

test("a byte order mark before the header makes no difference", () => {
  const withoutPreamble = foreign.slice(foreign.indexOf("Datum"));
  expect(listed(read(`\uFEFF${withoutPreamble}`, mapping).columns.cabinet)).toEqual([26.8125, 26.8, 26.8]);
});

test("a file in the Windows code page is read, its degree sign in the header included", () => {
  const text = "zeit;T (°C)\n2026-06-04T07:00:00Z;4,5\n";
  const log = read(Buffer.from(text, "latin1"), {
    format: "coldfall-log-mapping-1",
    time: "zeit",
    decimal: ",",
    positions: { cabinet: "T (°C)" },
  });
  expect(listed(log.columns.cabinet)).toEqual([4.5]);
});

describe("units become °C at the edge", () => {
  // Sources: fixed points by definition of the scales (32 °F = 0 °C = 273.15 K).
  for (const [unit, cell, celsius] of [
    ["Cel", "4.5", 4.5],
    ["[degF]", "32", 0],
    ["[degF]", "212", 100],
    ["[degF]", "-40", -40],
    ["K", "273.15", 0],
  ] as const) {
    test(`${cell} ${unit} is ${celsius} °C, and volts stay volts`, () => {
      const log = read(`t,a,v\n2026-06-04T07:00:00Z,${cell},13.2\n`, {
        format: "coldfall-log-mapping-1",
        time: "t",
        unit,
        positions: { cabinet: "a", supply: "v" },
      });
      expect(log.columns.cabinet?.[0]).toBeCloseTo(celsius, 12);
      expect(log.columns.supply?.[0]).toBe(13.2);
    });
  }
});

describe("times", () => {
  for (const [text, dateOrder, iso] of [
    ["2026-06-04 07:00", undefined, "2026-06-04T07:00:00Z"],
    ["2026/6/4 7:00:05", undefined, "2026-06-04T07:00:05Z"],
    ["2026-06-04T07:00:00.250+02:00", undefined, "2026-06-04T05:00:00.250Z"],
    ["04.06.26 07:00", "day-month-year", "2026-06-04T07:00:00Z"],
    ["06/04/2026 7:05 PM", "month-day-year", "2026-06-04T19:05:00Z"],
    ["06/04/2026 12:05 am", "month-day-year", "2026-06-04T00:05:00Z"],
    ["06/04/2026, 12:05:00 p.m.", "month-day-year", "2026-06-04T12:05:00Z"],
  ] as const) {
    test(`"${text}", ${dateOrder ?? "order not stated"}, is ${iso}`, () => {
      const log = read(`t;a\n${text};4\n`, {
        format: "coldfall-log-mapping-1",
        time: "t",
        timeZone: "Z",
        separator: ";",
        ...(dateOrder === undefined ? {} : { dateOrder }),
        positions: { cabinet: "a" },
      });
      expect(new Date(log.unixMs[0]).toISOString()).toBe(new Date(iso).toISOString());
    });
  }

  for (const text of ["31.02.2026 07:00", "04.06.2026", "04.06/2026 07:00", "04.06.126 07:00", "04.06.2026 13:00 pm"]) {
    test(`"${text}" is no time, and is counted`, () => {
      const log = read(`t;a\n04.06.2026 07:00;4\n${text};4\n`, {
        format: "coldfall-log-mapping-1",
        time: "t",
        timeZone: "Z",
        separator: ";",
        dateOrder: "day-month-year",
        positions: { cabinet: "a" },
      });
      expect(log.unreadable).toMatchObject([{ position: "time", reason: "unreadable-time", firstText: text }]);
    });
  }
});

test("date and time of day may stand in two columns", () => {
  const log = read("day,clock,a\n04.06.2026,07:00:10,4\n", {
    format: "coldfall-log-mapping-1",
    time: "clock",
    date: "day",
    timeZone: "Z",
    dateOrder: "day-month-year",
    positions: { cabinet: "a" },
  });
  expect(listed(log.unixMs)).toEqual([Date.UTC(2026, 5, 4, 7, 0, 10)]);
});

test("our own source names serve without being mapped", () => {
  const log = read(nativeLog("2026-06-04T07:00:00Z,1,2,3,dc12"), {
    format: "coldfall-log-mapping-1",
    time: "time",
    positions: { cabinet: "cabinet" },
    source: "source",
  });
  expect(listed(log.sourceCodes)).toEqual([3]);
});

describe("refused", () => {
  const without = (key: keyof LogMapping): LogMapping => {
    const { [key]: _, ...rest } = mapping;
    return rest as LogMapping;
  };
  for (const [what, changed, saying] of [
    [
      "an order of dates nobody stated",
      without("dateOrder"),
      { code: "ambiguous-dates", line: 5, value: "04.06.2026 09:00:00" },
    ],
    ["an offset nobody stated", without("timeZone"), { code: "time-without-offset", line: 5 }],
    [
      "a source word nobody explained",
      without("sourceNames"),
      { code: "unknown-source", line: 5, value: "aus", in: "mapped" },
    ],
    [
      "a time column that is not there",
      { ...mapping, time: "Zeit" },
      { code: "mapping-column-missing", column: "Zeit", header: "Logger Nr. 12" },
    ],
    [
      "a probe column that is not there",
      { ...mapping, positions: { cabinet: "Kanal 9" } },
      { code: "mapping-column-missing", column: "Kanal 9", header: "Datum/Zeit;Kanal 1;Kanal 2;Raum;Feuchte;Betrieb" },
    ],
    [
      "one column for two probes",
      { ...mapping, positions: { cabinet: "Raum", ambient: "Raum" } },
      { code: "doubled-column", column: "Raum" },
    ],
    ["the wrong separator", { ...mapping, separator: "," }, { code: "mapping-column-missing", column: "Datum/Zeit" }],
  ] as const) {
    test(`${what}: ${saying.code}`, () => {
      expect(refusal(() => read(foreign, changed))).toMatchObject({ file: "night.csv", ...saying });
    });
  }

  test("a header that stands twice", () => {
    expect(refusal(() => read(foreign.replace("Feuchte", "Raum"), mapping))).toMatchObject({ code: "doubled-column" });
  });
});
