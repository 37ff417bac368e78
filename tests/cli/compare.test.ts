import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import addFormats from "ajv-formats";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { runSamples } from "../../src/cli/samples.ts";
import { type ComparisonDocument, comparisonDocumentSchema } from "../../src/schema/documents/index.ts";
import { pullDownLog } from "./pull-down-log.ts";
import { coldfall, recordedTerminal } from "./recorded-terminal.ts";

let folder = "";
const at = (name: string) => join(folder, name);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-compare-"));
  for (const day of [1, 2, 3]) writeFileSync(at(`good-${day}.csv`), pullDownLog({ strength: 0.98 + day / 100, day }));
  writeFileSync(at("before.csv"), pullDownLog({ strength: 0.6, day: 4 }));
  writeFileSync(at("after.csv"), pullDownLog({ strength: 1, day: 5 }));
  writeFileSync(at("second.csv"), pullDownLog({ strength: 0.99, day: 6 }));
});
afterAll(() => rmSync(folder, { recursive: true }));

const knownGood = () => [1, 2, 3].flatMap((day) => ["--known-good", at(`good-${day}.csv`)]);

async function compared(...args: string[]): Promise<ComparisonDocument> {
  const { exitCode, printed, told } = await coldfall(["compare", ...args, "--json"]);
  expect({ exitCode, told }).toEqual({ exitCode: 0, told: "" });
  return comparisonDocumentSchema.parse(JSON.parse(printed));
}

test("a service that helped is told in a sentence, then by source", async () => {
  const { exitCode, printed, told } = await coldfall(["compare", at("before.csv"), at("after.csv"), ...knownGood()]);
  expect({ exitCode, told }).toEqual({ exitCode: 0, told: "" });
  expect(printed).toMatch(
    /^Coldfall: before\.csv compared with after\.csv\n.*\n\nOn mains the fridge cools better, \d\.\d times/,
  );
  expect(printed).toMatch(/On mains +BETTER +cooling strength 1\d\d % of before/);
});

test("the other way round it is worse, and two good nights are neither", async () => {
  expect((await compared(at("after.csv"), at("before.csv"), ...knownGood())).sources[0].change).toBe("worse");
  expect(["same", "undecided"]).toContain(
    (await compared(at("after.csv"), at("second.csv"), ...knownGood())).sources[0].change,
  );
});

test("logs exchanged in time are told, once for all of them", async () => {
  const order = async (...args: string[]) =>
    (await compared(...args)).warnings.filter((warning) => warning.includes("exchanged"));
  expect(await order(at("after.csv"), at("before.csv"))).toEqual([
    "What was given as after, before.csv, is older than what was given as before, after.csv; check that they were not exchanged.",
  ]);
  expect(await order(at("after.csv"), at("before.csv"), "--also-before", at("second.csv"))).toHaveLength(1);
  expect(await order(at("before.csv"), at("after.csv"))).toEqual([]);
  // One of them is later: then nothing is certain.
  expect(await order(at("after.csv"), at("before.csv"), "--also-after", at("second.csv"))).toEqual([]);
});

test("--json is valid against the published schema, by another validator than ours", async () => {
  const ajv = addFormats.default(new Ajv2020({ strict: false }));
  const validate = ajv.compile(JSON.parse((await coldfall(["schema", "comparison"])).printed));
  const { printed } = await coldfall(["compare", at("before.csv"), at("after.csv"), "--json"]);
  expect(validate(JSON.parse(printed)), JSON.stringify(validate.errors)).toBe(true);
});

test("--json names every file that went in, with its part in it", async () => {
  writeFileSync(at("after.sheet.json"), '{"untouchedSources":["gas"]}');
  const { inputs, options } = await compared(
    at("before.csv"),
    at("after.csv"),
    "--also-after",
    at("second.csv"),
    "--known-good",
    at("good-1.csv"),
    "--margin",
    "0.2",
  );
  rmSync(at("after.sheet.json"));
  expect(inputs.map(({ name, role }) => [name, role])).toEqual([
    ["before.csv", "before"],
    ["after.csv", "after"],
    ["after.sheet.json", "sheet"],
    ["second.csv", "after"],
    ["good-1.csv", "known-good"],
  ]);
  expect(options.margin).toBe(0.2);
});

test("a baseline file serves as the known-good logs it was made of", async () => {
  await coldfall(["baseline", ...[1, 2, 3].map((day) => at(`good-${day}.csv`)), "--out", at("b.json")]);
  const [fromFile] = (await compared(at("before.csv"), at("after.csv"), "--baseline", at("b.json"))).sources;
  const [fromLogs] = (await compared(at("before.csv"), at("after.csv"), ...knownGood())).sources;
  expect(fromFile.coolingStrength?.low).toBeCloseTo(fromLogs.coolingStrength?.low ?? 0, 2);
});

test("--html writes a page of its own and says so", async () => {
  const { exitCode, told } = await coldfall(["compare", at("before.csv"), at("after.csv"), "--html", at("page.html")]);
  expect({ exitCode, told }).toEqual({ exitCode: 0, told: `Wrote ${at("page.html")}.\n` });
  expect(readFileSync(at("page.html"), "utf8")).toMatch(/<h1[^>]*>Before and after<\/h1>/);
});

describe("what cannot be used ends with one sentence and writes nothing:", () => {
  for (const [what, args, sentence] of [
    ["a log compared with itself", ["before.csv", "before.csv"], /is given twice/],
    ["a log that is not there", ["before.csv", "none.csv"], /There is no file .*none\.csv/],
    [
      "a known-good log that is the one before",
      ["before.csv", "after.csv", "--known-good", "before.csv"],
      /is given twice/,
    ],
  ] as const) {
    test(what, async () => {
      const files = readdirSync(folder);
      const here = args.map((arg) => (arg.endsWith(".csv") ? at(arg) : arg));
      const { exitCode, printed, told } = await coldfall(["compare", ...here, "--html", at("no.html")]);
      expect({ exitCode, printed }).toEqual({ exitCode: 2, printed: "" });
      expect(told).toMatch(sentence);
      expect(told).toMatch(/^[^\n]+\.\n$/);
      expect(readdirSync(folder)).toEqual(files);
    });
  }
});

test("sample logs: a serviced log is compared with the fridge's other log, told after it and put on the page", async () => {
  mkdirSync(at("samples/larch"), { recursive: true });
  for (const day of [1, 2, 3]) {
    writeFileSync(at(`samples/larch/known-good-${day}.csv`), pullDownLog({ strength: 0.98 + day / 100, day }));
  }
  writeFileSync(at("samples/larch/night.csv"), pullDownLog({ strength: 0.6, day: 4 }));
  writeFileSync(at("samples/larch/serviced-june.csv"), pullDownLog({ strength: 1, day: 5 }));
  const terminal = recordedTerminal();
  await runSamples(at("samples"), at("samples.html"), terminal);
  expect(terminal.printed).toMatch(/On mains +WEAK[\s\S]*before and after its service\n[\s\S]*On mains +BETTER/);
  expect(terminal.printed).toMatch(
    /In short:\n {2}larch: on mains weak\n {2}larch, after its service: on mains better\n/,
  );
  expect(readFileSync(at("samples.html"), "utf8")).toMatch(/before and after its service<\/h2>/);
});
