import Papa from "papaparse";
import { describe, expect, test } from "vitest";
import { readLog } from "../../src/ingest/index.ts";
import { energySources } from "../../src/schema/index.ts";
import reference from "../reference/text-formats.json" with { type: "json" };
import { bytesOf, listed, nativeLog, read, refusal, threeRows } from "./log-texts.ts";

test("a native log becomes columns over one time axis", () => {
  const log = read(threeRows);
  expect(log.name).toBe("night.csv");
  expect(listed(log.unixMs)).toEqual([0, 10, 20].map((second) => Date.UTC(2026, 5, 4, 7, 0, second)));
  expect(listed(log.columns.evaporator)).toEqual([26.9375, 26.875, 26.5]);
  expect(listed(log.columns.cabinet)).toEqual([26.8125, 26.8125, 26.75]);
  expect(listed(log.columns.ambient)).toEqual([26.6875, 26.75, 26.75]);
  expect(listed(log.sourceCodes).map((code) => energySources[code - 1])).toEqual(["off", "off", "gas"]);
  expect(log.unreadable).toEqual([]);
  expect(log.ignoredColumns).toEqual([]);
});

test("a log is named after its file, not after the folder", () => {
  expect(readLog(bytesOf(threeRows), { file: "some/where/night.csv" }).name).toBe("night.csv");
});

describe("what makes no difference", () => {
  const plain = read(threeRows);
  for (const [what, text] of [
    ["a byte order mark", `\uFEFF${threeRows}`],
    ["CR LF line ends", threeRows.replaceAll("\n", "\r\n")],
    ["CR line ends", threeRows.replaceAll("\n", "\r")],
    ["no line end after the last row", threeRows.trimEnd()],
    ["blank lines", threeRows.replaceAll("\n", "\n  \n\n")],
    ["spaces around cells", threeRows.replaceAll(",", " ,\t")],
    ["capitals in names", threeRows.replace("evaporator", "Evaporator").replaceAll("off", "OFF")],
    ["quotes", threeRows.replaceAll(/[^,\n]+/g, '"$&"')],
    ["quotes and CR LF", threeRows.replaceAll(/[^,\n]+/g, '"$&"').replaceAll("\n", "\r\n")],
    ["quotes and mixed line ends", threeRows.replaceAll(/[^,\n]+/g, '"$&"').replace("\n", "\r\n")],
    ["another logger's words for the sources", threeRows.replaceAll("off", "éteint").replace("gas", "propane")],
    ["such words in quotes", threeRows.replaceAll("off", '"aus"').replace("gas", '"LPG"')],
    ["a space for the T", threeRows.replaceAll("T07", " 07")],
    ["times with another offset", threeRows.replaceAll("T07", "T09").replaceAll("Z", "+02:00")],
  ] as const) {
    test(`${what}`, () => {
      const log = read(text);
      expect({ ...log, utcOffsetMinutes: 0 }).toEqual(plain);
    });
  }

  test("UTF-16, as spreadsheets export it", () => {
    const littleEndian = Buffer.from(`\uFEFF${threeRows}`, "utf16le");
    expect(read(littleEndian)).toEqual(plain);
    expect(read(Buffer.from(littleEndian).swap16())).toEqual(plain);
  });
});

test("the UTC offset of the first time is the log's", () => {
  expect(read(nativeLog("2026-06-04T09:00:00+02:00,1,2,3,off")).utcOffsetMinutes).toBe(120);
});

test("an empty cell is a missing reading, not 0", () => {
  const log = read(nativeLog("2026-06-04T07:00:00Z,,26.8,,", "2026-06-04T07:00:10Z,1,2, ,gas"));
  expect(listed(log.columns.evaporator)).toEqual([Number.NaN, 1]);
  expect(listed(log.columns.ambient)).toEqual([Number.NaN, Number.NaN]);
  expect(listed(log.sourceCodes)).toEqual([0, 1]);
  expect(log.unreadable).toEqual([]);
});

for (const [how, quoted] of [
  ["", (text: string) => text],
  [" (in a file with quotes)", (text: string) => text.replace("time", '"time"')],
] as const) {
  test(`a cell that is no number is missing, counted, and shown by the first one${how}`, () => {
    const rows = [
      "2026-06-04T07:00:00Z,1,2,3,off",
      "2026-06-04T07:00:10Z,err,2,3,off",
      "2026-06-04T07:00:20Z,4.3.1,2,3,off",
    ];
    const log = read(quoted(nativeLog(...rows)));
    expect(listed(log.columns.evaporator)).toEqual([1, Number.NaN, Number.NaN]);
    expect(log.unreadable).toEqual([
      { position: "evaporator", reason: "not-a-number", readings: 2, firstLine: 3, firstText: "err" },
    ]);
  });

  test(`a row of the wrong length and one without a time are left out, counted and shown${how}`, () => {
    const rows = [
      "2026-06-04T07:00:00Z,1,2,3,off",
      "2026-06-04T07:00:10Z,1,2",
      "yesterday,1,2,3,off",
      "",
      "2026-06-04T07:00:30Z,1,2,3,off",
      "2026-06-04T07:00:40Z,1,2,3,off",
    ];
    const log = read(quoted(nativeLog(...rows)));
    expect(log.unixMs).toHaveLength(3);
    expect(log.unreadable).toEqual([
      {
        position: "time",
        reason: "wrong-column-count",
        readings: 1,
        firstLine: 3,
        firstText: "2026-06-04T07:00:10Z,1,2",
      },
      { position: "time", reason: "unreadable-time", readings: 1, firstLine: 4, firstText: "yesterday" },
    ]);
  });

  test(`a source cut off with the file's last line is counted, not a reason to refuse the night${how}`, () => {
    const log = read(quoted(`${threeRows}2026-06-04T07:00:30Z,1,2,3,ma`));
    expect(listed(log.sourceCodes)).toEqual([4, 4, 1, 0]);
    expect(log.unreadable).toEqual([
      { position: "source", reason: "unknown-source", readings: 1, firstLine: 5, firstText: "ma" },
    ]);
  });
}

test("line numbers count the lines inside quoted cells", () => {
  const log = read('time,cabinet,"a note\nover two lines"\n2026-06-04T07:00:00Z,1,"x\ny"\n2026-06-04T07:00:10Z,?,\n');
  expect(log.unreadable[0]).toMatchObject({ firstLine: 5, firstText: "?" });
  expect(log.ignoredColumns).toEqual(["a note\nover two lines"]);
});

test("columns that are none of ours are named, so that a misspelt one is seen", () => {
  expect(read("time,cabinett,evaporator\n2026-06-04T07:00:00Z,1,2\n").ignoredColumns).toEqual(["cabinett"]);
});

test("our own format is read with other separators too, and understood as such", () => {
  const { columns, unixMs, sourceCodes } = read(threeRows);
  expect(read(threeRows.replaceAll(",", ";"))).toMatchObject({ columns, unixMs, sourceCodes });
});

test("any number of columns is read", () => {
  const more = Array.from({ length: 300 }, (_, index) => `c${index}`);
  const log = read(`${more.join(",")},time,cabinet\n${more.join(",")},2026-06-04T07:00:00Z,4\n`);
  expect(listed(log.columns.cabinet)).toEqual([4]);
  expect(log.ignoredColumns).toEqual(more);
});

test("text from a file cannot steer the terminal that shows it", () => {
  const log = read(nativeLog("2026-06-04T07:00:00Z,1,\u001b[2Jx,3,off"));
  expect(log.unreadable[0]?.firstText).toBe("·[2Jx");
});

describe("odd, but analysed", () => {
  for (const [what, text] of [
    ["time that goes backwards", nativeLog("2026-06-04T07:00:10Z,1,2,3,off", "2026-06-04T07:00:00Z,1,2,3,off")],
    ["one row", nativeLog("2026-06-04T07:00:00Z,1,2,3,off")],
    ["an ambient that is always missing", nativeLog("2026-06-04T07:00:00Z,1,2,,off")],
    ["unbelievable numbers", nativeLog("2026-06-04T07:00:00Z,-127,85,1e300,off")],
    ["no source column", "time,cabinet\n2026-06-04T07:00:00Z,4\n"],
  ] as const) {
    test(what, () => {
      expect(read(text).unixMs.length).toBeGreaterThan(0);
    });
  }
});

describe("refused", () => {
  for (const [what, text, saying] of [
    ["an empty file", "", { code: "empty-log" }],
    ["a file of blank lines", " \n\r\n\t\n", { code: "empty-log" }],
    ["a header without rows", nativeLog(), { code: "empty-log" }],
    [
      "no known column",
      "time,larder,kitchen\n2026-06-04T07:00:00Z,wet,dry\n",
      { code: "no-known-column", header: "time,larder,kitchen" },
    ],
    ["no time column", "when,cabinet\nnoon,1\n", { code: "no-time-column", header: "when,cabinet" }],
    [
      "a doubled column",
      "time,cabinet,Cabinet\n2026-06-04T07:00:00Z,1,2\n",
      { code: "doubled-column", column: "cabinet" },
    ],
    [
      "a source name not ours",
      threeRows.replace("gas", "diesel"),
      { code: "unknown-source", line: 4, value: "diesel" },
    ],
    [
      "dates whose order is unclear",
      nativeLog("04/06/2026 07:00:00,1,2,3,off"),
      { code: "two-readings", question: { about: "date-order", line: 2 } },
    ],
    [
      "times without offset",
      nativeLog("2026-06-04T07:00:00,1,2,3,off"),
      { code: "two-readings", question: { about: "zone", line: 2 } },
    ],
    ["times that are none", nativeLog("noon,1,2,3,off"), { code: "nothing-readable", column: "time", value: "noon" }],
    [
      "readings that are none",
      nativeLog("2026-06-04T07:00:00Z,a,b,c,off"),
      { code: "nothing-readable", line: 2, value: "a" },
    ],
    [
      "readings that are all missing",
      nativeLog("2026-06-04T07:00:00Z,,,,off"),
      { code: "nothing-readable", value: "" },
    ],
    [
      "rows mostly of the wrong length",
      nativeLog("2026-06-04T07:00:00Z,1,2,3,off", "2026-06-04T07:00:10Z,1,2,3,off,", "2026-06-04T07:00:20Z,1,2,3,off,"),
      { code: "wrong-row-length", line: 3, cells: 6, expected: 5, rows: 2 },
    ],
  ] as const) {
    test(`${what}: ${saying.code}`, () => {
      expect(refusal(() => read(text))).toMatchObject({ file: "night.csv", ...saying });
    });
  }
});

// Source: RFC 4180 (2005), section 2; papaparse as reference parser. Each case becomes the cells of
// columns that are none of ours, whose header texts come back unchanged but for outer spaces.
describe("RFC 4180", () => {
  for (const { text, rows } of reference.rfc4180.cases) {
    test(`${JSON.stringify(text)} has the cells that the standard says`, () => {
      expect(Papa.parse<string[]>(text, { skipEmptyLines: true }).data).toEqual(rows);
      const header = text.slice(0, lengthOfFirstRow(text));
      const log = read(`time,cabinet,${header}\n2026-06-04T07:00:00Z,1${",".repeat(rows[0].length)}\n`);
      expect(log.ignoredColumns).toEqual(rows[0].map((cell) => cell.replaceAll("\r\n", "\n").trim()));
    });
  }
});

/** Up to the line end that ends the first record, which may not be the first line end. */
function lengthOfFirstRow(text: string): number {
  let quotes = 0;
  for (let at = 0; at < text.length; at++) {
    if (text[at] === '"') quotes++;
    if (text[at] === "\r" && quotes % 2 === 0) return at;
  }
  return text.length;
}

test("bytes that are no text are refused, not read", () => {
  expect(refusal(() => read(Uint8Array.from({ length: 500 }, (_, index) => (index * 37) % 256)))).toMatchObject({
    code: "is-no-log",
  });
});
