// A long recording at full speed: days of a reading a second from three probes, through `recordRun` and the night's watch into
// a real store, while memory is looked at. The bench of the same name runs a week, a test a few hours.

import { join } from "node:path";
import { memoryUsage } from "node:process";
import { positions, type Recording } from "../../src/schema/index.ts";
import { usualAlarmLimits } from "../../src/science/live/index.ts";
import { knownGoodFridge, simulateRun } from "../../src/simulate/index.ts";
import { openStore } from "../../src/store/index.ts";
import { NightWatch, recordRun, replay } from "../../src/workshop/recording/index.ts";

export interface SoakFigures {
  readonly sent: number;
  readonly stored: number;
  /** Readings that the store does not hold as they were sent. */
  readonly missing: number;
  /** Blocks that a check found damaged. */
  readonly damaged: number;
  readonly seconds: number;
  /** What stays of the heap after a collection, bytes, at even steps through the run; the whole process beside it. */
  readonly heap: readonly number[];
  readonly resident: readonly number[];
}

/** So often memory is looked at. */
const looks = 20;

/** @param folder where the store is made */
export async function soak(folder: string, hours: number, seed: number): Promise<SoakFigures> {
  const log = longRun(hours, seed);
  const sent = log.unixMs.length * 3;
  await using store = await openStore(join(folder, "soak.coldfall"));
  const { id: fridgeId } = await store.fridges.add({ name: "Larch" });
  const startedUnixMs = log.unixMs[0];
  const opened = { fridgeId, startedUnixMs, purpose: "test", origin: "replay", utcOffsetMinutes: 0 } as const;
  const run = await store.runs.open(opened);
  const night = await NightWatch.begin(store, run, {
    limits: usualAlarmLimits,
    baseline: { knownGood: [], baselineKind: "own" },
    // As a replay is watched.
    lookEveryMs: 5 * 60_000,
    freeMegabytes: () => null,
    whenRaised: () => {},
  });
  const began = performance.now();
  const arrivals = replay(log, {
    speed: Number.POSITIVE_INFINITY,
    clock: { now: () => 0, wait: async () => {} },
    signal: new AbortController().signal,
  });
  const [heap, resident]: [number[], number[]] = [[], []];
  const step = (hours * 3_600_000) / looks;
  const { stored } = await recordRun(arrivals, store, run.id, async (arrival) => {
    await night.see(arrival);
    if (night.nowMs - startedUnixMs < step * (heap.length + 1)) return;
    // Twice: what the first collection finds dead only the second gives back.
    for (let i = 0; i < 2; i++) globalThis.gc?.();
    const memory = memoryUsage();
    heap.push(memory.heapUsed + memory.external);
    resident.push(memory.rss);
  });
  const seconds = (performance.now() - began) / 1000;
  const back = await store.readings.recording(run.id);
  const { damage } = await store.care.check();
  return { sent, stored, missing: missing(log, back), damaged: damage.length, seconds, heap, resident };
}

/** Mains, then off, in turn, as a fridge on test would be run for days. */
function longRun(hours: number, seed: number): Recording {
  const turns = Math.max(1, Math.ceil(hours / 12));
  const { recording } = simulateRun({
    name: "long.csv",
    seed,
    startUnixMs: Date.parse("2026-06-01T12:00:00Z"),
    fridge: knownGoodFridge(),
    schedule: Array.from({ length: turns }, () => [
      { source: "off" as const, hours: hours / turns / 6 },
      { source: "mains" as const, hours: (hours / turns / 6) * 5 },
    ]).flat(),
    ambient: { meanCelsius: 24, swingKelvin: 3, wanderKelvin: 0.2 },
    samplingSeconds: 1,
  });
  return recording;
}

function missing(sent: Recording, kept: Recording): number {
  const rowOf = new Map(Array.from(kept.unixMs, (unixMs, row) => [unixMs, row]));
  let count = 0;
  for (const position of positions) {
    const values = sent.columns[position];
    if (values === undefined) continue;
    for (let row = 0; row < values.length; row++) {
      const place = rowOf.get(sent.unixMs[row]);
      // Adding 0 makes -0, which the simulated probe can say, the 0 that it means.
      if (place === undefined || kept.columns[position]?.[place] !== values[row] + 0) count += 1;
    }
  }
  return count;
}
