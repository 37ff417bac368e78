// Run sheets, mappings and baselines; and the files themselves.

import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import {
  baselineFileOf,
  baselineText,
  readLogFile,
  readWholeFile,
  sha256,
  writeWholeFile,
} from "../../src/ingest/index.ts";
import { readBaseline, readLogMapping, readRunSheet } from "../../src/ingest/json-files/index.ts";
import { baselineFileSchema, logMappingSchema, runSheetSchema } from "../../src/schema/shapes/index.ts";
import { bytesOf, listed, read, refusal, threeRows } from "./log-texts.ts";

const json = (value: unknown) => bytesOf(JSON.stringify(value));

describe("a run sheet", () => {
  test("may be empty: everything in it is optional", () => {
    expect(readRunSheet(json({}), "night.sheet.json")).toEqual({});
  });

  for (const [what, value, saying] of [
    [
      "a word for a number",
      { gasPressureMbar: "30" },
      { where: "gasPressureMbar", problem: { code: "wrong-type", expected: "number" } },
    ],
    [
      "a number out of range",
      { ratedWatts: { gas: -5 } },
      { where: "ratedWatts.gas", problem: { code: "too-small", least: 0, exclusive: true } },
    ],
    [
      "a tilt beyond reason",
      { tiltSidewaysDegrees: 90 },
      { where: "tiltSidewaysDegrees", problem: { code: "too-big", most: 45, exclusive: false } },
    ],
    [
      "a word not in the list",
      { load: "half" },
      { where: "load", problem: { code: "not-one-of", options: ["empty", "part", "full"] } },
    ],
    [
      "a misspelt field",
      { altitudeMeters: 300 },
      { where: "", problem: { code: "unknown-field", field: "altitudeMeters" } },
    ],
    ["a list where an object belongs", [], { where: "", problem: { code: "wrong-type", expected: "object" } }],
  ] as const) {
    test(`with ${what} is refused, naming the field`, () => {
      expect(refusal(() => readRunSheet(json(value), "night.sheet.json"))).toEqual({
        code: "wrong-shape",
        file: "night.sheet.json",
        ...saying,
      });
    });
  }

  test("that is not JSON is refused, naming the place", () => {
    expect(refusal(() => readRunSheet(bytesOf('{\n  "load": "full",\n  oops\n}'), "night.sheet.json"))).toEqual({
      code: "not-json",
      file: "night.sheet.json",
      line: 3,
      column: 3,
    });
  });

  test("of a newer version is refused as newer, whatever else is new in it", () => {
    expect(refusal(() => readRunSheet(json({ format: "coldfall-run-sheet-2", moon: "full" }), "s.json"))).toEqual({
      code: "newer-format",
      file: "s.json",
      format: "coldfall-run-sheet-2",
      known: "coldfall-run-sheet-1",
    });
  });

  test("of another format is refused, naming the one that belongs here", () => {
    expect(refusal(() => readRunSheet(json({ format: "coldfall-baseline-1" }), "s.json"))).toMatchObject({
      where: "format",
      problem: { code: "not-one-of", options: ["coldfall-run-sheet-1"] },
    });
  });
});

test("a mapping without its time column is refused as missing it", () => {
  expect(
    refusal(() => readLogMapping(json({ format: "coldfall-log-mapping-1", positions: { cabinet: "a" } }), "m.json")),
  ).toMatchObject({ where: "time", problem: { code: "missing" } });
});

test("a mapping that names no probe is refused", () => {
  expect(
    refusal(() => readLogMapping(json({ format: "coldfall-log-mapping-1", time: "t", positions: {} }), "m.json")),
  ).toMatchObject({ where: "positions", problem: { code: "too-few", least: 1 } });
});

describe("a baseline file", () => {
  const program = { name: "coldfall", version: "0.1.0", method: "1" } as const;
  const recording = { ...read(threeRows), sha256: "ab12", sheet: { load: "empty" as const } };
  const stored = baselineFileOf([{ recording, series: recording }], "own", program);

  test("gives the known-good runs back, readings, sources and run sheet", () => {
    const { kind, runs } = readBaseline(bytesOf(baselineText(stored)), "fridge.baseline.json");
    expect(kind).toBe("own");
    expect(runs).toEqual([{ ...recording, ignoredColumns: undefined }]);
  });

  test("is valid against its own schema", () => {
    expect(baselineFileSchema.safeParse(JSON.parse(baselineText(stored))).success).toBe(true);
  });

  test("keeps a missing reading missing", () => {
    const gap = read("time,cabinet\n2026-06-04T07:00:00Z,4\n2026-06-04T07:01:00Z,\n");
    const { runs } = readBaseline(
      bytesOf(baselineText(baselineFileOf([{ recording: gap, series: gap }], "own", program))),
      "b",
    );
    expect(listed(runs[0].columns.cabinet)).toEqual([4, Number.NaN]);
    expect(runs[0].sourceCodes).toBeNull();
  });

  test("keeps the sources that the user told, where the log itself says nothing", () => {
    const silent = read(
      "time,cabinet,source\n2026-06-04T07:00:00Z,4,\n2026-06-04T07:01:00Z,4,\n2026-06-04T07:02:00Z,4,off\n",
    );
    const sourceMarks = [{ unixMs: Date.UTC(2026, 5, 4, 7, 1), source: "gas" as const }];
    const kept = baselineFileOf([{ recording: { ...silent, sourceMarks }, series: silent }], "own", program);
    expect(kept.runs[0].sources).toEqual([null, "gas", "off"]);
  });

  test("with a column cut short is refused, naming the column", () => {
    const [run] = stored.runs;
    const cut = { ...stored, runs: [{ ...run, columns: { ...run.columns, cabinet: [1, 2] } }] };
    expect(refusal(() => readBaseline(json(cut), "b.json"))).toMatchObject({
      where: "runs[0].columns.cabinet",
      problem: { code: "unequal-lengths", expected: 3, found: 2 },
    });
  });

  test("with a source too many is refused, naming the sources", () => {
    const [run] = stored.runs;
    const long = { ...stored, runs: [{ ...run, sources: ["gas", "gas", "gas", "off"] }] };
    expect(refusal(() => readBaseline(json(long), "b.json"))).toMatchObject({ where: "runs[0].sources" });
  });

  test("of version 2 is refused as newer", () => {
    expect(refusal(() => readBaseline(json({ ...stored, format: "coldfall-baseline-2" }), "b.json"))).toMatchObject({
      code: "newer-format",
      format: "coldfall-baseline-2",
    });
  });
});

// Formats are read for ever: these texts are as version 1 wrote them and must never be edited.
describe("version 1 of every format is still read", () => {
  for (const [schema, text] of [
    [
      runSheetSchema,
      '{"format":"coldfall-run-sheet-1","fridge":"larch","setting":"bench","load":"empty","gasPressureMbar":30}',
    ],
    [
      logMappingSchema,
      '{"format":"coldfall-log-mapping-1","time":"t","decimal":",","unit":"[degF]","positions":{"cabinet":"a"}}',
    ],
    [
      baselineFileSchema,
      '{"format":"coldfall-baseline-1","program":{"name":"coldfall","version":"0.1.0","method":"1"},"kind":"own","runs":[{"name":"n.csv","utcOffsetMinutes":0,"start":"2026-06-04T07:00:00.000Z","secondsSinceStart":[0,60],"columns":{"cabinet":[4,null]},"sources":["gas",null],"sheet":null}]}',
    ],
  ] as const) {
    test(text.slice(11, 33), () => {
      expect(schema.safeParse(JSON.parse(text)).error).toBeUndefined();
    });
  }
});

describe("files", () => {
  let folder = "";
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), "coldfall-ingest-"));
  });
  afterEach(() => rmSync(folder, { recursive: true }));

  test("a log file is read with its hash and with the run sheet beside it", async () => {
    writeFileSync(join(folder, "night.csv"), threeRows);
    writeFileSync(join(folder, "night.sheet.json"), '{"load":"full"}');
    const { recording, sheet } = await readLogFile(join(folder, "night.csv"));
    expect(recording).toMatchObject({ name: "night.csv", sha256: sha256(bytesOf(threeRows)), sheet: { load: "full" } });
    expect(sheet).toEqual({ file: join(folder, "night.sheet.json"), sha256: sha256(bytesOf('{"load":"full"}')) });
  });

  test("a log without a run sheet has none", async () => {
    writeFileSync(join(folder, "night.csv"), threeRows);
    expect(await readLogFile(join(folder, "night.csv"))).toMatchObject({ sheet: null, recording: { sheet: null } });
  });

  // Source: FIPS 180-4 (2015), the SHA-256 example of the message "abc".
  test("hashes are SHA-256 in lower-case hex", () => {
    expect(sha256(bytesOf("abc"))).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  });

  test("a file that is not there, and a folder, are refused as such", () => {
    expect(refusal(() => readWholeFile(join(folder, "none.csv")))).toMatchObject({ code: "no-such-file" });
    expect(refusal(() => readWholeFile(folder))).toMatchObject({ code: "unreadable-file", errorCode: "EISDIR" });
  });

  const mapping = (time: string) => JSON.stringify({ format: "coldfall-log-mapping-1", time });

  test("writing replaces the whole file and leaves nothing else behind", () => {
    const file = join(folder, "out.json");
    writeWholeFile(file, mapping("first, and longer"), "mapping");
    writeWholeFile(file, mapping("second"), "mapping");
    expect(readFileSync(file, "utf8")).toBe(mapping("second"));
    expect(readdirSync(folder)).toEqual(["out.json"]);
  });

  test("writing through a link changes the file it points to", () => {
    writeFileSync(join(folder, "real.json"), mapping("old"));
    symlinkSync("real.json", join(folder, "link.json"));
    writeWholeFile(join(folder, "link.json"), mapping("new"), "mapping");
    expect(readFileSync(join(folder, "real.json"), "utf8")).toBe(mapping("new"));
    expect(readFileSync(join(folder, "link.json"), "utf8")).toBe(mapping("new"));
  });

  test("what cannot be written is refused and leaves nothing behind", () => {
    mkdirSync(join(folder, "a-folder"));
    expect(refusal(() => writeWholeFile(join(folder, "a-folder"), "text", "page"))).toMatchObject({
      code: "cannot-write",
      errorCode: "EISDIR",
    });
    expect(refusal(() => writeWholeFile(join(folder, "none", "out.json"), "text", "page"))).toMatchObject({
      errorCode: "ENOENT",
    });
    expect(readdirSync(folder)).toEqual(["a-folder"]);
  });
});
