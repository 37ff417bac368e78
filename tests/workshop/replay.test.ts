// A log replayed into a store: nothing lost, nothing doubled, whatever interrupts it.

import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import { BadInput, type Recording } from "../../src/schema/index.ts";
import { knownGoodFridge, simulateRun } from "../../src/simulate/index.ts";
import { openStore, type Store } from "../../src/store/index.ts";
import { openRunOf } from "../../src/workshop/recording/by-hand.ts";
import { type Arrival, noteReadings, recordRun, replay, runToReplay } from "../../src/workshop/recording/index.ts";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-replay-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

const night = (): Recording =>
  simulateRun({
    name: "night.csv",
    seed: 3,
    startUnixMs: Date.parse("2026-06-04T18:00:00Z"),
    fridge: knownGoodFridge(),
    schedule: [
      { source: "off", hours: 1 },
      { source: "mains", hours: 4 },
    ],
    ambient: { meanCelsius: 24, swingKelvin: 2, wanderKelvin: 0.2 },
    samplingSeconds: 30,
  }).recording;

/** A clock that never waits: each wait is over at once, and the time has come. */
function skippingClock() {
  let ms = 0;
  return {
    now: () => ms,
    wait: async (wait: number) => {
      ms += wait;
    },
  };
}

const wanted = (fridgeId: string, log: Recording) => ({
  fridgeId,
  origin: "replay" as const,
  purpose: "test" as const,
  startedUnixMs: log.unixMs[0],
  utcOffsetMinutes: 0,
});

test("behind a batch that a full disk refused nothing is kept, so that the next recording goes on from there", async () => {
  const kept: number[] = [];
  const append = async (_run: string, [{ unixMs }]: readonly { unixMs: number }[]) => {
    if (unixMs === 3) throw new BadInput({ code: "store-disk-full", file: "workshop.coldfall" });
    kept.push(unixMs);
    return { stored: 1, repeated: 0, contradicted: 0 };
  };
  async function* arrivals(): AsyncGenerator<Arrival, void> {
    for (let unixMs = 1; unixMs <= 6; unixMs++) {
      yield { kind: "readings", readings: [{ position: "cabinet", unixMs, raw: 5 }] };
      // As a board does: the next line comes when this one has long been answered.
      await new Promise((resolve) => setTimeout(resolve, 1));
    }
  }
  const shelves = { readings: { append } } as unknown as Parameters<typeof recordRun>[1];
  await expect(recordRun(arrivals(), shelves, "run", () => {})).rejects.toMatchObject({ code: "store-disk-full" });
  expect(kept).toEqual([1, 2]);
});

/** Replays into the store's one run of the log until `stopAfter` arrivals were kept. */
async function replayed(store: Store, fridgeId: string, log: Recording, stopAfter = Number.POSITIVE_INFINITY) {
  const { run, lastUnixMs } = await runToReplay(store, wanted(fridgeId, log), log, "hash of the log");
  const stop = new AbortController();
  const kept: Arrival[] = [];
  const arrivals = replay(log, {
    speed: 600,
    ...(lastUnixMs === null ? {} : { afterUnixMs: lastUnixMs }),
    clock: skippingClock(),
    signal: stop.signal,
  });
  const counts = await recordRun(arrivals, store, run.id, (arrival) => {
    kept.push(arrival);
    if (kept.length >= stopAfter) stop.abort();
  });
  return { run, counts, kept };
}

test("a replay stopped half-way goes on where it stopped, and the run is the log reading for reading", async () => {
  await using store = await openStore(join(folder, "half.coldfall"), { groupWaitMs: 1 });
  const { id } = await store.fridges.add({ name: "Larch" });
  const log = night();
  const first = await replayed(store, id, log, 20);
  expect(first.counts.stored).toBeLessThan(3 * log.unixMs.length);
  const second = await replayed(store, id, log);
  expect(second.run.id).toBe(first.run.id);
  expect(second.counts).toMatchObject({ repeated: 0, contradicted: 0 });
  const back = await store.readings.recording(first.run.id);
  expect(back.unixMs).toEqual(log.unixMs);
  for (const position of ["evaporator", "cabinet", "ambient"] as const) {
    // Adding 0 makes -0, which the simulated probe can say, the 0 that it means.
    expect(back.columns[position]).toEqual(log.columns[position]?.map((value) => value + 0));
  }
  expect(back.sourceMarks.map(({ source }) => source)).toEqual(["off", "mains"]);
});

test("a replay that is done already keeps nothing new", async () => {
  await using store = await openStore(join(folder, "twice.coldfall"), { groupWaitMs: 1 });
  const { id } = await store.fridges.add({ name: "Larch" });
  const log = night();
  await replayed(store, id, log);
  const { counts, kept } = await replayed(store, id, log);
  expect(counts.stored).toBe(0);
  expect(kept).toEqual([]);
});

test("a store that cannot be asked for the run begun before is no reason to begin another", async () => {
  await using store = await openStore(join(folder, "busy.coldfall"), { groupWaitMs: 1 });
  const { id } = await store.fridges.add({ name: "Larch" });
  const log = night();
  const { run } = await replayed(store, id, log, 20);
  const busy = new BadInput({ code: "store-busy", file: "busy.coldfall" });
  for (const question of ["find", "get"] as const) vi.spyOn(store.runs, question).mockRejectedValue(busy);
  await expect(runToReplay(store, wanted(id, log), log, "hash of the log")).rejects.toBe(busy);
  vi.restoreAllMocks();
  expect((await store.runs.list()).runs.map((kept) => kept.id)).toEqual([run.id]);
});

test("what is told on comes in the log's order, and after its readings are durable", async () => {
  await using store = await openStore(join(folder, "order.coldfall"), { groupWaitMs: 1 });
  const { id } = await store.fridges.add({ name: "Larch" });
  const log = night();
  const { run } = await runToReplay(store, wanted(id, log), log, "another hash");
  const arrivals = replay(log, {
    speed: 36_000,
    clock: skippingClock(),
    signal: new AbortController().signal,
  });
  const seen: number[] = [];
  await recordRun(arrivals, store, run.id, async (arrival) => {
    if (arrival.kind !== "readings") return;
    const last = arrival.readings[arrival.readings.length - 1];
    const { values } = await store.readings.series(run.id, last.position, {
      fromUnixMs: last.unixMs,
      toUnixMs: last.unixMs + 1,
    });
    expect([...values]).toEqual([last.raw]);
    seen.push(last.unixMs);
  });
  expect(seen).toEqual(seen.toSorted((a, b) => a - b));
  expect(seen.length).toBeGreaterThan(5);
});

test("a reading noted by hand after the log's end does not make a replay believe it was done", async () => {
  await using store = await openStore(join(folder, "noted.coldfall"), { groupWaitMs: 1 });
  const fridge = await store.fridges.add({ name: "Larch" });
  const log = night();
  await replayed(store, fridge.id, log, 20);
  await noteReadings(store, fridge, new Map([["cabinet", 5.5]]), {
    clockUnixMs: log.unixMs[log.unixMs.length - 1],
    unixMs: log.unixMs[log.unixMs.length - 1] + 3_600_000,
    utcOffsetMinutes: 0,
  });
  await replayed(store, fridge.id, log);
  const { unixMs } = await store.readings.series((await openRunOf(store, fridge.id))?.id ?? "", "cabinet");
  expect(unixMs.length).toBe(log.unixMs.length + 1);
});

test("a reading noted now is noted at the instant that the replay has come to, not at this machine's", async () => {
  await using store = await openStore(join(folder, "noted-now.coldfall"), { groupWaitMs: 1 });
  const fridge = await store.fridges.add({ name: "Larch" });
  const log = night();
  const { run } = await replayed(store, fridge.id, log, 20);
  const clockUnixMs = log.unixMs[0] + 1e10;
  const noted = await noteReadings(store, fridge, new Map([["freezer", -12]]), { clockUnixMs, utcOffsetMinutes: 0 });
  const [{ lastUnixMs }] = await store.runs.extents(run.id);
  expect(noted).toMatchObject({ run: { id: run.id }, unixMs: lastUnixMs, received: { stored: 1 } });
});
