// The changes are checked by what they do to a run in a real store: marks hold until the rows say another source.

import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, onTestFinished, test } from "vitest";
import { type EnergySource, energySources } from "../../src/schema/index.ts";
import { openStore } from "../../src/store/index.ts";
import { type Edge, movedEdge } from "../../web/parts/moved-edge.ts";

const minute = 60_000;
const start = Date.parse("2026-06-04T06:00:00Z");
const at = (minutes: number) => start + minutes * minute;

/** A run of an hour a row a minute, off for half of it and then on mains, as its log's own column says. */
async function run() {
  const folder = mkdtempSync(join(tmpdir(), "coldfall-edges-"));
  const store = await openStore(join(folder, "store.coldfall"));
  onTestFinished(async () => {
    await store.close();
    rmSync(folder, { recursive: true });
  });
  const fridge = await store.fridges.add({ name: "one" });
  const { id } = await store.runs.open({
    fridgeId: fridge.id,
    purpose: "test",
    origin: "hand",
    startedUnixMs: start,
    utcOffsetMinutes: 0,
  });
  const rows = Array.from({ length: 60 }, (_, i) => at(i));
  await store.readings.append(
    id,
    rows.map((unixMs) => ({ position: "cabinet" as const, unixMs, raw: 20 })),
  );
  await store.edits.make(id, { kind: "source", unixMs: at(0), source: "off", how: "told" });
  await store.edits.make(id, { kind: "source", unixMs: at(30), source: "mains", how: "told" });
  const sourcesNow = async () => {
    const { sourceMarks } = await store.edits.current(id);
    const recording = await store.readings.recording(id, { sources: "in-rows" });
    const codes = recording.sourceCodes ?? new Uint8Array();
    const found = [...codes].map((code): EnergySource | null => (code === 0 ? null : energySources[code - 1]));
    return { sourceMarks, sourceAt: (minutes: number) => found[minutes] };
  };
  const change = async (edge: Omit<Edge, "marks">, wanted: Parameters<typeof movedEdge>[1]) => {
    const { sourceMarks: marks } = await sourcesNow();
    await store.edits.make(id, movedEdge({ ...edge, marks }, wanted));
    return sourcesNow();
  };
  return change;
}

test("a stretch begun earlier takes the minutes before it", async () => {
  const change = await run();
  const { sourceAt } = await change(
    { stretch: { source: "mains", fromMs: at(30) }, before: "off" },
    { fromMs: at(20), source: "mains" },
  );
  expect([19, 20, 29, 30].map(sourceAt)).toEqual(["off", "mains", "mains", "mains"]);
});

test("a stretch begun later leaves them to what was before", async () => {
  const change = await run();
  const { sourceAt } = await change(
    { stretch: { source: "mains", fromMs: at(30) }, before: "off" },
    { fromMs: at(45), source: "mains" },
  );
  expect([30, 44, 45, 59].map(sourceAt)).toEqual(["off", "off", "mains", "mains"]);
});

test("a stretch on another source keeps its beginning", async () => {
  const change = await run();
  const { sourceAt } = await change(
    { stretch: { source: "mains", fromMs: at(30) }, before: "off" },
    { fromMs: at(30), source: "gas" },
  );
  expect([29, 30, 59].map(sourceAt)).toEqual(["off", "gas", "gas"]);
});

test("where the log itself said so, a later beginning carries on what was before until then", () => {
  const step = movedEdge(
    { stretch: { source: "mains", fromMs: at(30) }, before: "off", marks: [] },
    { fromMs: at(45), source: "mains" },
  );
  expect(step).toEqual({
    kind: "together",
    edits: [
      { kind: "source", unixMs: at(30), source: "off", how: "later" },
      { kind: "source", unixMs: at(45), source: "mains", how: "later" },
    ],
  });
});
