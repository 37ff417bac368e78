// From file to verdict: 31 h, three sources, a row every 30 s, three known-good logs; warm, and as a whole process. And a
// million rows, with the memory it takes. node tests/bench/run.ts analyse-speed prints a markdown table.

import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { nativeLogText, readLogFile } from "../../src/ingest/index.ts";
import { analyse, usualMargin } from "../../src/science/index.ts";
import { knownGoodFridge, simulateRun } from "../../src/simulate/index.ts";

const folder = mkdtempSync(join(tmpdir(), "coldfall-bench-"));
const command = fileURLToPath(new URL("../../src/cli/coldfall.js", import.meta.url));

const schedule = [
  { source: "off", hours: 1 },
  { source: "mains", hours: 9 },
  { source: "off", hours: 3 },
  { source: "gas", hours: 8 },
  { source: "off", hours: 3 },
  { source: "dc12", hours: 7 },
] as const;

function logFile(name: string, seed: number, samplingSeconds: number): string {
  const { recording } = simulateRun({
    name,
    seed,
    startUnixMs: Date.parse("2026-06-01T19:00:00Z") + seed * 86_400_000,
    fridge: knownGoodFridge(),
    schedule,
    ambient: { meanCelsius: 24, swingKelvin: 3, wanderKelvin: 0.3 },
    samplingSeconds,
    nightToNight: { heat: 0.02, cooling: 0.015 },
    doors: [{ atHours: 16, seconds: 30 }],
  });
  const path = join(folder, name);
  writeFileSync(path, nativeLogText(recording));
  return path;
}

/** Least time of one call: other work on the machine only ever adds. */
async function leastMilliseconds(calls: number, work: () => unknown): Promise<number> {
  let least = Number.POSITIVE_INFINITY;
  for (let call = 0; call < calls; call++) {
    const from = performance.now();
    await work();
    least = Math.min(least, performance.now() - from);
  }
  return least;
}

try {
  const test = logFile("test.csv", 9, 30);
  const known = [1, 2, 3].map((seed) => logFile(`known-${seed}.csv`, seed, 30));
  const wholeJob = async () => {
    const read = async (file: string) => (await readLogFile(file)).recording;
    const knownGood = await Promise.all(known.map(read));
    analyse([await read(test)], { knownGood, baselineKind: "own", margin: usualMargin });
  };
  for (let i = 0; i < 5; i++) await wholeJob();
  const warm = await leastMilliseconds(40, wholeJob);
  const args = [command, "analyse", test, ...known.flatMap((file) => ["--known-good", file])];
  // Two cores that others share: of seven starts the least still varies by a tenth, of twenty hardly.
  const cold = await leastMilliseconds(20, () => execFileSync(process.execPath, args, { stdio: "ignore" }));
  const empty = await leastMilliseconds(20, () => execFileSync(process.execPath, ["-e", "0"], { stdio: "ignore" }));

  const million = logFile("million.csv", 3, (31 * 3600) / 1_000_000);
  const from = performance.now();
  const big = spawnSync("/usr/bin/time", ["-v", process.execPath, command, "analyse", million, "--json"], {
    maxBuffer: 1e9,
  });
  const seconds = (performance.now() - from) / 1000;
  const kilobytes = Number(/Maximum resident set size \(kbytes\): (\d+)/.exec(String(big.stderr))?.[1] ?? Number.NaN);

  console.log("| from file to verdict | measured | goal |");
  console.log("| --- | --- | --- |");
  console.log(`| 31 h, 3 sources, 3,720 rows, 3 known-good logs, warm | ${warm.toFixed(0)} ms | 150 ms |`);
  console.log(
    `| the same as a whole process (an empty Node process here: ${empty.toFixed(0)} ms) | ${cold.toFixed(0)} ms | 500 ms |`,
  );
  console.log(`| 1,000,000 rows, whole process, exit code ${big.status} | ${seconds.toFixed(1)} s | 3 s |`);
  console.log(`| its peak memory | ${(kilobytes / 1024).toFixed(0)} MB | 400 MB |`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
