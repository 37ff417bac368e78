// A night from 18:00 on, on mains from 18:30, whose supply is lost: what the watches of boards are held against.

import { msPerHour, type Recording } from "../../src/schema/index.ts";
import { knownGoodFridge, type SimulationPlan, simulateRun } from "../../src/simulate/index.ts";

export const begunMs = Date.parse("2026-06-04T18:00:00Z");
/** So many hours after 18:00. */
export const at = (hours: number) => begunMs + hours * msPerHour;

/** @param outages their hours count from 18:00. */
export const nightOnMains = (heatedHours: number, outages: SimulationPlan["outages"]): Recording =>
  simulateRun({
    name: "night",
    seed: 3,
    startUnixMs: begunMs,
    fridge: knownGoodFridge(),
    schedule: [
      { source: "off", hours: 0.5 },
      { source: "mains", hours: heatedHours },
    ],
    outages,
    ambient: { meanCelsius: 24, swingKelvin: 2, wanderKelvin: 0.2 },
    samplingSeconds: 60,
  }).recording;
