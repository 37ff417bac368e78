// What a day that grows hot does to the two witnesses: sound stretches at ambients that climb or fall, against a known-good run in a
// steady one. npm run bench hot-morning-study prints markdown; the seeds were looked at while tuning cooling-in-heat.ts.

import { runEvidence } from "../../src/science/evidence/run-evidence.ts";
import { compareWith } from "../../src/science/strength/comparison.ts";
import { randomFridge, type SimulationPlan, simulateRun } from "../../src/simulate/index.ts";
import { printMachine, printTable } from "./print.ts";

const fridges = 40;
const schedule = [
  { source: "off", hours: 1 },
  { source: "mains", hours: 8 },
  { source: "off", hours: 3 },
  { source: "gas", hours: 7 },
  { source: "off", hours: 3 },
] as const;
const means = [18, 22, 26, 30, 34];
const swings = [0, 4, 8, 12];

const evidenceOf = (seed: number, fridgeSeed: number, ambient: SimulationPlan["ambient"]) =>
  runEvidence(
    simulateRun({
      name: `${seed}.csv`,
      seed,
      startUnixMs: Date.parse("2026-06-04T20:00:00Z"),
      fridge: randomFridge(fridgeSeed),
      schedule,
      ambient,
      samplingSeconds: 60,
    }).recording,
  );

/** Errors of ln(cooling), which is 0 in every one of these stretches. */
interface Errors {
  readonly meanCelsius: number;
  readonly swingKelvin: number;
  readonly source: string;
  readonly fins: number;
  readonly slope: number;
}

const errors = Array.from({ length: fridges }, (_, i) => i + 1).flatMap((seed): Errors[] => {
  const known = evidenceOf(seed, seed, { meanCelsius: 25, swingKelvin: 2, wanderKelvin: 0.3 });
  const [meanCelsius, swingKelvin] = [means[seed % 5], swings[(seed >> 1) % 4]];
  const test = evidenceOf(seed + 1000, seed, { meanCelsius, swingKelvin, wanderKelvin: 0.3 });
  return ["mains", "gas"].flatMap((source) => {
    const [here, there] = [test, known].map(({ stretches }) => stretches.find((one) => one.source === source));
    const found = here === undefined || there === undefined ? null : compareWith(here, there);
    if (!found?.logByFins || !found.logBySlope) return [];
    return [{ meanCelsius, swingKelvin, source, fins: found.logByFins.log, slope: found.logBySlope.log }];
  });
});

const rms = (of: readonly Errors[], key: "fins" | "slope") =>
  `${(100 * Math.sqrt(of.reduce((sum, one) => sum + one[key] ** 2, 0) / of.length)).toFixed(1)} %`;
const most = (of: readonly Errors[], key: "fins" | "slope") =>
  `${(100 * Math.max(...of.map((one) => Math.abs(one[key])))).toFixed(1)} %`;
const row = (name: string, of: readonly Errors[]) => [
  name,
  `${of.length}`,
  rms(of, "slope"),
  most(of, "slope"),
  rms(of, "fins"),
  most(of, "fins"),
];

printTable(
  ["between night and day", "stretches", "slope: rms error", "largest", "fins: rms error", "largest"],
  [
    ...swings.flatMap((swing) =>
      ["mains", "gas"].map((source) =>
        row(
          `${swing} K, ${source === "mains" ? "mains by night" : "gas in the morning"}`,
          errors.filter((one) => one.swingKelvin === swing && one.source === source),
        ),
      ),
    ),
    row("all", errors),
  ],
);
printMachine();
