// A stranger's log that leaves something open is told on the command line of every command that reads logs, as `import` is told,
// and judged as the imported run is.

import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { boardStart } from "./board-lines.ts";
import { pullDownLog } from "./pull-down-log.ts";
import { coldfall } from "./recorded-terminal.ts";

let folder = "";
const at = (name: string) => join(folder, name);

interface Row {
  readonly unixMs: number;
  /** °C. */
  readonly readings: readonly number[];
  readonly source: string;
}

const rowsOf = (day: number): readonly Row[] =>
  pullDownLog({ strength: 1, day })
    .trimEnd()
    .split("\n")
    .slice(1)
    .map((line) => {
      const [time, ...cells] = line.split(",");
      return { unixMs: Date.parse(time), readings: cells.slice(0, 3).map(Number), source: cells[3] };
    });

const localText = (unixMs: number) => new Date(unixMs + 7_200_000).toISOString().slice(0, 19).replace("T", " ");
const slashed = (unixMs: number) => {
  const [year, month, day, ...clock] = localText(unixMs).split(/[- :]/);
  return `${day}/${month}/${year} ${clock.join(":")}`;
};
const written = (header: string, day: number, line: (row: Row, index: number) => string) =>
  `${[header, ...rowsOf(day).map(line)].join("\n")}\n`;
const fahrenheit = ({ readings }: Row) => readings.map((celsius) => (celsius * 1.8 + 32).toFixed(2)).join(",");

/** By what each leaves open: how it is written, and what has to be told. */
const strangers = {
  "its zone": {
    log: (day: number) =>
      written("Time,Fins °C,Cabinet °C,Outside °C,Source", day, (row) =>
        [localText(row.unixMs), ...row.readings, row.source].join(","),
      ),
    told: ["--zone", "Europe/Berlin"],
    asks: /--zone with/,
  },
  "its zone and the order of day and month": {
    log: (day: number) =>
      written("Time,Fins °C,Cabinet °C,Outside °C,Source", day, (row) =>
        [slashed(row.unixMs), ...row.readings, row.source].join(","),
      ),
    told: ["--zone", "+02:00", "--date-order", "dmy"],
    asks: /--date-order dmy or mdy/,
  },
  "its unit": {
    log: (day: number) =>
      written("Time,Fins,Fridge,Outside,Source", day, (row) =>
        [new Date(row.unixMs).toISOString(), ...row.readings, row.source].join(","),
      ),
    told: ["--unit", "C"],
    asks: /say which with --unit C or F/,
  },
  "that the unit under the names of our own format is another": {
    log: (day: number) =>
      written("time,evaporator,cabinet,ambient,source", day, (row) =>
        [new Date(row.unixMs).toISOString(), fahrenheit(row), row.source].join(","),
      ),
    told: ["--unit", "F"],
    asks: null,
  },
  "what its columns are": {
    log: (day: number) =>
      written("Time,Probe 1 °C,Probe 2 °C,Probe 3 °C,Source", day, (row) =>
        [new Date(row.unixMs).toISOString(), ...row.readings, row.source].join(","),
      ),
    told: ["--column", "Probe 1 °C=evaporator", "--column", "2=none", "--column", "3=cabinet", "--column", "4=ambient"],
    asks: /--column "Probe 1/,
  },
  "when its count began, and in what it counts": {
    log: (day: number) =>
      written("Elapsed,Fins °C,Cabinet °C,Outside °C,Source", day, (row, index) =>
        [index, ...row.readings, row.source].join(","),
      ),
    told: ["--starts-at", "2026-06-02T09:00:00+02:00", "--elapsed-unit", "min"],
    asks: /--elapsed-unit ms, s, min or h|--starts-at and a time/,
  },
  "what marks its decimals": {
    log: (day: number) =>
      written("Time;Fins °C;Cabinet °C;Outside °C;Source", day, (row) =>
        [
          new Date(row.unixMs).toISOString(),
          ...row.readings.map((value) => value.toFixed(3).replace(".", ",")),
          row.source,
        ].join(";"),
      ),
    told: ["--decimal", "comma", "--separator", "semicolon"],
    asks: null,
  },
  "what time it was when its relative times were written": {
    log: (day: number) => {
      const rows = rowsOf(day);
      const last = rows[rows.length - 1].unixMs;
      return JSON.stringify(
        rows.flatMap(({ unixMs, readings: [fins, cabinet, ambient], source }) => [
          { n: "evaporator", u: "Cel", t: (unixMs - last) / 1000, v: fins },
          { n: "cabinet", u: "Cel", t: (unixMs - last) / 1000, v: cabinet },
          { n: "ambient", u: "Cel", t: (unixMs - last) / 1000, v: ambient },
          { n: "source", t: (unixMs - last) / 1000, vs: source },
        ]),
      );
    },
    told: ["--now", "2026-06-02T17:59:00Z"],
    asks: /say with --now/,
  },
} as const;

type Kind = keyof typeof strangers;
const kinds = Object.keys(strangers) as Kind[];
const fileOf = (kind: Kind, day = 1) =>
  at(`${kinds.indexOf(kind)}-${day}.${kind.startsWith("what time") ? "json" : "csv"}`);

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-told-logs-"));
  for (const kind of kinds) {
    for (const day of [1, 2]) writeFileSync(fileOf(kind, day), strangers[kind].log(day));
  }
  for (const day of [1, 2, 3]) writeFileSync(at(`own-${day}.csv`), pullDownLog({ strength: 1, day }));
});
afterAll(() => rmSync(folder, { recursive: true }));

/** A replay waits by it. */
const clock = { now: () => performance.now() };

/** The run's readings stand in the store in its own order: only the hashes of what was read differ. */
const withoutHashes = (printed: string) => printed.replaceAll(/[0-9a-f]{64}/g, "");

describe("a log that does not say", () => {
  for (const kind of kinds) {
    const { told, asks } = strangers[kind];
    test(`${kind} is judged as the imported run is once that is told`, async () => {
      const log = fileOf(kind);
      if (asks !== null) {
        const refused = await coldfall(["analyse", log]);
        expect(refused).toMatchObject({ exitCode: 2, printed: "" });
        expect(refused.told).toMatch(asks);
        expect(refused.told).not.toMatch(/with "coldfall import"/);
      }
      const store = ["--store", at(`${kinds.indexOf(kind)}.coldfall`)];
      await coldfall(["fridges", "add", "Larch", ...store]);
      const brought = await coldfall(["import", log, ...told, ...store]);
      expect(brought.exitCode, brought.told).toBe(0);
      const { runs } = JSON.parse((await coldfall(["runs", "--json", ...store])).printed);
      for (const [command, ...rest] of [["analyse"], ["hot-day", "--ambient", "32"]]) {
        const ofRun = await coldfall([command, runs[0].id, ...rest, "--json", ...store]);
        const ofFile = await coldfall([command, log, ...told, ...rest, "--json"]);
        expect(ofFile.exitCode, ofFile.told).toBe(0);
        expect(withoutHashes(ofFile.printed)).toBe(withoutHashes(ofRun.printed));
      }
    });
  }
});

test("baseline, compare, probes and a replay are told the same", async () => {
  const [one, other] = [fileOf("its unit"), fileOf("its unit", 2)];
  const told = ["--unit", "C"];
  const store = ["--store", at("replayed.coldfall")];
  for (const [args, plain] of [
    [
      ["compare", one, other],
      ["compare", at("own-1.csv"), at("own-2.csv")],
    ],
    [
      ["probes", "warm", one],
      ["probes", "warm", at("own-1.csv")],
    ],
    [
      ["probes", "slush", one],
      ["probes", "slush", at("own-1.csv")],
    ],
  ]) {
    const refused = await coldfall(args);
    expect([refused.exitCode, refused.told]).toEqual([2, expect.stringMatching(/say which with --unit C or F/)]);
    const { exitCode, printed, told: sentences } = await coldfall([...args, ...told]);
    expect(exitCode, sentences).toBe(0);
    const named = (text: string) => text.replaceAll(/\d-(?=[12]\.csv)|own-(?=[12]\.csv)/g, "");
    if (args[0] === "probes") expect(named(printed)).toBe(named((await coldfall(plain)).printed));
    else expect(printed).toMatch(/On mains|on mains/);
  }
  const kept = ["--store", at("compared.coldfall")];
  await coldfall(["fridges", "add", "Larch", ...kept]);
  for (const log of [one, other]) await coldfall(["import", log, ...told, ...kept]);
  const ids = JSON.parse((await coldfall(["runs", "--json", ...kept])).printed).runs.map(
    ({ id }: { id: string }) => id,
  );
  const ofRuns = await coldfall(["compare", ids[1], ids[0], "--json", ...kept]);
  const ofFiles = await coldfall(["compare", one, other, ...told, "--json"]);
  // A run has a sheet, if only with its fridge; that a file has none is a warning.
  const compared = (printed: string) => JSON.stringify({ ...JSON.parse(withoutHashes(printed)), warnings: [] });
  expect(compared(ofFiles.printed)).toBe(compared(ofRuns.printed));
  const out = at("told.baseline.json");
  expect((await coldfall(["baseline", one, "--out", out])).exitCode).toBe(2);
  expect((await coldfall(["baseline", one, "--out", out, ...told])).exitCode).toBe(0);
  const replay = ["record", "--fridge", "Larch", "--replay", one, "--speed", "1000000000", ...store];
  expect((await coldfall(replay)).told).toMatch(/say which with --unit C or F/);
  expect((await coldfall([...replay, ...told], clock)).exitCode).toBe(0);
  const { runs } = JSON.parse((await coldfall(["runs", "--json", ...store])).printed);
  await coldfall(["export", runs[0].id, "--out", at("replayed.csv"), ...store]);
  expect(readFileSync(at("replayed.csv"), "utf8").replaceAll("\r", "")).toBe(readFileSync(at("own-1.csv"), "utf8"));
});

test("a replay marks the energy sources that are told with --source-at", async () => {
  writeFileSync(at("sourceless.csv"), pullDownLog({ strength: 1, day: 5, hasSourceColumn: false }));
  const store = ["--store", at("marked.coldfall")];
  const marks = ["--source-at", "2026-06-06T08:00:00Z=mains", "--source-at", "2026-06-06T16:00:00Z=off"];
  const replay = ["record", "--fridge", "Larch", "--replay", at("sourceless.csv"), "--speed", "1000000000", ...store];
  expect((await coldfall([...replay, ...marks], clock)).exitCode).toBe(0);
  const { runs } = JSON.parse((await coldfall(["runs", "--json", ...store])).printed);
  const ofRun = JSON.parse((await coldfall(["analyse", runs[0].id, "--json", ...store])).printed);
  const ofFile = JSON.parse((await coldfall(["analyse", at("sourceless.csv"), ...marks, "--json"])).printed);
  expect(ofRun.sources).toEqual(ofFile.sources);
});

test("what is told is for the logs that need it: a known-good log in our own format keeps its own columns", async () => {
  const known = ["--known-good", at("own-2.csv"), "--known-good", at("own-3.csv"), "--json"];
  const plain = JSON.parse((await coldfall(["analyse", at("own-1.csv"), ...known])).printed);
  const inCelsius = await coldfall(["analyse", fileOf("its unit"), "--unit", "C", ...known]);
  expect(JSON.parse(inCelsius.printed).sources[0].verdict).toBe(plain.sources[0].verdict);
  const kind = "what its columns are";
  const renamed = await coldfall(["analyse", fileOf(kind), ...strangers[kind].told, ...known]);
  expect(JSON.parse(renamed.printed).sources).toEqual(plain.sources);
});

test("of two logs that count, one start would lay one of them where it never was", async () => {
  const kind = "when its count began, and in what it counts";
  const { told } = await coldfall(["compare", fileOf(kind), fileOf(kind, 2), ...strangers[kind].told]);
  expect(told).toMatch(
    /^--starts-at: .*the count of one log began, and .*5-1\.csv and .*5-2\.csv are all such files; .*coldfall import/,
  );
});

test("a column that a log does not have is refused, naming the log", async () => {
  const { exitCode, told } = await coldfall(["analyse", fileOf("its zone"), "--zone", "UTC", "--column", "x=cabinet"]);
  expect([exitCode, told]).toEqual([
    2,
    expect.stringMatching(/^There is no column "x" in "[^"]*0-1\.csv"; its columns are "Time"/),
  ]);
});

test("an order of day and month that fits no date is refused", async () => {
  const kind = "its zone and the order of day and month";
  writeFileSync(at("late.csv"), strangers[kind].log(20));
  const { told } = await coldfall(["analyse", at("late.csv"), "--zone", "UTC", "--date-order", "mdy"]);
  expect(told).toMatch(/--date-order mdy does not fit the dates of this log/);
});

describe("refused, as it would change nothing:", () => {
  for (const [line, sentence] of [
    [
      "analyse OWN --zone Europe/Berlin",
      /^--zone is for times that do not say their time zone, and no log given has such/,
    ],
    ["analyse OWN --date-order dmy", /^--date-order is for dates .*, and no log given has such/],
    [
      "compare OWN OTHER --separator semicolon",
      /^--separator says how another logger's CSV is to be read, and no log given is one/,
    ],
    ["hot-day OWN --ambient 32 --decimal comma", /^--decimal says how another logger's CSV/],
    ["analyse OWN --starts-at 2026-06-02T09:00:00Z", /^--starts-at is for a log whose times are counted/],
    ["analyse OWN --elapsed-unit min", /^--elapsed-unit is for a log whose times are counted/],
    ["analyse OWN --now 2026-06-02T09:00:00Z", /^--now is for a SenML file/],
    [
      "analyse ZONELESS --zone UTC --unit F",
      /says itself that its temperatures are in °C, and --unit F changes nothing/,
    ],
    ["probes slush OWN --zone UTC", /^--zone is for times/],
    ["record --fridge Larch --port /dev/none --unit F", /^--unit changes nothing without --replay/],
    ["analyse ZONELESS --zone UTC --map map.json", /^Option '--map <file>' cannot be used with option '--zone/],
    ["import OWN --preview --zone UTC", /^--zone is for times/],
  ] as const) {
    test(line, async () => {
      const names: Readonly<Record<string, string>> = {
        OWN: at("own-1.csv"),
        OTHER: at("own-2.csv"),
        ZONELESS: fileOf("its zone"),
      };
      const refused = await coldfall(line.split(" ").map((word) => names[word] ?? word));
      expect(refused).toMatchObject({ exitCode: 2, printed: "" });
      expect(refused.told).toMatch(sentence);
    });
  }
});

test("runs of the store keep what they were told, and a board's own file is checked as it stands", async () => {
  const store = ["--store", at("runs.coldfall")];
  await coldfall(["fridges", "add", "Larch", ...store]);
  await coldfall(["import", at("own-1.csv"), ...store]);
  const [{ id }] = JSON.parse((await coldfall(["runs", "--json", ...store])).printed).runs;
  for (const args of [
    ["analyse", id, "--unit", "F"],
    ["probes", "warm", id, "--zone", "UTC"],
  ]) {
    expect((await coldfall([...args, ...store])).told).toMatch(/^--(unit|zone) says how a file is to be read/);
  }
  const probe = { probeId: "28AA", role: "cabinet", celsius: () => 0 } as const;
  writeFileSync(at("board.txt"), boardStart({ boot: 1, rounds: 30, everySeconds: 20 }, [probe]));
  expect((await coldfall(["probes", "slush", at("board.txt")])).exitCode).toBe(0);
  const { told } = await coldfall(["probes", "slush", at("board.txt"), "--column", "28AA=cabinet"]);
  expect(told).toMatch(/^--column says how another logger's CSV is to be read, and no log given is one/);
});
