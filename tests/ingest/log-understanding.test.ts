import { describe, expect, test } from "vitest";
import { type LogHints, readLog, understandLog } from "../../src/ingest/index.ts";
import type { LogMapping, LogQuestion, LogUnderstanding, Recording } from "../../src/schema/index.ts";
import { bytesOf, listed, refusal } from "./log-texts.ts";

function understood(text: string | Uint8Array, hints: LogHints = {}): LogUnderstanding {
  const found = understandLog(typeof text === "string" ? bytesOf(text) : text, hints);
  if (found === null) throw new Error("not understood at all");
  return found;
}

const mappingOf = (text: string | Uint8Array, hints: LogHints = {}): LogMapping => {
  const { mapping, questions } = understood(text, hints);
  expect(questions).toEqual([]);
  if (mapping === null) throw new Error("no mapping");
  return mapping;
};

const readAs = (text: string | Uint8Array, hints: LogHints = {}): Recording =>
  readLog(typeof text === "string" ? bytesOf(text) : text, { file: "a.csv", mapping: mappingOf(text, hints) });

const questions = (text: string, hints: LogHints = {}): LogQuestion["about"][] =>
  understood(text, hints).questions.map(({ about }) => about);

const german = `Logger Nr. 12;;
Werkstatt;"Kühlschrank; hinten"

Datum/Zeit;Verdampfer;Kühlschrank innen;Außen;Feuchte;Betrieb
;°C;°C;°C;%;
04.06.2026 23:59:40;26,9375;26,8125;26,6875;51;aus
04.06.2026 23:59:50;-4,5;26,8;;52;Netz
05.06.2026 00:00:00;1,5;26,8;26,7;52;GAS
`;

test("a log with semicolons, decimal commas, a preamble and a line of units is understood", () => {
  expect(mappingOf(german, { zone: "Europe/Berlin" })).toEqual({
    format: "coldfall-log-mapping-2",
    separator: ";",
    decimal: ",",
    time: "Datum/Zeit",
    dateOrder: "day-month-year",
    timeZone: "Europe/Berlin",
    unit: "Cel",
    positions: { evaporator: "Verdampfer", cabinet: "Kühlschrank innen", ambient: "Außen" },
    source: "Betrieb",
    sourceNames: { aus: "off", Netz: "mains" },
  });
  const log = readAs(german, { zone: "Europe/Berlin" });
  expect(listed(log.unixMs)).toEqual([40, 50, 60].map((second) => Date.UTC(2026, 5, 4, 21, 59, second)));
  expect(listed(log.columns.evaporator)).toEqual([26.9375, -4.5, 1.5]);
  expect(listed(log.sourceCodes)).toEqual([4, 2, 1]);
  expect(log.unreadable).toEqual([]);
});

describe("the encoding makes no difference", () => {
  const units = [...german].map((character) => character.charCodeAt(0));
  const little = Uint8Array.from(units.flatMap((unit) => [unit & 0xff, unit >> 8]));
  const big = Uint8Array.from(units.flatMap((unit) => [unit >> 8, unit & 0xff]));
  const expected = readAs(german, { zone: "Z" });
  for (const [name, bytes] of [
    ["UTF-8 with a byte order mark", bytesOf(`\uFEFF${german}`)],
    ["UTF-16, low byte first", Uint8Array.from([0xff, 0xfe, ...little])],
    ["UTF-16, high byte first", Uint8Array.from([0xfe, 0xff, ...big])],
    ["UTF-16 without a mark, low byte first", little],
    ["UTF-16 without a mark, high byte first", big],
    ["the Windows code page", Uint8Array.from(units)],
    ["line ends of two kinds", bytesOf(german.replace("\n", "\r\n").replaceAll("52;", "52;"))],
  ] as const) {
    test(name, () => {
      expect(readAs(bytes, { zone: "Z" })).toEqual(expected);
    });
  }
});

test("one bad byte in a UTF-8 log costs itself, not every letter beyond ASCII", () => {
  const bytes = bytesOf(`# 22 °C im Wagen\n${german}`);
  bytes[bytes.indexOf(0xc2)] = 0x20;
  expect(readAs(bytes, { zone: "Z" })).toEqual(readAs(german, { zone: "Z" }));
});

describe("read by itself, without a question", () => {
  for (const [what, text, celsius] of [
    ["tabs", "time\tfridge (°C)\n2026-06-04T07:00:00Z\t4.5\n", 4.5],
    ["degrees F in the header", "Date Time,Fridge Temp (°F)\n2026-06-04T07:00:00Z,32\n", 0],
    ["kelvin below the header", "Time;Inside\n;K\n2026-06-04 07:00:00Z;277,65\n", 4.5],
    ["units in the cells", "Time,Inside\n2026-06-04 07:00:00+00:00,4.5 °C\n", 4.5],
    ["values possible in kelvin alone", "Time,Inside\n2026-06-04 07:00:00+00:00,277.65\n", 4.5],
    ["values too warm for anything but °F", "Time (UTC),Inside\n2026-06-04 07:00,77\n2026-06-04 07:01,77\n", 25],
    ["a line that says the separator", "sep=;\nTime (UTC);Inside [C]\n2026-06-04 07:00;4,5\n", 4.5],
    ["a header that is a comment", "# Logger\n#Time (UTC);Inside [C]\n2026-06-04 07:00;4,5\n# end\n", 4.5],
    ["trailing separators", "Time (UTC);Inside (C);\n2026-06-04 07:00;4,5;;\n;;;\n2026-06-04 07:01;4,5;;\n", 4.5],
    ["quoted cells", '"Time (UTC)","Inside (C)"\n"2026-06-04 07:00","4,5"\n', 4.5],
    ["seconds since 1970", "unix time,fridge °C\n1780556400,4.5\n1780556460,4.5\n", 4.5],
    ["milliseconds since 1970", "timestamp,fridge °C\n1780556400000,4.5\n1780556460000,4.5\n", 4.5],
    ["a spreadsheet's days", "Time GMT;fridge °C\n46177,2916666667;4,5\n46177,2923611111;4,5\n", 4.5],
    ["months by name", "Time (UTC),fridge °C\n4 Jun 2026 07:00,4.5\n", 4.5],
    ["months by another name", "Zeit (UTC);Kühlschrank °C\n04-Juni-2026 07:00;4,5\n", 4.5],
    ["the month first, by name", 'Time (UTC),fridge °C\n"June 4, 2026 7:00 am",4.5\n', 4.5],
    ["time and date apart", "Date;Time (UTC);fridge °C\n2026-06-04;07:00:00;4,5\n", 4.5],
    ["the time first", "When (UTC);fridge °C\n07:00:00 2026-06-04;4,5\n", 4.5],
    ["a zone in a line before the header", "Time zone: UTC\nWhen;fridge °C\n2026-06-04 07:00;4,5\n", 4.5],
    ["a true minus sign", "When (UTC);fins °C\n2026-06-04 07:00;\u22124,5\n", -4.5],
  ] as const) {
    test(what, () => {
      const { columns, unixMs } = readAs(text);
      expect(new Date(unixMs[0]).toISOString()).toBe("2026-06-04T07:00:00.000Z");
      expect((columns.cabinet ?? columns.evaporator)?.[0]).toBeCloseTo(celsius, 9);
    });
  }
});

describe("columns are known by plain words of several languages", () => {
  for (const [header, position] of [
    ["Fridge", "cabinet"],
    ["Refrigerator inside", "cabinet"],
    ["Kühlschrank", "cabinet"],
    ["Innentemperatur", "cabinet"],
    ["Réfrigérateur", "cabinet"],
    ["Koelkast binnen", "cabinet"],
    ["nevera", "cabinet"],
    ["Fins", "evaporator"],
    ["Fridge fins", "evaporator"],
    ["Kühlrippen", "evaporator"],
    ["Ailettes", "evaporator"],
    ["Alette evaporatore", "evaporator"],
    ["Outside", "ambient"],
    ["Außentemperatur", "ambient"],
    ["extérieur", "ambient"],
    ["Buiten", "ambient"],
    ["Kylskåp", "cabinet"],
    ["Gefrierfach", "freezer"],
    ["Upper vent", "ventOut"],
    ["Abgas", "flue"],
    ["cabinet", "cabinet"],
    ["ventOut", "ventOut"],
  ] as const) {
    test(`"${header}" is ${position}`, () => {
      expect(mappingOf(`Time (UTC),${header} °C\n2026-06-04 07:00,4.5\n`).positions).toEqual({
        [position]: `${header} °C`,
      });
    });
  }

  test("volts are the supply's", () => {
    const log = readAs("Time (UTC),Fridge °C,Supply (V),Battery (V)\n2026-06-04 07:00,4.5,12.8,3.1\n");
    expect(listed(log.columns.supply)).toEqual([12.8]);
  });

  test("millivolts of the supply become volts, named by the header or by the cells", () => {
    for (const [header, ...cells] of [
      ["Supply (mV)", "12600", "12601"],
      ["Supply (mV)", '"12,600"', '"12,601"'],
      ["Supply", "12600 mV", "12601 mV"],
    ]) {
      const rows = cells.map((cell, minute) => `2026-06-04 07:0${minute},4.5,${cell}`);
      const log = readAs(["Time (UTC),Fridge °C,".concat(header), ...rows, ""].join("\n"));
      expect(listed(log.columns.supply)).toEqual([12.6, 12.601]);
    }
  });

  test("humidity, row numbers and remarks are left out without a question", () => {
    const text = "No.,Time (UTC),Fridge °C,Humidity (%),Note\n1,2026-06-04 07:00,4.5,51,\n";
    expect(mappingOf(text).positions).toEqual({ cabinet: "Fridge °C" });
  });
});

describe("dates", () => {
  const log = (...times: string[]) => ["Time (UTC),Fridge °C", ...times.map((time) => `${time},4.5`), ""].join("\n");
  for (const [what, times, iso] of [
    ["a day above 12 in front", ["14/06/2026 07:00"], "2026-06-14T07:00:00.000Z"],
    ["a day above 12 behind", ["06/14/2026 07:00"], "2026-06-14T07:00:00.000Z"],
    ["a midnight, the day in front", ["03/04/2026 23:59", "04/04/2026 00:00"], "2026-04-03T23:59:00.000Z"],
    ["a midnight, the month in front", ["03/04/2026 23:59", "03/05/2026 00:00"], "2026-03-04T23:59:00.000Z"],
    ["years of two digits, a midnight", ["03.04.26 23:59", "04.04.26 00:00"], "2026-04-03T23:59:00.000Z"],
    [
      "24:00 at the end of the day",
      ["03/04/2026 23:59", "03/04/2026 24:00", "04/04/2026 00:01"],
      "2026-04-03T23:59:00.000Z",
    ],
    ["twelve hours", ["14/06/2026 11:59 PM", "15/06/2026 12:00 AM"], "2026-06-14T23:59:00.000Z"],
  ] as const) {
    test(`are settled by ${what}`, () => {
      const { unixMs } = readAs(log(...times));
      expect(new Date(unixMs[0]).toISOString()).toBe(iso);
      expect(listed(unixMs)).toEqual(times.map((_, minute) => Date.parse(iso) + minute * 60_000));
    });
  }

  test("within one day with no part above 12 can be read in two ways, each shown", () => {
    const { questions: found } = understood(log("03/04/2026 07:00", "03/04/2026 07:01"));
    expect(found).toEqual([
      {
        about: "date-order",
        line: 2,
        text: "03/04/2026 07:00",
        readings: [
          { answer: "day-month-year", wallMs: Date.UTC(2026, 3, 3, 7) },
          { answer: "month-day-year", wallMs: Date.UTC(2026, 2, 4, 7) },
        ],
      },
    ]);
  });

  test("with a gap of days between them are no proof of either order", () => {
    expect(questions(log("03/04/2026 07:00", "03/04/2026 07:01", "05/06/2026 07:01"))).toEqual(["date-order"]);
  });

  test("are read as told, unless the file proves otherwise", () => {
    const text = log("03/04/2026 07:00");
    expect(readAs(text, { dateOrder: "month-day-year" }).unixMs[0]).toBe(Date.UTC(2026, 2, 4, 7));
    expect(questions(log("14/06/2026 07:00"), { dateOrder: "month-day-year" })).toEqual(["date-order"]);
  });

  test("a proof further down in a long file is found", () => {
    const minute = (index: number) => new Date(Date.UTC(2026, 3, 3) + index * 60_000).toISOString();
    const times = Array.from({ length: 15_000 }, (_, index) =>
      minute(index).replace(/^(....)-(..)-(..)T(.{5}).*/, "$3/$2/$1 $4"),
    );
    const text = log(...times.slice(0, 1_400), ...times.slice(13_000));
    expect(readAs(text).unixMs[0]).toBe(Date.UTC(2026, 3, 3));
  });
});

describe("asked, never guessed", () => {
  for (const [what, text, about] of [
    ["a clock without zone", "Time,Fridge °C\n2026-06-04 07:00,4.5\n", ["zone"]],
    ["a unit that could be either", "Time (UTC),Fridge\n2026-06-04 07:00,4.5\n", ["unit"]],
    ["a probe without a place", "Time (UTC),Probe 1 °C\n2026-06-04 07:00,4.5\n", ["column"]],
    ["a room without an ambient", "Time (UTC),Fridge °C,Room °C\n2026-06-04 07:00,4.5,20\n", ["column"]],
    ["a place named twice", "Time (UTC),Fridge top °C,Fridge low °C\n2026-06-04 07:00,4.5,5\n", ["which-column"]],
    ["no header", "2026-06-04 07:00:00Z,4.5,5\n2026-06-04 07:01:00Z,4.5,5\n", ["column", "column", "unit"].slice(0, 2)],
    [
      "two times",
      "Server time (UTC),Local time (UTC),Fridge °C\n2026-06-04 07:00,2026-06-04 09:00,4.5\n",
      ["which-column"],
    ],
    [
      "a clock of twelve hours without am and pm",
      "Time (UTC),Fridge °C\n2026-06-14 12:59,4.5\n2026-06-14 01:00,4.5\n",
      ["half-of-day"],
    ],
  ] as const) {
    test(what, () => {
      expect(questions(text)).toEqual(about);
      expect(refusal(() => readLog(bytesOf(text), { file: "a.csv" }))).toMatchObject({ code: "two-readings" });
    });
  }

  test("a room beside an ambient is the room before the door", () => {
    const text = "Time (UTC),Fridge °C,Room °C,Outside °C\n2026-06-04 07:00,4.5,20,21\n";
    expect(mappingOf(text).positions).toMatchObject({ room: "Room °C", ambient: "Outside °C" });
  });

  test("answers settle it: columns by header or by number, the unit, the zone", () => {
    const text = "2026-06-04 07:00:00,39.2,50\n2026-06-04 07:01:00,39.2,50\n";
    const columns = new Map([
      ["2", "cabinet"],
      ["3", "ambient"],
    ] as const);
    const log = readAs(text, { columns, unit: "[degF]", zone: "+02:00" });
    expect(log.columns.cabinet?.[0]).toBeCloseTo(4, 9);
    expect(log.columns.ambient?.[1]).toBeCloseTo(10, 9);
    expect(listed(log.unixMs)).toEqual([0, 1].map((minute) => Date.UTC(2026, 5, 4, 5, minute)));
  });

  test("a freak reading in a short log rules no unit out", () => {
    const readings = ["4.5", "76.75", "4.5"].map((value, minute) => `2026-06-04 07:0${minute},${value}`);
    expect(questions(["Time (UTC),Fridge", ...readings, ""].join("\n"))).toEqual(["unit"]);
  });

  test("a temperature column without a place is asked for while the ambient has none, however clear the others are", () => {
    for (const header of ["Evaporator °C,Cabinet °C,Probe 3 °C", "Fins,Cabinet,Vent in"]) {
      const text = `Time (UTC),${header}\n2026-06-04 07:00,-4.5,4.5,25.5\n`;
      const [question] = understood(text, { unit: "Cel" }).questions;
      expect(question).toMatchObject({
        about: "column",
        text: "25.5",
        readings: [{ answer: "ambient" }, { answer: "none" }],
      });
    }
    const supply = "Time (UTC),Fins °C,Cabinet °C,Rail (V)\n2026-06-04 07:00,-4.5,4.5,12.6\n";
    const named = "Time (UTC),Fins °C,Cabinet °C,Ambient °C,Probe 4 °C\n2026-06-04 07:00,-4.5,4.5,25.5,25.5\n";
    expect([questions(supply), questions(named)]).toEqual([[], []]);
  });

  describe("what tells the energy source is never dropped without a question", () => {
    const log = (header: string, ...cells: string[]) =>
      [`Time (UTC),Fridge °C,${header}`, ...cells.map((cell, i) => `2026-06-04 07:0${i},4.5,${cell}`), ""].join("\n");

    test("a header in German, and a silent one over words for gas and mains, are it", () => {
      for (const [header, ...cells] of [
        ["Quelle", "off", "mains", "gas"],
        ["mode", "OFF", "AC", "LPG"],
      ])
        expect(listed(readAs(log(header, ...cells)).sourceCodes)).toEqual([4, 2, 1]);
    });

    test("a silent column that could be the logger's own supply is asked for", () => {
      const [question] = understood(log("run by", "battery", "mains")).questions;
      expect(question).toMatchObject({ column: "run by", readings: [{ answer: "source" }, { answer: "none" }] });
      expect(questions(log("lamp", "off", "on"))).toEqual([]);
    });

    test("a word that nobody knows is asked for, and the answer is kept in the mapping", () => {
      const text = log("Power source", "standby", "mains");
      const [question] = understood(text).questions;
      expect(question).toMatchObject({ about: "source-word", line: 2, column: "Power source", text: "standby" });
      const sourceWords = new Map([["Standby", "off" as const]]);
      expect(listed(readAs(text, { sourceWords }).sourceCodes)).toEqual([4, 2]);
      expect(mappingOf(text, { columns: new Map([["Power source", "none" as const]]) }).source).toBeUndefined();
    });

    test("a measure of energy is no list of words", () => {
      const text = log("Energy (Wh)", ...Array.from({ length: 9 }, (_, i) => `${i}.5`));
      expect(mappingOf(text).source).toBeUndefined();
    });
  });

  test("a log with one probe's reading per row is refused, naming the column that says which", () => {
    for (const [header, ...names] of [
      ["Time (UTC),Sensor,Value °C", "evaporator", "cabinet", "ambient"],
      ["Time (UTC),Channel,Value °C", "1", "2", "3"],
    ]) {
      const row = (name: string, i: number) => `2026-06-04 07:${10 + Math.floor(i / 3)},${name},${i % 3}.5`;
      const rows = Array.from({ length: 30 }, (_, i) => row(names[i % 3], i));
      const text = [header, ...rows, ""].join("\n");
      expect(refusal(() => readLog(bytesOf(text), { file: "a.csv" }))).toMatchObject({
        code: "probe-per-row",
        probes: names,
      });
    }
    const flips = Array.from({ length: 30 }, (_, i) => `2026-06-04 07:${10 + i},${i % 2 ? "on" : "off"},4.5`);
    const text = ["Time (UTC),Lamp,Cabinet °C", ...flips, ""].join("\n");
    expect(questions(text)).toEqual([]);
  });

  test("every column without a place is asked for, whatever the others were told to be", () => {
    const text = "Time (UTC),CH1 °C,CH2 °C,CH3 °C,CH4 °C\n2026-06-04 07:00,-4.5,5,20,30\n";
    const columns = new Map([
      ["CH1 °C", "evaporator"],
      ["CH2 °C", "cabinet"],
    ] as const);
    const asked = understood(text, { columns }).questions;
    expect(asked.map((question) => "column" in question && question.column)).toEqual(["CH3 °C", "CH4 °C"]);
    expect(asked[0].readings.map(({ answer }) => answer)).toEqual(["ambient", "none"]);
    const third = understood(text, { columns: new Map([...columns, ["CH3 °C", "ambient"]]) }).questions;
    expect(third[0].readings.map(({ answer }) => answer)).toEqual(
      expect.arrayContaining(["room", "freezer", "ventOut", "none"]),
    );
    const all = new Map([...columns, ["CH3 °C", "ambient"], ["CH4 °C", "none"]] as const);
    expect(mappingOf(text, { columns: all }).positions).toEqual({
      ...{ evaporator: "CH1 °C", cabinet: "CH2 °C", ambient: "CH3 °C" },
    });
  });

  for (const [what, text] of [
    [
      "a header that says ohm",
      "Time (UTC),probe1 ohm,probe2 ohm\n2026-06-04 07:00,105.1,104\n2026-06-04 07:01,105,104\n",
    ],
    [
      "a header with the sign of ohms",
      "Time (UTC),Fridge (kΩ),Outside (kΩ)\n2026-06-04 07:00,11.4,9\n2026-06-04 07:01,11,9\n",
    ],
    [
      "a probe too hot in any unit",
      "Time (UTC),Fridge,Outside\n2026-06-04 07:00,11441,20\n2026-06-04 07:01,11442,21\n",
    ],
    ["our own format", "time,cabinet\n2026-06-04T07:00:00Z,11441\n2026-06-04T07:01:00Z,11442\n"],
  ] as const) {
    test(`ohms are never taken for °C: ${what}`, () => {
      const refused = refusal(() => readLog(bytesOf(text), { file: "a.csv" }));
      expect(refused).toMatchObject({ code: "looks-like-ohms" });
    });
  }

  test("a stated mapping takes no ohms for °C either", () => {
    const text = "when,a\n2026-06-04T07:00:00Z,11441\n2026-06-04T07:01:00Z,11442\n";
    const mapping = {
      format: "coldfall-log-mapping-2",
      time: "when",
      positions: { cabinet: "a" },
      unit: "Cel",
    } as const;
    expect(refusal(() => readLog(bytesOf(text), { file: "a.csv", mapping }))).toMatchObject({
      code: "looks-like-ohms",
    });
  });

  test("a column of ohms that was told to be none, or a Pt100 in °C, stops nothing", () => {
    const text = "Time (UTC),Fridge °C,NTC ohm\n2026-06-04 07:00,4.5,11441\n2026-06-04 07:01,4.5,11442\n";
    expect(mappingOf(text, { columns: new Map([["NTC ohm", "none"]]) }).positions).toEqual({ cabinet: "Fridge °C" });
    const platinum = "Time (UTC),Fridge Pt100 (100 ohm) °C\n2026-06-04 07:00,4.5\n2026-06-04 07:01,4.6\n";
    expect(mappingOf(platinum).positions).toEqual({ cabinet: "Fridge Pt100 (100 ohm) °C" });
  });

  test("a probe that reads one impossible number all along is unplugged, not in ohms", () => {
    const text = "time,cabinet,ambient\n2026-06-04T07:00:00Z,4.5,9999\n2026-06-04T07:01:00Z,4.6,9999\n";
    expect(readLog(bytesOf(text), { file: "a.csv" }).columns.cabinet?.[0]).toBe(4.5);
  });

  test("of two columns with one header each is answered by the name it is asked by", () => {
    const text = "Time (UTC),Temp °C,Temp °C\n2026-06-04 07:00,-4.5,5\n";
    const names = understood(text).questions.map((question) => ("column" in question ? question.column : ""));
    const columns = new Map([
      [names[0], "evaporator"],
      [names[1], "cabinet"],
    ] as const);
    expect(mappingOf(text, { columns }).positions).toEqual({ evaporator: 2, cabinet: 3 });
  });

  test("a column told to be none is left out", () => {
    const text = "Time (UTC),Fridge °C,Probe 3 °C\n2026-06-04 07:00,4.5,20\n";
    expect(mappingOf(text, { columns: new Map([["Probe 3 °C", "none"]]) }).positions).toEqual({ cabinet: "Fridge °C" });
  });

  test("a zone is offered as here or UTC, with the instants both would give", () => {
    const [question] = understood("Time,Fridge °C\n2026-06-04 07:00,4.5\n", { here: () => "Europe/Berlin" }).questions;
    expect(question).toMatchObject({
      readings: [
        { answer: "Europe/Berlin", unixMs: Date.UTC(2026, 5, 4, 5) },
        { answer: "Z", unixMs: Date.UTC(2026, 5, 4, 7) },
      ],
    });
  });
});

describe("the first rows are shown as they would be read", () => {
  test("with °C and instants when all is settled", () => {
    const { firstRows } = understood("Time,Fridge (°F)\n2026-06-04 07:00+02:00,50\n");
    expect(firstRows).toMatchObject([{ line: 2, unixMs: Date.UTC(2026, 5, 4, 5), utcOffsetMinutes: 120 }]);
    expect(firstRows[0].values.cabinet).toBeCloseTo(10, 9);
  });

  test("with nothing in the places of what is open", () => {
    const { firstRows } = understood("Time,Fridge\n2026-06-04 07:00,50\n");
    expect(firstRows).toMatchObject([{ line: 2, unixMs: null, values: { cabinet: null } }]);
  });
});

test("a file without a time and a number in any row is not understood at all", () => {
  expect(understandLog(bytesOf("hello;world\nthis;is no log\n"))).toBeNull();
  expect(understandLog(bytesOf(""))).toBeNull();
});

describe("of a long log most rows are passed over, and lines keep their numbers", () => {
  const wall = (index: number) => new Date(Date.UTC(2026, 3, 3) + index * 1000).toISOString();
  const rows = (count: number, row: (index: number) => string) => Array.from({ length: count }, (_, i) => row(i));
  const dayFirst = (index: number) => wall(index).replace(/^(....)-(..)-(..)T(.{8}).*/, "$3/$2/$1 $4");

  test("a midnight far down settles day and month", () => {
    const text = ["Time (UTC),Fridge °C", ...rows(90_000, (index) => `${dayFirst(index)},4.5`), ""].join("\n");
    expect(understood(text)).toMatchObject({ questions: [], mapping: { dateOrder: "day-month-year" } });
  });

  test("quoted cells that span lines are read as ever", () => {
    const quoted = rows(90_000, (index) => `"${dayFirst(index)}",4.5,"a\nremark"`);
    expect(understood(["Time (UTC),Fridge °C,Note", ...quoted, ""].join("\n")).questions).toEqual([]);
  });

  test("a clock of twelve hours that falls back far down is found, and its line named", () => {
    const twelve = (index: number) =>
      wall(index)
        .replace(/T(..)/, (_, hour) => ` ${String(((Number(hour) + 11) % 12) + 1).padStart(2, "0")}`)
        .slice(0, 19);
    const text = ["Time (UTC),Fridge °C", ...rows(50_000, (index) => `${twelve(index + 3600)},4.5`), ""].join("\n");
    const [question] = understood(text).questions;
    expect(question).toMatchObject({ about: "half-of-day" });
    const line = text.split("\n")[question.line - 1];
    expect(line).toMatch(/^2026-04-03 01:0[01]:/);
  });
});
