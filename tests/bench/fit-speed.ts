// How long a fit takes, as a ratio to one pass in C that only forms the sums (one-pass.c, compiled and timed in the
// same run, in turns with the fit so that a busy machine slows both). Medians after warm-up.

import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import { median } from "simple-statistics";
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
  for (const work of works) millisecondsOf(work, repeats);
  // A ratio within one turn sees the machine in one mood.
  const taken = Array.from({ length: turns }, () => {
    const pass = Number(
      execFileSync(program, [String(readings), String(repeats)], { stdio: ["ignore", "pipe", "ignore"] }),
    );
    const [plain, robust, intervals] = works.map((work) => millisecondsOf(work, repeats));
    return { pass, plain, robust, intervals };
  });
  const overPass = median(taken.map(({ plain, pass }) => plain / pass));
  const against = (ratio: number, limit: number) => `${ratio.toFixed(1)}${ratio <= limit ? "" : ` (missed: ${limit})`}`;
  const plain = median(taken.map((turn) => turn.plain));
  return [
    readings.toLocaleString("en"),
    median(taken.map(({ pass }) => pass)).toFixed(4),
    plain.toFixed(4),
    overPass.toFixed(1),
    goal === null ? "linear" : `${goal}${overPass <= goal ? "" : ", missed"}`,
    against(median(taken.map(({ robust, plain }) => robust / plain)), robustGoal),
    against(median(taken.map(({ intervals, plain }) => intervals / plain)), intervalsGoal),
    ((1e6 * plain) / readings).toFixed(1),
  ];
}

/** Median time of one call. */
function millisecondsOf(work: () => unknown, repeats: number): number {
  const times = Array.from({ length: repeats }, () => {
    const from = performance.now();
    work();
    return performance.now() - from;
  });
  return median(times);
}
