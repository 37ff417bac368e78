// On gas: how soon a dead flame is seen, and how many nights have a false alarm at a thermostat's hold. Random simulated
// fridges whose thermostats differ in set point (3 to 9 °C), in band (1 to 2.4 K) and in what they leave of the flame; every other
// night the flame dies for good. Each night is read as it is, and once more with a probe at the boiler.
// `npm run bench gas-stop-study [NIGHTS] [FIRST SEED]`: 400 from seed 6001 on unless stated; 5001 to 5400 were tuned on.

import { msPerHour, msPerMinute } from "../../src/schema/index.ts";
import { workingSeries } from "../../src/science/readings/working-series.ts";
import { randomFridge, type SimulationPlan, simulateRun } from "../../src/simulate/index.ts";
import { seededRandom } from "../../src/simulate/seeded-random.ts";
import { doorsOfNight, probesOfNight, quantile, watchedNight } from "./cases/watched-night.ts";
import { printMachine, printTable } from "./print.ts";

const nights = Number(process.argv[3] ?? 400);
const firstSeed = Number(process.argv[4] ?? 6001);
const start = Date.UTC(2026, 5, 4, 19);

function nightOf(seed: number) {
  const { uniform: random } = seededRandom(seed, "gas-holds");
  const isCycling = random() < 0.75;
  const probe = probesOfNight(random);
  const diesHours = 2.5 + 8 * random();
  const deadHours = seed % 2 === 0 ? diesHours : null;
  const doors = doorsOfNight(random);
  const thermostatHalfBandKelvin = 0.5 + 0.7 * random();
  const thermostatSmallFlame = random() < 0.3 ? 0 : 0.15 + 0.15 * random();
  const plan: SimulationPlan = {
    name: `night ${seed}`,
    seed,
    startUnixMs: start,
    fridge: randomFridge(seed),
    schedule: [
      { source: "off", hours: 0.5 },
      { source: "gas", hours: 12.5 },
    ],
    ambient: { meanCelsius: 16 + 14 * random(), swingKelvin: 8 * random(), wanderKelvin: 0.5 * random() },
    samplingSeconds: 60,
    load: { kilograms: 4 * random() },
    nightToNight: { heat: 0.05, cooling: 0.03, volts: 0.02 },
    frostGramsPerHour: random() < 0.3 ? 15 * random() : 0,
    probes: { evaporator: probe(), cabinet: probe(), ambient: probe(), boiler: { noiseKelvin: 0.5 } },
    doors,
    outages: deadHours === null ? [] : [{ atHours: deadHours, hours: 20 }],
    thermostatHalfBandKelvin,
    thermostatSmallFlame,
    ...(isCycling ? { thermostatSetCelsius: 3 + 6 * random() } : {}),
  };
  const kind = !isCycling
    ? "no thermostat"
    : thermostatSmallFlame === 0
      ? "thermostat shuts the gas"
      : "thermostat leaves a small flame";
  return { plan, kind, deadHours };
}

/** Whether the thermostat had held before the flame died, and so long ago that the hold was over, most likely. */
function hasHeldBefore(plan: SimulationPlan, cabinet: Float64Array | undefined, deadHours: number): boolean {
  const { thermostatSetCelsius: set, thermostatHalfBandKelvin: halfBand = 0.8 } = plan;
  if (set === undefined || cabinet === undefined) return false;
  return cabinet.subarray(60, Math.floor(60 * (deadHours - 1))).some((celsius) => celsius <= set - halfBand);
}

interface Tally {
  nights: number;
  falseNights: number;
  readonly beforeHold: number[];
  readonly afterHold: number[];
  dead: number;
}
const tallies = new Map<string, Tally>();

for (let seed = firstSeed; seed < firstSeed + nights; seed++) {
  const { plan, kind, deadHours } = nightOf(seed);
  const withBoiler = workingSeries(simulateRun(plan).recording);
  const { boiler: _, ...others } = withBoiler.columns;
  for (const [probes, series] of [
    ["three probes", { ...withBoiler, columns: others }],
    ["a boiler probe as well", withBoiler],
  ] as const) {
    const name = `${kind} | ${probes}`;
    const tally = tallies.get(name) ?? { nights: 0, falseNights: 0, beforeHold: [], afterHold: [], dead: 0 };
    tallies.set(name, tally);
    const deadMs = deadHours === null ? null : start + deadHours * msPerHour;
    const { firstFalseMs, seenMs } = watchedNight(series, deadMs);
    tally.nights++;
    if (firstFalseMs !== null) tally.falseNights++;
    if (deadMs === null || deadHours === null) continue;
    tally.dead++;
    if (seenMs === null) continue;
    const list = hasHeldBefore(plan, others.cabinet, deadHours) ? tally.afterHold : tally.beforeHold;
    list.push((seenMs - deadMs) / msPerMinute);
  }
}

const spread = (minutes: readonly number[]) =>
  `${minutes.length}: ${[0, 0.5, 0.9, 1].map((share) => quantile(minutes, share)).join(", ")}`;
printTable(
  [
    "nights on gas",
    "probes",
    "number",
    "with a false alarm",
    "flame died",
    "before any hold was over: how many, seen after min (earliest, median, nine of ten, latest)",
    "later",
    "never",
  ],
  [...tallies]
    .toSorted(([a], [b]) => a.localeCompare(b))
    .map(([name, { nights: number, falseNights, beforeHold, afterHold, dead }]) => [
      ...name.split(" | "),
      String(number),
      String(falseNights),
      String(dead),
      spread(beforeHold),
      spread(afterHold),
      String(dead - beforeHold.length - afterHold.length),
    ]),
);
console.log(`\nSeeds ${firstSeed} to ${firstSeed + nights - 1}.`);
printMachine();
