// How soon a dead flame (or a lost supply) is seen while a night goes on, and how often one is seen that is not there. Random
// simulated fridges of which half fail at a random moment and stay dead; with and without a cycling thermostat, doors, noise
// of 0.05 to 0.3 K. Every two minutes the readings so far are looked at, as the recorder does.
// `npm run bench stop-study [NIGHTS] [list]`; seeds are 1 to NIGHTS, 120 unless stated.

import { msPerHour, msPerMinute } from "../../src/schema/index.ts";
import { workingSeries } from "../../src/science/readings/working-series.ts";
import { randomFridge, type SimulationPlan, simulateRun } from "../../src/simulate/index.ts";
import { seededRandom } from "../../src/simulate/seeded-random.ts";
import { doorsOfNight, probesOfNight, quantile, watchedNight } from "./cases/watched-night.ts";
import { printMachine, printTable } from "./print.ts";

const nights = Number(process.argv[3] ?? 120);
const isListing = process.argv[4] === "list";
const start = Date.UTC(2026, 5, 4, 19);
const sources = ["gas", "mains", "dc12"] as const;
type Kind = "pulling down or settled" | "thermostat cycling" | "on 12 V";

interface NightPlan {
  readonly plan: SimulationPlan;
  readonly kind: Kind;
  /** When the heat failed, ms; null on a night on which it did not. */
  readonly deadMs: number | null;
}

function nightOf(seed: number): NightPlan {
  const { uniform: random } = seededRandom(seed, "stop-study");
  const source = sources[seed % sources.length];
  const isCycling = source !== "dc12" && random() < 0.6;
  const probe = probesOfNight(random);
  const deadHours = 4 + 6 * random();
  const isDead = seed % 2 === 0;
  const doors = doorsOfNight(random);
  return {
    kind: source === "dc12" ? "on 12 V" : isCycling ? "thermostat cycling" : "pulling down or settled",
    deadMs: isDead ? start + deadHours * msPerHour : null,
    plan: {
      name: `night ${seed}`,
      seed,
      startUnixMs: start,
      fridge: randomFridge(seed),
      schedule: [
        { source: "off", hours: 0.5 },
        { source, hours: 12.5 },
      ],
      ambient: { meanCelsius: 18 + 10 * random(), swingKelvin: 8 * random(), wanderKelvin: 0.5 * random() },
      samplingSeconds: 60,
      load: { kilograms: 4 * random() },
      nightToNight: { heat: 0.05, cooling: 0.03, volts: 0.02 },
      frostGramsPerHour: random() < 0.3 ? 15 * random() : 0,
      probes: { evaporator: probe(), cabinet: probe(), ambient: probe() },
      doors,
      outages: isDead ? [{ atHours: deadHours, hours: 20 }] : [],
      ...(isCycling ? { thermostatSetCelsius: 4 + 5 * random() } : {}),
    },
  };
}

interface Tally {
  nights: number;
  dead: number;
  minutes: number[];
  missed: number;
  falseNights: number;
  readonly wrong: string[];
}
const tallies = new Map<Kind, Tally>();

for (let seed = 1; seed <= nights; seed++) {
  const { plan, kind, deadMs } = nightOf(seed);
  const tally = tallies.get(kind) ?? { nights: 0, dead: 0, minutes: [], missed: 0, falseNights: 0, wrong: [] };
  tallies.set(kind, tally);
  tally.nights++;
  const whole = workingSeries(simulateRun(plan).recording);
  const { firstFalseMs, seenMs } = watchedNight(whole, deadMs);
  if (firstFalseMs !== null) {
    tally.falseNights++;
    tally.wrong.push(`false at ${((firstFalseMs - start) / msPerHour).toFixed(2)} h, seed ${seed}, ${kind}`);
  }
  if (deadMs === null) continue;
  tally.dead++;
  if (seenMs === null) {
    tally.missed++;
    tally.wrong.push(`missed, dead at ${((deadMs - start) / msPerHour).toFixed(2)} h, seed ${seed}, ${kind}`);
  } else tally.minutes.push((seenMs - deadMs) / msPerMinute);
}

printTable(
  [
    "nights",
    "number",
    "died",
    "seen after, min: earliest",
    "median",
    "nine of ten",
    "latest",
    "never",
    "nights with a false alarm",
  ],
  [...tallies]
    .toSorted(([a], [b]) => a.localeCompare(b))
    .map(([kind, { nights: number, dead, minutes, missed, falseNights }]) => [
      kind,
      String(number),
      String(dead),
      ...[0, 0.5, 0.9, 1].map((share) => quantile(minutes, share)),
      String(missed),
      String(falseNights),
    ]),
);
console.log(`\nSeeds 1 to ${nights}.`);
for (const line of isListing ? [...tallies.values()].flatMap(({ wrong }) => wrong) : []) console.log(line);
printMachine();
