// What a person says beside a run: of which instants it may be, and what is refused.

import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { msPerDay, msPerHour } from "../../src/schema/index.ts";
import { type Fridge, openStore, type Run, type Store } from "../../src/store/index.ts";
import { noteReadings, sayNowOn } from "../../src/workshop/recording/index.ts";

const begunMs = Date.parse("2026-06-04T18:00:00Z");

let folder = "";
let store: Store;
let fridge: Fridge;
let run: Run;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-by-hand-"));
  store = await openStore(join(folder, "workshop.coldfall"), { groupWaitMs: 1 });
  fridge = await store.fridges.add({ name: "Larch" });
  const opened = { purpose: "test", origin: "board", startedUnixMs: begunMs, utcOffsetMinutes: 120 } as const;
  run = await store.runs.open({ fridgeId: fridge.id, name: "night.csv", ...opened });
  await store.readings.append(run.id, [
    { position: "cabinet", unixMs: begunMs, raw: 20 },
    { position: "cabinet", unixMs: begunMs + msPerHour, raw: 12.5, boardId: "b1" },
  ]);
});
afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

const clock = { clockUnixMs: begunMs + msPerHour };

test("a source or a reading said for another year is refused, naming the run's own instants", async () => {
  for (const year of ["2020", "2030"]) {
    const unixMs = Date.parse(`${year}-06-04T18:30:00Z`);
    await expect(sayNowOn(store, fridge, "gas", { ...clock, unixMs })).rejects.toMatchObject({
      saying: {
        code: "outside-run",
        run: "night.csv",
        at: `${year}-06-04T20:30:00+02:00`,
        from: "2026-06-04T20:00:00+02:00",
        to: "2026-06-04T21:00:00+02:00",
      },
    });
  }
  expect((await store.edits.current(run.id)).sourceMarks).toEqual([]);
  const wrong = { ...clock, unixMs: Date.parse("2025-06-04T18:30:00Z"), utcOffsetMinutes: 120 };
  await expect(noteReadings(store, fridge, new Map([["freezer", -9]]), wrong)).rejects.toMatchObject({
    saying: { code: "outside-run", at: "2025-06-04T20:30:00+02:00" },
  });
  expect(await store.runs.extents(run.id)).toHaveLength(1);
});

test("a day before and after the run there may be a source; of a run that goes on, a day from now", async () => {
  const say = (unixMs: number, clockUnixMs = clock.clockUnixMs) =>
    sayNowOn(store, fridge, "mains", { clockUnixMs, unixMs, runId: run.id });
  const isRefused = { code: "outside-run" };
  await say(begunMs - msPerDay);
  await expect(say(begunMs - msPerDay - 1)).rejects.toMatchObject(isRefused);
  const muchLater = begunMs + 10 * msPerDay;
  await say(muchLater + msPerDay, muchLater);
  await store.runs.close(run.id, begunMs + 2 * msPerHour);
  await say(begunMs + 2 * msPerHour + msPerDay, muchLater);
  await expect(say(begunMs + 2 * msPerHour + msPerDay + 1, muchLater)).rejects.toMatchObject(isRefused);
});

test("a hand reading that says something else than what is kept is refused with both values, and none beside it is noted", async () => {
  const note = (cabinet: number) =>
    noteReadings(store, fridge, new Map([["freezer", -9] as const, ["cabinet", cabinet] as const]), {
      ...clock,
      unixMs: begunMs + msPerHour,
      utcOffsetMinutes: 120,
    });
  await expect(note(6.5)).rejects.toMatchObject({
    saying: {
      code: "reading-kept",
      position: "cabinet",
      kept: 12.5,
      given: 6.5,
      run: "night.csv",
      at: "2026-06-04T21:00:00+02:00",
    },
  });
  expect((await store.runs.extents(run.id)).map(({ position }) => position)).toEqual(["cabinet"]);
  expect((await note(12.5)).received).toMatchObject({ stored: 1, repeated: 1, contradicted: 0 });
});
