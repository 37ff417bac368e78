// Makes the sample logs anew: node sample-logs/make.ts. Same seeds, same files; tests/sample-logs.test.ts compares.
// Every night runs on electricity, every gas stretch lies in the day, attended: the samples teach the safe habit.

import { mkdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { nativeLogText } from "../src/ingest/index.ts";
import type { RunSheet } from "../src/schema/index.ts";
import { knownGoodFridge, type ScheduledStretch, type SimulatedFault, type SimulationPlan, simulateRun } from "../src/simulate/index.ts";

/** A night on mains, a pause in which the cabinet warms back, a working day on gas. */
const nightAndDay: readonly ScheduledStretch[] = [
  { source: "off", hours: 1 },
  { source: "mains", hours: 10 },
  { source: "off", hours: 3 },
  { source: "gas", hours: 7 },
];
/** The same with a second evening and night on 12 V from a fused bench supply. */
const allSources: readonly ScheduledStretch[] = [...nightAndDay, { source: "off", hours: 3 }, { source: "dc12", hours: 7 }];

const bench: RunSheet = {
  format: "coldfall-run-sheet-1",
  setting: "bench",
  tiltSidewaysDegrees: 0,
  tiltLengthwaysDegrees: 0,
  dial: "coldest",
  load: "empty",
  vents: "open",
  fanInside: false,
  fanAtRear: false,
  gasKind: "propane",
  gasChecked: true,
  checkedBy: "bench technician",
};

interface Sample {
  readonly folder: string;
  readonly log: string;
  /** Local evening on which the log begins, 21:00 at UTC+02:00. */
  readonly evening: string;
  readonly schedule: readonly ScheduledStretch[];
  readonly ambient: number;
  readonly faults: readonly SimulatedFault[];
  readonly doors?: SimulationPlan["doors"];
  readonly notes: string;
  /** What its run sheet says besides that of the bench. */
  readonly sheet?: RunSheet;
  /** The luck of the night; counted through from 100 unless stated. */
  readonly seed?: number;
}

const bay2 = { folder: "bay-2", schedule: allSources, faults: [] };
const bay5 = { folder: "bay-5", schedule: nightAndDay, faults: [] };
const bay2KnownGood = { ...bay2, notes: "recorded when the fridge was new to the workshop" };
const bay3 = { folder: "bay-3", schedule: [...nightAndDay, { source: "off", hours: 3 }] as const, faults: [] };
const bay3KnownGood = { ...bay3, notes: "recorded after the last service" };
const bay5KnownGood = { ...bay5, notes: "recorded after the last service" };

const samples: readonly Sample[] = [
  { ...bay2KnownGood, log: "known-good-1", evening: "2025-06-02", ambient: 22 },
  { ...bay2KnownGood, log: "known-good-2", evening: "2025-06-11", ambient: 25 },
  { ...bay2KnownGood, log: "known-good-3", evening: "2025-06-24", ambient: 27 },
  {
    ...bay2,
    log: "before-the-season",
    evening: "2026-05-18",
    ambient: 24,
    doors: [{ atHours: 17.2, seconds: 25 }],
    notes: "yearly check; door opened once in the afternoon",
  },
  { ...bay5KnownGood, log: "known-good-1", evening: "2025-04-07", ambient: 21 },
  { ...bay5KnownGood, log: "known-good-2", evening: "2025-04-14", ambient: 23 },
  { ...bay5KnownGood, log: "known-good-3", evening: "2025-05-12", ambient: 26 },
  {
    ...bay5,
    log: "after-the-winter",
    evening: "2026-05-25",
    ambient: 25,
    faults: [{ name: "flue", size: 0.32 }],
    notes: "customer: cools on mains, hardly on gas; flame, flue, leaks and carbon monoxide checked before the gas stretch",
  },
  {
    ...bay5,
    log: "serviced-june",
    seed: 110,
    evening: "2026-06-08",
    ambient: 23,
    notes:
      "after the service: flue and baffle brushed, burner cleaned, new jet; nothing done to the mains element; flame, flue, leaks and carbon monoxide checked before the gas stretch",
    sheet: { untouchedSources: ["mains"] },
  },
  { ...bay3KnownGood, log: "known-good-1", seed: 120, evening: "2025-08-04", ambient: 24 },
  { ...bay3KnownGood, log: "known-good-2", seed: 121, evening: "2025-08-18", ambient: 26 },
  { ...bay3KnownGood, log: "known-good-3", seed: 122, evening: "2025-09-01", ambient: 22 },
  {
    ...bay3,
    log: "butter-soft",
    seed: 123,
    evening: "2026-06-15",
    ambient: 27,
    faults: [{ name: "door-seal", size: 0.6 }],
    notes: "customer: butter is soft by noon, on mains and on gas alike; flame, flue, leaks and carbon monoxide checked before the gas stretch",
  },
  {
    folder: "bay-7",
    log: "bought-used",
    seed: 130,
    evening: "2026-06-22",
    ambient: 24,
    schedule: allSources,
    faults: [{ name: "mains-element", size: 0.3 }],
    notes: "bought used, nothing known of it; rated watts read from the plate; flame, flue, leaks and carbon monoxide checked before the gas stretch",
    sheet: { ratedWatts: { gas: 170, mains: 115, dc12: 110 }, supplyVolts: { mains: 231, dc12: 12.1 } },
  },
];

const fridges = {
  "bay-2": knownGoodFridge(),
  "bay-3": knownGoodFridge({ name: "bay 3, 80 l", volumeLitres: 80, cabinet: { wallLeak: 0.85, shelvesHeatCapacity: 2200 } }),
  "bay-7": knownGoodFridge({
    name: "bay 7, 80 l",
    volumeLitres: 80,
    ratedWatts: { gas: 170, mains: 115, dc12: 110 },
    unit: { designHeatWatts: 115, coolingWatts: 26 },
  }),
  "bay-5": knownGoodFridge({ name: "bay 5, 110 l", volumeLitres: 110, cabinet: { wallLeak: 1, wallHeatCapacity: 9500, shelvesHeatCapacity: 3200 } }),
} as const;

/**
 * A hot week-end for the fridge of bay 2: cooled down on mains, 12 V on the road from a charging supply, off at the filling
 * station and on the ferry, attended gas at the picnic, mains at the site. Each row holds until the next.
 */
const hotWeekEnd = [
  // time, ambient, source, sun, driving
  ["2026-07-11T06:00:00+02:00", 20, "mains", "shade", "no"],
  ["2026-07-11T08:00:00+02:00", 23, "dc12", "shade", "yes"],
  ["2026-07-11T10:00:00+02:00", 28, "off", "sun", "no"],
  ["2026-07-11T12:00:00+02:00", 32, "dc12", "sun", "yes"],
  ["2026-07-11T14:00:00+02:00", 35, "gas", "sun", "no"],
  ["2026-07-11T16:00:00+02:00", 36, "gas", "shade", "no"],
  ["2026-07-11T18:00:00+02:00", 34, "mains", "shade", "no"],
  ["2026-07-11T21:00:00+02:00", 29, "mains", "shade", "no"],
  ["2026-07-12T05:00:00+02:00", 21, "mains", "shade", "no"],
  ["2026-07-12T10:00:00+02:00", 29, "mains", "shade", "no"],
  ["2026-07-12T16:00:00+02:00", 36, "dc12", "sun", "yes"],
  ["2026-07-12T19:00:00+02:00", 33, "mains", "shade", "no"],
  ["2026-07-12T22:00:00+02:00", 28, "mains", "shade", "no"],
] as const;

const forecastText = ["time,ambient,source,sun,driving", ...hotWeekEnd.map((row) => row.join(","))].join("\n");

/** Path below sample-logs and text of every sample file. */
export function sampleFiles(): ReadonlyMap<string, string> {
  const files = new Map<string, string>();
  for (const [index, sample] of samples.entries()) {
    const fridge = fridges[sample.folder as keyof typeof fridges];
    const { recording } = simulateRun({
      name: `${sample.log}.csv`,
      seed: sample.seed ?? 100 + index,
      startUnixMs: Date.parse(`${sample.evening}T21:00:00+02:00`),
      utcOffsetMinutes: 120,
      fridge,
      schedule: sample.schedule,
      ambient: { meanCelsius: sample.ambient, swingKelvin: 3, wanderKelvin: 0.4 },
      samplingSeconds: 60,
      faults: sample.faults,
      ...(sample.doors ? { doors: sample.doors } : {}),
      nightToNight: { heat: 0.02, cooling: 0.015, volts: 0.01 },
      probes: { evaporator: { offsetKelvin: 0.19 }, cabinet: { offsetKelvin: -0.12 }, ambient: { offsetKelvin: 0.06 } },
    });
    const sheet: RunSheet = { ...bench, ...sample.sheet, fridge: sample.folder, notes: sample.notes };
    files.set(`${sample.folder}/${sample.log}.csv`, nativeLogText(recording));
    files.set(`${sample.folder}/${sample.log}.sheet.json`, `${JSON.stringify(sheet, null, 2)}\n`);
  }
  files.set("bay-2/trip.forecast.csv", `${forecastText}\n`);
  for (const [path, text] of bay8Files()) files.set(path, text);
  return files;
}

/**
 * Bay 8: a night on mains, and in the morning, without a pause, an attended stretch on gas. Two hours later the fins
 * tell that gas cools far less than mains. A row every two minutes.
 */
function bay8Files(): ReadonlyMap<string, string> {
  const files = new Map<string, string>();
  const knownGood = [
    { source: "off", hours: 1 },
    { source: "mains", hours: 8 },
    { source: "off", hours: 3 },
    { source: "gas", hours: 6 },
  ] as const;
  const switched = [
    { source: "off", hours: 1 },
    { source: "mains", hours: 9.5 },
    { source: "gas", hours: 2.5 },
  ] as const;
  const checked = "flame, flue, leaks and carbon monoxide checked before the gas stretch";
  const runs = [
    { log: "known-good-1", evening: "2025-05-05", ambient: 21, schedule: knownGood, flue: 0, notes: `recorded when it was new to the workshop; ${checked}` },
    { log: "known-good-2", evening: "2025-05-19", ambient: 24, schedule: knownGood, flue: 0, notes: `recorded when it was new to the workshop; ${checked}` },
    { log: "known-good-3", evening: "2025-06-02", ambient: 23, schedule: knownGood, flue: 0, notes: `recorded when it was new to the workshop; ${checked}` },
    { log: "switched-in-the-morning", evening: "2026-06-15", ambient: 22, schedule: switched, flue: 0.3, notes: `customer: fine at the site, warm on the road stops; from mains to gas without a pause at half past seven, attended; ${checked}` },
  ] as const;
  const fridge = knownGoodFridge({ name: "bay 8, 80 l", volumeLitres: 80 });
  for (const [index, { log, evening, ambient, schedule, flue, notes }] of runs.entries()) {
    const { recording } = simulateRun({
      name: `${log}.csv`,
      seed: 190 + index,
      startUnixMs: Date.parse(`${evening}T21:00:00+02:00`),
      utcOffsetMinutes: 120,
      fridge,
      schedule,
      ambient: { meanCelsius: ambient, swingKelvin: 3, wanderKelvin: 0.4 },
      samplingSeconds: 120,
      faults: [{ name: "flue", size: flue }],
      nightToNight: { heat: 0.02, cooling: 0.015, volts: 0.01 },
      probes: { evaporator: { offsetKelvin: -0.14 }, cabinet: { offsetKelvin: 0.1 }, ambient: { offsetKelvin: -0.05 } },
    });
    const sheet: RunSheet = { ...bench, fridge: "bay-8", notes };
    files.set(`bay-8/${log}.csv`, nativeLogText(recording));
    files.set(`bay-8/${log}.sheet.json`, `${JSON.stringify(sheet, null, 2)}\n`);
  }
  return files;
}

const here = dirname(fileURLToPath(import.meta.url));
if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const [path, text] of sampleFiles()) {
    mkdirSync(join(here, dirname(path)), { recursive: true });
    writeFileSync(join(here, path), text);
  }
}
