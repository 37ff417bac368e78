// From a log file to a durable store: `coldfall import` as a whole process, against the sqlite3 shell's own CSV import
// of the same file into a table on disk. And the memory that a log of 300 MB takes, in our own format and in another's.
// npm run bench import-speed prints a markdown table.

import { execFileSync, spawnSync } from "node:child_process";
import { closeSync, mkdtempSync, openSync, rmSync, statSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Recording } from "../../src/schema/index.ts";
import { knownGoodFridge, simulateRun } from "../../src/simulate/index.ts";
import { printMachine, printTable } from "./print.ts";

const folder = mkdtempSync(join(tmpdir(), "coldfall-bench-"));
const command = fileURLToPath(new URL("../../src/cli/coldfall.js", import.meta.url));
const megabyte = 1024 * 1024;

/** A day and a night at 1 Hz, noisy, in steps of a sixteenth of a kelvin. */
const { recording } = simulateRun({
  name: "night",
  seed: 5,
  startUnixMs: Date.parse("2026-06-01T19:00:00Z"),
  fridge: knownGoodFridge(),
  schedule: [
    { source: "off", hours: 1 },
    { source: "mains", hours: 9 },
  ],
  ambient: { meanCelsius: 24, swingKelvin: 3, wanderKelvin: 0.3 },
  samplingSeconds: 1,
});

/** The run over and over, time going on, until the file is as large as wanted. */
function writeLog(
  name: string,
  header: string,
  bytes: number,
  row: (columns: Recording["columns"], at: number, unixMs: number) => string,
): string {
  const path = join(folder, name);
  const file = openSync(path, "w");
  let written = writeSync(file, header);
  const { columns, unixMs } = recording;
  for (let second = 0; written < bytes; ) {
    const rows: string[] = [];
    for (let i = 0; i < 20_000; i++, second++)
      rows.push(row(columns, second % unixMs.length, unixMs[0] + second * 1000));
    written += writeSync(file, rows.join(""));
  }
  closeSync(file);
  return path;
}

const cell = (column: Float64Array | undefined, at: number) => `${column?.[at] ?? ""}`;
const nativeRow = (columns: Recording["columns"], at: number, unixMs: number) =>
  `${new Date(unixMs).toISOString().slice(0, 19)}Z,${cell(columns.evaporator, at)},${cell(columns.cabinet, at)},${cell(columns.ambient, at)},mains\n`;
const foreignRow = (columns: Recording["columns"], at: number, unixMs: number) => {
  const [year, month, day, time] = new Date(unixMs).toISOString().split(/[-T.]/);
  const cells = [columns.evaporator, columns.cabinet, columns.ambient].map((column) =>
    cell(column, at).replace(".", ","),
  );
  return `${day}.${month}.${year} ${time};${cells.join(";")};Netz\n`;
};

interface Taken {
  readonly seconds: number;
  /** Of the processor, by the process and for it: what a busy machine does not change. */
  readonly processorSeconds: number;
  readonly megabytes: number;
}

/** A whole process, timed and weighed. */
function measured(program: string, args: readonly string[], input?: string): Taken {
  const from = performance.now();
  const run = spawnSync("/usr/bin/time", ["-v", program, ...args], {
    maxBuffer: 1e9,
    ...(input === undefined ? {} : { input }),
  });
  const seconds = (performance.now() - from) / 1000;
  if (run.status !== 0) throw new Error(`${program} ${args.join(" ")}: ${String(run.stderr).slice(0, 2000)}`);
  const kilobytes = Number(/Maximum resident set size \(kbytes\): (\d+)/.exec(String(run.stderr))?.[1] ?? Number.NaN);
  const [user, system] = ["User", "System"].map((kind) =>
    Number(new RegExp(`${kind} time \\(seconds\\): ([\\d.]+)`).exec(String(run.stderr))?.[1] ?? Number.NaN),
  );
  return { seconds, processorSeconds: user + system, megabytes: kilobytes / 1024 };
}

let stores = 0;
/** Into a store of its own, so that no import finds the file there already. */
function imported(file: string, ...options: readonly string[]): Taken {
  const store = join(folder, `store-${stores++}.coldfall`);
  execFileSync(process.execPath, [command, "fridges", "add", "Larch", "--store", store], { stdio: "ignore" });
  return measured(process.execPath, [command, "import", file, "--fridge", "Larch", "--store", store, ...options]);
}

const hasSqlite = spawnSync("sqlite3", ["--version"]).status === 0;
const bySqlite = (file: string): Taken =>
  measured("sqlite3", [join(folder, `table-${stores++}.db`)], `.mode csv\n.import ${file} log\n`);

const median = (takes: readonly Taken[]): Taken => [...takes].sort((a, b) => a.seconds - b.seconds)[takes.length >> 1];
const figures = ({ seconds, processorSeconds, megabytes }: Taken) => [
  `${seconds.toFixed(1)} s`,
  `${processorSeconds.toFixed(1)} s`,
  `${megabytes.toFixed(0)} MB`,
];

try {
  const large = writeLog("large.csv", "time,evaporator,cabinet,ambient,source\n", 300 * megabyte, nativeRow);
  const small = writeLog("small.csv", "time,evaporator,cabinet,ambient,source\n", 30 * megabyte, nativeRow);
  const foreign = writeLog("foreign.csv", "Zeit;Rippen °C;Innen °C;Außen °C;Betrieb\n", 300 * megabyte, foreignRow);
  const rows: string[][] = [];
  for (const [name, file] of [
    ["30 MB", small],
    ["300 MB", large],
  ] as const) {
    // Turn and turn about, so that what else the machine does falls on both.
    const takes = [1, 2, 3].map(() => ({ ours: imported(file), theirs: hasSqlite ? bySqlite(file) : null }));
    const ours = median(takes.map(({ ours }) => ours));
    rows.push([
      `our format, ${name} (${(statSync(file).size / megabyte).toFixed(0)}), coldfall import`,
      ...figures(ours),
      "",
    ]);
    const theirs = takes.flatMap(({ theirs }) => theirs ?? []);
    if (theirs.length === 0) continue;
    const ratio = median(theirs).seconds / ours.seconds;
    rows.push([
      `the same, sqlite3 shell's .import into a table`,
      ...figures(median(theirs)),
      `${ratio.toFixed(1)} times ours (goal: 1 or more)`,
    ]);
  }
  rows.push([
    "another logger's, 300 MB, coldfall import",
    ...figures(imported(foreign, "--zone", "Europe/Berlin")),
    "",
  ]);
  printTable(
    ["from file to durable store, whole process", "time", "processor", "peak memory (goal 300 MB)", "ratio"],
    rows,
  );
  if (!hasSqlite) console.log("\nThe sqlite3 shell is not installed here, so nothing was compared with it.");
  printMachine();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
