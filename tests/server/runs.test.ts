import { expect, test } from "vitest";
import type { Position } from "../../src/schema/index.ts";
import type { Store } from "../../src/store/index.ts";
import { running } from "./service.ts";

const begin = Date.UTC(2026, 5, 4, 20);

/** A fridge with a closed run of so many readings, one a second. */
async function fridgeWithRun(store: Store, readings = 100, value = (i: number) => 20 - i / 100) {
  const fridge = await store.fridges.add({ name: "Larch" });
  const run = await store.runs.open({
    fridgeId: fridge.id,
    startedUnixMs: begin,
    purpose: "test",
    origin: "file",
    utcOffsetMinutes: 120,
  });
  const into = store.readings.import(run.id);
  const unixMs = Float64Array.from({ length: readings }, (_, i) => begin + 1000 * i);
  into.add({ unixMs, columns: { cabinet: Float64Array.from({ length: readings }, (_, i) => value(i)) } });
  await into.finish();
  return { fridgeId: fridge.id, runId: (await store.runs.close(run.id, unixMs[readings - 1])).id };
}

test("runs come in pages, and following the cursor meets each run once", async () => {
  const { call, store } = await running();
  const { id: fridgeId } = await store.fridges.add({ name: "Larch" });
  for (let i = 0; i < 7; i++) {
    const body = {
      fridgeId,
      purpose: "test",
      utcOffsetMinutes: 0,
      startedUnixMs: begin + i * 1000,
      name: `run ${i}`,
    } as const;
    await call("POST /api/runs", { body });
  }
  const met: string[] = [];
  let cursor: string | undefined;
  do {
    const { answer } = await call("GET /api/runs", { query: { limit: 3, cursor } });
    met.push(...answer.runs.map(({ name }) => name));
    cursor = answer.next ?? undefined;
  } while (cursor !== undefined);
  expect(met).toEqual(["run 6", "run 5", "run 4", "run 3", "run 2", "run 1", "run 0"]);
});

test("a run's notes and sheet are changed, and the answer says what the run holds", async () => {
  const { call, store } = await running();
  const { runId } = await fridgeWithRun(store);
  const params = { runId };
  const body = { notes: "door left open", sheet: { setting: "bench", vents: "open" } } as const;
  await call("PATCH /api/runs/{runId}", { params, body });
  expect((await call("GET /api/runs/{runId}", { params })).answer).toMatchObject({
    notes: "door left open",
    sheet: { setting: "bench" },
    extents: [{ position: "cabinet", readings: 100, firstUnixMs: begin }],
  });
});

test("a deleted run is gone from the list and comes back when restored", async () => {
  const { call, store } = await running();
  const { runId } = await fridgeWithRun(store);
  await call("DELETE /api/runs/{runId}", { params: { runId } });
  expect((await call("GET /api/runs")).answer.runs).toEqual([]);
  expect((await call("GET /api/runs", { query: { state: "deleted" } })).answer.runs).toHaveLength(1);
  await call("POST /api/runs/{runId}/restore", { params: { runId } });
  expect((await call("GET /api/runs")).answer.runs).toHaveLength(1);
});

test("an edit of a stretch's edge can be undone and brought back", async () => {
  const { call, store } = await running();
  const { runId } = await fridgeWithRun(store);
  const params = { runId };
  await call("POST /api/runs/{runId}/edits", { params, body: { kind: "source", unixMs: begin, source: "gas" } });
  await call("POST /api/runs/{runId}/edits", {
    params,
    body: { kind: "replace", number: 1, by: { kind: "source", unixMs: begin + 5000, source: "mains" } },
  });
  const marks = async () => (await call("GET /api/runs/{runId}/edits", { params })).answer.sourceMarks;
  expect(await marks()).toMatchObject([{ unixMs: begin + 5000, source: "mains" }]);
  await call("POST /api/runs/{runId}/edits/undo", { params });
  expect(await marks()).toMatchObject([{ unixMs: begin, source: "gas" }]);
  const { answer } = await call("POST /api/runs/{runId}/edits/redo", { params });
  expect(answer).toMatchObject({ sourceMarks: [{ source: "mains" }], canRedo: false });
});

test("the curve of a long run comes reduced, with its top and its dip in it", async () => {
  const { call, store } = await running();
  // Slow enough to be believed, and each the only one of its height.
  const bump = (i: number, at: number) => Math.max(0, 1 - Math.abs(i - at) / 300);
  const value = (i: number) => Math.sin(i / 500) + 55 * bump(i, 12_345) - 30 * bump(i, 33_333);
  const { runId } = await fridgeWithRun(store, 40_000, value);
  const curve = async (query: { position: Position; points?: number; from?: number; to?: number }) =>
    (await call("GET /api/runs/{runId}/readings", { params: { runId }, query })).answer;
  const whole = await curve({ position: "cabinet", points: 400 });
  expect(whole).toMatchObject({ readings: 40_000, isReduced: true, gaps: [] });
  expect(whole.unixMs.length).toBeLessThanOrEqual(400);
  expect(whole.values).toContain(value(12_345));
  expect(whole.values).toContain(value(33_333));
  const zoomed = await curve({ position: "cabinet", points: 400, from: begin + 12_300_000, to: begin + 12_400_000 });
  // One reading on either side, so that the line reaches the edges.
  expect(zoomed).toMatchObject({ readings: 100, isReduced: false });
  expect(zoomed.unixMs).toHaveLength(102);
});

test("a changed edit is seen in the next curve", async () => {
  const { call, store } = await running();
  const { runId } = await fridgeWithRun(store);
  const params = { runId };
  const readings = async () =>
    (await call("GET /api/runs/{runId}/readings", { params, query: { position: "cabinet" } })).answer.readings;
  expect(await readings()).toBe(100);
  const body = { kind: "exclusion", fromUnixMs: begin, toUnixMs: begin + 10_000 } as const;
  await call("POST /api/runs/{runId}/edits", { params, body });
  expect(await readings()).toBe(90);
});

test("the run's log comes back as CSV under a name of our own", async () => {
  const { store, base } = await running();
  const { runId } = await fridgeWithRun(store, 3);
  const answer = await fetch(`${base}/api/runs/${runId}/log.csv`);
  expect(answer.headers.get("Content-Type")).toBe("text/csv; charset=utf-8");
  expect(answer.headers.get("Content-Disposition")).toBe(`attachment; filename="run-${runId}.csv"`);
  expect(await answer.text()).toMatch(/^time,cabinet\r?\n2026-06-04T22:00:00\+02:00,20\r?\n/);
});

test("now on gas goes into the run being recorded, and hand readings open one where none is", async () => {
  const now = begin + 60_000;
  const { call, store, problem } = await running({ now: () => now });
  const { id: fridgeId } = await store.fridges.add({ name: "Larch" });
  const params = { fridgeId };
  const onGas = () => call("POST /api/fridges/{fridgeId}/source", { params, body: { source: "gas" } });
  expect(await problem(onGas())).toMatchObject({ status: 422, code: "nothing-recorded" });
  const { answer } = await call("POST /api/fridges/{fridgeId}/readings", {
    params,
    body: { values: { cabinet: 7.5, ambient: 24 }, utcOffsetMinutes: 120 },
  });
  expect(answer).toMatchObject({ stored: 2, repeated: 0 });
  const { caution } = (await onGas()).answer;
  expect(caution?.subjects.map(({ text }) => text).join(" ")).toMatch(/Never leave gas burning unattended/);
  const { sourceMarks } = await store.edits.current(answer.runId);
  expect(sourceMarks).toMatchObject([{ unixMs: now, source: "gas", how: "told" }]);
});

test("in a replayed run now on gas, and its end, are at the log's newest instant, not at this machine's", async () => {
  const { call, store } = await running({ now: () => begin + 1e9 });
  const { id: fridgeId } = await store.fridges.add({ name: "Larch" });
  const opened = { fridgeId, startedUnixMs: begin, purpose: "test", origin: "replay", utcOffsetMinutes: 120 } as const;
  const { id: runId } = await store.runs.open(opened);
  const sayGas = () =>
    call("POST /api/fridges/{fridgeId}/source", { params: { fridgeId }, body: { source: "gas", runId } });
  await sayGas();
  await store.readings.append(runId, [{ position: "cabinet", unixMs: begin + 5000, raw: 8 }]);
  await call("POST /api/fridges/{fridgeId}/source", { params: { fridgeId }, body: { source: "mains", runId } });
  const { sourceMarks } = await store.edits.current(runId);
  expect(sourceMarks.map(({ unixMs }) => unixMs - begin)).toEqual([0, 5000]);
  const { answer } = await call("POST /api/runs/{runId}/end", { params: { runId } });
  expect(answer.endedUnixMs).toBe(begin + 5000);
  // Pressed again after a last reading came in, it stays.
  await store.readings.append(runId, [{ position: "cabinet", unixMs: begin + 9000, raw: 8 }]);
  const again = await call("POST /api/runs/{runId}/end", { params: { runId } });
  expect(again.answer.endedUnixMs).toBe(begin + 5000);
});

test("everything about a fridge comes out as one JSON object a line", async () => {
  const { store, base } = await running();
  const { fridgeId } = await fridgeWithRun(store);
  const text = await (await fetch(`${base}/api/fridges/${fridgeId}/everything`)).text();
  const kinds = text
    .trimEnd()
    .split("\n")
    .map((line) => JSON.parse(line).kind);
  expect(kinds).toContain("run");
  expect(JSON.parse(text.split("\n")[0])).toMatchObject({ format: "coldfall-fridge-1" });
});

test("a curve holds what the analysis believes, and what it sets aside is told with its instant and value", async () => {
  const { call, store } = await running();
  const { runId } = await fridgeWithRun(store, 600, (i) => (i === 100 ? 85 : i % 200 === 150 ? -127 : 20 - i / 100));
  const asked = async (query: { from?: number; to?: number }) =>
    (await call("GET /api/runs/{runId}/readings", { params: { runId }, query: { position: "cabinet", ...query } }))
      .answer;
  const whole = await asked({});
  expect(whole.readings).toBe(596);
  expect(whole.values.every((value) => value > 13 && value <= 20)).toBe(true);
  expect(whole.rejected).toEqual({
    readings: 4,
    unixMs: [100, 150, 350, 550].map((second) => begin + 1000 * second),
    values: [85, -127, -127, -127],
  });
  const part = await asked({ from: begin + 300_000, to: begin + 400_000 });
  expect(part.rejected.readings).toBe(1);
  expect(part.rejected.values).toContain(-127);
});

test("ten thousand readings set aside are counted all, and marked by some", async () => {
  const { call, store } = await running();
  const { runId } = await fridgeWithRun(store, 20_000, (i) => (i % 2 === 0 ? -127 : 20 - i / 1e4));
  const query = { position: "cabinet", points: 1200 } as const;
  const { rejected } = (await call("GET /api/runs/{runId}/readings", { params: { runId }, query })).answer;
  expect(rejected.readings).toBe(10_000);
  expect(rejected.unixMs.length).toBeGreaterThan(30);
  expect(rejected.unixMs.length).toBeLessThanOrEqual(160);
  expect([rejected.unixMs[0], rejected.unixMs.at(-1)]).toEqual([begin, begin + 19_998_000]);
});
