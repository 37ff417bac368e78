// The commands that list and change what the store keeps, each on a store of its own.

import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import addFormats from "ajv-formats";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import { runCommandLine } from "../../src/cli/command-line.ts";
import { readLogFile } from "../../src/ingest/index.ts";
import type { AnalysisDocument } from "../../src/schema/documents/index.ts";
import { openStore, type RunPurpose } from "../../src/store/index.ts";
import { pullDownLog } from "./pull-down-log.ts";
import { coldfall, recordedTerminal } from "./recorded-terminal.ts";

let folder = "";
let file = "";
let count = 0;
const at = (name: string) => join(folder, name);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-keeping-"));
  for (const day of [1, 2, 3]) writeFileSync(at(`good-${day}.csv`), pullDownLog({ strength: 1, day }));
  writeFileSync(at("night.csv"), pullDownLog({ strength: 0.5, day: 4 }));
});
afterAll(() => rmSync(folder, { recursive: true }));
beforeEach(() => {
  count += 1;
  file = at(`store-${count}.coldfall`);
});

/** Runs a command on the test's store, which must go well. */
async function done(...args: readonly string[]): Promise<string> {
  const { exitCode, printed, told } = await coldfall([...args, "--store", file]);
  expect({ exitCode, told }).toEqual({ exitCode: 0, told: "" });
  return printed;
}

/** Puts a log into the test's store as a run of Larch. */
async function keep(log: string, purpose: RunPurpose): Promise<string> {
  await using store = await openStore(file);
  const { recording } = await readLogFile(at(log));
  const names = await store.fridges.list();
  const fridge = names[0] ?? (await store.fridges.add({ name: "Larch" }));
  const run = await store.runs.open({
    fridgeId: fridge.id,
    name: log,
    startedUnixMs: recording.unixMs[0],
    purpose,
    origin: "file",
    utcOffsetMinutes: 0,
  });
  const bringing = store.readings.import(run.id);
  bringing.add({ unixMs: recording.unixMs, columns: recording.columns, sourceCodes: recording.sourceCodes });
  await bringing.finish();
  await store.runs.close(run.id, recording.unixMs[recording.unixMs.length - 1]);
  return run.id;
}

/** How many known-good runs the heated stretch was compared with. */
const runsBehind = ({ stretches }: AnalysisDocument) =>
  stretches.find(({ source }) => source === "mains")?.baseline.runs;

test("an empty store says how to begin", async () => {
  await using _store = await openStore(file);
  expect(await done("fridges")).toMatch(/No fridge yet.*coldfall fridges add/);
  expect(await done("runs")).toMatch(/No run yet.*coldfall import/);
});

test("a store that is not there is told as such by what only looks, and is not made", async () => {
  const missing = join(folder, "nowhere", "x.coldfall");
  for (const args of [
    ["runs"],
    ["fridges"],
    ["store", "check"],
    ["export", "run", "--out", at("no.csv")],
    ["analyse", "7f3a"],
  ]) {
    const { exitCode, printed, told } = await coldfall([...args, "--store", missing]);
    expect({ exitCode, printed }).toEqual({ exitCode: 2, printed: "" });
    expect(told).toMatch(`There is no store "${missing}"; check the path`);
  }
  expect(existsSync(join(folder, "nowhere"))).toBe(false);
  expect(await coldfall(["fridges", "add", "Larch", "--store", missing])).toMatchObject({ exitCode: 0 });
  expect((await coldfall(["fridges", "--store", missing])).printed).toMatch(/Larch/);
});

test("a fridge without a name is refused, and a name loses the blanks around it", async () => {
  await done("fridges", "add", " Larch ");
  for (const [args, option] of [
    [["fridges", "add", ""], "NAME"],
    [["fridges", "add", "  "], "NAME"],
    [["fridges", "edit", "Larch", "--name", ""], "--name"],
    [["record", "--fridge", " ", "--replay", at("night.csv")], "--fridge"],
  ] as const) {
    const { exitCode, told } = await coldfall([...args, "--store", file]);
    expect(exitCode).toBe(2);
    expect(told).toMatch(new RegExp(`^${option}: " *" cannot be used; give a name`));
  }
  expect(await done("fridges")).toMatch(/^Larch$/m);
});

test("a fridge that recording adds is told, beside those that it may have been taken for", async () => {
  const replay = (name: string, log = "night.csv") =>
    coldfall(["record", "--fridge", name, "--replay", at(log), "--speed", "1e9", "--store", file], {
      now: () => performance.now(),
    });
  expect((await replay("Larch")).told).toMatch(/^Larch is new in the store\.\n/);
  expect((await replay("larch")).told).not.toMatch(/new in the store/);
  expect((await replay("Lrach", "good-1.csv")).told).toMatch(
    /^Lrach is new in the store, which so far knows Larch\.\n/,
  );
  expect(await replay("Nobody", "none.csv")).toMatchObject({ exitCode: 2 });
  expect(await done("fridges")).not.toMatch(/Nobody/);
});

test("the list of runs says the year in which each began", async () => {
  await keep("night.csv", "test");
  expect(await done("runs")).toMatch(/night\.csv +test +5 June 2026, 07:00/);
});

test("a reading by hand goes into a run that is recorded or named, and nowhere when none is", async () => {
  const run = await keep("night.csv", "test");
  const note = (...args: string[]) => coldfall(["note-reading", ...args, "--fridge", "Larch", "--store", file]);
  const runsKept = async () => JSON.parse(await done("runs", "--json")).runs.length;
  expect(await note("cabinet=6.5")).toMatchObject({
    exitCode: 2,
    told: expect.stringMatching(/^Nothing is being recorded on Larch; start recording first, or give --run/),
  });
  expect(await runsKept()).toBe(1);
  expect((await note("cabinet=6.5", "ambient=24", "--run", run)).printed).toMatch(/^2 readings of Larch .* noted/);
});

for (const [reading, range] of [
  ["cabinet=600", "-40 to 70 °C"],
  ["evaporator=-45.5", "-45 to 70 °C"],
  ["supply=400", "0 to 270 V"],
] as const) {
  test(`${reading} is no reading that anybody took`, async () => {
    const run = await keep("night.csv", "test");
    const before = await done("export", run, "--out", at(`before-${reading}.csv`)).then(() =>
      readFileSync(at(`before-${reading}.csv`)),
    );
    const args = ["note-reading", "ambient=20", reading, "--run", run, "--fridge", "Larch", "--store", file];
    expect(await coldfall(args)).toMatchObject({
      exitCode: 2,
      printed: "",
      told: `"${reading}" cannot be true: there a probe reads from ${range}; check the number.\n`,
    });
    await done("export", run, "--out", at(`after-${reading}.csv`));
    expect(readFileSync(at(`after-${reading}.csv`))).toEqual(before);
  });
}

test("a fridge is added, changed, removed and brought back", async () => {
  await done("fridges", "add", "Larch", "--mains-watts", "135", "--kind", "90 litre");
  await done("fridges", "edit", "larch", "--gas-watts", "280");
  expect(await done("fridges")).toMatch(/Larch +90 litre +280 +135/);
  expect(await done("fridges", "remove", "Larch")).toMatch(/restore Larch/);
  expect(await done("fridges")).toMatch(/No fridge yet/);
  await done("fridges", "restore", "Larch");
  expect(await done("fridges")).toMatch(/Larch/);
});

test("a fridge's name means the same however it was typed: composed, decomposed, in either case", async () => {
  const [composed, decomposed] = ["Käfer".normalize("NFC"), "kÄfer".normalize("NFD")];
  await done("fridges", "add", composed);
  const replay = ["--replay", at("night.csv"), "--speed", "1e9", "--store", file];
  const { exitCode, told } = await coldfall(["record", "--fridge", decomposed, ...replay], {
    now: () => performance.now(),
  });
  expect({ exitCode, told }).toMatchObject({ exitCode: 0, told: expect.stringContaining(composed) });
  await done("fridges", "remove", decomposed);
  await done("fridges", "restore", decomposed);
  expect(await done("fridges")).toContain(composed);
});

test("a second fridge of the same name is refused, and the first stays as it was", async () => {
  await done("fridges", "add", "Larch", "--litres", "90");
  const { exitCode, told } = await coldfall(["fridges", "add", "larch", "--litres", "60", "--store", file]);
  expect(exitCode).toBe(2);
  expect(told).toMatch(/Larch/i);
  expect(await done("fridges")).toMatch(/Larch +90/);
});

test("alarms as JSON fit their published schema, with their cautions; those of a removed run are not told", async () => {
  const run = await keep("night.csv", "test");
  const other = await keep("good-1.csv", "test");
  const raisedUnixMs = Date.UTC(2026, 5, 5, 2, 13);
  {
    await using store = await openStore(file);
    for (const runId of [run, other]) {
      const reason = {
        ...{ code: "cooling-stopped", source: "gas", sinceMs: raisedUnixMs, subject: "" },
        cautions: ["stopped-on-gas", "gas"],
      };
      await store.alarms.raise({ runId, kind: "cooling-stopped", raisedUnixMs, reason });
    }
  }
  await done("runs", "remove", other);
  const printed = JSON.parse(await done("alarms", "list", "--json"));
  const validate = addFormats
    .default(new Ajv2020())
    .compile(JSON.parse((await coldfall(["schema", "alarms"])).printed));
  expect(validate(printed), JSON.stringify(validate.errors)).toBe(true);
  expect(printed).toMatchObject({ format: "coldfall-alarm-list-1", alarms: [{ run, fridge: "Larch", cleared: null }] });
  expect(printed.alarms).toHaveLength(1);
  expect(printed.alarms[0].text).toMatch(/^5 June 02:13, cooling stopped: .*Do not relight from here/s);
  for (const width of [60, 100, 200]) {
    const terminal = recordedTerminal({ width });
    await runCommandLine(["alarms", "--store", file], terminal);
    expect(Math.max(...terminal.printed.split("\n").map((line) => line.length))).toBeLessThanOrEqual(width);
    expect(terminal.printed.replaceAll(/\s+/g, " ")).toContain(printed.alarms[0].text);
  }
  expect(JSON.parse(await done("alarms", "--run", run, "--json"))).toEqual(printed);
});

test("every list as JSON fits its published schema", async () => {
  await keep("good-1.csv", "known-good");
  const run = await keep("night.csv", "test");
  await done("probes", "put", "28-0a41", "--label", "red tape");
  await done("probes", "place", "28-0a41", "--fridge", "Larch", "--position", "evaporator");
  await done("baselines", "add", "Larch", run);
  const ajv = addFormats.default(new Ajv2020());
  for (const list of ["fridges", "runs", "probes", "baselines", "results"] as const) {
    const validate = ajv.compile(JSON.parse((await coldfall(["schema", list])).printed));
    const printed = JSON.parse(await done(list, "--json"));
    expect(validate(printed), `${list}: ${JSON.stringify(validate.errors)}`).toBe(true);
    expect(printed.format).toBe(`coldfall-${list}-1`);
    if (list !== "results") expect(printed[list].length).toBeGreaterThan(0);
  }
});

test("a run is judged by its id against the fridge's known-good runs, without naming them", async () => {
  for (const day of [1, 2, 3]) await keep(`good-${day}.csv`, "known-good");
  const run = await keep("night.csv", "test");
  const fromStore = JSON.parse(await done("analyse", run, "--json"));
  const knownGood = [1, 2, 3].flatMap((day) => ["--known-good", at(`good-${day}.csv`)]);
  const fromFiles = JSON.parse((await coldfall(["analyse", at("night.csv"), ...knownGood, "--json"])).printed);
  expect(fromStore.sources).toEqual(fromFiles.sources);
  expect(fromStore.sources[0]).toMatchObject({ verdict: "weak", baseline: "own" });
  expect(runsBehind(fromStore)).toBe(3);
});

test("the baseline chosen for a fridge is used instead of all its known-good runs", async () => {
  const [first] = [await keep("good-1.csv", "known-good"), await keep("good-2.csv", "known-good")];
  const run = await keep("night.csv", "test");
  await done("baselines", "add", "Larch", first);
  expect(runsBehind(JSON.parse(await done("analyse", run, "--json")))).toBe(1);
});

test("a name that is neither file nor run is refused, naming the store", async () => {
  await keep("night.csv", "test");
  for (const name of ["no-such", "missing.csv", "logs/missing"]) {
    const { exitCode, told } = await coldfall(["analyse", name, "--store", file]);
    expect(exitCode).toBe(2);
    expect(told).toBe(
      `"${name}" is neither a file here nor a run in the store ${file}; "coldfall runs" lists the runs.\n`,
    );
  }
});

test("a run is exported as it was brought in, reading for reading", async () => {
  const run = await keep("night.csv", "test");
  await done("export", run, "--out", at("back.csv"));
  const [{ recording: before }, { recording: after }] = await Promise.all(
    [at("night.csv"), at("back.csv")].map((log) => readLogFile(log)),
  );
  expect(after.unixMs).toEqual(before.unixMs);
  expect(after.columns).toEqual(before.columns);
  expect(after.sourceCodes).toEqual(before.sourceCodes);
});

test("what was told of a run's energy source is in its export, which is judged the same", async () => {
  writeFileSync(at("untold.csv"), pullDownLog({ strength: 0.5, day: 4, hasSourceColumn: false }));
  const run = await keep("untold.csv", "test");
  {
    await using store = await openStore(file);
    const startMs = Date.UTC(2026, 5, 5, 7);
    for (const [hours, source] of [
      [0, "off"],
      [1, "mains"],
      [9, "off"],
    ] as const)
      await store.edits.make(run, { kind: "source", unixMs: startMs + hours * 3_600_000, source, how: "told" });
  }
  await done("export", run, "--out", at("told.csv"));
  const judged = async (log: string) => JSON.parse(await done("analyse", log, "--json")) as AnalysisDocument;
  const [kept, written] = [await judged(run), await judged(at("told.csv"))];
  expect(written.sources).toEqual(kept.sources);
  expect(written.stretches.map(({ source, sourceFrom }) => [source, sourceFrom])).toEqual([
    ["off", "told"],
    ["mains", "told"],
    ["off", "told"],
  ]);
});

test("a run sheet is changed field by field, and a wrong field changes nothing", async () => {
  const run = await keep("night.csv", "test");
  await done("sheet", run, "--set", "setting=bench", "--set", "ratedWatts.gas=280");
  const { exitCode, told } = await coldfall(["sheet", run, "--set", "tilt=3", "--store", file]);
  expect(exitCode).toBe(2);
  expect(told).toMatch(/tilt/);
  expect(JSON.parse(await done("sheet", run))).toEqual({ setting: "bench", ratedWatts: { gas: 280 } });
  await done("sheet", run, "--set", "setting=");
  expect(JSON.parse(await done("sheet", run))).toEqual({ ratedWatts: { gas: 280 } });
});

test("what is set in a run sheet is what its field takes: text that looks like a number, a list of one, words with commas", async () => {
  const run = await keep("night.csv", "test");
  const said = ["dial=3", "notes=clean,dry", "supplyVolts.mains=231", "fanInside=true", "untouchedSources=mains"];
  await done("sheet", run, ...said.flatMap((field) => ["--set", field]));
  expect(JSON.parse(await done("sheet", run))).toEqual({
    ...{ dial: "3", notes: "clean,dry", supplyVolts: { mains: 231 }, fanInside: true, untouchedSources: ["mains"] },
  });
  for (const [field, why] of [
    ["tiltSidewaysDegrees=1,5", /"tiltSidewaysDegrees=1,5" cannot be used; give a number with a point for decimals/],
    ["tiltSidewaysDegrees=200", /field "tiltSidewaysDegrees": it must be at most/],
    ["fanInside=perhaps", /field "fanInside": write true or false/],
    ["untouchedSources=mains,diesel", /field "untouchedSources.*": write one of "gas", "mains", "dc12"/],
  ] as const) {
    const { exitCode, told } = await coldfall(["sheet", run, "--set", field, "--store", file]);
    expect([exitCode, told]).toEqual([2, expect.stringMatching(why)]);
  }
});

test("a replay that goes on says that its run keeps the purpose and the run sheet that it has", async () => {
  const short = readFileSync(at("night.csv"), "utf8").split("\n").slice(0, 20);
  writeFileSync(at("short.csv"), [...short, ""].join("\n"));
  const replay = ["record", "--fridge", "Larch", "--replay", at("short.csv"), "--speed", "1e9", "--store", file];
  const recorded = async (...more: readonly string[]) => {
    const terminal = recordedTerminal({ now: () => performance.now() });
    expect(await runCommandLine([...replay, ...more], terminal)).toBe(0);
    return terminal;
  };
  await recorded();
  const plain = await recorded();
  expect(plain.told).toMatch(/^Going on with run [^\n]*\n$/m);
  expect(plain.told).not.toContain("keeps");
  writeFileSync(at("sheet.json"), "{}");
  const { told } = await recorded("--purpose", "known-good", "--sheet", at("sheet.json"));
  expect(told).toMatch(
    /The run keeps its purpose; "coldfall runs edit \S+ --purpose known-good" changes it\. The run keeps its run sheet;/,
  );
});

test("a removed run is out of the list and comes back by its id", async () => {
  const run = await keep("night.csv", "test");
  await done("runs", "remove", run);
  expect(await done("runs")).not.toContain(run);
  expect(await done("runs", "--removed")).toContain(run);
  await done("runs", "restore", run);
  expect(await done("runs", "--fridge", "Larch")).toContain(run);
});

test("the store is checked, copied and tidied; the copy is a store like any other", async () => {
  const run = await keep("night.csv", "test");
  expect(await done("store", "check")).toMatch(/All is well: 1 run/);
  await done("store", "backup", at("copy.coldfall"));
  expect((await coldfall(["runs", "--store", at("copy.coldfall")])).printed).toContain(run);
  expect(await done("store", "retire", "--before", "2030-01-01")).toMatch(/1 run is removed/);
  expect(await done("store", "compact")).toMatch(/1 removed run/);
  const { exitCode } = await coldfall(["runs", "restore", run, "--store", file]);
  expect(exitCode).toBe(2);
});

test("a fridge that was exported goes into another store with all that belongs to it, and twice changes nothing", async () => {
  await keep("night.csv", "test");
  await done("fridges", "export", "Larch", "--out", at("larch.jsonl"));
  const other = ["--store", at("other.coldfall")];
  const first = await coldfall(["fridges", "take-in", at("larch.jsonl"), ...other]);
  expect(first).toMatchObject({
    exitCode: 0,
    printed: expect.stringMatching(/Larch is in the store.*new fridge, 1 new run/),
  });
  await coldfall(["fridges", "export", "Larch", "--out", at("again.jsonl"), ...other]);
  expect(readFileSync(at("again.jsonl"), "utf8")).toBe(readFileSync(at("larch.jsonl"), "utf8"));
  const second = await coldfall(["fridges", "take-in", at("larch.jsonl"), ...other]);
  expect(second.printed).toMatch(/known already, 0 new runs, 0 new readings, \d+ were there already/);
  await coldfall(["fridges", "export", "Larch", "--out", at("third.jsonl"), ...other]);
  expect(readFileSync(at("third.jsonl"), "utf8")).toBe(readFileSync(at("larch.jsonl"), "utf8"));
});

for (const [what, text, why] of [
  ["nothing in it", "", /larch\.jsonl/],
  ["no JSON in it", "hello\n", /larch\.jsonl": this is not JSON/],
  ["no fridge at its beginning", '{"kind":"readings","record":{}}\n', /larch\.jsonl, line 1/],
  ["a newer format", '{"format":"coldfall-fridge-2","kind":"fridge","record":{}}\n', /coldfall-fridge-2/],
] as const) {
  test(`a file with ${what} is refused as an export, and the store stays as it was`, async () => {
    writeFileSync(at("larch.jsonl"), text);
    const other = ["--store", at("none.coldfall")];
    const { exitCode, told } = await coldfall(["fridges", "take-in", at("larch.jsonl"), ...other]);
    expect(exitCode).toBe(2);
    expect(told).toMatch(why);
    expect((await coldfall(["fridges", ...other])).printed).toMatch(/No fridge yet/);
  });
}

test("everything about a fridge goes into a file, a JSON object a line", async () => {
  await keep("night.csv", "test");
  await done("fridges", "export", "Larch", "--out", at("pieces.jsonl"));
  const pieces = readFileSync(at("pieces.jsonl"), "utf8")
    .trimEnd()
    .split("\n")
    .map((line) => JSON.parse(line));
  expect(pieces[0]).toMatchObject({ format: "coldfall-fridge-1" });
  expect(pieces.map(({ kind }) => kind)).toContain("run");
});
