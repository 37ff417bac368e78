// The test report from the command line, of files and of runs of a store.

import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readLogFile } from "../../src/ingest/index.ts";
import { openStore } from "../../src/store/index.ts";
import { pullDownLog } from "./pull-down-log.ts";
import { coldfall } from "./recorded-terminal.ts";

let folder = "";
const at = (name: string) => join(folder, name);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-report-"));
  writeFileSync(at("before.csv"), pullDownLog({ strength: 0.6, day: 4 }));
  writeFileSync(at("after.csv"), pullDownLog({ strength: 1, day: 5 }));
});
afterAll(() => rmSync(folder, { recursive: true }));

/** A PDF of one or two pages. */
function expectReport(file: string, title: string): void {
  const text = readFileSync(at(file)).toString("latin1");
  expect(text).toMatch(/^%PDF-1\.7/);
  expect(text.match(/\/Type \/Page\b/g)?.length).toBeOneOf([1, 2]);
  expect(text).toContain(title);
}

test("compare writes the report of two files, and says so", async () => {
  const args = ["compare", at("before.csv"), at("after.csv"), "--pdf", at("service.pdf"), "--letterhead", "Bench two"];
  const { exitCode, told, printed } = await coldfall(args);
  expect({ exitCode, told }).toEqual({ exitCode: 0, told: `Wrote ${at("service.pdf")}.\n` });
  expect(printed).toMatch(/compared with/);
  expectReport("service.pdf", "Test report, before and after service");
});

test("compare writes the report of two files in the language and the degrees asked for, all of it", async () => {
  const args = ["compare", at("before.csv"), at("after.csv"), "--pdf", at("german.pdf"), "--language", "de"];
  expect((await coldfall([...args, "--fahrenheit"])).exitCode).toBe(0);
  expectReport("german.pdf", "/Lang (de)");
  // What stands for a drawing is written as it is read: none of it in English, none in kelvin.
  const text = readFileSync(at("german.pdf")).toString("latin1");
  expect(text).toMatch(/\/Alt /);
  const alternatives = [...text.matchAll(/\/Alt \(([^)]*)/g)].map(([, alt]) => alt.replaceAll("\0", ""));
  expect(alternatives.join(" ")).toMatch(/nach/);
  expect(alternatives.join(" ")).not.toMatch(/before|ambient|\bcold began/);
});

test("report and compare write the report of runs, with the fridge's name", async () => {
  const file = at("store.coldfall");
  const ids: string[] = [];
  await using store = await openStore(file);
  const fridge = await store.fridges.add({ name: "Larch" });
  for (const log of ["before.csv", "after.csv"]) {
    const { recording } = await readLogFile(at(log));
    const run = await store.runs.open({
      fridgeId: fridge.id,
      name: log,
      startedUnixMs: recording.unixMs[0],
      purpose: "test",
      origin: "file",
      utcOffsetMinutes: 0,
    });
    const bringing = store.readings.import(run.id);
    bringing.add({ unixMs: recording.unixMs, columns: recording.columns, sourceCodes: recording.sourceCodes });
    await bringing.finish();
    await store.runs.close(run.id, recording.unixMs[recording.unixMs.length - 1]);
    ids.push(run.id);
  }
  const one = await coldfall(["report", ids[0], "--pdf", at("run.pdf"), "--store", file]);
  expect({ exitCode: one.exitCode, told: one.told }).toEqual({ exitCode: 0, told: `Wrote ${at("run.pdf")}.\n` });
  expectReport("run.pdf", "Test report: Larch");
  const pair = await coldfall(["compare", ids[0], ids[1], "--pdf", at("pair.pdf"), "--store", file]);
  expect(pair.exitCode).toBe(0);
  expectReport("pair.pdf", "Test report, before and after service: Larch");
});

test("a report that cannot be written says why", async () => {
  const { exitCode, told } = await coldfall([
    "compare",
    at("before.csv"),
    at("after.csv"),
    "--pdf",
    at("no/such/a.pdf"),
  ]);
  expect(exitCode).toBe(2);
  expect(told).toMatch(/no\/such\/a\.pdf/);
});

// A command that needs no PDF does not pay for the library: it is loaded in one place, when a sheet is asked for.
test("the PDF library is only imported when it is needed", () => {
  const sources = readdirSync("src", { recursive: true, encoding: "utf8" }).filter((file) => file.endsWith(".ts"));
  const users = sources.filter((file) => /["']pdfkit["']/.test(readFileSync(join("src", file), "utf8")));
  expect(users).toEqual([join("report", "test-report", "pdf-paper.ts")]);
  const text = readFileSync(join("src", users[0]), "utf8");
  expect(text.match(/["']pdfkit["']/g)).toHaveLength(1);
  expect(text).toContain('await import("pdfkit")');
});
