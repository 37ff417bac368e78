// Logs that are readable but odd: analysed while there is a column to read and refused otherwise, never called good, never NaN.

import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fc, test as propertyTest } from "@fast-check/vitest";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type AnalysisDocument, analysisDocumentSchema } from "../../src/schema/documents/index.ts";
import { pullDownLog } from "./pull-down-log.ts";
import { coldfall } from "./recorded-terminal.ts";

let folder = "";
const at = (name: string) => join(folder, name);
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-odd-"));
  for (const day of [1, 2, 3]) writeFileSync(at(`good-${day}.csv`), pullDownLog({ strength: 1, day }));
});
afterAll(() => rmSync(folder, { recursive: true }));

const knownGood = () => [1, 2, 3].flatMap((day) => ["--known-good", at(`good-${day}.csv`)]);

/** Valid against the published shape, in which no number can be NaN: JSON would have made it null. */
async function judged(text: string): Promise<AnalysisDocument> {
  writeFileSync(at("odd.csv"), text);
  const { exitCode, printed, told } = await coldfall(["analyse", at("odd.csv"), ...knownGood(), "--json"]);
  expect({ exitCode, told }).toEqual({ exitCode: 0, told: "" });
  return analysisDocumentSchema.parse(JSON.parse(printed));
}

/** The printed report of a log that has nothing to be compared with. */
async function printedReport(text: string): Promise<string> {
  writeFileSync(at("odd.csv"), text);
  const { exitCode, printed, told } = await coldfall(["analyse", at("odd.csv")]);
  expect({ exitCode, told }).toEqual({ exitCode: 0, told: "" });
  return printed;
}

const whole = () => pullDownLog({ strength: 1, day: 4 });
const [header, ...rows] = pullDownLog({ strength: 1, day: 4 }).trimEnd().split("\n");
const changed = (change: (cells: string[], row: number) => string[]) =>
  [header, ...rows.map((row, index) => change(row.split(","), index).join(",")), ""].join("\n");

describe("never called good:", () => {
  for (const [what, text] of [
    ["constant temperatures", changed(([time, , , , source]) => [time, "20", "20", "25", source])],
    ["everything at one temperature", changed(([time, , , , source]) => [time, "25", "25", "25", source])],
    ["three readings", [header, ...rows.slice(100, 103), ""].join("\n")],
    ["one reading", [header, rows[300], ""].join("\n")],
    ["an ambient that is always missing", changed(([time, fins, air, , source]) => [time, fins, air, "", source])],
    [
      "a cabinet that is always missing",
      changed(([time, fins, , ambient, source]) => [time, fins, "", ambient, source]),
    ],
    ["time running backwards", [header, ...rows.toReversed(), ""].join("\n")],
    ["every row at the same instant", changed((cells) => ["2026-06-05T07:00:00Z", ...cells.slice(1)])],
    [
      "evaporator and cabinet swapped",
      changed(([time, fins, air, ambient, source]) => [time, air, fins, ambient, source]),
    ],
    [
      "a fridge that warms while on",
      changed(([time, , , ambient, source], row) => [time, `${20 + row / 100}`, `${20 + row / 100}`, ambient, source]),
    ],
    [
      "an evaporator warmer than the cabinet",
      changed(([time, , air, ambient, source]) => [time, `${Number(air) + 5}`, air, ambient, source]),
    ],
    ["power-on values only", changed(([time, , , , source]) => [time, "85", "85", "85", source])],
    ["disconnected values only", changed(([time, , , , source]) => [time, "-127", "-127", "-127", source])],
    ["numbers beyond belief", changed(([time, , , , source]) => [time, "1e300", "-1e300", "1e-300", source])],
    ["always off", changed((cells) => [...cells.slice(0, 4), "off"])],
    [
      "a source that changes every row",
      changed((cells, row) => [...cells.slice(0, 4), ["gas", "mains", "dc12", "off"][row % 4]]),
    ],
    ["no cabinet column", "time,evaporator,ambient\n2026-06-04T07:00:00Z,20,25\n2026-06-04T07:01:00Z,20,25\n"],
    [
      "a gap of a year in the middle",
      changed(([time, ...rest], row) => [row < 200 ? time : time.replace("2026", "2027"), ...rest]),
    ],
  ] as const) {
    test(what, async () => {
      const { sources, stretches } = await judged(text);
      expect([...sources, ...stretches].map(({ verdict }) => verdict)).not.toContain("sound");
      expect(await printedReport(text)).not.toMatch(/NaN|Infinity|undefined|\[object/);
    });
  }
});

test("the same log untouched is called good, so that the tests above can fail", async () => {
  expect((await judged(whole())).sources).toMatchObject([{ verdict: "sound" }]);
});

const cell = fc.oneof(
  fc.integer({ min: -300, max: 600 }).map((tenths) => `${tenths / 10}`),
  fc.constantFrom("", "85", "-127", "err", "1e9", "25", "25", "25"),
);
const row = fc.tuple(
  fc.integer({ min: 0, max: 600 }),
  fc.tuple(cell, cell, cell),
  fc.constantFrom("gas", "mains", "dc12", "off", "off", ""),
);

propertyTest.prop([fc.array(row, { minLength: 1, maxLength: 120 }), fc.boolean()], { numRuns: 40 })(
  "rows without sense or order are analysed or refused, never a fault and never good",
  async (drawn, isOrdered) => {
    const ordered = isOrdered ? drawn.toSorted((a, b) => a[0] - b[0]) : drawn;
    const lines = ordered.map(([minute, cells, source]) => {
      const time = new Date(Date.UTC(2026, 5, 4, 7) + minute * 60_000).toISOString();
      return [time, ...cells, source].join(",");
    });
    writeFileSync(at("drawn.csv"), [header, ...lines, ""].join("\n"));
    const good = ["--known-good", at("good-1.csv")];
    const { exitCode, printed, told } = await coldfall(["analyse", at("drawn.csv"), ...good, "--json"]);
    if (exitCode === 2) {
      expect(told).toMatch(/^[^\n]+\.\n$/);
      return;
    }
    expect({ exitCode, told }).toEqual({ exitCode: 0, told: "" });
    const { sources } = analysisDocumentSchema.parse(JSON.parse(printed));
    expect(sources.map(({ verdict }) => verdict)).not.toContain("sound");
  },
);
