// How long a fit takes, as a ratio to one pass in C that only forms the sums (one-pass.c, compiled and timed in the
// same run, in turns with the fit). Least times after warm-up: other work on the machine only ever adds.

import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import { type FittedPullDown, fitPullDown } from "../../src/science/pull-down/pull-down-fit.ts";
import { pullDownIntervals } from "../../src/science/pull-down/pull-down-intervals.ts";
import { modelStretch } from "../science/pull-down/model-stretch.ts";
import { printMachine, printTable } from "./print.ts";

/** Readings, repeats of each timing, and the goal: plain fit over the C pass. */
const series = [
  { readings: 1_440, repeats: 1_000, goal: 6 },
  { readings: 43_200, repeats: 60, goal: 3 },
  { readings: 250_000, repeats: 12, goal: null },
] as const;
const robustGoal = 3;
const intervalsGoal = 5;
const turns = 11;

const folder = mkdtempSync(path.join(os.tmpdir(), "coldfall-bench-"));
try {
  const program = path.join(folder, "one-pass");
  execFileSync("cc", ["-O2", "-o", program, path.join(import.meta.dirname, "one-pass.c"), "-lm"]);
  printTable(
    [
      "readings",
      "C pass, ms",
      "plain fit, ms",
      "over C",
      "goal",
      "robust over plain",
      "intervals over plain",
      "µs per 1,000 readings",
    ],
    series.map((row) => timed(row, program)),
  );
  console.log(`\nGoals: robust within ${robustGoal} times plain, all profile intervals within ${intervalsGoal} times.`);
  printMachine();
} finally {
  rmSync(folder, { recursive: true });
}

function timed({ readings, repeats, goal }: (typeof series)[number], program: string): string[] {
  const stretch = modelStretch({ hours: 12, stepMinutes: 720 / (readings - 1) });
  const fit = fitPullDown(stretch) as FittedPullDown;
  const works = [
    () => fitPullDown(stretch),
    () => fitPullDown(stretch, { robust: true }),
    () => pullDownIntervals(fit),
  ];
  for (const work of works) leastOf(work, repeats);
  const taken = Array.from({ length: turns }, () => ({
    pass: Number(execFileSync(program, [String(readings), String(repeats)], { stdio: ["ignore", "pipe", "ignore"] })),
    works: works.map((work) => leastOf(work, repeats)),
  }));
  const pass = Math.min(...taken.map((turn) => turn.pass));
  const [plain, robust, intervals] = works.map((_, i) => Math.min(...taken.map((turn) => turn.works[i])));
  const overPass = plain / pass;
  const against = (ratio: number, limit: number) => `${ratio.toFixed(1)}${ratio <= limit ? "" : ` (missed: ${limit})`}`;
  return [
    readings.toLocaleString("en"),
    pass.toFixed(4),
    plain.toFixed(4),
    overPass.toFixed(1),
    goal === null ? "linear" : `${goal}${overPass <= goal ? "" : ", missed"}`,
    against(robust / plain, robustGoal),
    against(intervals / plain, intervalsGoal),
    ((1e6 * plain) / readings).toFixed(1),
  ];
}

/** Least time of one call. */
function leastOf(work: () => unknown, repeats: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < repeats; i++) {
    const from = performance.now();
    work();
    least = Math.min(least, performance.now() - from);
  }
  return least;
}
