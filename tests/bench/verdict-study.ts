// How often the verdict is right: random simulated fridges, faults and conditions, once calm and once scattered.
// node tests/bench/run.ts verdict-study [fridges] [seed]; prints a markdown table.

import { type HeatSource, heatSources, type Recording } from "../../src/schema/index.ts";
import { type Analysis, analyse, isKnown, type SourceFinding } from "../../src/science/index.ts";
import {
  type FaultName,
  randomFridge,
  type SimulatedRun,
  type SimulationPlan,
  seededRandom,
  simulateRun,
} from "../../src/simulate/index.ts";

/** How much heat, voltage and cooling change from run to run. */
const scatters = {
  calm: { heat: 0.015, volts: 0, cooling: 0.015 },
  scattered: { heat: 0.05, volts: 0.035, cooling: 0.03 },
} as const;
type Scatter = keyof typeof scatters;

/** What is wrong in one simulated fridge. */
type Kind = "none" | "heat" | "unit" | "seal" | "load";

interface Case {
  readonly kind: Kind;
  readonly hitSource: HeatSource | null;
  readonly knownGood: readonly SimulatedRun[];
  readonly tests: readonly SimulatedRun[];
}

const margin = 0.15;
const heatFaults = { gas: "flue", mains: "mains-element", dc12: "dc12-element" } as const satisfies {
  [S in HeatSource]: FaultName;
};

export function studyCase(seed: number, scatter: Scatter): Case {
  const random = seededRandom(seed, `study-${scatter}`);
  const between = (low: number, high: number) => low + (high - low) * random.uniform();
  const pick = <T>(values: readonly T[]): T => values[Math.floor(random.uniform() * values.length)];
  const kinds: readonly Kind[] = [
    "none",
    "none",
    "none",
    "none",
    "heat",
    "heat",
    "heat",
    "heat",
    "unit",
    "unit",
    "seal",
    "load",
  ];
  const kind = pick(kinds);
  const fridge = randomFridge(seed);
  const sources = pick([
    ["mains", "gas"],
    ["gas", "mains"],
    ["mains", "dc12"],
    ["mains", "gas"],
  ] as const);
  const hitSource = kind === "heat" ? pick(sources) : null;
  const tellVolts = random.uniform() < 0.5;
  const plan = (index: number, faults: SimulationPlan["faults"]): SimulatedRun => {
    const hours = [between(3, 10), between(3, 10)];
    const schedule = [
      { source: "off", hours: 1 },
      { source: sources[0], hours: hours[0] },
      { source: "off", hours: between(1, 8) },
      { source: sources[1], hours: hours[1] },
      { source: "off", hours: 3 },
    ] as const;
    const total = schedule.reduce((sum, stretch) => sum + stretch.hours, 0);
    const doors = Array.from({ length: Math.floor(between(0, 5)) }, () => ({
      atHours: between(1, total),
      seconds: between(10, 60),
    }));
    return simulateRun({
      name: `${seed}-${index}.csv`,
      seed: seed * 100 + index,
      startUnixMs: Date.parse("2026-06-01T19:00:00Z") + index * 3 * 86_400_000,
      fridge,
      schedule,
      ambient: {
        meanCelsius: between(14, 36),
        swingKelvin: between(0, 5),
        driftKelvinPerHour: between(-0.1, 0.1),
        wanderKelvin: 0.4,
      },
      samplingSeconds: 60,
      doors: doors.sort((a, b) => a.atHours - b.atHours),
      nightToNight: scatters[scatter],
      includeSupply: tellVolts && sources.every((source) => source !== "gas") ? true : tellVolts,
      probes: {
        evaporator: { offsetKelvin: 0.2 * random.normal(), noiseKelvin: 0.05 },
        cabinet: { offsetKelvin: 0.2 * random.normal(), noiseKelvin: 0.05 },
        ambient: { offsetKelvin: 0.2 * random.normal(), noiseKelvin: 0.1 },
      },
      faults,
    });
  };
  const loss = 1 - Math.exp(between(Math.log(0.25), Math.log(0.97)));
  const faults: SimulationPlan["faults"] =
    kind === "heat" && hitSource !== null
      ? [{ name: heatFaults[hitSource], size: loss * 0.8 }]
      : kind === "unit"
        ? [{ name: "cooling-unit", size: loss }]
        : kind === "seal"
          ? [{ name: "door-seal", size: between(0.4, 1) }]
          : kind === "load"
            ? [{ name: "warm-load", size: between(2, 5) }]
            : [];
  const runs = 1 + Math.floor(between(0, 5));
  return {
    kind,
    hitSource,
    knownGood: Array.from({ length: runs }, (_, i) => plan(i, [])),
    tests: [plan(10, faults), plan(11, faults)],
  };
}

/** One source of one simulated fridge, judged. */
interface Judged {
  readonly kind: Kind;
  readonly truth: number;
  readonly truthTonight: number;
  readonly finding: SourceFinding;
  readonly tonight: { readonly low: number; readonly high: number } | null;
}

function judgeCase({ kind, knownGood, tests }: Case, testRuns: number): { judged: Judged[]; analysis: Analysis } {
  const given = tests.slice(0, testRuns);
  const analysis = analyse(
    given.map((run) => run.recording),
    { knownGood: knownGood.map((run) => run.recording as Recording), baselineKind: "own", margin },
  );
  const judged = heatSources.flatMap((source): Judged[] => {
    const finding = analysis.sources.find((one) => one.source === source);
    const stretch = given[0].truth.stretches.find((one) => one.source === source);
    if (finding === undefined || stretch?.strength == null) return [];
    const night = analysis.stretches.find((one) => one.source === source)?.thisNight;
    const tonight =
      night !== undefined && isKnown(night) && night.low !== null && night.high !== null
        ? { low: night.low, high: night.high }
        : null;
    return [{ kind, truth: stretch.strength.ofFaults, truthTonight: stretch.strength.atRatedSupply, finding, tonight }];
  });
  return { judged, analysis };
}

const called = (one: Judged, ...verdicts: readonly SourceFinding["verdict"][]) =>
  verdicts.includes(one.finding.verdict);
const share = (of: readonly Judged[], is: (one: Judged) => boolean) =>
  of.length === 0 ? Number.NaN : of.filter(is).length / of.length;
const percent = (value: number) => (Number.isNaN(value) ? "–" : `${(100 * value).toFixed(1)} %`);

function rowsFor(judged: readonly Judged[]): readonly (readonly [string, string])[] {
  const isFaulted = (one: Judged) => one.kind === "heat" || one.kind === "unit";
  const below75 = judged.filter((one) => one.truth < 0.75);
  const below50 = judged.filter((one) => one.truth < 0.5);
  const sound = judged.filter((one) => one.truth > 0.999 && !["seal", "load"].includes(one.kind));
  const excused = judged.filter((one) => one.kind === "seal" || one.kind === "load");
  const known = judged.filter((one) => isKnown(one.finding.coolingStrength));
  const covers = (one: Judged) => {
    const { coolingStrength } = one.finding;
    return (
      isKnown(coolingStrength) &&
      (coolingStrength.low ?? 0) <= one.truth &&
      one.truth <= (coolingStrength.high ?? Infinity)
    );
  };
  const halfWidths = known
    .flatMap(({ finding: { coolingStrength } }) =>
      isKnown(coolingStrength) && coolingStrength.low !== null && coolingStrength.high !== null
        ? [(coolingStrength.high - coolingStrength.low) / 2 / coolingStrength.value]
        : [],
    )
    .sort((a, b) => a - b);
  const tonight = judged.filter((one) => one.tonight !== null);
  return [
    ["sources judged", String(judged.length)],
    ["below 0.75 called sound", percent(share(below75, (one) => called(one, "sound")))],
    ["below 0.75 called weak or no cooling", percent(share(below75, (one) => called(one, "weak", "not-cooling")))],
    ["below 0.5 called so", percent(share(below50, (one) => called(one, "weak", "not-cooling")))],
    ["sound called weak", percent(share(sound, (one) => called(one, "weak", "not-cooling")))],
    ["sound called sound", percent(share(sound, (one) => called(one, "sound")))],
    ["seal or load called weak", percent(share(excused, (one) => called(one, "weak", "not-cooling")))],
    ["coolingStrength covers the fault alone", percent(share(known, covers))],
    [
      "thisNight covers the night",
      percent(
        share(
          tonight,
          (one) => one.tonight !== null && one.tonight.low <= one.truthTonight && one.truthTonight <= one.tonight.high,
        ),
      ),
    ],
    ["median half width of coolingStrength", percent(halfWidths[halfWidths.length >> 1] ?? Number.NaN)],
    [
      "without a strength",
      percent(share(judged, (one) => !isKnown(one.finding.coolingStrength) && !called(one, "not-cooling"))),
    ],
    ["faulted sources judged", String(judged.filter(isFaulted).length)],
  ];
}

const causeGroups: { readonly [K in Kind]: readonly string[] } = {
  none: ["none"],
  heat: ["burner", "flue", "gas-supply", "mains-element", "dc12-element", "supply-voltage"],
  unit: ["cooling-unit", "not-level", "ventilation"],
  seal: ["door-seal"],
  load: ["warm-load"],
};

export function runStudy(fridges: number, firstSeed: number): string {
  const lines: string[] = [];
  for (const scatter of ["calm", "scattered"] as const) {
    const once: Judged[] = [];
    const twice: Judged[] = [];
    let firstCauses = 0;
    let asked = 0;
    for (let i = 0; i < fridges; i++) {
      const one = studyCase(firstSeed + i, scatter);
      const { judged, analysis } = judgeCase(one, 1);
      once.push(...judged);
      twice.push(...judgeCase(one, 2).judged);
      const loss = 1 - Math.min(...judged.map((source) => source.truth));
      if (one.kind === "none" || one.kind === "seal" || one.kind === "load" || loss >= 0.2) {
        asked++;
        if (causeGroups[one.kind].includes(analysis.causes[0].cause)) firstCauses++;
      }
    }
    const single = rowsFor(once);
    const double = rowsFor(twice);
    lines.push(
      `| ${scatter}, ${fridges} fridges, seeds from ${firstSeed} | one test run | two test runs |`,
      "| --- | --- | --- |",
    );
    for (const [at, [name, value]] of single.entries()) lines.push(`| ${name} | ${value} | ${double[at][1]} |`);
    lines.push(`| cause group first (loss of 20 % or more) | ${percent(firstCauses / asked)} | |`, "");
  }
  return lines.join("\n");
}

const [fridges = "60", seed = "1000"] = process.argv.filter((argument) => /^\d+$/.test(argument));
console.log(runStudy(Number(fridges), Number(seed)));
