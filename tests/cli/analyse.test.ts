import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { stripVTControlCharacters } from "node:util";
import { Ajv2020 } from "ajv/dist/2020.js";
import addFormats from "ajv-formats";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { runSamples } from "../../src/cli/samples.ts";
import { type AnalysisDocument, analysisDocumentSchema } from "../../src/schema/documents/index.ts";
import { pullDownLog } from "./pull-down-log.ts";
import { coldfall, recordedTerminal } from "./recorded-terminal.ts";

let folder = "";
const at = (name: string) => join(folder, name);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-analyse-"));
  for (const day of [1, 2, 3]) writeFileSync(at(`good-${day}.csv`), pullDownLog({ strength: 0.98 + day / 100, day }));
  writeFileSync(at("night.csv"), pullDownLog({ strength: 0.65, day: 4 }));
  writeFileSync(at("silent.csv"), pullDownLog({ strength: 0.65, day: 5, hasSourceColumn: false }));
  writeFileSync(
    at("odd.csv"),
    pullDownLog({ strength: 0.65, day: 6 })
      .replace("ambient", "ambient,\u001bhumidity")
      .replaceAll(/,(mains|off)/g, ",50,$1"),
  );
});
afterAll(() => rmSync(folder, { recursive: true }));

const knownGood = () => [1, 2, 3].flatMap((day) => ["--known-good", at(`good-${day}.csv`)]);

async function analysed(...args: string[]): Promise<AnalysisDocument> {
  const { exitCode, printed, told } = await coldfall(["analyse", ...args, "--json"]);
  expect({ exitCode, told }).toEqual({ exitCode: 0, told: "" });
  return analysisDocumentSchema.parse(JSON.parse(printed));
}

test("a weak night is called weak in the printed verdict, and nothing but the verdict is printed", async () => {
  const { exitCode, printed, told } = await coldfall(["analyse", at("night.csv"), ...knownGood()]);
  expect({ exitCode, told }).toEqual({ exitCode: 0, told: "" });
  expect(printed).toMatch(/On mains +WEAK/);
});

test("--json is valid against the published schema, by another validator than ours", async () => {
  const ajv = addFormats.default(new Ajv2020({ strict: false }));
  const validate = ajv.compile(JSON.parse((await coldfall(["schema", "analysis"])).printed));
  const { printed } = await coldfall(["analyse", at("night.csv"), ...knownGood(), "--json"]);
  expect(validate(JSON.parse(printed)), JSON.stringify(validate.errors)).toBe(true);
});

test("--json names every file that went in, with its role and hash", async () => {
  const { inputs } = await analysed(at("night.csv"), ...knownGood());
  expect(inputs.map(({ name, role }) => [name, role])).toEqual([
    ["night.csv", "log"],
    ["good-1.csv", "known-good"],
    ["good-2.csv", "known-good"],
    ["good-3.csv", "known-good"],
  ]);
  for (const { sha256 } of inputs) expect(sha256).toMatch(/^[0-9a-f]{64}$/);
});

test("known-good logs kept in a baseline file judge a night as the logs themselves do", async () => {
  const kept = await coldfall([
    "baseline",
    ...[1, 2, 3].map((day) => at(`good-${day}.csv`)),
    "--out",
    at("fridge.json"),
  ]);
  expect(kept).toMatchObject({ exitCode: 0, told: "" });
  expect(kept.printed).toContain("3 known-good runs: on mains 3 times");
  const [fromFile] = (await analysed(at("night.csv"), "--baseline", at("fridge.json"))).sources;
  const [fromLogs] = (await analysed(at("night.csv"), ...knownGood())).sources;
  expect(fromFile.verdict).toBe("weak");
  expect(fromFile.coolingStrength?.value).toBeCloseTo(fromLogs.coolingStrength?.value ?? 0, 2);
});

test("known-good runs of another fridge of the kind are compared as such", async () => {
  const kinds = (document: AnalysisDocument) =>
    document.stretches.flatMap(({ verdict, baseline }) => (verdict ? [baseline.kind] : []));
  expect(kinds(await analysed(at("night.csv"), ...knownGood()))).toEqual(["own"]);
  expect(kinds(await analysed(at("night.csv"), ...knownGood(), "--of-kind"))).toEqual(["kind"]);
  await coldfall(["baseline", at("good-1.csv"), "--of-kind", "--out", at("kind.json")]);
  expect(kinds(await analysed(at("night.csv"), "--baseline", at("kind.json")))).toEqual(["kind"]);
});

test("a log without known-good runs is not judged, and says so", async () => {
  expect((await analysed(at("night.csv"))).sources).toMatchObject([
    { source: "mains", verdict: "undecided", coolingStrength: null },
  ]);
});

test("--source-at names the sources of a log without a source column", async () => {
  const marks = ["2026-06-06T07:00:00Z=off", "2026-06-06T08:00:00Z=mains", "2026-06-06T18:00:00+02:00=off"];
  const document = await analysed(at("silent.csv"), ...marks.flatMap((mark) => ["--source-at", mark]));
  expect(document.stretches.map(({ source }) => source)).toEqual(["off", "mains", "off"]);
  expect(document.options.sourceMarks[2]).toEqual({ at: "2026-06-06T16:00:00.000Z", source: "off" });
});

test("--margin moves the limit: what is weak at 15 % allowed loss is good at 60 %", async () => {
  expect(await analysed(at("night.csv"), ...knownGood(), "--margin", "0.6")).toMatchObject({
    options: { margin: 0.6 },
    sources: [{ verdict: "sound" }],
  });
});

test("--html writes one page beside the printed result, and says so on standard error", async () => {
  const { exitCode, printed, told } = await coldfall([
    "analyse",
    at("night.csv"),
    "--html",
    at("night.html"),
    "--json",
  ]);
  expect(exitCode).toBe(0);
  expect(JSON.parse(printed)).toMatchObject({ format: "coldfall-analysis-1" });
  expect(told).toBe(`Wrote ${at("night.html")}.\n`);
  expect(readFileSync(at("night.html"), "utf8")).toMatch(/^<!doctype html>[\s\S]*night\.csv[\s\S]*<\/html>\s*$/);
});

test("a page that cannot be written ends with exit code 2 and prints no result", async () => {
  const { exitCode, printed, told } = await coldfall(["analyse", at("night.csv"), "--html", at("none/night.html")]);
  expect({ exitCode, printed }).toEqual({ exitCode: 2, printed: "" });
  expect(told).toMatch(/could not be written: its folder does not exist/);
});

test("a column that is none of ours is named on standard error, without its control characters", async () => {
  const { exitCode, told } = await coldfall(["analyse", at("odd.csv")]);
  expect(exitCode).toBe(0);
  expect(told).toMatch(/^odd\.csv: one column is not used \("·humidity"\); [^\n]+\n$/);
});

test("a comma at the end of every line is no column to speak of", async () => {
  writeFileSync(at("commas.csv"), pullDownLog({ strength: 1, day: 10 }).replaceAll("\n", ",\n"));
  expect(await coldfall(["analyse", at("commas.csv")])).toMatchObject({ exitCode: 0, told: "" });
});

describe("two logs of the same name", () => {
  test("are told apart by their folders", async () => {
    for (const [index, day] of [7, 8].entries()) {
      mkdirSync(at(`van-${index}`));
      writeFileSync(at(`van-${index}/night.csv`), pullDownLog({ strength: 1, day }));
    }
    const { stretches } = await analysed(at("van-0/night.csv"), at("van-1/night.csv"));
    expect(new Set(stretches.map(({ log }) => log))).toEqual(new Set([at("van-0/night.csv"), at("van-1/night.csv")]));
  });
});

test("colour is printed only where there is a use for it, and is never the only sign", async () => {
  const args = ["analyse", at("night.csv"), ...knownGood()];
  const plain = (await coldfall(args)).printed;
  const coloured = (await coldfall(args, { hasColour: true })).printed;
  expect(stripVTControlCharacters(plain)).toBe(plain);
  expect(coloured).not.toBe(plain);
  expect(stripVTControlCharacters(coloured)).toBe(plain);
});

describe("progress", () => {
  const slowly = () => {
    let now = 0;
    return () => (now += 400);
  };

  test("is shown to someone who watches long work, and wiped in the end", async () => {
    const { told } = await coldfall(["analyse", at("night.csv"), ...knownGood()], { isWatched: true, now: slowly() });
    expect(told).toMatch(/reading .*good-\d\.csv \(\d of 4\)/);
    expect(told).toContain("analysing");
    expect(told.endsWith("\r\u001b[K")).toBe(true);
  });

  test("is not shown for quick work, nor into a file", async () => {
    expect((await coldfall(["analyse", at("night.csv")], { isWatched: true })).told).toBe("");
    expect((await coldfall(["analyse", at("night.csv")], { now: slowly() })).told).toBe("");
  });
});

test("sample logs: each folder is one fridge, judged by its own known-good logs; one page holds all", async () => {
  for (const [fridge, strength] of [
    ["larch", 1],
    ["rowan", 0.6],
  ] as const) {
    mkdirSync(at(`samples/${fridge}`), { recursive: true });
    for (const day of [1, 2, 3]) {
      writeFileSync(at(`samples/${fridge}/known-good-${day}.csv`), pullDownLog({ strength: 0.98 + day / 100, day }));
    }
    writeFileSync(at(`samples/${fridge}/night.csv`), pullDownLog({ strength, day: 4 }));
  }
  writeFileSync(at("samples/README.md"), "how they were made");
  const terminal = recordedTerminal();
  await runSamples(at("samples"), at("samples.html"), terminal);
  expect(terminal.told).toBe("");
  expect(terminal.printed).toMatch(/larch[\s\S]*On mains +GOOD[\s\S]*rowan[\s\S]*On mains +WEAK[\s\S]*samples\.html/);
  expect(terminal.printed).toMatch(
    /In short:\n {2}larch: on mains good\n {2}rowan: on mains weak\n\n.*samples\.html.*\n$/,
  );
  const page = readFileSync(at("samples.html"), "utf8");
  expect(page).toContain("larch");
  expect(page).toContain("rowan");
  const german = recordedTerminal();
  await runSamples(at("samples"), at("muster.html"), german, { language: "de" });
  expect(german.printed).toMatch(/Kurz:\n {2}larch: auf 230 V gut\n {2}rowan: auf 230 V schwach\n/);
  expect(readFileSync(at("muster.html"), "utf8")).toMatch(/<html lang="de">/);
});

test("a baseline of logs in which nothing cools is refused and not written", async () => {
  writeFileSync(at("off.csv"), pullDownLog({ strength: 1, day: 9 }).replaceAll("mains", "off"));
  const { exitCode, told } = await coldfall(["baseline", at("off.csv"), "--out", at("off.json")]);
  expect(exitCode).toBe(2);
  expect(told).toMatch(/no stretch in which the fridge cools/);
  expect(readdirSync(folder)).not.toContain("off.json");
});
