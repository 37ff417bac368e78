// How fast the store takes readings in and gives them back, and how small they lie there: simulated runs with noisy probes of
// 0.0625 K steps. npm run bench store-speed prints a markdown table.

import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DatabaseSync } from "node:sqlite";
import type { AnalysisDocument } from "../../src/schema/documents/index.ts";
import { knownGoodFridge, simulateRun } from "../../src/simulate/index.ts";
import { type NewReading, openStore, type ReadingChunk, type Store } from "../../src/store/index.ts";
import { printMachine, printTable } from "./print.ts";

const folder = mkdtempSync(join(tmpdir(), "coldfall-bench-"));
const positions = ["evaporator", "cabinet", "ambient", "room"] as const;
/** As in the measurements that the layout rests on: 29 runs of four positions, 12 h of a reading a second. */
const runs = 29;
const hours = 12;
const readingsPerSeries = hours * 3600;
const startUnixMs = Date.parse("2026-06-01T18:00:00Z");

/** The noise of each probe, AR(1) with memory 0.6, before it is put into steps of 1/16 K. */
const noisy = { noiseKelvin: 0.1 };

/** A run's readings, one a second. */
function noisyRun(seed: number): ReadingChunk {
  const { recording } = simulateRun({
    name: "bench",
    seed,
    startUnixMs: startUnixMs + seed * 86_400_000,
    fridge: knownGoodFridge(),
    schedule: [
      { source: "off", hours: 1 },
      { source: "mains", hours: hours - 1 },
    ],
    ambient: { meanCelsius: 24, swingKelvin: 3, wanderKelvin: 0.3 },
    samplingSeconds: 1,
    room: { meanCelsius: 22 },
    probes: { evaporator: noisy, cabinet: noisy, ambient: noisy, room: noisy },
  });
  const first = (values: Float64Array | undefined) => (values ?? new Float64Array()).subarray(0, readingsPerSeries);
  const columns = Object.fromEntries(positions.map((position) => [position, first(recording.columns[position])]));
  return { unixMs: first(recording.unixMs), columns };
}

interface Taken {
  /** By the clock on the wall, ms. */
  readonly wall: number;
  /** Of the processor, ms: what the wall would show on a machine with nothing else to do. */
  readonly processor: number;
}

/** The median of each over so many times. */
async function timeOf(work: () => Promise<unknown>, times = 1): Promise<Taken> {
  const taken: Taken[] = [];
  for (let i = 0; i < times; i++) {
    const from = performance.now();
    const before = process.cpuUsage();
    await work();
    const { user, system } = process.cpuUsage(before);
    taken.push({ wall: performance.now() - from, processor: (user + system) / 1000 });
  }
  const median = (values: readonly number[]) => values.toSorted((x, y) => x - y)[values.length >> 1];
  return { wall: median(taken.map(({ wall }) => wall)), processor: median(taken.map(({ processor }) => processor)) };
}

type Row = [what: string, measured: string, processor: string, goal: string];

const met = (goal: string, isMet: boolean) => `${goal}, ${isMet ? "met" : "missed"}`;
const ms = (time: number) => `${time.toFixed(time < 10 ? 2 : 0)} ms`;
const timeRow = (what: string, { wall, processor }: Taken, goalMs?: number): Row => [
  what,
  ms(wall),
  ms(processor),
  goalMs === undefined ? "" : met(ms(goalMs), wall < goalMs),
];
const rateRow = (what: string, readings: number, { wall, processor }: Taken, goal?: number): Row => {
  const rate = (time: number) => `${(readings / time / 1000).toFixed(2)} million/s`;
  return [
    what,
    rate(wall),
    rate(processor),
    goal === undefined ? "" : met(`${goal} million/s`, readings / wall / 1000 >= goal),
  ];
};
const bytesRow = (what: string, bytes: number): Row => [what, `${bytes.toFixed(2)} B`, "", met("3 B", bytes <= 3)];

const openRun = (store: Store, fridgeId: string, day: number) =>
  store.runs.open({
    fridgeId,
    startedUnixMs: startUnixMs + day * 86_400_000,
    purpose: "test",
    origin: "file",
    utcOffsetMinutes: 120,
  });

/** A night as a board sends it: batches of three readings a second, one commit for what comes in together. */
function* liveBatches({ unixMs, columns }: ReadingChunk): Generator<readonly NewReading[]> {
  for (let row = 0; row < readingsPerSeries; row++) {
    yield positions.slice(0, 3).map((position, place) => ({
      position,
      unixMs: unixMs[row],
      raw: columns[position]?.[row] ?? 0,
      probeId: `probe-${place}`,
      boardId: "board",
      sequence: 3 * row + place,
      uptimeMs: 5000 + row * 1000,
      hostUnixMs: unixMs[row] + ((row * 7) % 13),
    }));
  }
}

/** As large as a real one. */
const someDocument = (size: number) => ({ filler: "x".repeat(size) }) as unknown as AnalysisDocument;

/** Brings a log in as one run. @returns the run's id */
async function importRun(store: Store, fridgeId: string, day: number, chunk: ReadingChunk): Promise<string> {
  const { id } = await openRun(store, fridgeId, day);
  const into = store.readings.import(id);
  into.add(chunk);
  await into.finish();
  return id;
}

/** Speed in and out. */
async function speedRows(chunks: readonly ReadingChunk[]): Promise<Row[]> {
  await using store = await openStore(join(folder, "speed.coldfall"));
  const { id: fridgeId } = await store.fridges.add({ name: "bench" });
  const total = runs * positions.length * readingsPerSeries;
  let runId = "";
  const importing = await timeOf(async () => {
    for (let day = 0; day < runs; day++) runId = await importRun(store, fridgeId, day, chunks[day % chunks.length]);
  });
  for (let day = runs; day < 500; day++) {
    const { id } = await openRun(store, fridgeId, day);
    const document = someDocument(100_000);
    await store.results.add({ kind: "analysis", fridgeId, runIds: [id], method: "1", madeUnixMs: day, document });
  }
  return [
    rateRow(`${total.toLocaleString("en")} readings of logs into sealed blocks, durable`, total, importing, 5),
    timeRow(
      "a series of 43,200 back into typed arrays (median of 25)",
      await timeOf(() => store.readings.series(runId, "cabinet"), 25),
      3,
    ),
    timeRow("that run's four positions as one recording", await timeOf(() => store.readings.recording(runId), 9)),
    timeRow(
      "newest verdict of a fridge with 500 runs, each result 100 kB (median of 9)",
      await timeOf(() => store.results.newest({ fridgeId }), 9),
      50,
    ),
    timeRow("check of all of it", await timeOf(() => store.care.check())),
  ];
}

/** Without pages that came free, which the next readings fill again: those of the open tail once it is sealed. */
function bytesInUse(file: string): number {
  using database = new DatabaseSync(file, { readOnly: true });
  const pragma = (name: string) => Number(Object.values(database.prepare(`pragma ${name}`).get() ?? {})[0]);
  return (pragma("page_count") - pragma("freelist_count")) * pragma("page_size");
}

/** Room taken by logs. */
async function sizeRow(chunks: readonly ReadingChunk[]): Promise<Row> {
  const file = join(folder, "size.coldfall");
  const store = await openStore(file);
  const { id: fridgeId } = await store.fridges.add({ name: "bench" });
  await store.care.compact();
  const empty = bytesInUse(file);
  for (const [day, chunk] of chunks.entries()) await importRun(store, fridgeId, day, chunk);
  await store.close();
  const readings = chunks.length * positions.length * readingsPerSeries;
  return bytesRow("of the file for a reading of a log", (bytesInUse(file) - empty) / readings);
}

/** A night of one board with three probes. */
async function liveRows(chunk: ReadingChunk): Promise<Row[]> {
  const file = join(folder, "live.coldfall");
  const readings = 3 * readingsPerSeries;
  let store = await openStore(file);
  const { id: fridgeId } = await store.fridges.add({ name: "bench" });
  const { id: runId } = await openRun(store, fridgeId, 0);
  await store.care.compact();
  const empty = bytesInUse(file);
  const appending = await timeOf(async () => {
    const pending: Promise<unknown>[] = [];
    for (const batch of liveBatches(chunk)) {
      pending.push(store.readings.append(runId, batch));
      if (pending.length === 600) await Promise.all(pending.splice(0));
    }
    await Promise.all(pending);
  });
  const back = await timeOf(() => store.readings.series(runId, "cabinet"), 25);
  await store.runs.close(runId, startUnixMs + readingsPerSeries * 1000);
  // Closing empties the write-ahead log into the file.
  await store.close();
  const asRecorded = bytesInUse(file);
  store = await openStore(file);
  await store.care.compact();
  await store.close();
  return [
    rateRow("live readings, 3 to a batch, 600 batches handed in together", readings, appending),
    timeRow("43,200 of them back, sealed every ten minutes (median of 25)", back, 3),
    bytesRow("of the file for a live reading with sequence, uptime and host time", (asRecorded - empty) / readings),
    bytesRow("the same after `compact`", (bytesInUse(file) - empty) / readings),
  ];
}

try {
  const chunks = Array.from({ length: 4 }, (_, seed) => noisyRun(seed + 1));
  const rows = [...(await speedRows(chunks)), await sizeRow(chunks), ...(await liveRows(chunks[0]))];
  printTable(["the store", "measured", "of the processor", "goal"], rows);
  printMachine();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
