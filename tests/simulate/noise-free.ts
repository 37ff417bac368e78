// Runs read by perfect probes, so that a test sees the heat balance itself.

import type { Recording } from "../../src/schema/index.ts";
import { knownGoodFridge, type ProbeBuild, type SimulationPlan, simulateRun } from "../../src/simulate/index.ts";

export const perfect: ProbeBuild = { noiseKelvin: 0, stepKelvin: 0, lagSeconds: 0 };

/** A night on mains from 25 °C all round, with changes. */
export const nightOnMains = (changes: Partial<SimulationPlan> = {}): SimulationPlan => ({
  name: "night.csv",
  seed: 1,
  startUnixMs: Date.UTC(2026, 5, 4, 19),
  fridge: knownGoodFridge(),
  schedule: [{ source: "mains", hours: 12 }],
  ambient: { meanCelsius: 25 },
  probes: { evaporator: perfect, cabinet: perfect, ambient: perfect, boiler: perfect },
  ...changes,
});

export interface Course {
  readonly hours: readonly number[];
  readonly evaporator: Float64Array;
  readonly cabinet: Float64Array;
  readonly ambient: Float64Array;
  readonly boiler: Float64Array;
}

export function courseOf({ unixMs, columns }: Recording): Course {
  const { evaporator, cabinet, ambient, boiler } = columns;
  if (!(evaporator && cabinet && ambient && boiler)) throw new Error("a probe is missing from the plan");
  return { hours: Array.from(unixMs, (ms) => (ms - unixMs[0]) / 3_600_000), evaporator, cabinet, ambient, boiler };
}

export const runNight = (changes: Partial<SimulationPlan> = {}): Course =>
  courseOf(simulateRun(nightOnMains(changes)).recording);

/** First hour at which the claim holds; fails the test when it never does. */
export function firstHour(course: Course, claim: (i: number) => boolean): number {
  const i = course.hours.findIndex((_, at) => claim(at));
  if (i < 0) throw new Error("it never happened");
  return course.hours[i];
}

/** Index of an hour. */
export const at = (course: Course, hour: number): number => course.hours.findIndex((h) => h >= hour - 1e-9);
