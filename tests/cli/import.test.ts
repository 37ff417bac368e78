import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import formats from "ajv-formats";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { newCommand } from "../../src/cli/command.ts";
import { addImport } from "../../src/cli/commands/import.ts";
import { withExitCode } from "../../src/cli/exit-code.ts";
import { type Ask, type ImportOptions, runImport } from "../../src/cli/import.ts";
import { nativeLogText } from "../../src/ingest/index.ts";
import { understandingDocumentSchema } from "../../src/schema/documents/import-documents.ts";
import { openStore } from "../../src/store/index.ts";
import { nativeLog } from "../ingest/log-texts.ts";
import { coldfall, recordedTerminal } from "./recorded-terminal.ts";

let folder: string;
let store: string;
const at = (name: string) => join(folder, name);
const write = (name: string, text: string): string => {
  writeFileSync(at(name), text);
  return at(name);
};

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-import-"));
  store = at("workshop.coldfall");
  await using opened = await openStore(store);
  await opened.fridges.add({ name: "Larch" });
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

interface Outcome {
  readonly printed: string;
  readonly told: string;
  readonly exitCode: number;
}

/** As a process would run it, with someone there to answer or not. */
async function bringIn(file: string, options: Partial<ImportOptions> = {}, ask: Ask = null): Promise<Outcome> {
  const terminal = recordedTerminal();
  const exitCode = await withExitCode(terminal, () => runImport(file, { store, ...options }, terminal, ask));
  return { exitCode, printed: terminal.printed, told: terminal.told };
}

async function commandLine(...args: readonly string[]): Promise<Outcome> {
  const terminal = recordedTerminal();
  const program = newCommand("coldfall", terminal);
  addImport(program, terminal);
  const exitCode = await withExitCode(terminal, () => program.parseAsync(["import", ...args], { from: "user" }));
  return { exitCode, printed: terminal.printed, told: terminal.told };
}

async function runsKept() {
  await using opened = await openStore(store);
  const { runs } = await opened.runs.list();
  return await Promise.all(runs.map(async (run) => ({ run, recording: await opened.readings.recording(run.id) })));
}

const minute = (index: number) => new Date(Date.UTC(2026, 5, 4, 20) + index * 60_000).toISOString();
const rows = (from: number, to: number, cabinet: (index: number) => number = (index) => 20 - index / 8) =>
  Array.from({ length: to - from }, (_, index) => `${minute(from + index)},5,${cabinet(from + index)},21,mains`);

const foreign = (...times: string[]) =>
  ["Zeit;Rippen °C;Kühlschrank °C", ...times.map((time, index) => `${time};-${index},5;4,5`), ""].join("\n");
const sameDay = foreign("03.04.2026 07:00", "03.04.2026 07:01");

test("a word for the energy source is told on the command line, for a foreign log and for one of our own format", async () => {
  const foreignLog = `Time (UTC),Fridge °C,Source\n2026-06-04 07:00,4.5,standby\n2026-06-04 07:01,4.5,gas\n`;
  const ownLog = `time,cabinet,source\n2026-06-05T07:00:00Z,4.5,standby\n2026-06-05T07:01:00Z,4.5,gas\n`;
  for (const [name, text] of [
    ["foreign.csv", foreignLog],
    ["own.csv", ownLog],
  ]) {
    const file = write(name, text);
    expect((await bringIn(file)).exitCode).toBe(2);
    const { exitCode, told } = await commandLine(file, "--store", store, "--source-word", "standby=off");
    expect([exitCode, told]).toEqual([0, ""]);
  }
  const kept = await runsKept();
  expect(kept.map(({ recording }) => [...(recording.sourceCodes ?? [])])).toEqual([
    [4, 1],
    [4, 1],
  ]);
});

describe("a log of our own format", () => {
  test("becomes a run of the fridge, reading for reading", async () => {
    const file = write("night.csv", nativeLog(...rows(0, 90)));
    const { exitCode, printed } = await bringIn(file, { fridge: "Larch" });
    expect(exitCode).toBe(0);
    expect(printed).toMatch(/night\.csv: 90 rows into a new run of Larch, .*; 360 readings are new\.\n$/);
    const [{ run, recording }] = await runsKept();
    expect(run).toMatchObject({ name: "night.csv", origin: "file", purpose: "test" });
    expect([run.startedUnixMs, run.endedUnixMs]).toEqual([Date.parse(minute(0)), Date.parse(minute(89))]);
    expect(nativeLogText(recording).replaceAll("\r", "")).toBe(readFileSync(file, "utf8").replaceAll(".000Z", "Z"));
  });

  test("is read as told where somebody says that its unit or a column is another", async () => {
    const file = write("fahrenheit.csv", nativeLog(...rows(0, 30, () => 68)));
    const columns = { column: [["ambient", "room"]] as const };
    const { exitCode, printed } = await bringIn(file, { fridge: "Larch", unit: "[degF]", ...columns });
    expect([exitCode, printed]).toEqual([0, expect.stringContaining("30 rows into a new run")]);
    const [{ recording }] = await runsKept();
    expect(Object.keys(recording.columns).sort()).toEqual(["cabinet", "evaporator", "room"]);
    expect(recording.columns.cabinet?.[0]).toBeCloseTo(20, 6);
  });

  test("brought in twice changes nothing", async () => {
    const file = write("night.csv", nativeLog(...rows(0, 90)));
    await bringIn(file);
    const before = await runsKept();
    const { exitCode, printed } = await bringIn(write("copy.csv", readFileSync(file, "utf8")));
    expect([exitCode, printed]).toEqual([
      0,
      expect.stringMatching(/is in the store already, in run .*; nothing was changed/),
    ]);
    expect(await runsKept()).toEqual(before);
  });

  test("brought in again with other answers is refused, saying where it is and how to put it right", async () => {
    const text = ["Seconds,Evaporator,Cabinet", ...rows(0, 30).map((row, i) => `${i * 60},5,${row.split(",")[2]}`), ""];
    const file = write("secs.csv", text.join("\n"));
    const startsAt = { unixMs: Date.parse(minute(0)), utcOffsetMinutes: 0 };
    await bringIn(file, { unit: "[degF]", startsAt });
    const [{ run }] = await runsKept();
    const same = await bringIn(file, { unit: "[degF]", startsAt });
    expect([same.exitCode, same.printed]).toEqual([0, expect.stringContaining(`in run ${run.id} of Larch; nothing`)]);
    for (const options of [
      { unit: "Cel", startsAt },
      { unit: "[degF]", startsAt: { unixMs: startsAt.unixMs + 1000, utcOffsetMinutes: 0 } },
      { unit: "[degF]", startsAt, column: [["Evaporator", "freezer"]] },
      { unit: "[degF]", startsAt, sourceAt: [{ unixMs: startsAt.unixMs, source: "gas" }] },
    ] as const) {
      const { exitCode, told } = await bringIn(file, options);
      expect([exitCode, told]).toEqual([2, expect.stringContaining(`"coldfall runs remove ${run.id}"`)]);
      expect(told).toContain("of Larch");
    }
    await using opened = await openStore(store);
    await opened.fridges.add({ name: "Fir" });
    const other = await bringIn(file, { fridge: "Fir", unit: "[degF]", startsAt });
    expect([other.exitCode, other.told]).toEqual([
      2,
      expect.stringContaining(`in run ${run.id} of Larch, and not where`),
    ]);
    await opened.runs.delete(run.id);
    expect((await bringIn(file, { fridge: "Larch", unit: "Cel", startsAt })).exitCode).toBe(0);
  });

  test("that overlaps a run adds only what is new, to that run", async () => {
    await bringIn(write("a.csv", nativeLog(...rows(0, 60))));
    const { printed } = await bringIn(write("b.csv", nativeLog(...rows(30, 90))));
    expect(printed).toMatch(/which it overlaps; 120 readings are new, 120 were there already\./);
    const kept = await runsKept();
    expect(kept.map(({ recording }) => recording.unixMs.length)).toEqual([90]);
    expect(kept[0].run.endedUnixMs).toBe(Date.parse(minute(89)));
  });

  test("of another time becomes another run", async () => {
    await bringIn(write("a.csv", nativeLog(...rows(0, 60))));
    await bringIn(write("b.csv", nativeLog(...rows(600, 660))));
    expect((await runsKept()).length).toBe(2);
  });

  test("into a run that is there says of what was told for a new one that the run keeps its own", async () => {
    await bringIn(write("a.csv", nativeLog(...rows(0, 60))));
    writeFileSync(at("other.sheet.json"), "{}");
    const told = { name: "evening", purpose: "known-good", sheet: at("other.sheet.json") } as const;
    const outcome = await bringIn(write("b.csv", nativeLog(...rows(59, 70))), told);
    expect(outcome.told).toMatch(
      /^The run keeps its name; .* The run keeps its purpose; .* The run keeps its run sheet; .*\n$/,
    );
    const [{ run }] = await runsKept();
    expect(run).toMatchObject({ name: "a.csv", purpose: "test", sheet: null });
  });

  test("that contradicts what is kept is reported with the instants, and what is kept stays", async () => {
    await bringIn(write("a.csv", nativeLog(...rows(0, 60))));
    const { printed } = await bringIn(write("b.csv", nativeLog(...rows(59, 61, () => 9))));
    expect(printed).toContain("One reading contradicts what was kept, which stays:");
    expect(printed).toContain("2026-06-04 20:59:00 UTC, cabinet: 12.63 kept, 9.00 in the file");
    const [{ recording }] = await runsKept();
    expect(Array.from(recording.columns.cabinet ?? []).slice(-2)).toEqual([12.625, 9]);
  });

  test("that says the same in fewer digits or in °F contradicts nothing, and what differs is shown to differ", async () => {
    await bringIn(write("a.csv", nativeLog(...rows(0, 60))));
    const cabinet = (i: number) => 20 - i / 8;
    const wall = (i: number) => minute(i).slice(0, 16).replace("T", " ");
    const inUnit = (unit: string, value: (i: number) => string) =>
      [`Time (UTC),Cabinet ${unit}`, ...Array.from({ length: 30 }, (_, i) => `${wall(i)},${value(i)}`), ""].join("\n");
    for (const [name, text] of [
      ["short.csv", inUnit("°C", (i) => cabinet(i).toFixed(2))],
      ["us.csv", inUnit("°F", (i) => (cabinet(i) * 1.8 + 32).toFixed(1))],
    ]) {
      const { printed } = await bringIn(write(name, text));
      expect(printed).toMatch(/0 readings are new, 30 were there already\.\n$/);
    }
    const { printed } = await bringIn(write("near.csv", nativeLog(...rows(1, 3, (i) => cabinet(i) + 0.002))));
    expect(printed).toContain("cabinet: 19.875 kept, 19.877 in the file");
  });

  for (const [what, unit, inUnit] of [
    ["whole degrees", "°C", (celsius: number) => celsius.toFixed(0)],
    ["°F with one decimal", "°F", (celsius: number) => (celsius * 1.8 + 32).toFixed(1)],
  ] as const) {
    test(`in finer steps than what is kept in ${what} contradicts nothing, in either order, and each is known again`, async () => {
      const cabinet = (i: number) => 20 - i * 0.0625;
      const wall = (i: number) => minute(i).slice(0, 16).replace("T", " ");
      const coarseRows = Array.from({ length: 60 }, (_, i) => `${wall(i)},${inUnit(cabinet(i))}`);
      const coarse = write("coarse.csv", [`Time (UTC),Cabinet ${unit}`, ...coarseRows, ""].join("\n"));
      const fineRows = Array.from({ length: 60 }, (_, i) => `${wall(i)},${cabinet(i).toFixed(4)}`);
      const fine = write("fine.csv", ["Time (UTC),Cabinet °C", ...fineRows, ""].join("\n"));
      for (const [fridge, first, second] of [
        ["Larch", coarse, fine],
        ["Oak", fine, coarse],
      ]) {
        const own = at(`${fridge}.coldfall`);
        await coldfall(["fridges", "add", fridge, "--store", own]);
        const { exitCode } = await commandLine(first, "--store", own);
        expect(exitCode).toBe(0);
        const { printed } = await commandLine(second, "--store", own);
        expect(printed).toMatch(/0 readings are new, 60 were there already\.\n$/);
        for (const file of [first, second]) {
          const again = await commandLine(
            file,
            "--store",
            own,
            "--column",
            `Cabinet ${file === fine ? "°C" : unit}=cabinet`,
          );
          expect([again.exitCode, again.printed]).toEqual([0, expect.stringContaining("nothing was changed")]);
        }
      }
      const other = write(
        "other.csv",
        ["Time (UTC),Cabinet °C", `${wall(1)},20.6`, `${wall(2)},20.5501`, ""].join("\n"),
      );
      const { printed } = await commandLine(other, "--store", at("Larch.coldfall"));
      expect(printed).toContain("2 readings contradict");
    });
  }

  test("with a bad row far down leaves nothing of itself behind when it is refused", async () => {
    const file = write("a.csv", nativeLog(...rows(0, 9000), "2026-06-05T20:00:00Z,1,2,3,diesel", ...rows(9000, 9001)));
    expect((await bringIn(file)).exitCode).toBe(2);
    expect(await runsKept()).toEqual([]);
  });

  test("takes the place of one that was cut off before its readings were kept", async () => {
    {
      await using opened = await openStore(store);
      const { id: fridgeId } = await opened.fridges.named("Larch");
      const begun = {
        startedUnixMs: Date.parse(minute(0)),
        purpose: "test",
        origin: "file",
        utcOffsetMinutes: 0,
      } as const;
      await opened.runs.open({ fridgeId, name: "night.csv", ...begun });
    }
    await bringIn(write("night.csv", nativeLog(...rows(0, 90))));
    expect((await runsKept()).map(({ recording }) => recording.unixMs.length)).toEqual([90]);
  });

  test("takes the run sheet beside it, and sources as told", async () => {
    write("night.sheet.json", JSON.stringify({ format: "coldfall-run-sheet-1", notes: "level" }));
    const text = nativeLog(...rows(0, 90)).replaceAll(",mains", ",");
    await bringIn(write("night.csv", text), { sourceAt: [{ unixMs: Date.parse(minute(10)), source: "mains" }] });
    const [{ run, recording }] = await runsKept();
    expect(run.sheet).toMatchObject({ notes: "level" });
    expect(recording.sourceMarks).toMatchObject([{ unixMs: Date.parse(minute(10)), source: "mains" }]);
  });
});

describe("another logger's file", () => {
  test("with two readings stops with both when nobody is there to ask, and stores nothing", async () => {
    const { exitCode, told } = await bringIn(write("a.csv", sameDay), { zone: "Z" });
    expect(exitCode).toBe(2);
    expect(told).toMatch(
      /"03\.04\.2026 07:00" can be 3 April 2026 07:00 or 4 March 2026 07:00; say which with .*--date-order dmy or mdy/,
    );
    expect(await runsKept()).toEqual([]);
  });

  test("with two readings is asked about where someone is there, and the answer is remembered for the fridge", async () => {
    const asked: string[] = [];
    const ask = async (text: string) => {
      asked.push(text);
      return ["nonsense", "2", "Europe/Berlin"][asked.length - 1] ?? "";
    };
    const first = await bringIn(write("a.csv", sameDay), {}, ask);
    expect(first.exitCode).toBe(0);
    expect(first.told).toContain('"03.04.2026 07:00" can be 3 April 2026 07:00 or 4 March 2026 07:00.\n  1  3 April');
    // Nonsense is asked again; then the order, then the zone.
    expect(asked.length).toBe(3);
    const [{ recording }] = await runsKept();
    expect(new Date(recording.unixMs[0]).toISOString()).toBe("2026-03-04T06:00:00.000Z");
    const next = await bringIn(write("b.csv", foreign("04.05.2026 07:00", "04.05.2026 07:01")));
    expect(next.told).toContain("Read as the last log of Larch was");
    expect(next.exitCode).toBe(0);
    expect((await runsKept()).map(({ run }) => new Date(run.startedUnixMs).toISOString().slice(0, 10))).toEqual([
      "2026-04-05",
      "2026-03-04",
    ]);
  });

  test("is left alone when the one asked never answers", async () => {
    expect((await bringIn(write("a.csv", sameDay), {}, async () => "?")).exitCode).toBe(2);
  });

  test("is left alone when the one asked types nothing", async () => {
    expect((await bringIn(write("a.csv", sameDay), {}, async () => "")).exitCode).toBe(2);
    expect(await runsKept()).toEqual([]);
  });

  test("is read through a mapping that an earlier import wrote down", async () => {
    const options = { dateOrder: "day-month-year", zone: "Europe/Berlin" } as const;
    await bringIn(write("a.csv", sameDay), { ...options, saveMap: at("map.json") });
    const { exitCode } = await bringIn(write("b.csv", foreign("04.05.2026 07:00")), { map: at("map.json") });
    expect(exitCode).toBe(0);
    const starts = (await runsKept()).map(({ run }) => new Date(run.startedUnixMs).toISOString());
    expect(starts).toEqual(["2026-05-04T05:00:00.000Z", "2026-04-03T05:00:00.000Z"]);
  });
});

describe("a log that counts from its start", () => {
  const counted = (...hours: string[]) =>
    ["Laufzeit (h);Rippen °C;Kühlschrank °C", ...hours.map((hour) => `${hour};-4,5;4,5`), ""].join("\n");
  const startsAt = { unixMs: Date.UTC(2026, 5, 4, 19), utcOffsetMinutes: 120 };
  const starts = async () => (await runsKept()).map(({ run }) => new Date(run.startedUnixMs).toISOString());

  test("stops where nobody says when that was", async () => {
    const { exitCode, told } = await bringIn(write("a.csv", counted("0", "0,5")));
    expect(exitCode).toBe(2);
    expect(told).toMatch(/column "Laufzeit \(h\)" counts from the log's start, .* say when with .*--starts-at/);
    expect(await runsKept()).toEqual([]);
  });

  test("begins when it is said to", async () => {
    expect((await bringIn(write("a.csv", counted("0", "0,5", "1")), { startsAt })).exitCode).toBe(0);
    const [{ run, recording }] = await runsKept();
    expect(Array.from(recording.unixMs)).toEqual([0, 30, 60].map((minute) => startsAt.unixMs + minute * 60_000));
    expect(run.utcOffsetMinutes).toBe(120);
  });

  test("is asked about, and the next log of the fridge too: a start is never kept", async () => {
    const bare = (...hours: string[]) => counted(...hours).replace("Laufzeit (h)", "Laufzeit");
    const answers = ["3", "tomorrow", "2026-06-04T21:00:00+02:00"];
    const first = await bringIn(write("a.csv", bare("0", "0,5")), {}, async () => answers.shift() ?? "");
    expect([first.exitCode, answers]).toEqual([0, []]);
    expect((await bringIn(write("b.csv", bare("0", "0,25")))).told).toMatch(
      /Read as the last log of Larch .*\n.*--starts-at/,
    );
    const next = await bringIn(write("b.csv", bare("0", "0,25")), {}, async () => "2026-06-05T21:00:00+02:00");
    expect(next.exitCode).toBe(0);
    const told = { startsAt: { unixMs: Date.UTC(2026, 5, 6, 19), utcOffsetMinutes: 0 } };
    expect((await bringIn(write("c.csv", bare("0", "0,75")), told)).exitCode).toBe(0);
    expect(await starts()).toEqual([
      "2026-06-06T19:00:00.000Z",
      "2026-06-05T19:00:00.000Z",
      "2026-06-04T19:00:00.000Z",
    ]);
  });

  test("is read through a mapping with the start said beside it", async () => {
    await bringIn(write("a.csv", counted("0", "0,5")), { startsAt, saveMap: at("map.json") });
    expect(readFileSync(at("map.json"), "utf8")).not.toContain("2026");
    const file = write("b.csv", counted("0", "0,25"));
    expect((await bringIn(file, { map: at("map.json") })).told).toContain("--starts-at");
    const later = { unixMs: startsAt.unixMs + 86_400_000, utcOffsetMinutes: 120 };
    expect((await bringIn(file, { map: at("map.json"), startsAt: later })).exitCode).toBe(0);
    expect(await starts()).toEqual(["2026-06-05T19:00:00.000Z", "2026-06-04T19:00:00.000Z"]);
  });
});

test("letters that can mean several zones stop with the instants, and are read once a zone is told", async () => {
  const file = write("a.csv", foreign("2026-07-01 07:00 BST", "2026-07-01 07:01 BST"));
  const { exitCode, told } = await bringIn(file);
  expect(exitCode).toBe(2);
  expect(told).toMatch(/"BST" .* 1 July 2026 06:00 UTC .* Europe\/London, and 1 July 2026 01:00 UTC .* Asia\/Dhaka/);
  expect((await bringIn(file, { zone: "Europe/London" })).exitCode).toBe(0);
  expect((await runsKept()).map(({ run }) => run.startedUnixMs)).toEqual([Date.UTC(2026, 6, 1, 6)]);
});

describe("--json", () => {
  const ajv = new Ajv2020();
  formats.default(ajv);
  /** Valid against the published schema, by another validator than ours. */
  async function printed(shape: string, outcome: Outcome) {
    const validate = ajv.compile(JSON.parse((await coldfall(["schema", shape])).printed));
    const document = JSON.parse(outcome.printed);
    validate(document);
    expect(validate.errors).toBeNull();
    return document;
  }

  test("--preview prints the understanding, its open questions with the options that answer them", async () => {
    const outcome = await commandLine(write("a.csv", sameDay), "--preview", "--json");
    expect(outcome.exitCode).toBe(0);
    const document = await printed("log-understanding", outcome);
    expect(document).toMatchObject({ way: null, mapping: null, from: null });
    expect(document.sure).toContainEqual({ code: "column", sentence: 'Column "Kühlschrank °C": the cabinet.' });
    const [question] = document.questions;
    expect(question).toMatchObject({ about: "date-order", line: 2, option: "--date-order" });
    expect(question.answers).toEqual([
      { value: "dmy", text: "3 April 2026 07:00" },
      { value: "mdy", text: "4 March 2026 07:00" },
    ]);
    expect(document.firstRows[0]).toMatchObject({ time: null, values: { cabinet: 4.5, evaporator: -0.5 } });
  });

  test("the options it names settle it, and the mapping is printed", async () => {
    const answers = ["--date-order", "dmy", "--zone", "Europe/Berlin"];
    const outcome = await commandLine(write("a.csv", sameDay), "--preview", "--json", ...answers);
    expect(await printed("log-understanding", outcome)).toMatchObject({
      way: "mapped",
      mapping: { dateOrder: "day-month-year", timeZone: "Europe/Berlin" },
      questions: [],
      from: "2026-04-03T05:00:00.000Z",
      to: "2026-04-03T05:01:00.000Z",
    });
  });

  test("--preview counts what the whole file holds and what cannot be read; a document without the counts stays valid", async () => {
    const bad = [`${minute(3)},5,Error,21,mains`, `${minute(4)},5,Error,21,off`, "noon,5,5,21,off"];
    const { printed } = await commandLine(write("bad.csv", nativeLog(...rows(0, 3), ...bad)), "--preview", "--json");
    const document = understandingDocumentSchema.parse(JSON.parse(printed));
    expect(document.whole).toEqual({
      rows: 5,
      sources: { mains: 4, off: 1 },
      unreadable: [
        { column: "cabinet", reason: "not-a-number", cells: 2, firstLine: 5, firstText: "Error" },
        { column: "time", reason: "unreadable-time", cells: 1, firstLine: 7, firstText: "noon" },
      ],
      ignoredColumns: [],
    });
    const { whole, ...before } = document;
    expect(understandingDocumentSchema.safeParse(before).success).toBe(true);
  });

  test("--preview of our own format, of a count without a start, and of a pack of SenML", async () => {
    const own = await commandLine(write("night.csv", nativeLog(...rows(0, 3))), "--preview", "--json");
    expect(await printed("log-understanding", own)).toMatchObject({ way: "native", sure: [], from: minute(0) });
    const counted = await commandLine(write("c.csv", "Time (s),Fridge °C\n0,4\n60,\n120,4\n"), "--preview", "--json");
    expect((await printed("log-understanding", counted)).questions).toMatchObject([
      { about: "starts-at", option: "--starts-at", answers: [] },
    ]);
    const pack = [{ bn: "larch:", bt: Date.parse(minute(0)) / 1000, bu: "Cel", n: "cabinet", v: 5 }];
    const senml = await commandLine(write("a.senml", JSON.stringify(pack)), "--preview", "--json");
    expect(await printed("log-understanding", senml)).toMatchObject({ way: "senml", mapping: null });
  });

  test("an import prints what became of it, contradictions with their instants", async () => {
    const first = await bringIn(write("a.csv", nativeLog(...rows(0, 60))), { json: true });
    const brought = await printed("import", first);
    expect(brought).toMatchObject({ outcome: "brought-in", isNewRun: true, way: "native", rows: 60, stored: 240 });
    const [{ run }] = await runsKept();
    expect(brought.run).toBe(run.id);
    const off = nativeLog(...rows(59, 61, () => 9)).replaceAll("mains", "gas");
    const second = await printed("import", await bringIn(write("b.csv", off), { json: true }));
    expect(second).toMatchObject({ isNewRun: false, stored: 4, repeated: 2, contradicted: 2 });
    expect(second.contradictions).toEqual([
      { position: "cabinet", time: minute(59), kept: 12.625, refused: 9 },
      { position: "source", time: minute(59), kept: "mains", refused: "gas" },
    ]);
    const again = await printed("import", await bringIn(at("b.csv"), { json: true }));
    expect(again).toMatchObject({ outcome: "known", fridge: "Larch", run: run.id });
  });

  test("an import of another logger's file prints its mapping and the cells that could not be read", async () => {
    const text = foreign("03.04.2026 07:00", "03.04.2026 07:01", "no time").replace("4,5", "broken");
    const options = { dateOrder: "day-month-year", zone: "Z", json: true } as const;
    expect(await printed("import", await bringIn(write("a.csv", text), options))).toMatchObject({
      way: "mapped",
      mapping: { dateOrder: "day-month-year" },
      unreadable: [
        { column: "cabinet", reason: "not-a-number", cells: 1, firstLine: 2, firstText: "broken" },
        { column: "time", reason: "unreadable-time", cells: 1, firstLine: 4, firstText: "no time" },
      ],
    });
  });

  test("a log that cannot be read is refused as ever: exit code 2, a sentence, nothing on standard output", async () => {
    const outcome = await bringIn(write("a.csv", sameDay), { json: true });
    expect(outcome).toMatchObject({ exitCode: 2, printed: "", told: expect.stringContaining("--date-order") });
  });
});

test("a SenML file becomes a run", async () => {
  const bt = Date.parse(minute(0)) / 1000;
  const pack = [
    { bn: "larch:", bt, bu: "Cel", n: "cabinet", v: 5 },
    { n: "fins", v: -8, t: 10 },
  ];
  const { exitCode } = await bringIn(write("night.senml", JSON.stringify(pack)));
  expect(exitCode).toBe(0);
  const [{ recording }] = await runsKept();
  expect(recording.columns.cabinet?.[0]).toBe(5);
});

test("analyse reads another logger's file by itself where it has one reading, and says how", async () => {
  const file = write("a.csv", foreign("2026-06-14 07:00Z", "2026-06-14 07:01Z"));
  const { exitCode, told } = await coldfall(["analyse", file, "--store", store]);
  expect(exitCode).toBe(0);
  expect(told).toMatch(/a\.csv is another logger's file, understood .* Column "Kühlschrank °C": the cabinet\./);
});

describe("a refusal says what to do", () => {
  test("of an order that no date fits, of a spreadsheet's own file, and where no fridge is named", async () => {
    const us = ["Time (UTC),Fridge °C", "05/25/2026 09:00,4.5", "05/25/2026 09:01,4.5", ""].join("\n");
    const order = await commandLine(write("us.csv", us), "--store", store, "--date-order", "dmy");
    expect([order.exitCode, order.told]).toEqual([2, expect.stringMatching(/dmy does not fit .*or give mdy\.\n$/)]);
    const sheet = await bringIn(write("log.xlsx", "PK\x03\x04 and more"));
    expect([sheet.exitCode, sheet.told]).toEqual([2, expect.stringContaining("save it as CSV")]);
    await using opened = await openStore(store);
    await opened.fridges.add({ name: "Fir" });
    const fridge = await bringIn(write("night.csv", nativeLog(...rows(0, 3))));
    expect([fridge.exitCode, fridge.told]).toEqual([2, expect.stringMatching(/--fridge and one of "Fir", "Larch"/)]);
  });

  test("of an option that does not exist: the help of that command", async () => {
    const { told } = await coldfall(["import", "a.csv", "--frigde", "Larch"]);
    expect(told).toContain('run "coldfall help import"');
  });
});

describe("--preview", () => {
  test("tells rows, span, sources and what cannot be read to the file's end, for our own format too", async () => {
    const bad = ["2026-06-04T21:00:00Z,ERR,1,2,gas", "2026-06-04T21:01:00Z,OL,1,2,gas"];
    const own = await commandLine(write("err.csv", nativeLog(...rows(0, 60), ...bad)), "--preview");
    expect(own.printed).toMatch(/ 62 rows, 4\sJune\s2026,\s20:00\sto\s21:01\sUTC\.\n/);
    expect(own.printed).toMatch(/Energy sources: gas in 2 rows, .* in 60 rows\./);
    expect(own.printed).toMatch(/Evaporator.*: 2 cells could not be read, the first in line 62: "ERR"\./);
    const lines = ["Time (UTC),Fridge °C,Supply (Hz)", "2026-06-04 07:00,4.5,50", "2026-06-04 07:01,4.5,50"];
    const junk = [...lines, "Total readings: 2", "End of file", ""].join("\n");
    const other = await commandLine(write("junk.csv", junk), "--preview");
    expect(other.printed).toContain("It does not say which energy source was on");
    expect(other.printed).toMatch(
      /2 rows could not be read and will be left out, the first in line 4: "Total readings: 2"/,
    );
  });

  test("tells a column that is the supply by its name and holds no numbers as left out", async () => {
    const text = "Time (UTC),Fridge °C,Supply (V)\n2026-06-04 07:00,4.5,low\n2026-06-04 07:01,4.5,fine\n";
    const { printed } = await commandLine(write("s.csv", text), "--preview");
    expect(printed).toContain('Column "Supply (V)" left out.');
  });

  test("shows what is understood, the first rows and what is open, and stores nothing", async () => {
    const file = write("a.csv", sameDay);
    const { exitCode, printed } = await commandLine(file, "--preview", "--store", at("none.coldfall"));
    expect(exitCode).toBe(0);
    expect(printed).toContain('Column "Kühlschrank °C": the cabinet.');
    expect(printed).toContain('line 2: "03.04.2026 07:00" (not settled)  evaporator −0.50 °C, cabinet 4.50 °C');
    expect(printed).toContain("Answer with --date-order dmy or mdy.");
    expect(() => readFileSync(at("none.coldfall"))).toThrow(/ENOENT/);
  });

  test("with the answers given shows the instants", async () => {
    const answers = ["--date-order", "dmy", "--zone", "Europe/Berlin"];
    const { printed } = await commandLine(write("a.csv", sameDay), "--preview", ...answers);
    expect(printed.replaceAll("\u00a0", " ")).toContain("line 2: 3 April 07:00 UTC+02:00  evaporator");
    expect(printed).not.toContain("Still open");
  });

  test("says by what mapping a log is read, and refuses one that does not fit", async () => {
    const file = write("a.csv", sameDay);
    const answers = ["--date-order", "dmy", "--zone", "Europe/Berlin"];
    await commandLine(file, "--preview", "--save-map", at("map.json"), ...answers);
    const { printed } = await commandLine(file, "--preview", "--map", at("map.json"));
    expect(printed).toMatch(/a\.csv is read as .*map\.json says\.\nThe whole file:\n {2}2 rows, /);
    const other = write("b.csv", sameDay.replace("Zeit", "Uhr"));
    expect((await commandLine(other, "--preview", "--map", at("map.json"))).exitCode).toBe(2);
  });

  test("says of our own format that nothing is to settle", async () => {
    const { printed } = await commandLine(write("night.csv", nativeLog(...rows(0, 3))), "--preview");
    expect(printed).toMatch(/is in our own format; there is nothing to settle/);
  });
});

describe("options that cannot be used are refused, naming what can", () => {
  for (const [option, value, expected] of [
    ["--date-order", "dym", "dmy, mdy, ymd"],
    ["--unit", "R", "C, F, K"],
    ["--zone", "Mars/Olympus", "Europe/Berlin"],
    ["--separator", "|", "comma, semicolon, tab"],
    ["--column", "Probe 1=attic", "COLUMN=POSITION"],
    ["--now", "noon", "2026-06-04T07:00:00Z"],
    ["--starts-at", "2026-06-04 21:00", "2026-06-07T18:00:00+02:00"],
    ["--decimal", "dot", "comma, point"],
  ] as const) {
    test(`${option} ${value}`, async () => {
      const { exitCode, told } = await commandLine(write("a.csv", sameDay), "--preview", option, value);
      expect(exitCode).toBe(2);
      expect(told).toContain(`${option}: "${value}" cannot be used`);
      expect(told).toContain(expected);
    });
  }

  test("a fridge that is not there, or one of several unnamed", async () => {
    const file = write("night.csv", nativeLog(...rows(0, 3)));
    expect((await bringIn(file, { fridge: "Birch" })).told).toMatch(/no fridge "Birch" .*"Larch"/);
    {
      await using opened = await openStore(store);
      await opened.fridges.add({ name: "Birch" });
    }
    expect((await bringIn(file)).told).toMatch(/--fridge and one of .*coldfall fridges/);
  });
});

describe("a column that the log does not have is refused, and those it has are named:", () => {
  const header = "Time,Probe 1,Probe 2,Outside";
  const logs = {
    "another logger's": `${header}\n${[0, 1, 2].map((index) => `${minute(index)},4.5,6.5,21.5`).join("\n")}\n`,
    "our own": `time,cabinet,ambient\n${[0, 1, 2].map((index) => `${minute(index)},6.5,21.5`).join("\n")}\n`,
    "a SenML pack": JSON.stringify(
      [0, 1, 2].map((index) => ({ n: "inside", u: "Cel", t: 1.7e9 + 60 * index, v: 6.5 })),
    ),
  };
  for (const [what, columns] of [
    ["another logger's", '"Time", "Probe 1", "Probe 2", "Outside"'],
    ["our own", '"time", "cabinet", "ambient"'],
    ["a SenML pack", '"inside"'],
  ] as const) {
    test(what, async () => {
      const file = write("night.log", logs[what]);
      for (const column of ["Probe 9", "probe 1", "7", "0"]) {
        const { exitCode, printed, told } = await commandLine(
          file,
          "--store",
          store,
          "--column",
          `${column}=evaporator`,
        );
        expect({ exitCode, printed }).toEqual({ exitCode: 2, printed: "" });
        expect(told).toBe(`There is no column "${column}" in "${file}"; its columns are ${columns}.\n`);
      }
      expect(await runsKept()).toEqual([]);
    });
  }

  test("a name and a number that are there are taken", async () => {
    const file = write("night.log", logs["another logger's"]);
    const told = [
      "--column",
      "Probe 1=evaporator",
      "--column",
      "3=cabinet",
      "--column",
      "Outside=ambient",
      "--unit",
      "C",
    ];
    expect(await commandLine(file, "--store", store, ...told)).toMatchObject({ exitCode: 0 });
    expect(Object.keys((await runsKept())[0].recording.columns)).toEqual(["evaporator", "cabinet", "ambient"]);
  });
});
