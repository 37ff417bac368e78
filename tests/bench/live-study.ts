// How often what is projected while a run goes on holds: random simulated fridges, sound and weak, told every half hour; the
// time to 5 °C against when it came, and the settled temperature against where the simulated cabinet settles on that night's
// last ambient. npm run bench live-study [fridges]; prints a markdown table.

import { msPerHour } from "../../src/schema/index.ts";
import { type Answer, isKnown } from "../../src/science/index.ts";
import { LiveRun } from "../../src/science/live/index.ts";
import { randomFridge, simulateRun } from "../../src/simulate/index.ts";
import { printMachine, printTable } from "./print.ts";

const fridges = Number(process.argv[3] ?? 60);
const start = Date.parse("2026-06-01T19:00:00Z");
const positions = ["evaporator", "cabinet", "ambient"] as const;

/** Told so many hours after the switch-on. */
interface Told {
  readonly hours: number;
  readonly to5: Answer;
  readonly settled: Answer;
}

/** A night on mains of one fridge: what was told, when 5 °C came (NaN: never), and where it went in 30 h, °C. */
function night(seed: number): { told: readonly Told[]; came: number; ended: number } {
  const { recording } = simulateRun({
    name: `fridge ${seed}`,
    seed,
    startUnixMs: start,
    fridge: randomFridge(seed),
    schedule: [
      { source: "off", hours: 1 },
      { source: "mains", hours: 30 },
    ],
    // No swing over the day: the cabinet's end is then a number that can be waited for.
    ambient: { meanCelsius: 20 + (seed % 9), swingKelvin: 0, wanderKelvin: 0.3 },
    faults: seed % 3 === 0 ? [{ name: "mains-element", size: 0.2 }] : [],
    samplingSeconds: 60,
  });
  const { unixMs, columns } = recording;
  const cabinet = columns.cabinet ?? new Float64Array(0);
  const switchOn = start + msPerHour;
  const run = new LiveRun();
  run.switchTo("off", start);
  run.switchTo("mains", switchOn);
  const told: Told[] = [];
  let came = Number.NaN;
  for (let i = 0; i < unixMs.length; i++) {
    const hours = (unixMs[i] - switchOn) / msPerHour;
    if (Number.isNaN(came) && hours > 0 && cabinet[i] <= 5) came = hours;
    if (hours > 10) continue;
    for (const position of positions) {
      run.add({ unixMs: unixMs[i], position, value: columns[position]?.[i] ?? Number.NaN });
    }
    if (hours < 2 || Math.abs(hours * 2 - Math.round(hours * 2)) > 1e-6) continue;
    const { to5, settled } = run.tell(unixMs[i]);
    told.push({ hours, to5, settled });
  }
  const tail = cabinet.subarray(-60);
  return { told, came, ended: tail.reduce((sum, value) => sum + value, 0) / tail.length };
}

interface Tally {
  asked: number;
  held: number;
  open: number;
  bias: number;
  widths: number[];
}

const tallies = new Map<string, Tally>();

function tally(name: string, hours: number, answer: Answer, truth: number): void {
  if (!isKnown(answer) || !Number.isFinite(truth)) return;
  const key = `${name} ${hours.toFixed(1)}`;
  const one = tallies.get(key) ?? { asked: 0, held: 0, open: 0, bias: 0, widths: [] };
  tallies.set(key, one);
  const { low, high, value } = answer;
  one.asked++;
  one.bias += value - truth;
  if ((low === null || low <= truth) && (high === null || high >= truth)) one.held++;
  if (low === null || high === null) one.open++;
  else one.widths.push(high - low);
}

for (let seed = 1; seed <= fridges; seed++) {
  const { told, came, ended } = night(seed);
  for (const { hours, to5, settled } of told) {
    if (!(came <= hours)) tally("to 5 °C, h", hours, to5, came);
    tally("settles at, °C", hours, settled, ended);
  }
}

const middle = (values: readonly number[]) => values.toSorted((a, b) => a - b)[values.length >> 1];
printTable(
  ["projection", "h after switch-on", "told", "held", "open end", "mean miss", "median width"],
  [...tallies]
    .map(([key, one]) => ({
      name: key.slice(0, key.lastIndexOf(" ")),
      hours: Number(key.slice(key.lastIndexOf(" "))),
      one,
    }))
    .filter(({ hours, one }) => Number.isInteger(hours) && one.asked >= 5)
    .toSorted((a, b) => a.name.localeCompare(b.name) || a.hours - b.hours)
    .map(({ name, hours, one }) => [
      name,
      hours.toFixed(0),
      String(one.asked),
      `${((100 * one.held) / one.asked).toFixed(0)} %`,
      String(one.open),
      (one.bias / one.asked).toFixed(2),
      one.widths.length === 0 ? "–" : middle(one.widths).toFixed(2),
    ]),
);
printMachine();
