// Many boards write at the same time: what they write shares commits, and one of them cannot spoil it for the others.

import { afterEach, beforeEach, expect, test } from "vitest";
import { BadInput } from "../../src/schema/index.ts";
import type { Store } from "../../src/store/index.ts";
import { keptStore } from "../../src/store/kept-store.ts";
import { openSqlite } from "../../src/store/sqlite-engine.ts";
import { StoreFolder } from "./store-folder.ts";

const boards = 200;
let folder: StoreFolder;
let store: Store;
let commits = 0;

beforeEach(async () => {
  folder = new StoreFolder();
  store = await keptStore(openSqlite(folder.file(), { committed: () => commits++ }));
  commits = 0;
});
afterEach(async () => {
  await store.close();
  folder.remove();
});

const openedOn = (fridgeId: string) =>
  store.runs.open({ fridgeId, startedUnixMs: 0, purpose: "test", origin: "network", utcOffsetMinutes: 0 });

const readingAt = (unixMs: number, raw = 4) => [{ position: "cabinet", unixMs, raw } as const];

const codeOf = (promise: Promise<unknown>) =>
  promise.then(
    () => "kept",
    (error: unknown) => (error instanceof BadInput ? error.code : "another fault"),
  );

test("runs that hundreds of boards ask for in the same moment are opened with a few commits", async () => {
  const { id } = await store.fridges.add({ name: "Larch" });
  commits = 0;
  const runs = await Promise.all(Array.from({ length: boards }, () => openedOn(id)));
  expect(new Set(runs.map((run) => run.id)).size).toBe(boards);
  expect((await store.runs.list({ limit: 500 })).runs).toHaveLength(boards);
  expect(commits).toBeLessThanOrEqual(2);
});

test("a run on a fridge that is not there is refused alone", async () => {
  const { id } = await store.fridges.add({ name: "Larch" });
  const codes = await Promise.all([openedOn(id), openedOn("no-fridge"), openedOn(id)].map(codeOf));
  expect(codes).toEqual(["kept", "no-such-record", "kept"]);
});

test("readings of two hundred runs share a commit, and each run gets its own", async () => {
  const { id } = await store.fridges.add({ name: "Larch" });
  const runs = await Promise.all(Array.from({ length: boards }, () => openedOn(id)));
  commits = 0;
  const received = await Promise.all(runs.map((run, i) => store.readings.append(run.id, readingAt(1000, i))));
  expect(received.every(({ stored }) => stored === 1)).toBe(true);
  expect(commits).toBe(1);
  for (const [i, run] of runs.entries()) {
    if (i % 20 === 0) expect([...(await store.readings.series(run.id, "cabinet")).values]).toEqual([i]);
  }
});

test("readings for a run that was removed fail alone, in the same commit as the others", async () => {
  const { id } = await store.fridges.add({ name: "Larch" });
  const [kept, removed] = [await openedOn(id), await openedOn(id)];
  await store.runs.delete(removed.id);
  commits = 0;
  const codes = await Promise.all(
    [kept, removed, kept].map((run, i) => codeOf(store.readings.append(run.id, readingAt(i)))),
  );
  expect(codes).toEqual(["kept", "no-such-record", "kept"]);
  expect(commits).toBe(1);
});

test("the same instant in two runs is two readings; twice in one run it is one, whichever is sealed already", async () => {
  const { id } = await store.fridges.add({ name: "Larch" });
  const [one, other] = [await openedOn(id), await openedOn(id)];
  await store.readings.append(one.id, readingAt(5000, 4));
  // Closing seals what the run holds into a block.
  await store.runs.close(one.id, 5000);
  const [again, fresh, otherwise] = await Promise.all([
    store.readings.append(one.id, readingAt(5000, 4)),
    store.readings.append(other.id, readingAt(5000, 4)),
    store.readings.append(one.id, readingAt(5000, 9)),
  ]);
  expect(again).toMatchObject({ stored: 0, repeated: 1, contradicted: 0 });
  expect(fresh).toMatchObject({ stored: 1, repeated: 0 });
  expect(otherwise).toMatchObject({ stored: 0, contradicted: 1, contradictions: [{ kept: 4, refused: 9 }] });
});
