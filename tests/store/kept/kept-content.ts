// What the kept store files hold: a little of everything, invented. A store of every version so far must still open and say all this.

import { expect } from "vitest";
import type { AnalysisDocument } from "../../../src/schema/documents/index.ts";
import type { Store } from "../../../src/store/index.ts";

const start = Date.UTC(2026, 5, 4, 19);

const sealed = Array.from({ length: 700 }, (_, i) => ({
  position: "cabinet" as const,
  unixMs: start + i * 1000,
  raw: Math.round(16 * (24 - i / 300 + Math.sin(i) / 8)) / 16,
  probeId: "28-1",
  boardId: "board-1",
  boot: 2,
  sequence: i,
  uptimeMs: 7000 + i * 1000,
  hostUnixMs: start + i * 1000 + (i % 4),
}));
const open = Array.from({ length: 5 }, (_, i) => ({
  position: "ambient" as const,
  unixMs: start + i * 999.5,
  raw: 25 + i / 7,
}));

/** From version 2 on: a Pt100 that sends ohms. IEC 60751: 100 Ω are 0 °C, 138.5055 Ω are 100 °C. */
const inOhms = [100, 138.5055].map((raw, i) => ({
  position: "boiler" as const,
  unixMs: start + i * 1000,
  raw,
  unit: "Ohm" as const,
  probeId: "pt",
}));

/** Puts all of it into an empty store. */
export async function fill(store: Store): Promise<void> {
  const fridge = await store.fridges.add({
    name: "Bay 5",
    kind: "tall door",
    ratedWatts: { gas: 210, mains: 190, dc12: 170 },
    cabinetLitres: 103,
    notes: "rattles",
  });
  const run = await store.runs.open({
    fridgeId: fridge.id,
    startedUnixMs: start,
    purpose: "known-good",
    origin: "board",
    utcOffsetMinutes: 120,
    name: "first night",
    sheet: { setting: "bench" },
    plan: { from: "19:00" },
  });
  await store.probes.put({ id: "28-1", label: "red", kind: "one-wire" });
  await store.probes.assign({
    probeId: "28-1",
    fridgeId: fridge.id,
    boardId: "board-1",
    position: "cabinet",
    sinceUnixMs: start,
  });
  await store.probes.calibrate({
    probeId: "28-1",
    madeUnixMs: start - 1000,
    dueUnixMs: start + 1000,
    method: "ice-point",
    coefficients: [0.25, 1],
    standardUncertaintyKelvin: 0.05,
  });
  await store.readings.append(run.id, sealed);
  await store.readings.append(run.id, open);
  await store.probes.put({ id: "pt", curve: { kind: "pt100", toleranceClass: "B" } });
  await store.readings.append(run.id, inOhms);
  await store.edits.make(run.id, { kind: "source", unixMs: start, source: "mains" }, { unixMs: start, by: "Kim" });
  const fan = { kind: "note", unixMs: start, text: "fan on" } as const;
  await store.edits.make(run.id, { kind: "together", edits: [fan, { ...fan, text: "vents clear" }] });
  await store.edits.make(run.id, { kind: "note", unixMs: start, text: "door shut" });
  await store.edits.undo(run.id);
  await store.events.add(run.id, { kind: "board-restart", fromUnixMs: start, boardId: "board-1" });
  const document = { format: "coldfall-analysis-1" } as unknown as AnalysisDocument;
  await store.results.add({
    kind: "analysis",
    fridgeId: fridge.id,
    runIds: [run.id],
    method: "1",
    madeUnixMs: start,
    document,
  });
  await store.baselines.add({ fridgeId: fridge.id, kind: "own", madeUnixMs: start, runIds: [run.id] });
  await store.boards.seen("board-1", { unixMs: start, fridgeId: fridge.id, hello: { format: 1 } });
  await store.alarms.raise({ runId: run.id, kind: "cabinet-warm", raisedUnixMs: start, reason: { code: "warm" } });
  await store.outbox.add({ target: "http://127.0.0.1:9/", body: { alarm: 1 }, madeUnixMs: start });
  await store.settings.set("retention-days", 730);
}

/** Fails where something is not as `fill` put it. @param version the store's, as it was written */
export async function expectAll(store: Store, version: number): Promise<void> {
  const fridge = await store.fridges.named("bay 5");
  expect(fridge).toMatchObject({
    kind: "tall door",
    ratedWatts: { gas: 210, mains: 190, dc12: 170 },
    cabinetLitres: 103,
  });
  const { runs } = await store.runs.list({ fridgeId: fridge.id });
  expect(runs).toMatchObject([{ name: "first night", purpose: "known-good", sheet: { setting: "bench" } }]);
  const [{ id: runId }] = runs;
  const cabinet = await store.readings.series(runId, "cabinet");
  expect(cabinet.unixMs).toEqual(Float64Array.from(sealed, ({ unixMs }) => unixMs));
  expect(cabinet.values).toEqual(Float64Array.from(sealed, ({ raw }) => raw + 0.25));
  expect((await store.readings.series(runId, "ambient")).values).toEqual(Float64Array.from(open, ({ raw }) => raw));
  if (version >= 2) {
    const [cold, hot] = (await store.readings.series(runId, "boiler")).values;
    expect(cold).toBeCloseTo(0, 4);
    expect(hot).toBeCloseTo(100, 3);
  }
  expect(await store.readings.append(runId, sealed)).toMatchObject({ stored: 0, repeated: sealed.length });
  expect(await store.edits.current(runId)).toMatchObject({
    sourceMarks: [{ source: "mains" }],
    notes: version >= 3 ? [{ text: "fan on" }, { text: "vents clear" }] : [],
    canRedo: true,
  });
  expect(await store.events.list(runId)).toMatchObject([{ kind: "board-restart", boardId: "board-1" }]);
  expect(await store.results.newest({ fridgeId: fridge.id })).toMatchObject({ runIds: [runId], method: "1" });
  expect(await store.baselines.list(fridge.id)).toMatchObject([{ kind: "own", runIds: [runId] }]);
  expect(await store.probes.roles(fridge.id)).toMatchObject([{ probeId: "28-1", position: "cabinet" }]);
  expect(await store.boards.list()).toMatchObject([{ id: "board-1", hello: { format: 1 } }]);
  expect(await store.alarms.list({ runId })).toMatchObject([{ kind: "cabinet-warm", reason: { code: "warm" } }]);
  expect(await store.outbox.due(start)).toMatchObject([{ body: { alarm: 1 } }]);
  expect(await store.settings.get("retention-days")).toBe(730);
  expect((await store.care.check()).damage).toEqual([]);
}
