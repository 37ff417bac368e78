// Runs of one simulated fridge for the tests of the main job: a night on mains, warming back, an attended day on gas.

import type { Recording } from "../../src/schema/index.ts";
import {
  type AnalyseOptions,
  type Analysis,
  analyse,
  type SourceFinding,
  type StretchFinding,
} from "../../src/science/index.ts";
import { knownGoodFridge, type SimulatedRun, type SimulationPlan, simulateRun } from "../../src/simulate/index.ts";

export const schedule = [
  { source: "off", hours: 1 },
  { source: "mains", hours: 8 },
  { source: "off", hours: 3 },
  { source: "gas", hours: 7 },
] as const;

const dayMs = 86_400_000;

/** A run of the fridge; the seed also moves it to another day. */
export const simulated = (seed: number, change: Partial<SimulationPlan> = {}): SimulatedRun =>
  simulateRun({
    name: `run ${seed}.csv`,
    seed,
    startUnixMs: Date.parse("2026-06-01T19:00:00Z") + seed * dayMs,
    fridge: knownGoodFridge(),
    schedule,
    ambient: { meanCelsius: 25, swingKelvin: 2 },
    samplingSeconds: 60,
    nightToNight: { heat: 0.015, cooling: 0.015 },
    ...change,
  });

export const knownGood: readonly Recording[] = [1, 2, 3].map((seed) => simulated(seed).recording);

export const judged = (run: SimulatedRun, options: Partial<AnalyseOptions> = {}): Analysis =>
  analyse([run.recording], { knownGood, baselineKind: "own", margin: 0.15, ...options });

export function sourceIn(analysis: Analysis, source: SourceFinding["source"]): SourceFinding {
  const found = analysis.sources.find((one) => one.source === source);
  if (found === undefined) throw new Error(`no ${source} in ${analysis.sources.map((one) => one.source).join(", ")}`);
  return found;
}

export function stretchIn(analysis: Analysis, source: StretchFinding["source"]): StretchFinding {
  const found = analysis.stretches.find((one) => one.source === source);
  if (found === undefined) throw new Error(`no stretch on ${source}`);
  return found;
}

/** Every number anywhere in a value, typed arrays left out: drawings may hold NaN for "nothing here". */
export function numbersIn(value: unknown): number[] {
  if (typeof value === "number") return [value];
  if (value === null || typeof value !== "object" || ArrayBuffer.isView(value)) return [];
  return Object.values(value).flatMap(numbersIn);
}
