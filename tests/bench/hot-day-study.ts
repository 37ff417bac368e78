// How often a hot-day prediction holds: random simulated fridges, known by some runs, asked for a hot ambient and marched
// through a trip. npm run bench hot-day-study -- [fridges] [seed]; prints markdown tables.

import type { EnergySource, Forecast, Recording } from "../../src/schema/index.ts";
import { hotDay } from "../../src/science/hot-days/index.ts";
import { type Answer, isKnown } from "../../src/science/index.ts";
import { randomFridge, type SimulatedFridge, settledCabinet, simulateRun } from "../../src/simulate/index.ts";
import { luckOf, type Scatter, scatters, usualProbes } from "./cases/luck.ts";
import { printMachine, printTable } from "./print.ts";

const hour = 3_600_000;
const firstDay = Date.parse("2026-06-01T19:00:00Z");

/** A random fridge with one to five runs, each on two sources for 3 to 10 h, at ambients of 14 to 32 °C. */
function knownFridge(seed: number, scatter: Scatter): { fridge: SimulatedFridge; logs: readonly Recording[] } {
  const luck = luckOf(seed, `hot-day-${scatter}`);
  const { between } = luck;
  const fridge = randomFridge(seed);
  const runs = 1 + Math.floor(between(0, 5));
  const logs = Array.from({ length: runs }, (_, index) => {
    const schedule = [
      { source: "off", hours: 1 },
      { source: "mains", hours: between(3, 10) },
      { source: "off", hours: between(1, 8) },
      { source: "gas", hours: between(3, 10) },
      { source: "off", hours: 3 },
    ] as const;
    const total = schedule.reduce((sum, { hours }) => sum + hours, 0);
    const doors = Array.from({ length: Math.floor(between(0, 5)) }, () => ({
      atHours: between(1, total),
      seconds: between(10, 60),
    }));
    return simulateRun({
      name: `${seed}-${index}.csv`,
      seed: seed * 100 + index,
      startUnixMs: firstDay + index * 72 * hour,
      fridge,
      schedule,
      ambient: {
        meanCelsius: between(14, 32),
        swingKelvin: between(0, 5),
        driftKelvinPerHour: between(-0.1, 0.1),
        wanderKelvin: 0.4,
      },
      samplingSeconds: 60,
      doors: doors.sort((a, b) => a.atHours - b.atHours),
      nightToNight: scatters[scatter],
      probes: usualProbes(luck),
    }).recording;
  });
  return { fridge, logs };
}

/** Answers held against the truth. */
class Tally {
  #asked = 0;
  #answered = 0;
  #held = 0;
  readonly #halfWidths: number[] = [];
  readonly #misses: number[] = [];

  add(answer: Answer | undefined, truth: number): void {
    this.#asked++;
    if (answer === undefined || !isKnown(answer)) return;
    const { value, low, high } = answer;
    this.#answered++;
    if ((low ?? -Infinity) <= truth && truth <= (high ?? Infinity)) this.#held++;
    if (low !== null && high !== null) this.#halfWidths.push((high - low) / 2);
    this.#misses.push(value - truth);
  }

  cells(): readonly string[] {
    const widths = this.#halfWidths.toSorted((a, b) => a - b);
    const misses = this.#misses.toSorted((a, b) => a - b);
    const at = (of: readonly number[], share: number) => (of[Math.floor(share * of.length)] ?? Number.NaN).toFixed(1);
    const percent = (part: number, of: number) => (of === 0 ? "–" : `${((100 * part) / of).toFixed(1)} %`);
    return [
      percent(this.#answered, this.#asked),
      percent(this.#held, this.#answered),
      at(widths, 0.5),
      at(widths, 0.95),
      percent(widths.filter((width) => width <= 3).length, this.#answered),
      `${at(misses, 0.5)} (${at(misses, 0.05)} to ${at(misses, 0.95)})`,
    ];
  }
}

const tallyHeader = [
  "answered",
  "truth within",
  "median half width",
  "95 % of them",
  "3 K or less",
  "miss: median (5 to 95 %)",
];

/** A night on mains, gas at rests, off on the road and at the ferry, mains at the site: 48 h. */
const tripSchedule = [
  { source: "mains", hours: 12 },
  { source: "gas", hours: 4 },
  { source: "off", hours: 3 },
  { source: "gas", hours: 9 },
  { source: "off", hours: 3 },
  { source: "mains", hours: 17 },
] as const satisfies readonly { source: EnergySource; hours: number }[];
const tripSources = tripSchedule.flatMap(({ source, hours }) => Array.from({ length: hours }, () => source));

function trip(fridge: SimulatedFridge, seed: number, scatter: Scatter) {
  const { between } = luckOf(seed, "trip");
  const mean = between(22, 32);
  const swing = between(6, 14);
  const start = firstDay + 400 * hour - (firstDay % hour);
  const { recording } = simulateRun({
    name: "trip.csv",
    seed: seed * 100 + 77,
    startUnixMs: start,
    fridge,
    before: [{ source: "mains", hours: 24 }],
    schedule: tripSchedule,
    ambient: { meanCelsius: mean, swingKelvin: swing },
    samplingSeconds: 60,
    nightToNight: scatters[scatter],
    probes: { cabinet: { noiseKelvin: 0 } },
  });
  const forecast: Forecast = {
    name: "trip.forecast.csv",
    sha256: "",
    utcOffsetMinutes: 0,
    rows: Array.from({ length: tripSources.length + 1 }, (_, at) => ({
      unixMs: start + at * hour,
      ambient: mean + (swing / 2) * Math.cos((2 * Math.PI * (((start / hour + at) % 24) - 16)) / 24),
      source: tripSources[at] ?? "mains",
      sun: false,
      driving: false,
    })),
  };
  const cabinet = recording.columns.cabinet ?? new Float64Array();
  const hoursAbove8 = cabinet.filter((celsius) => celsius > 8).length / 60;
  return { forecast, cabinetAt: (at: number) => cabinet[at * 60], hoursAbove8 };
}

function study(fridges: number, firstSeed: number): void {
  const ambients = [25, 32, 38, 43];
  const settledRows: string[][] = [];
  const tripRows: string[][] = [];
  for (const scatter of ["calm", "scattered"] as const) {
    const settled = new Map(ambients.map((ambient) => [ambient, new Tally()]));
    const hours = new Tally();
    const above8 = new Tally();
    const byKind = new Map<string, Tally>();
    for (let i = 0; i < fridges; i++) {
      const seed = firstSeed + i;
      const { fridge, logs } = knownFridge(seed, scatter);
      for (const { source, settled: answer, classes } of hotDay(logs, { ambient: 25 }).sources) {
        if (source === null) continue;
        const hold = (ambient: number, predicted: Answer | undefined) =>
          settled.get(ambient)?.add(predicted, settledCabinet(fridge, [], source, ambient));
        hold(25, answer);
        // What the climate classes are held against is the same prediction at their warmest ambient.
        for (const hot of [32, 38, 43]) hold(hot, classes.find(({ warmest }) => warmest === hot)?.settled);
      }
      const { forecast, cabinetAt, hoursAbove8 } = trip(fridge, seed, scatter);
      const marched = hotDay(logs, { forecast }).trip;
      marched?.hours.forEach(({ cabinet, source }, at) => {
        if (at === marched.hours.length - 1) return;
        hours.add(cabinet, cabinetAt(at));
        const kind = `${scatter}, hours ${source === "off" ? "off" : "on"} ${at < 12 ? "before" : at < 31 ? "during" : "after"} the road`;
        byKind.set(kind, byKind.get(kind) ?? new Tally());
        byKind.get(kind)?.add(cabinet, cabinetAt(at));
      });
      above8.add(marched?.hoursAbove8, hoursAbove8);
    }
    for (const [ambient, tally] of settled) settledRows.push([`${scatter}, ${ambient} °C`, ...tally.cells()]);
    tripRows.push([`${scatter}, cabinet at each hour, K`, ...hours.cells()]);
    for (const [kind, tally] of byKind) tripRows.push([kind, ...tally.cells()]);
    tripRows.push([`${scatter}, hours above 8 °C, h`, ...above8.cells()]);
  }
  console.log(`${fridges} fridges, seeds from ${firstSeed}; settled cabinet, K\n`);
  printTable(["ambient", ...tallyHeader], settledRows);
  console.log("\ntrips of 48 h\n");
  printTable(["trip", ...tallyHeader], tripRows);
  printMachine();
}

const [fridges = "100", seed = "20000"] = process.argv.slice(process.argv[1]?.endsWith("run.ts") ? 3 : 2);
study(Number(fridges), Number(seed));
