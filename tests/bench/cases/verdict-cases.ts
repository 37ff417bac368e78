// The random fridges of the verdict study: what is wrong with each, its known-good runs and its test runs. The same seed
// gives the same fridge.

import { type HeatSource, heatSources } from "../../../src/schema/index.ts";
import {
  type FaultName,
  randomFridge,
  type SimulatedFault,
  type SimulatedRun,
  simulateRun,
} from "../../../src/simulate/index.ts";
import { type Luck, luckOf, type Scatter, scatters, usualProbes } from "./luck.ts";

/** What is wrong in one simulated fridge, by the group its cause belongs to. */
export type Kind = "none" | "heat" | "unit" | "seal" | "load" | "probe" | "lamp";

export interface Case {
  readonly kind: Kind;
  readonly fault: SimulatedFault | null;
  readonly knownGood: readonly SimulatedRun[];
  readonly tests: readonly SimulatedRun[];
}

const heatFaults: { readonly [S in HeatSource]: readonly FaultName[] } = {
  gas: ["flue", "burner", "gas-supply"],
  mains: ["mains-element"],
  dc12: ["dc12-element"],
};

/** A third is sound. */
const kinds: readonly Kind[] = [
  ...Array.from({ length: 6 }, () => "none" as const),
  ...Array.from({ length: 5 }, () => "heat" as const),
  "unit",
  "unit",
  "seal",
  "load",
  "probe",
  "lamp",
];

/** A fridge of random size and make with 1 to 5 known-good runs and two test runs, on two sources. */
export function studyCase(seed: number, scatter: Scatter): Case {
  const luck = luckOf(seed, `study-${scatter}`);
  const { between, pick } = luck;
  const kind = pick(kinds);
  const sources = pick([
    ["mains", "gas"],
    ["gas", "mains"],
    ["mains", "dc12"],
    ["mains", "gas"],
  ] as const);
  const fault = faultOf(kind, sources, luck);
  const tellVolts = between(0, 1) < 0.5;
  const run = (index: number, faults: readonly SimulatedFault[]): SimulatedRun => {
    const schedule = [
      { source: "off", hours: 1 },
      { source: sources[0], hours: between(3, 10) },
      { source: "off", hours: between(1, 8) },
      { source: sources[1], hours: between(3, 10) },
      { source: "off", hours: 3 },
    ] as const;
    const total = schedule.reduce((sum, stretch) => sum + stretch.hours, 0);
    const doors = Array.from({ length: Math.floor(between(0, 5)) }, () => ({
      atHours: between(1, total),
      seconds: between(10, 60),
    }));
    return simulateRun({
      ...runBasics(seed, index, scatter, luck),
      schedule,
      doors: doors.sort((a, b) => a.atHours - b.atHours),
      includeSupply: tellVolts,
      faults,
    });
  };
  const faults = fault === null ? [] : [fault];
  const runs = 1 + Math.floor(between(0, 5));
  return {
    kind,
    fault,
    knownGood: Array.from({ length: runs }, (_, i) => run(i, [])),
    tests: [run(10, faults), run(11, faults)],
  };
}

function runBasics(seed: number, index: number, scatter: Scatter, luck: Luck) {
  const { between } = luck;
  return {
    name: `${seed}-${index}.csv`,
    seed: seed * 100 + index,
    startUnixMs: Date.parse("2026-06-01T19:00:00Z") + index * 3 * 86_400_000,
    fridge: randomFridge(seed),
    ambient: {
      meanCelsius: between(14, 36),
      swingKelvin: between(0, 5),
      driftKelvinPerHour: between(-0.1, 0.1),
      wanderKelvin: 0.4,
    },
    samplingSeconds: 60,
    nightToNight: scatters[scatter],
    // Off for a night before: a lamp has warmed the cabinet by then.
    before: [{ source: "off", hours: 12 }] as const,
    probes: usualProbes(luck),
  };
}

/** Strengths even in the logarithm from 0.2 to 1; heat faults reach cooling to the power 1.4. */
function faultOf(kind: Kind, sources: readonly HeatSource[], { between, pick }: Luck): SimulatedFault | null {
  const strength = Math.exp(between(Math.log(0.2), 0));
  const heat = strength ** (1 / 1.4);
  switch (kind) {
    case "none":
      return null;
    case "heat": {
      const name = pick(heatFaults[pick(sources)]);
      // Heat goes with the root of the gas pressure.
      return { name, size: 1 - (name === "gas-supply" ? heat ** 2 : heat) };
    }
    case "unit":
      return { name: pick(["cooling-unit", "not-level"]), size: 1 - strength };
    case "seal":
      return { name: "door-seal", size: between(0.4, 1) };
    case "load":
      return { name: "warm-load", size: between(2, 5) };
    case "probe":
      return { name: "probe", size: between(0.25, 0.6) };
    case "lamp":
      return { name: "lamp", size: between(3, 8) };
  }
}

/** A fridge that nobody knows: one run on two or three sources, sound or with one electric source at 75 % of its cooling. */
export interface UnknownCase {
  readonly weak: HeatSource | null;
  readonly tellsWatts: boolean;
  readonly run: SimulatedRun;
}

export function unknownCase(seed: number, scatter: Scatter): UnknownCase {
  const luck = luckOf(seed, `unknown-${scatter}`);
  const { between, pick } = luck;
  const sources = pick([["mains", "gas"], ["mains", "dc12"], heatSources] as const);
  const weak = between(0, 1) < 0.5 ? pick(sources.filter((source) => source !== "gas")) : null;
  const tellsWatts = between(0, 1) < 0.5;
  const faults: SimulatedFault[] =
    weak === null ? [] : [{ name: weak === "mains" ? "mains-element" : "dc12-element", size: 1 - 0.75 ** (1 / 1.35) }];
  const basics = runBasics(seed, 20, scatter, luck);
  return {
    weak,
    tellsWatts,
    run: simulateRun({
      ...basics,
      schedule: sources.flatMap(
        (source) =>
          [
            { source, hours: between(5, 8) },
            { source: "off", hours: between(3, 6) },
          ] as const,
      ),
      includeSupply: between(0, 1) < 0.5,
      faults,
      ...(tellsWatts ? { sheet: { ratedWatts: { ...basics.fridge.ratedWatts } } } : {}),
    }),
  };
}
