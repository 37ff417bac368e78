// How well two sources of one night are told apart by a switch without a pause: random simulated fridges, faults and
// conditions, once calm and once scattered. node tests/bench/run.ts switch-study [fridges] [seed]; prints a markdown table.

import type { HeatSource, Recording } from "../../src/schema/index.ts";
import { type Analysis, analyse, isKnown } from "../../src/science/index.ts";
import {
  type FaultName,
  randomFridge,
  type SimulatedRun,
  type SimulationPlan,
  simulateRun,
} from "../../src/simulate/index.ts";
import { luckOf, type Scatter, scatters, usualProbes } from "./cases/luck.ts";

const heatFaults = { gas: "flue", mains: "mains-element", dc12: "dc12-element" } as const satisfies {
  [S in HeatSource]: FaultName;
};

/** A fridge that was switched over while cold: hours until the switch, and the true ratio of the two sources' cooling. */
interface SwitchCase {
  readonly run: SimulatedRun;
  readonly switchHours: number;
  readonly ratio: number;
  /** Of the second source, the fault alone. */
  readonly strength: number;
  readonly sources: readonly [HeatSource, HeatSource];
  /** Runs of the same fridge without its fault, both sources from a cold boiler. */
  readonly knownGood: (runs: number) => readonly Recording[];
}

/** @param afterHours how long the second source runs; `againHours` the first once more, 0 for none. */
function switchCase(seed: number, scatter: Scatter, afterHours: number, againHours: number): SwitchCase {
  const luck = luckOf(seed, `switch-${scatter}`);
  const { between, pick } = luck;
  const sources = pick([
    ["mains", "gas"],
    ["mains", "gas"],
    ["mains", "dc12"],
    ["gas", "mains"],
    ["dc12", "gas"],
  ] as const);
  const kind = pick(["none", "second", "second", "second", "first", "unit"] as const);
  const loss = 1 - Math.exp(between(Math.log(0.25), Math.log(0.97)));
  const faults: SimulationPlan["faults"] =
    kind === "none"
      ? []
      : kind === "unit"
        ? [{ name: "cooling-unit", size: loss }]
        : [{ name: heatFaults[sources[kind === "first" ? 0 : 1]], size: 0.8 * loss }];
  const beforeHours = between(4, 10);
  const includeSupply = between(0, 1) < 0.5;
  const switchHours = 1 + beforeHours;
  const doors = Array.from({ length: Math.floor(between(0, 5)) }, () => ({
    atHours: between(1, switchHours + afterHours),
    seconds: between(10, 60),
  }));
  const plan = (at: number, schedule: SimulationPlan["schedule"]): SimulationPlan => ({
    name: `${seed}-${at}.csv`,
    seed: 100 * seed + at,
    startUnixMs: Date.parse("2026-06-01T21:00:00Z") + 3 * at * 86_400_000,
    fridge: randomFridge(seed),
    schedule,
    ambient: {
      meanCelsius: between(14, 36),
      swingKelvin: between(0, 5),
      driftKelvinPerHour: between(-0.1, 0.1),
      wanderKelvin: 0.4,
    },
    samplingSeconds: 60,
    nightToNight: scatters[scatter],
    includeSupply,
    frostGramsPerHour: between(0, 8),
    probes: usualProbes(luck),
  });
  const run = simulateRun({
    ...plan(0, [
      { source: "off", hours: 1 },
      { source: sources[0], hours: beforeHours },
      { source: sources[1], hours: afterHours },
      ...(againHours > 0 ? [{ source: sources[0], hours: againHours }] : []),
    ]),
    doors: doors.sort((a, b) => a.atHours - b.atHours),
    faults,
  });
  const knownGood = (runs: number) =>
    Array.from({ length: runs }, (_, at) => {
      const schedule = sources.flatMap((source) => [{ source: "off", hours: 2.5 } as const, { source, hours: 8 }]);
      return simulateRun(plan(at + 1, schedule)).recording;
    });
  const [, first, second, again] = run.truth.stretches.map(({ strength }) => strength?.thisNightWatts ?? Number.NaN);
  // Heat scatters from stretch to stretch: a sandwich holds the second source against both stretches around it.
  const ratio = second / (again === undefined ? first : Math.sqrt(first * again));
  const strength = run.truth.stretches[2].strength?.ofFaults ?? Number.NaN;
  return { run, switchHours, ratio, strength, sources, knownGood };
}

/** The log as it stood so many hours after its start. */
function cutTo(recording: Recording, hours: number): Recording {
  const end = recording.unixMs[0] + hours * 3_600_000 + 1;
  const rows = recording.unixMs.findIndex((ms) => ms > end);
  const to = rows < 0 ? recording.unixMs.length : rows;
  return {
    ...recording,
    unixMs: recording.unixMs.slice(0, to),
    columns: Object.fromEntries(Object.entries(recording.columns).map(([name, column]) => [name, column.slice(0, to)])),
    sourceCodes: recording.sourceCodes?.slice(0, to) ?? null,
  };
}

/** What the analysis says of the second source, so many hours after the switch. */
function afterSwitch(one: SwitchCase, hours: number, knownGood: readonly Recording[]) {
  const log = cutTo(one.run.recording, one.switchHours + hours);
  const analysis: Analysis = analyse([log], { knownGood, baselineKind: "own", margin: 0.15 });
  const found = analysis.stretches.find((stretch) => stretch.source === one.sources[1]);
  if (found === undefined) throw new Error(`no stretch on ${one.sources[1]} in ${log.name}`);
  return found;
}

const percent = (share: number) => (Number.isNaN(share) ? "–" : `${(100 * share).toFixed(1)} %`);
const share = <T>(of: readonly T[], is: (one: T) => boolean) =>
  of.length === 0 ? Number.NaN : of.filter(is).length / of.length;
const median = (values: readonly number[]) => values.toSorted((a, b) => a - b)[values.length >> 1] ?? Number.NaN;

const ways = [
  { name: "single switch, 2 h", after: 2, again: 0 },
  { name: "single switch, 3 h", after: 3, again: 0 },
  { name: "sandwich, 2 h each", after: 2, again: 2 },
] as const;

function ratioTable(fridges: number, firstSeed: number): string[] {
  const lines = [
    `| ratio of the two sources that night; ${fridges} fridges, seeds from ${firstSeed} | answered | within 5 % | of 0.4 to 2.5: within 5 % | truth within the interval | median half width | median miss |`,
    "| --- | --- | --- | --- | --- | --- | --- |",
  ];
  for (const scatter of ["calm", "scattered"] as const) {
    for (const { name, after, again } of ways) {
      const cases = Array.from({ length: fridges }, (_, i) =>
        switchCase(firstSeed + i, scatter, Math.max(after, again > 0 ? 0 : 3), again),
      );
      const told = cases.flatMap((one) => {
        const ratio = afterSwitch(one, after + again, []).switchOver?.ratio;
        if (ratio === undefined || !isKnown(ratio)) return [];
        return [{ truth: one.ratio, value: ratio.value, low: ratio.low ?? 0, high: ratio.high ?? Infinity }];
      });
      const isNear = (one: (typeof told)[number]) => Math.abs(one.value / one.truth - 1) <= 0.05;
      const usual = told.filter((one) => one.truth >= 0.4 && one.truth <= 2.5);
      const cells = [
        percent(told.length / fridges),
        percent(share(told, isNear)),
        percent(share(usual, isNear)),
        percent(share(told, (one) => one.low <= one.truth && one.truth <= one.high)),
        percent(median(told.map((one) => (one.high - one.low) / 2 / one.value))),
        percent(median(told.map((one) => one.value / one.truth - 1))),
      ];
      lines.push(`| ${scatter}, ${name} | ${cells.join(" | ")} |`);
    }
  }
  return lines;
}

function verdictTable(fridges: number, firstSeed: number): string[] {
  const lines = [
    `| verdict on the second source, 3 known-good runs of each; ${fridges} fridges, seeds from ${firstSeed} | with a strength | below 0.75 called good | below 0.75 called weak | sound called weak | sound called good | truth within the interval | median half width |`,
    "| --- | --- | --- | --- | --- | --- | --- | --- |",
  ];
  for (const scatter of ["calm", "scattered"] as const) {
    const judged = Array.from({ length: fridges }, (_, i) => {
      const one = switchCase(firstSeed + i, scatter, 3, 0);
      const { verdict, coolingStrength } = afterSwitch(one, 2, one.knownGood(3));
      return { truth: one.strength, verdict, strength: isKnown(coolingStrength) ? coolingStrength : null };
    });
    const weak = judged.filter((one) => one.truth < 0.75);
    const sound = judged.filter((one) => one.truth > 0.999);
    const known = judged.flatMap(({ truth, strength }) => (strength === null ? [] : [{ truth, ...strength }]));
    const cells = [
      percent(known.length / fridges),
      percent(share(weak, (one) => one.verdict === "sound")),
      percent(share(weak, (one) => one.verdict === "weak")),
      percent(share(sound, (one) => one.verdict === "weak")),
      percent(share(sound, (one) => one.verdict === "sound")),
      percent(share(known, (one) => (one.low ?? 0) <= one.truth && one.truth <= (one.high ?? Infinity))),
      percent(median(known.map((one) => ((one.high ?? Infinity) - (one.low ?? 0)) / 2 / one.value))),
    ];
    lines.push(`| ${scatter}, 2 h after the switch | ${cells.join(" | ")} |`);
  }
  return lines;
}

const [fridges = "200", seed = "50000"] = process.argv.filter((argument) => /^\d+$/.test(argument));
console.log(ratioTable(Number(fridges), Number(seed)).join("\n"));
console.log("");
console.log(verdictTable(Math.min(Number(fridges), 80), Number(seed)).join("\n"));
