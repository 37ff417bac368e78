// Fridges: described, changed, removed, taken out and in.

import { describe, expect, test } from "vitest";
import type { Store } from "../../../src/store/index.ts";
import { fromBoard, listed, readings, refusal, type StoreBench, someDocument, start } from "./store-bench.ts";

/** What a run and its fridge have besides readings: an alarm, and a place among the known-good ones. */
async function addAlarmAndBaseline({ store, run, fridgeId }: StoreBench): Promise<void> {
  await store.alarms.raise({ runId: run.id, kind: "board-silent", raisedUnixMs: start, reason: { code: "x" } });
  await store.baselines.add({ fridgeId, kind: "own", madeUnixMs: start, runIds: [run.id] });
}

/** Tests of any store. */
export function fridgesInStore(bench: StoreBench): void {
  describe("fridges", () => {
    test("come back as they were described, by name, also after the store was opened anew", async () => {
      await bench.store.fridges.add({ name: "Ærø", cabinetLitres: 90, notes: "rattles" });
      await bench.reopened();
      expect(await bench.store.fridges.list()).toMatchObject([
        { name: "Ærø", cabinetLitres: 90, notes: "rattles", removedUnixMs: null },
        { id: bench.fridgeId, name: "Bay 5", kind: "tall door", ratedWatts: { gas: 210 } },
      ]);
      expect(await bench.store.fridges.named(" bay 5 ")).toMatchObject({ id: bench.fridgeId });
    });

    test("change only in what is given", async () => {
      await bench.store.fridges.edit(bench.fridgeId, { cabinetLitres: 103 });
      expect(await bench.store.fridges.get(bench.fridgeId)).toMatchObject({
        name: "Bay 5",
        kind: "tall door",
        cabinetLitres: 103,
      });
    });

    test("lose what is taken away with null, and nothing else", async () => {
      await bench.store.fridges.edit(bench.fridgeId, { cabinetLitres: 103, notes: "rattles" });
      await bench.store.fridges.edit(bench.fridgeId, { kind: null, ratedWatts: null, cabinetLitres: null });
      await bench.reopened();
      const { id, addedUnixMs, removedUnixMs, ...details } = await bench.store.fridges.get(bench.fridgeId);
      expect(details).toEqual({ name: "Bay 5", notes: "rattles" });
    });

    test("do not share a name, whatever its case", async () => {
      expect(await refusal(bench.store.fridges.add({ name: "BAY 5" }))).toMatchObject({
        code: "name-taken",
        saying: { kind: "fridge", name: "BAY 5" },
      });
      const other = await bench.store.fridges.add({ name: "Bay 6" });
      expect(await refusal(bench.store.fridges.edit(other.id, { name: "bay 5" }))).toMatchObject({
        code: "name-taken",
      });
      expect(await bench.store.fridges.edit(bench.fridgeId, { name: "BAY 5" })).toMatchObject({ name: "BAY 5" });
    });

    test("asked for by a wrong name, are named", async () => {
      expect(await refusal(bench.store.fridges.named("Bay 7"))).toMatchObject({
        code: "no-such-record",
        saying: { kind: "fridge", id: "Bay 7", known: ["Bay 5"] },
      });
    });

    test("go with their runs and come back with those that went with them", async () => {
      const before = await bench.openRun();
      await bench.store.runs.delete(before.id);
      await new Promise((resolve) => setTimeout(resolve, 2));
      await bench.store.fridges.remove(bench.fridgeId);
      expect(await bench.store.fridges.list()).toEqual([]);
      expect((await bench.store.runs.list()).runs).toEqual([]);
      expect(await bench.store.fridges.list({ areRemoved: true })).toMatchObject([{ id: bench.fridgeId }]);
      await bench.store.fridges.restore(bench.fridgeId);
      expect((await bench.store.runs.list()).runs.map(({ id }) => id)).toEqual([bench.run.id]);
    });

    test("come back only when nobody has taken their name", async () => {
      await bench.store.fridges.remove(bench.fridgeId);
      await bench.store.fridges.add({ name: "Bay 5" });
      expect(await refusal(bench.store.fridges.restore(bench.fridgeId))).toMatchObject({ code: "name-taken" });
    });

    test("that were removed take no new run", async () => {
      await bench.store.fridges.remove(bench.fridgeId);
      expect(await refusal(bench.openRun())).toMatchObject({ code: "no-such-record" });
    });

    test("are exported with everything that is kept about them", async () => {
      await bench.store.probes.put({ id: "28-1", kind: "one-wire" });
      await bench.store.probes.assign({
        probeId: "28-1",
        fridgeId: bench.fridgeId,
        boardId: "b",
        position: "cabinet",
        sinceUnixMs: start,
      });
      await bench.store.probes.calibrate({
        probeId: "28-1",
        madeUnixMs: start,
        method: "ice-point",
        coefficients: [0.1, 1],
        standardUncertaintyKelvin: 0.05,
      });
      await bench.store.readings.append(bench.run.id, fromBoard("cabinet", 3));
      await bench.store.edits.make(bench.run.id, { kind: "source", unixMs: start, source: "gas" });
      await bench.store.events.add(bench.run.id, { kind: "board-restart", fromUnixMs: start });
      await addAlarmAndBaseline(bench);
      await bench.store.results.add({
        kind: "analysis",
        fridgeId: bench.fridgeId,
        runIds: [bench.run.id],
        method: "1",
        madeUnixMs: start,
        document: someDocument("a"),
      });
      const pieces = await listed(bench.store.fridges.export(bench.fridgeId));
      expect(pieces[0]).toMatchObject({ kind: "fridge", format: "coldfall-fridge-1", record: { name: "Bay 5" } });
      expect(pieces.map(({ kind }) => kind)).toEqual([
        "fridge",
        "baseline",
        "run",
        "edit",
        "event",
        "alarm",
        "result",
        "readings",
        "probe-role",
        "probe",
        "calibration",
      ]);
      expect(JSON.parse(JSON.stringify(pieces[7]))).toMatchObject({
        record: { position: "cabinet", probeId: "28-1", raw: [20, 20, 20], sequence: [0, 1, 2] },
      });
    });

    test("that come in from another store bring everything, once, and leave alone what is here", async () => {
      await bench.store.probes.put({ id: "pt", curve: { kind: "pt100", toleranceClass: "B" } });
      await bench.store.probes.assign({
        probeId: "pt",
        fridgeId: bench.fridgeId,
        boardId: "",
        position: "flue",
        sinceUnixMs: start,
      });
      const calibration = { madeUnixMs: start, method: "ice-point", coefficients: [0.1, 1] } as const;
      await bench.store.probes.calibrate({ probeId: "pt", ...calibration, standardUncertaintyKelvin: 0.05 });
      await bench.store.readings.append(bench.run.id, fromBoard("cabinet", 700));
      await bench.store.readings.append(bench.run.id, [
        { ...readings("flue", 1, 0, { probeId: "pt" })[0], raw: 100, unit: "Ohm" },
      ]);
      await bench.store.edits.make(bench.run.id, { kind: "source", unixMs: start, source: "gas" });
      await bench.store.edits.make(bench.run.id, { kind: "note", unixMs: start, text: "shut" });
      await bench.store.edits.undo(bench.run.id);
      await bench.store.events.add(bench.run.id, { kind: "board-restart", fromUnixMs: start, details: { toBoot: 2 } });
      await addAlarmAndBaseline(bench);
      const other = await bench.openRun();
      const result = { kind: "analysis", fridgeId: bench.fridgeId, method: "1", madeUnixMs: start } as const;
      await bench.store.results.add({ ...result, runIds: [bench.run.id, other.id], document: someDocument("a") });
      // As they go through a file.
      const exported = async (from: Store) =>
        JSON.parse(JSON.stringify(await listed(from.fridges.export(bench.fridgeId))));
      const pieces = await exported(bench.store);

      const elsewhere = bench.newBackend();
      const second = await elsewhere.open();
      try {
        expect(await second.fridges.takeIn(pieces)).toMatchObject({
          isNew: true,
          newRuns: 2,
          received: { stored: 701, repeated: 0, contradicted: 0 },
        });
        expect(await exported(second)).toEqual(pieces);
        const flue = (await second.readings.series(bench.run.id, "flue")).values;
        expect(flue[0]).toBeCloseTo(0.1, 6);
        // What was changed here since stays.
        await second.runs.edit(bench.run.id, { name: "renamed" });
        await second.runs.delete(other.id);
        expect(await second.fridges.takeIn(pieces)).toMatchObject({
          isNew: false,
          newRuns: 0,
          received: { stored: 0, repeated: 701, contradicted: 0 },
        });
        expect((await second.runs.list()).runs.map(({ name }) => name)).toEqual(["renamed"]);
        // A later export adds what is new.
        await bench.store.readings.append(bench.run.id, fromBoard("cabinet", 10, 700));
        expect(await second.fridges.takeIn(await exported(bench.store))).toMatchObject({ received: { stored: 10 } });
        expect((await second.readings.series(bench.run.id, "cabinet")).values).toHaveLength(710);
        expect((await second.care.check()).damage).toEqual([]);
      } finally {
        await second.close();
        await elsewhere.remove();
      }
    });

    test("are not taken in under a name that another fridge has, and nothing of them is", async () => {
      const pieces = JSON.parse(JSON.stringify(await listed(bench.store.fridges.export(bench.fridgeId))));
      const elsewhere = bench.newBackend();
      const second = await elsewhere.open();
      try {
        await second.fridges.add({ name: "bay 5" });
        expect(await refusal(second.fridges.takeIn(pieces))).toMatchObject({ code: "name-taken" });
        expect((await second.runs.list()).runs).toEqual([]);
      } finally {
        await second.close();
        await elsewhere.remove();
      }
    });
  });
}
