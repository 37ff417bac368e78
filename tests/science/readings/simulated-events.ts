// Seeded simulated runs of many kinds, with what should be found in each: for the study of tests/bench/events-study.ts
// and its smaller sister, events-study.test.ts.

import { msPerHour, msPerMinute, type Recording } from "../../../src/schema/index.ts";
import type { RunEvent } from "../../../src/science/findings.ts";
import { cleanRecording } from "../../../src/science/readings/cleaning.ts";
import { findEvents } from "../../../src/science/readings/events/find-events.ts";
import type { Stretch } from "../../../src/science/readings/series.ts";
import { findStretches } from "../../../src/science/readings/stretches.ts";
import { workingSeries } from "../../../src/science/readings/working-series.ts";
import { randomFridge, type SimulatedRun, type SimulationPlan, simulateRun } from "../../../src/simulate/index.ts";

/** What was looked for in how many runs. */
export interface StudyRow {
  readonly runs: number;
  /** Events that were there, and how many of them were found. */
  readonly there: number;
  readonly found: number;
  /** Runs with at least one event that was not there. */
  readonly runsWithInvented: number;
  /** What was invented or missed, one line each. */
  readonly wrong: readonly string[];
}

interface Case {
  readonly plan: SimulationPlan;
  /** Kind and the time in which an event of that kind may begin. */
  readonly expected: readonly { kind: RunEvent["kind"]; fromMs: number; toMs: number; mustBeFound: boolean }[];
}

const hour = (plan: SimulationPlan, hours: number) => plan.startUnixMs + hours * msPerHour;

/** Evenly spread numbers from a seed, so that each run of the study is the same everywhere. */
function numbersFrom(seed: number): () => number {
  let state = (seed * 2654435761) % 4294967296;
  return () => {
    state = (Math.imul(state ^ (state >>> 15), 2246822519) + 374761393) >>> 0;
    return ((state ^ (state >>> 13)) >>> 0) / 4294967296;
  };
}

export const studyNoises = [0.05, 0.1, 0.2, 0.3] as const;
const samplings = [1, 10, 30, 60, 300] as const;

/** A night of one of many fridges: noise, sampling, weather, scatter and faults differ from seed to seed. */
function usualPlan(seed: number, changes: Partial<SimulationPlan> = {}): SimulationPlan {
  const random = numbersFrom(seed);
  const noiseKelvin = studyNoises[seed % studyNoises.length];
  const samplingSeconds = samplings[Math.floor(seed / studyNoises.length) % samplings.length];
  const noiseMemory = [0, 0.6, 0.9][Math.floor(3 * random())];
  const probe = () => ({
    noiseKelvin,
    noiseMemory,
    offsetKelvin: 0.8 * (random() - 0.5),
    lagSeconds: 30 + 90 * random(),
  });
  const faults: SimulationPlan["faults"] =
    random() < 0.5 ? [] : [{ name: random() < 0.5 ? "cooling-unit" : "ventilation", size: 0.4 * random() }];
  return {
    name: `run ${seed}`,
    seed,
    startUnixMs: Date.UTC(2026, 5, 4) + Math.floor(24 * random()) * msPerHour,
    fridge: randomFridge(seed),
    schedule: [
      { source: "off", hours: 0.75 },
      { source: "mains", hours: 8 },
      { source: "off", hours: 4 },
      { source: "gas", hours: 6 },
    ],
    ambient: { meanCelsius: 20 + 10 * random(), swingKelvin: 8 * random(), wanderKelvin: 0.5 * random() },
    samplingSeconds,
    faults,
    load: { kilograms: 4 * random() },
    nightToNight: { heat: 0.05, cooling: 0.03, volts: 0.02 },
    probes: { evaporator: probe(), cabinet: probe(), ambient: probe() },
    ...changes,
  };
}

/** Nothing happens that should be found; switching, faults, frost, a fan and a cold start are no events. */
function quiet(seed: number): Case {
  const off = { source: "off", hours: 0.75 } as const;
  const switched: Partial<SimulationPlan> = {
    schedule: [off, { source: "mains", hours: 6 }, { source: "gas", hours: 4 }, { source: "mains", hours: 3 }],
  };
  const kinds: readonly Partial<SimulationPlan>[] = [
    {},
    switched,
    {
      before: [{ source: "mains", hours: 12 }],
      schedule: [
        { source: "mains", hours: 4 },
        { source: "off", hours: 6 },
      ],
    },
    { fanInside: true },
    { frostGramsPerHour: 20 },
    {
      faults: [
        { name: "flue", size: 0.25 },
        { name: "mains-element", size: 0.97 },
      ],
    },
    {
      faults: [
        { name: "door-seal", size: 0.67 },
        { name: "warm-load", size: 3 },
      ],
    },
    { ...switched, faults: [{ name: "mains-element", size: 0.35 }] },
    { ...switched, supply: { volts: { mains: 205, dc12: 11 } }, frostGramsPerHour: 10 },
  ];
  return { plan: usualPlan(seed, kinds[seed % kinds.length]), expected: [] };
}

function doors(seed: number): Case {
  const random = numbersFrom(seed + 1000);
  const openings = [2.2, 3, 5, 6.5, 7.2, 9, 10.5, 15, 17].map((atHours) => ({
    atHours: atHours + 0.3 * random(),
    seconds: 8 + 80 * random() ** 2,
  }));
  // Several in a row.
  openings.push({ atHours: 4, seconds: 30 }, { atHours: 4.2, seconds: 40 }, { atHours: 4.4, seconds: 20 });
  openings.sort((a, b) => a.atHours - b.atHours);
  const plan = usualPlan(seed, { doors: openings });
  const still = withStillProbes(plan);
  const withDoors = simulateRun(still).recording;
  const without = simulateRun({ ...still, doors: [] }).recording;
  return {
    plan,
    expected: openings.map(({ atHours, seconds }) => ({
      kind: "door-opening",
      fromMs: hour(plan, atHours) - 6 * msPerMinute,
      toMs: hour(plan, atHours) + (6 + seconds / 60) * msPerMinute,
      mustBeFound: riseBetween(withDoors, without, hour(plan, atHours)) >= 1,
    })),
  };
}

/** The same run through perfect probes: what a reading would have been. */
function withStillProbes(plan: SimulationPlan): SimulationPlan {
  const lag = plan.probes?.cabinet?.lagSeconds;
  const still = { noiseKelvin: 0, stepKelvin: 0, ...(lag === undefined ? {} : { lagSeconds: lag }) };
  return { ...plan, probes: { evaporator: still, cabinet: still, ambient: still } };
}

/** How far the opening lifts the readings (means over a minute), over what lingers from earlier openings. */
function riseBetween(withDoors: Recording, without: Recording, atMs: number): number {
  const [opened, closed] = [workingSeries(withDoors), workingSeries(without)];
  const [a, b] = [opened.columns.cabinet, closed.columns.cabinet];
  if (a === undefined || b === undefined) return 0;
  let before = 0;
  let most = 0;
  for (let i = 0; i < a.length; i++) {
    const lifted = a[i] - b[i];
    if (opened.unixMs[i] <= atMs) before = lifted;
    else if (opened.unixMs[i] <= atMs + 8 * msPerMinute) most = Math.max(most, lifted);
  }
  return most - before;
}

function thermostat(seed: number): Case {
  const random = numbersFrom(seed + 2000);
  const source = random() < 0.5 ? "mains" : "gas";
  const plan = usualPlan(seed, {
    schedule: [
      { source: "off", hours: 0.5 },
      { source, hours: 14 },
      { source: "off", hours: 2 },
    ],
    thermostatSetCelsius: 3 + 6 * random(),
    load: { kilograms: 1 },
  });
  const pauses = thermostatCuts(plan);
  const isCycling = pauses.length >= 3;
  return {
    plan,
    expected:
      pauses.length === 0
        ? []
        : [
            {
              kind: "cycling",
              fromMs: pauses[0] - 5 * msPerMinute,
              toMs: pauses[0] + 40 * msPerMinute,
              mustBeFound: isCycling,
            },
          ],
  };
}

/** Instants at which the thermostat cut the heat, from the true air: its band is ±0.8 K (src/simulate/thermostat.ts). */
function thermostatCuts(plan: SimulationPlan): number[] {
  const set = plan.thermostatSetCelsius ?? Number.NEGATIVE_INFINITY;
  const probe = { noiseKelvin: 0, stepKelvin: 0, lagSeconds: 0 };
  const { recording } = simulateRun({ ...plan, probes: { cabinet: probe } });
  const air = recording.columns.cabinet ?? new Float64Array(0);
  const cuts: number[] = [];
  let calls = true;
  for (let i = 0; i < air.length; i++) {
    if (recording.sourceCodes?.[i] === 4) continue;
    if (calls && air[i] <= set - 0.79) {
      cuts.push(recording.unixMs[i]);
      calls = false;
    } else if (!calls && air[i] > set + 0.79) calls = true;
  }
  return cuts;
}

function outage(seed: number): Case {
  const random = numbersFrom(seed + 3000);
  const atHours = 3 + 3.5 * random();
  const isLasting = random() < 0.4;
  const hours = isLasting ? 20 : 1 + 2 * random();
  const source = random() < 0.5 ? "mains" : "gas";
  const plan = usualPlan(seed, {
    schedule: [
      { source: "off", hours: 0.5 },
      { source, hours: 10 },
      { source: "off", hours: 2 },
    ],
    outages: [{ atHours, hours: Math.min(hours, 10.5 - atHours) }],
  });
  return {
    plan,
    expected: [
      {
        kind: "cooling-stopped",
        fromMs: hour(plan, atHours) - 5 * msPerMinute,
        toMs: hour(plan, atHours) + 45 * msPerMinute,
        mustBeFound: true,
      },
    ],
  };
}

function fallen(seed: number): Case {
  const random = numbersFrom(seed + 4000);
  const fallsAtHours = 3 + 5 * random();
  const usual = usualPlan(seed);
  const plan = { ...usual, probes: { ...usual.probes, evaporator: { ...usual.probes?.evaporator, fallsAtHours } } };
  const at = hour(plan, fallsAtHours);
  return {
    plan,
    expected: [{ kind: "probe-moved", fromMs: at - 12 * msPerMinute, toMs: at + 10 * msPerMinute, mustBeFound: true }],
  };
}

function sunny(seed: number): Case {
  const random = numbersFrom(seed + 5000);
  const sun = { atHours: 2 + 4 * random(), hours: 0.5 + 2.5 * random(), kelvin: 4 + 8 * random() };
  const plan = usualPlan(seed, { sun: [sun] });
  const at = hour(plan, sun.atHours);
  return {
    plan,
    expected: [{ kind: "sun-on-probe", fromMs: at - 30 * msPerMinute, toMs: at + 30 * msPerMinute, mustBeFound: true }],
  };
}

/** A probe's own faults are cleaning's; here only what the curves tell. */
const studied: readonly RunEvent["kind"][] = [
  "door-opening",
  "cycling",
  "cooling-stopped",
  "probe-moved",
  "sun-on-probe",
];

export const studyCases = { quiet, doors, thermostat, outage, fallen, sunny } as const;
export type StudyName = keyof typeof studyCases;

/** Counts for one kind of run over the first `runs` seeds, or those of them whose probes are as noisy as asked. */
export function studyRow(name: StudyName, runs: number, noiseKelvin?: number): StudyRow {
  const total: { -readonly [K in keyof StudyRow]: StudyRow[K] } = {
    runs: 0,
    there: 0,
    found: 0,
    runsWithInvented: 0,
    wrong: [],
  };
  for (let seed = 1; seed <= runs; seed++) {
    if (noiseKelvin !== undefined && studyNoises[seed % studyNoises.length] !== noiseKelvin) continue;
    const { plan, expected } = studyCases[name](seed);
    const { events } = eventsOf(simulateRun(plan));
    const must = expected.filter((one) => one.mustBeFound);
    const missed = must.filter((one) => !events.some((event) => fits(event, one)));
    const invented = events.filter((event) => !expected.some((one) => fits(event, one)));
    total.runs++;
    total.there += must.length;
    total.found += must.length - missed.length;
    if (invented.length > 0) total.runsWithInvented++;
    total.wrong = [
      ...total.wrong,
      ...invented.map((event) => describe(plan, "invented", event.kind, event.startMs, event.size)),
      ...missed.map((one) => describe(plan, "missed", one.kind, one.fromMs, null)),
    ];
  }
  return total;
}

/** How the heated stretches are found when nobody told the source: onsets within half an hour, none too many. */
export function foundStretchesRow(name: "quiet" | "doors" | "thermostat" | "fallen", runs: number): StudyRow {
  let found = 0;
  let there = 0;
  const wrong: string[] = [];
  for (let seed = 1; seed <= runs; seed++) {
    const { plan } = studyCases[name](seed);
    // Switched while cold nothing turns; a dead source never begins.
    if (name === "quiet" && [1, 2, 5, 7, 8].includes(seed % 9)) continue;
    const run = simulateRun({ ...plan, tellSource: false });
    const heated = eventsOf(run).stretches.filter((stretch) => stretch.heated);
    const began = run.truth.stretches.flatMap(({ coldBeganMs }) => (coldBeganMs === null ? [] : [coldBeganMs]));
    there++;
    const isRight =
      heated.length === began.length &&
      heated.every((stretch, i) => Math.abs(stretch.startMs - began[i]) <= 35 * msPerMinute);
    if (isRight) found++;
    else wrong.push(describe(plan, "wrong", "stretches", heated[0]?.startMs ?? plan.startUnixMs, heated.length));
  }
  return { runs: there, there, found, runsWithInvented: there - found, wrong };
}

const fits = (event: RunEvent, one: Case["expected"][number]) =>
  event.kind === one.kind && event.startMs >= one.fromMs && event.startMs <= one.toMs;

function describe(plan: SimulationPlan, what: string, kind: string, atMs: number, size: number | null): string {
  const noise = plan.probes?.cabinet?.noiseKelvin ?? 0;
  const at = ((atMs - plan.startUnixMs) / msPerHour).toFixed(2);
  return `${what} ${kind} at ${at} h, size ${size?.toFixed(2)}; seed ${plan.seed}, noise ${noise} K, every ${plan.samplingSeconds} s`;
}

/** Stretches and events of a simulated run, as the analysis finds them. */
function eventsOf({ recording }: SimulatedRun): { stretches: Stretch[]; events: RunEvent[] } {
  const series = workingSeries(cleanRecording(recording).recording);
  const stretches = findStretches(series, recording.sourceMarks);
  return { stretches, events: findEvents(series, stretches).filter((event) => studied.includes(event.kind)) };
}
