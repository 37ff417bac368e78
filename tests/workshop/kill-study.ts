// Recording and importing killed at random instants: after each kill the store must open, hold every reading that was
// acknowledged, be whole, and go on. The bench of the same name does it 200 times, a test 20 times.

import { spawn } from "node:child_process";
import { rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { nativeLogText } from "../../src/ingest/index.ts";
import type { Recording } from "../../src/schema/index.ts";
import { knownGoodFridge, seededRandom, simulateRun } from "../../src/simulate/index.ts";
import { openStore } from "../../src/store/index.ts";

/** What came of a study. Anything but zero in the last three is a failure of the store. */
export interface KillCounts {
  readonly kills: number;
  /** Kills that fell between the first and the last write: the others prove nothing. */
  readonly amidWriting: number;
  /** Logs that went in whole, however often they were interrupted. */
  readonly finished: number;
  /** Acknowledged readings that a store did not hold. */
  readonly lost: number;
  /** Stores that a check found damaged. */
  readonly damaged: number;
  /** Imports of which a part was there. */
  readonly halfImported: number;
}

const log = (samplingSeconds: number): Recording =>
  simulateRun({
    name: "night.csv",
    seed: 5,
    startUnixMs: Date.parse("2026-06-04T18:00:00Z"),
    fridge: knownGoodFridge(),
    schedule: [
      { source: "off", hours: 1 },
      { source: "mains", hours: 7 },
    ],
    ambient: { meanCelsius: 24, swingKelvin: 2, wanderKelvin: 0.2 },
    samplingSeconds,
  }).recording;

/** A child that ended: what it wrote, and whether it was killed. */
interface Ended {
  readonly lines: readonly string[];
  readonly wasKilled: boolean;
}

/** Runs a child and kills it so many ms after it wrote its line number `line`. */
function killed(script: string, args: readonly string[], line: number, afterMs: number): Promise<Ended> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [join(import.meta.dirname, script), ...args], {
      stdio: ["ignore", "pipe", "inherit"],
    });
    let text = "";
    let timer: NodeJS.Timeout | undefined;
    child.stdout.setEncoding("utf8").on("data", (part: string) => {
      text += part;
      if (text.split("\n").length > line) timer ??= setTimeout(() => child.kill("SIGKILL"), afterMs);
    });
    child.once("close", (_code, signal) => {
      clearTimeout(timer);
      resolve({ lines: text.split("\n").filter((line) => line !== ""), wasKilled: signal === "SIGKILL" });
    });
  });
}

/**
 * Kills a replay and an import in turn until so many kills have fallen.
 *
 * @param folder where logs and stores may be made
 */
export async function killStudy(folder: string, kills: number, seed: number): Promise<KillCounts> {
  const random = seededRandom(seed, "kills");
  const counts = { kills: 0, amidWriting: 0, finished: 0, lost: 0, damaged: 0, halfImported: 0 };
  const live = log(10);
  const big = log(0.2);
  const [liveLog, bigLog] = [join(folder, "live.csv"), join(folder, "big.csv")];
  writeFileSync(liveLog, nativeLogText(live));
  writeFileSync(bigLog, nativeLogText(big));
  for (let round = 0; counts.kills < kills; round++) {
    const store = join(folder, `store-${round}.coldfall`);
    const isImport = round % 4 === 3;
    if (isImport) await killImport(store, bigLog, big.unixMs.length, random.uniform() * 900, counts);
    else await killReplay(store, liveLog, live, () => 20 + random.uniform() * 500, kills, counts);
    for (const ending of ["", "-wal", "-shm"]) rmSync(`${store}${ending}`, { force: true });
  }
  return counts;
}

type Counting = { -readonly [K in keyof KillCounts]: number };

/** One log replayed into one store, killed again and again until it is in. */
async function killReplay(
  file: string,
  logFile: string,
  live: Recording,
  afterMs: () => number,
  kills: number,
  counts: Counting,
): Promise<void> {
  for (;;) {
    const { lines, wasKilled } = await killed("replaying-process.ts", [file, logFile], 2, afterMs());
    const acknowledged = lines.map(Number).filter(Number.isFinite);
    const isDone = lines.includes("done");
    if (wasKilled) {
      counts.kills += 1;
      if (acknowledged.length > 0 && !isDone) counts.amidWriting += 1;
    }
    await using store = await openStore(file);
    if ((await store.care.check()).damage.length > 0) counts.damaged += 1;
    const { runs } = await store.runs.list();
    const held = runs.length === 0 ? 0 : (await store.readings.series(runs[0].id, "cabinet")).unixMs.length;
    const newest = acknowledged.at(-1) ?? Number.NEGATIVE_INFINITY;
    counts.lost += Math.max(0, live.unixMs.filter((unixMs) => unixMs <= newest).length - held);
    if (isDone) {
      counts.finished += 1;
      counts.lost += live.unixMs.length - held;
      return;
    }
    if (counts.kills >= kills) return;
  }
}

/** One big log brought in, killed once, and brought in again: nothing of it is there, or all. */
async function killImport(
  file: string,
  logFile: string,
  rows: number,
  afterMs: number,
  counts: Counting,
): Promise<void> {
  const first = await killed("importing-process.ts", [file, logFile], 1, afterMs);
  const wasDone = first.lines.includes("done");
  if (first.wasKilled) {
    counts.kills += 1;
    if (!wasDone) counts.amidWriting += 1;
  }
  const held = async () => {
    await using store = await openStore(file);
    if ((await store.care.check()).damage.length > 0) counts.damaged += 1;
    const { runs } = await store.runs.list();
    return runs.length === 0 ? 0 : (await store.readings.series(runs[0].id, "cabinet")).unixMs.length;
  };
  const after = await held();
  if (after !== 0 && after !== rows) counts.halfImported += 1;
  if (wasDone && after !== rows) counts.lost += rows - after;
  await killed("importing-process.ts", [file, logFile], 1, 600_000);
  if ((await held()) === rows) counts.finished += 1;
  else counts.lost += rows;
}
