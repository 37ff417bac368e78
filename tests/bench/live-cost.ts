// What one more reading costs a live run, after 1 h and after 31 h at a reading a second from three probes, and what telling
// costs, once a minute. node tests/bench/run.ts live-cost prints a markdown table.

import { LiveRun } from "../../src/science/live/index.ts";
import { knownGoodFridge, simulateRun } from "../../src/simulate/index.ts";
import { printMachine, printTable } from "./print.ts";

const startUnixMs = Date.parse("2026-06-01T19:00:00Z");
const { recording } = simulateRun({
  name: "live",
  seed: 7,
  startUnixMs,
  fridge: knownGoodFridge(),
  schedule: [
    { source: "off", hours: 1 },
    { source: "mains", hours: 31.5 },
  ],
  ambient: { meanCelsius: 24, swingKelvin: 3 },
  samplingSeconds: 1,
});
const { unixMs, columns } = recording;
const { evaporator, cabinet, ambient } = columns;
if (evaporator === undefined || cabinet === undefined || ambient === undefined) throw new Error("three probes");

const run = new LiveRun();
run.switchTo("off", startUnixMs);
run.switchTo("mains", startUnixMs + 3_600_000);
let at = 0;

function addUntil(hours: number): void {
  for (; at < unixMs.length && unixMs[at] < startUnixMs + hours * 3_600_000; at++) {
    run.add({ unixMs: unixMs[at], position: "evaporator", value: evaporator?.[at] ?? Number.NaN });
    run.add({ unixMs: unixMs[at], position: "cabinet", value: cabinet?.[at] ?? Number.NaN });
    run.add({ unixMs: unixMs[at], position: "ambient", value: ambient?.[at] ?? Number.NaN });
  }
}

const median = (values: readonly number[]) => values.toSorted((a, b) => a - b)[values.length >> 1];

/** Nanoseconds a reading over ten minutes of readings, and milliseconds a telling, medians of five. */
function costAfter(hours: number): readonly string[] {
  addUntil(hours);
  const adding: number[] = [];
  const telling: number[] = [];
  for (let round = 1; round <= 5; round++) {
    const before = at;
    const from = performance.now();
    addUntil(hours + round / 12);
    adding.push(((performance.now() - from) * 1e6) / (3 * (at - before)));
    // A minute and more later each time, so that nothing is remembered.
    const nowMs = unixMs[at - 1] + round * 61_000;
    const told = performance.now();
    run.tell(nowMs);
    telling.push(performance.now() - told);
  }
  return [`${hours - 1} h`, median(adding).toFixed(0), median(telling).toFixed(1)];
}

// Warm, as a recorder is after its first minutes.
addUntil(1.5);
for (let i = 0; i < 20; i++) run.tell(unixMs[at - 1] + i * 61_000);
printTable(["after switch-on", "ns per reading", "ms per telling"], [2, 5, 9, 17, 32].map(costAfter));
printMachine();
