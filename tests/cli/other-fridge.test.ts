// Logs of different fridges, as their run sheets and the store name them, are not taken as of one.

import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { openStore } from "../../src/store/index.ts";
import { pullDownLog } from "./pull-down-log.ts";
import { coldfall } from "./recorded-terminal.ts";

let folder = "";
let run = "";
const at = (name: string) => join(folder, name);

const logs = { larch: "Larch", again: " larch ", oak: "Oak", nameless: null, kept: null } as const;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-other-fridge-"));
  for (const [day, [name, fridge]] of Object.entries(logs).entries()) {
    writeFileSync(at(`${name}.csv`), pullDownLog({ strength: 1, day }));
    if (fridge !== null) writeFileSync(at(`${name}.sheet.json`), JSON.stringify({ fridge }));
  }
  await coldfall(["baseline", at("oak.csv"), "--out", at("oak.json")]);
  await coldfall(["baseline", at("oak.csv"), "--of-kind", "--out", at("kind.json")]);
  await coldfall(["baseline", at("again.csv"), "--out", at("again.json")]);
  await coldfall(["fridges", "add", "Larch", "--store", at("st.coldfall")]);
  await coldfall(["import", at("kept.csv"), "--store", at("st.coldfall")]);
  await using store = await openStore(at("st.coldfall"));
  run = (await store.runs.list({})).runs[0].id;
});
afterAll(() => rmSync(folder, { recursive: true }));

/** A command with its files in our folder, and RUN for the run of the store. */
const told = (line: string) =>
  coldfall(
    line.split(" ").map((word) => (word === "RUN" ? run : /\.(csv|json|coldfall)$/.test(word) ? at(word) : word)),
  );

describe("refused, saying which log is of which fridge:", () => {
  const ofKind = "say --of-kind if these are fridges of the same kind, else give logs of one fridge";
  for (const [line, one, other, remedy] of [
    ["analyse larch.csv --known-good oak.csv", "larch.csv", "oak.csv", ofKind],
    ["analyse larch.csv --known-good again.csv --known-good oak.csv", "larch.csv", "oak.csv", ofKind],
    ["analyse larch.csv --baseline oak.json", "larch.csv", "oak.csv", ofKind],
    ["analyse larch.csv oak.csv", "larch.csv", "oak.csv", "; give logs of one fridge"],
    ["analyse larch.csv oak.csv --baseline kind.json --of-kind", "larch.csv", "oak.csv", "; give logs of one fridge"],
    ["analyse RUN --known-good oak.csv --store st.coldfall", "kept.csv", "oak.csv", ofKind],
    ["hot-day larch.csv oak.csv --ambient 35", "larch.csv", "oak.csv", "; give logs of one fridge"],
    ["baseline larch.csv oak.csv --out mixed.json", "larch.csv", "oak.csv", "; give logs of one fridge"],
  ] as const) {
    test(line, async () => {
      const { exitCode, printed, told: why } = await told(line);
      expect({ exitCode, printed }).toEqual({ exitCode: 2, printed: "" });
      expect(why).toMatch(`"${one}" is of the fridge "Larch" and "${other}" of the fridge "Oak"`);
      expect(why).toMatch(remedy);
      expect(why).toMatch(/^[^\n]+\.\n$/);
    });
  }
});

test("a fridge's own baseline cannot be a file that holds a run of another fridge, and nothing is kept", async () => {
  await coldfall(["baseline", at("larch.csv"), at("oak.csv"), "--of-kind", "--out", at("mixed.json")]);
  const mixed = JSON.parse(readFileSync(at("mixed.json"), "utf8"));
  writeFileSync(at("mixed.json"), JSON.stringify({ ...mixed, kind: "own" }));
  for (const file of ["oak.json", "mixed.json"]) {
    const { exitCode, printed, told: why } = await told(`baselines add Larch --file ${file} --store st.coldfall`);
    expect({ exitCode, printed }).toEqual({ exitCode: 2, printed: "" });
    expect(why).toMatch(/^"oak\.csv" in the baseline file is of the fridge "Oak" and not of "Larch"; .*--of-kind/);
  }
  expect((await told("baselines --store st.coldfall")).printed).toMatch("No baseline");
});

test("a baseline of its kind, of its own runs or of nameless ones is taken for a fridge", async () => {
  await coldfall(["baseline", at("nameless.csv"), "--out", at("nameless.json")]);
  await coldfall(["fridges", "add", "Larch", "--store", at("other.coldfall")]);
  for (const file of ["kind.json", "again.json", "nameless.json"])
    expect(await told(`baselines add Larch --file ${file} --store other.coldfall`)).toMatchObject({ exitCode: 0 });
});

describe("taken together:", () => {
  for (const line of [
    "analyse larch.csv --known-good oak.csv --of-kind",
    "analyse larch.csv --baseline oak.json --of-kind",
    "analyse larch.csv --baseline kind.json",
    "analyse larch.csv --known-good again.csv",
    "analyse larch.csv --baseline again.json",
    "analyse larch.csv --known-good nameless.csv",
    "analyse nameless.csv --known-good oak.csv",
    "analyse RUN --known-good larch.csv --store st.coldfall",
    "hot-day larch.csv again.csv nameless.csv --ambient 35",
    "baseline larch.csv oak.csv --of-kind --out kind-of-both.json",
    "compare larch.csv oak.csv",
  ]) {
    test(line, async () => expect(await told(line)).toMatchObject({ exitCode: 0 }));
  }
});

test("the refusal is told in German, too", async () => {
  expect((await told("analyse larch.csv --known-good oak.csv --language de")).told).toMatch(
    /„larch\.csv“ ist vom Kühlschrank „Larch“ und „oak\.csv“ vom Kühlschrank „Oak“; sagen Sie --of-kind/,
  );
});
