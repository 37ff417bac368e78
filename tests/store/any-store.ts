// What every store must do, whatever database is behind it. sqlite-store.test.ts runs it against the one built in; another
// backend joins by calling `anyStore` with a way to open it.

import { fc } from "@fast-check/vitest";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { AnalysisDocument } from "../../src/schema/documents/index.ts";
import type { Position } from "../../src/schema/index.ts";
import type { Edit, NewReading, Run, SeriesPart, Store } from "../../src/store/index.ts";

/** A database for one test. */
export interface Backend {
  /** Opens the store, or opens the same one again. Closing is the test's matter. */
  open(): Promise<Store>;
  /** Takes the database away when all is closed. */
  remove(): Promise<void>;
}

const start = Date.UTC(2026, 5, 4, 7);
const second = 1000;
const minute = 60 * second;

/** Readings of one position, one a second, in steps of 1/16 K. */
function readings(position: Position, count: number, from = 0, more: Partial<NewReading> = {}): NewReading[] {
  return Array.from({ length: count }, (_, i) => ({
    position,
    unixMs: start + (from + i) * second,
    raw: Math.round(320 - (from + i) / 10) / 16,
    ...more,
  }));
}

/** The same, as a board sends them: sequence, uptime and host clock beside. */
const fromBoard = (position: Position, count: number, from = 0, boot = 0): NewReading[] =>
  readings(position, count, from, { boardId: "board-1", probeId: "28-1", boot }).map((reading, i) => ({
    ...reading,
    sequence: from + i,
    uptimeMs: 5000 + (from + i) * second + (i % 3),
    hostUnixMs: reading.unixMs + ((i * 7) % 13) + 0.25,
  }));

const instants = (...seconds: readonly number[]) => Float64Array.from(seconds, (at) => start + at * second);

/** The end of the promise as an object to match; fails when it was kept. */
async function refusal(promise: Promise<unknown>): Promise<unknown> {
  const outcome = await promise.then(
    () => null,
    (error: unknown) => ({ error }),
  );
  expect(outcome, "should have been refused").not.toBeNull();
  return outcome?.error;
}

async function listed<T>(items: AsyncIterable<T>): Promise<T[]> {
  const list: T[] = [];
  for await (const item of items) list.push(item);
  return list;
}

/** A document of the right kind as far as the store is concerned, which only keeps it. */
const someDocument = (marker: string) => ({ format: "coldfall-analysis-1", marker }) as unknown as AnalysisDocument;

/** @param what names the backend */
export function anyStore(what: string, newBackend: () => Backend): void {
  describe(what, () => {
    let backend: Backend;
    let store: Store;
    let fridgeId: string;
    let run: Run;

    const openRun = (more: Partial<Parameters<Store["runs"]["open"]>[0]> = {}) =>
      store.runs.open({
        fridgeId,
        startedUnixMs: start,
        purpose: "test",
        origin: "board",
        utcOffsetMinutes: 120,
        ...more,
      });

    async function reopened(): Promise<void> {
      await store.close();
      store = await backend.open();
    }

    beforeEach(async () => {
      backend = newBackend();
      store = await backend.open();
      fridgeId = (await store.fridges.add({ name: "Bay 5", kind: "tall door", ratedWatts: { gas: 210 } })).id;
      run = await openRun();
    });

    afterEach(async () => {
      await store.close();
      await backend.remove();
    });

    describe("fridges", () => {
      test("come back as they were described, by name, also after the store was opened anew", async () => {
        await store.fridges.add({ name: "Ærø", cabinetLitres: 90, notes: "rattles" });
        await reopened();
        expect(await store.fridges.list()).toMatchObject([
          { name: "Ærø", cabinetLitres: 90, notes: "rattles", removedUnixMs: null },
          { id: fridgeId, name: "Bay 5", kind: "tall door", ratedWatts: { gas: 210 } },
        ]);
        expect(await store.fridges.named(" bay 5 ")).toMatchObject({ id: fridgeId });
      });

      test("change only in what is given", async () => {
        await store.fridges.edit(fridgeId, { cabinetLitres: 103 });
        expect(await store.fridges.get(fridgeId)).toMatchObject({
          name: "Bay 5",
          kind: "tall door",
          cabinetLitres: 103,
        });
      });

      test("lose what is taken away with null, and nothing else", async () => {
        await store.fridges.edit(fridgeId, { cabinetLitres: 103, notes: "rattles" });
        await store.fridges.edit(fridgeId, { kind: null, ratedWatts: null, cabinetLitres: null });
        await reopened();
        const { id, addedUnixMs, removedUnixMs, ...details } = await store.fridges.get(fridgeId);
        expect(details).toEqual({ name: "Bay 5", notes: "rattles" });
      });

      test("do not share a name, whatever its case", async () => {
        expect(await refusal(store.fridges.add({ name: "BAY 5" }))).toMatchObject({
          code: "name-taken",
          saying: { kind: "fridge", name: "BAY 5" },
        });
        const other = await store.fridges.add({ name: "Bay 6" });
        expect(await refusal(store.fridges.edit(other.id, { name: "bay 5" }))).toMatchObject({ code: "name-taken" });
        expect(await store.fridges.edit(fridgeId, { name: "BAY 5" })).toMatchObject({ name: "BAY 5" });
      });

      test("asked for by a wrong name, are named", async () => {
        expect(await refusal(store.fridges.named("Bay 7"))).toMatchObject({
          code: "no-such-record",
          saying: { kind: "fridge", id: "Bay 7", known: ["Bay 5"] },
        });
      });

      test("go with their runs and come back with those that went with them", async () => {
        const before = await openRun();
        await store.runs.delete(before.id);
        await new Promise((resolve) => setTimeout(resolve, 2));
        await store.fridges.remove(fridgeId);
        expect(await store.fridges.list()).toEqual([]);
        expect((await store.runs.list()).runs).toEqual([]);
        expect(await store.fridges.list({ areRemoved: true })).toMatchObject([{ id: fridgeId }]);
        await store.fridges.restore(fridgeId);
        expect((await store.runs.list()).runs.map(({ id }) => id)).toEqual([run.id]);
      });

      test("come back only when nobody has taken their name", async () => {
        await store.fridges.remove(fridgeId);
        await store.fridges.add({ name: "Bay 5" });
        expect(await refusal(store.fridges.restore(fridgeId))).toMatchObject({ code: "name-taken" });
      });

      test("that were removed take no new run", async () => {
        await store.fridges.remove(fridgeId);
        expect(await refusal(openRun())).toMatchObject({ code: "no-such-record" });
      });

      test("are exported with everything that is kept about them", async () => {
        await store.probes.put({ id: "28-1", kind: "one-wire" });
        await store.probes.assign({ probeId: "28-1", fridgeId, boardId: "b", position: "cabinet", sinceUnixMs: start });
        await store.probes.calibrate({
          probeId: "28-1",
          madeUnixMs: start,
          method: "ice-point",
          coefficients: [0.1, 1],
          standardUncertaintyKelvin: 0.05,
        });
        await store.readings.append(run.id, fromBoard("cabinet", 3));
        await store.edits.make(run.id, { kind: "source", unixMs: start, source: "gas" });
        await store.events.add(run.id, { kind: "board-restart", fromUnixMs: start });
        await store.alarms.raise({ runId: run.id, kind: "board-silent", raisedUnixMs: start, reason: { code: "x" } });
        await store.baselines.add({ fridgeId, kind: "own", madeUnixMs: start, runIds: [run.id] });
        await store.results.add({
          kind: "analysis",
          fridgeId,
          runIds: [run.id],
          method: "1",
          madeUnixMs: start,
          document: someDocument("a"),
        });
        const pieces = await listed(store.fridges.export(fridgeId));
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
        await store.probes.put({ id: "pt", curve: { kind: "pt100", toleranceClass: "B" } });
        await store.probes.assign({ probeId: "pt", fridgeId, boardId: "", position: "flue", sinceUnixMs: start });
        const calibration = { madeUnixMs: start, method: "ice-point", coefficients: [0.1, 1] } as const;
        await store.probes.calibrate({ probeId: "pt", ...calibration, standardUncertaintyKelvin: 0.05 });
        await store.readings.append(run.id, fromBoard("cabinet", 700));
        await store.readings.append(run.id, [
          { ...readings("flue", 1, 0, { probeId: "pt" })[0], raw: 100, unit: "Ohm" },
        ]);
        await store.edits.make(run.id, { kind: "source", unixMs: start, source: "gas" });
        await store.edits.make(run.id, { kind: "note", unixMs: start, text: "shut" });
        await store.edits.undo(run.id);
        await store.events.add(run.id, { kind: "board-restart", fromUnixMs: start, details: { toBoot: 2 } });
        await store.alarms.raise({ runId: run.id, kind: "board-silent", raisedUnixMs: start, reason: { code: "x" } });
        await store.baselines.add({ fridgeId, kind: "own", madeUnixMs: start, runIds: [run.id] });
        const other = await openRun();
        const result = { kind: "analysis", fridgeId, method: "1", madeUnixMs: start } as const;
        await store.results.add({ ...result, runIds: [run.id, other.id], document: someDocument("a") });
        // As they go through a file.
        const exported = async (from: Store) => JSON.parse(JSON.stringify(await listed(from.fridges.export(fridgeId))));
        const pieces = await exported(store);

        const elsewhere = newBackend();
        const second = await elsewhere.open();
        try {
          expect(await second.fridges.takeIn(pieces)).toMatchObject({
            isNew: true,
            newRuns: 2,
            received: { stored: 701, repeated: 0, contradicted: 0 },
          });
          expect(await exported(second)).toEqual(pieces);
          const flue = (await second.readings.series(run.id, "flue")).values;
          expect(flue[0]).toBeCloseTo(0.1, 6);
          // What was changed here since stays.
          await second.runs.edit(run.id, { name: "renamed" });
          await second.runs.delete(other.id);
          expect(await second.fridges.takeIn(pieces)).toMatchObject({
            isNew: false,
            newRuns: 0,
            received: { stored: 0, repeated: 701, contradicted: 0 },
          });
          expect((await second.runs.list()).runs.map(({ name }) => name)).toEqual(["renamed"]);
          // A later export adds what is new.
          await store.readings.append(run.id, fromBoard("cabinet", 10, 700));
          expect(await second.fridges.takeIn(await exported(store))).toMatchObject({ received: { stored: 10 } });
          expect((await second.readings.series(run.id, "cabinet")).values).toHaveLength(710);
          expect((await second.care.check()).damage).toEqual([]);
        } finally {
          await second.close();
          await elsewhere.remove();
        }
      });

      test("are not taken in under a name that another fridge has, and nothing of them is", async () => {
        const pieces = JSON.parse(JSON.stringify(await listed(store.fridges.export(fridgeId))));
        const elsewhere = newBackend();
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

    describe("runs", () => {
      test("are named by their day and come back as opened", async () => {
        const sheet = { setting: "bench", tiltSidewaysDegrees: 1 } as const;
        const opened = await openRun({
          name: "night.csv",
          origin: "file",
          sheet,
          plan: { steps: [1, 2] },
          notes: "hot",
        });
        expect(opened.id).toMatch(/^2026-06-04-[0-9a-z]{6}$/);
        await reopened();
        expect(await store.runs.get(opened.id)).toEqual({
          id: opened.id,
          fridgeId,
          name: "night.csv",
          purpose: "test",
          origin: "file",
          startedUnixMs: start,
          endedUnixMs: null,
          utcOffsetMinutes: 120,
          sheet,
          plan: { steps: [1, 2] },
          notes: "hot",
          deletedUnixMs: null,
        });
      });

      test("are found by the beginning of an id that only one has", async () => {
        const other = await openRun({ startedUnixMs: Date.UTC(2026, 6, 1) });
        expect(await store.runs.get("2026-07")).toEqual(other);
        await openRun({ startedUnixMs: Date.UTC(2026, 6, 1) });
        expect(await refusal(store.runs.get("2026-07"))).toMatchObject({ code: "not-one-record" });
        expect(await refusal(store.runs.get("2025"))).toMatchObject({ code: "no-such-record" });
        expect(await refusal(store.runs.get("%"))).toMatchObject({ code: "no-such-record" });
      });

      test("are looked for by their whole id, and only one that is not there is null", async () => {
        expect(await store.runs.find(run.id)).toEqual(run);
        expect(await store.runs.find(run.id.slice(0, -1))).toBeNull();
        await store.runs.delete(run.id);
        expect(await store.runs.find(run.id)).toBeNull();
        await store.close();
        await expect(store.runs.find(run.id)).rejects.toThrow();
        await reopened();
      });

      test("are listed newest first, page by page, each once", async () => {
        const ids = [run.id];
        for (const day of [1, 2, 2, 3]) ids.push((await openRun({ startedUnixMs: start + day * 86_400_000 })).id);
        const seen: string[] = [];
        let cursor: string | null | undefined;
        while (cursor !== null) {
          const page = await store.runs.list({ limit: 2, ...(cursor && { cursor }) });
          expect(page.runs.length).toBeLessThanOrEqual(2);
          seen.push(...page.runs.map(({ id }) => id));
          cursor = page.next;
        }
        expect(seen).toHaveLength(5);
        expect(new Set(seen)).toEqual(new Set(ids));
        expect(seen.at(0)).toBe(ids[4]);
        expect(seen.at(-1)).toBe(run.id);
      });

      test("are listed by fridge, purpose and whether they go on", async () => {
        const good = await openRun({ purpose: "known-good" });
        const closed = await store.runs.close((await openRun()).id, start + minute);
        const idsOf = async (query: Parameters<Store["runs"]["list"]>[0]) =>
          (await store.runs.list(query)).runs.map(({ id }) => id).sort();
        expect(await idsOf({ purpose: "known-good" })).toEqual([good.id]);
        expect(await idsOf({ isOpen: false })).toEqual([closed.id]);
        expect(await idsOf({ isOpen: true })).toEqual([run.id, good.id].sort());
        expect(await idsOf({ fridgeId: "another" })).toEqual([]);
      });

      test("change in what is given, and can be taken up again", async () => {
        await store.runs.close(run.id, start + minute);
        expect(await store.runs.edit(run.id, { purpose: "known-good", sheet: { dial: "max" } })).toMatchObject({
          purpose: "known-good",
          sheet: { dial: "max" },
          endedUnixMs: start + minute,
        });
        expect(await store.runs.edit(run.id, { endedUnixMs: null })).toMatchObject({ endedUnixMs: null });
      });

      test("can be brought back after deleting, until the store is compacted", async () => {
        await store.readings.append(run.id, readings("cabinet", 5));
        await store.runs.delete(run.id);
        expect(await refusal(store.runs.get(run.id))).toMatchObject({ code: "no-such-record" });
        expect(await refusal(store.readings.recording(run.id))).toMatchObject({ code: "no-such-record" });
        expect((await store.runs.list({ areDeleted: true })).runs).toMatchObject([{ id: run.id }]);
        await store.runs.restore(run.id);
        expect((await store.readings.recording(run.id)).unixMs).toHaveLength(5);

        await store.runs.delete(run.id);
        expect(await store.care.compact()).toMatchObject({ deletedRuns: 1 });
        expect(await refusal(store.runs.restore(run.id))).toMatchObject({ code: "no-such-record" });
        expect(await store.care.check()).toEqual({ runs: 0, blocks: 0, readings: 0, damage: [] });
      });
    });

    describe("live readings", () => {
      test("come back as they were, from another opening of the store", async () => {
        await store.readings.append(run.id, [...readings("cabinet", 3), ...readings("evaporator", 2, 1)]);
        await reopened();
        const { unixMs, columns, sourceCodes, utcOffsetMinutes, sheet } = await store.readings.recording(run.id);
        expect(unixMs).toEqual(instants(0, 1, 2));
        expect(columns).toEqual({
          cabinet: Float64Array.of(20, 20, 20),
          evaporator: Float64Array.of(Number.NaN, 20, 20),
        });
        expect({ sourceCodes, utcOffsetMinutes, sheet }).toEqual({
          sourceCodes: null,
          utcOffsetMinutes: 120,
          sheet: { fridge: "Bay 5", ratedWatts: { gas: 210 } },
        });
      });

      test("handed in twice are counted as repeated and kept once", async () => {
        await store.readings.append(run.id, readings("cabinet", 3));
        expect(await store.readings.append(run.id, readings("cabinet", 5))).toMatchObject({
          stored: 2,
          repeated: 3,
          contradicted: 0,
        });
        const [one] = readings("ambient", 1);
        expect(await store.readings.append(run.id, [one, one])).toMatchObject({ stored: 1, repeated: 1 });
      });

      test("that contradict what is kept are reported with their instant and leave it as it was", async () => {
        await store.readings.append(run.id, readings("cabinet", 3));
        const unixMs = start + second;
        expect(await store.readings.append(run.id, [{ position: "cabinet", unixMs, raw: 5 }])).toEqual({
          stored: 0,
          repeated: 0,
          contradicted: 1,
          contradictions: [{ position: "cabinet", unixMs, kept: 20, refused: 5 }],
        });
        expect((await store.readings.recording(run.id)).columns.cabinet?.[1]).toBe(20);
      });

      for (const sealed of [false, true]) {
        test(`of a line sent twice are known by the board's number, even at another instant, ${sealed ? "sealed" : "not yet sealed"}`, async () => {
          await store.readings.append(run.id, fromBoard("cabinet", 5));
          if (sealed) await store.runs.close(run.id, start + minute);
          const again = fromBoard("cabinet", 5).map((reading) => ({ ...reading, unixMs: reading.unixMs + 3 }));
          expect(await store.readings.append(run.id, again)).toMatchObject({ stored: 0, repeated: 5 });
          const other = { ...again[2], raw: -3 };
          expect(await store.readings.append(run.id, [other])).toMatchObject({
            contradicted: 1,
            contradictions: [{ unixMs: other.unixMs, kept: 20, refused: -3 }],
          });
          // After a restart the board counts anew: these are other lines.
          const restarted = fromBoard("cabinet", 2, 0, 1).map((one) => ({ ...one, unixMs: one.unixMs + minute }));
          expect(await store.readings.append(run.id, restarted)).toMatchObject({ stored: 2 });
        });
      }

      test("are sealed every ten minutes, and late, repeated and contradicting ones are still known", async () => {
        const night = 45 * 60;
        for (let from = 0; from < night; from += 60) {
          // Every tenth second is left out, to come late.
          const some = fromBoard("cabinet", 60, from).filter((_, i) => i % 10 !== 9);
          await store.readings.append(run.id, some);
        }
        const { blocks, readings: kept, damage } = await store.care.check();
        expect({ blocks, kept, damage }).toEqual({ blocks: 4, kept: 0.9 * night, damage: [] });

        const all = fromBoard("cabinet", night);
        expect(await store.readings.append(run.id, all)).toMatchObject({ stored: night / 10, repeated: 0.9 * night });
        const series = await store.readings.series(run.id, "cabinet");
        expect(series.unixMs).toEqual(Float64Array.from(all, ({ unixMs }) => unixMs));
        expect(series.values).toEqual(Float64Array.from(all, ({ raw }) => raw));
        expect(await store.runs.extents(run.id)).toEqual([
          { position: "cabinet", readings: night, firstUnixMs: start, lastUnixMs: start + (night - 1) * second },
        ]);
      });

      test("of many batches at once are each answered, and a batch for no run fails alone", async () => {
        const good = Array.from({ length: 20 }, (_, i) => store.readings.append(run.id, readings("cabinet", 2, i)));
        const bad = store.readings.append("2026-01-01-nobody", readings("cabinet", 1));
        expect(await refusal(bad)).toMatchObject({ code: "no-such-record", saying: { kind: "run" } });
        const received = await Promise.all(good);
        expect(received.reduce((sum, { stored }) => sum + stored, 0)).toBe(21);
        expect(received.reduce((sum, { repeated }) => sum + repeated, 0)).toBe(19);
      });

      for (const [what, reading] of [
        ["a value", { position: "cabinet", unixMs: start, raw: Number.NaN }],
        ["an instant", { position: "cabinet", unixMs: Number.POSITIVE_INFINITY, raw: 1 }],
      ] as const) {
        test(`with ${what} that is no number are refused before anything is kept`, async () => {
          const batch = [...readings("cabinet", 2), reading];
          expect(await refusal(store.readings.append(run.id, batch))).toBeInstanceOf(RangeError);
          expect((await store.readings.recording(run.id)).unixMs).toHaveLength(0);
        });
      }

      test("go to the deleted run no more", async () => {
        await store.runs.delete(run.id);
        expect(await refusal(store.readings.append(run.id, readings("cabinet", 1)))).toMatchObject({
          code: "no-such-record",
        });
      });

      test("give back all that came with them, bit for bit, sealed or not", async () => {
        // Adding 0 turns -0, which a database may give back as 0, into 0.
        const anyDouble = fc.double({ noNaN: true, noDefaultInfinity: true }).map((value) => value + 0);
        const arrival = fc.record(
          {
            unixMs: fc.double({ min: 0, max: 4e12, noNaN: true }),
            raw: anyDouble,
            probeId: fc.constantFrom("p", "q"),
            sequence: fc.nat(1_000_000),
            uptimeMs: anyDouble,
            hostUnixMs: anyDouble,
          },
          { requiredKeys: ["unixMs", "raw"] },
        );
        await fc.assert(
          fc.asyncProperty(
            fc.uniqueArray(arrival, { selector: ({ unixMs }) => unixMs, minLength: 1, maxLength: 40 }),
            async (arrivals) => {
              const { id } = await openRun();
              const batch = arrivals.map((one) => ({ ...one, position: "boiler" as const }));
              await store.readings.append(id, batch);
              const expected = batch.map(withAllParts).sort(byInstant);
              expect((await listed(store.readings.parts(id))).flatMap(rowsOfPart).sort(byInstant)).toEqual(expected);
              await store.runs.close(id, start);
              expect((await listed(store.readings.parts(id))).flatMap(rowsOfPart).sort(byInstant)).toEqual(expected);
            },
          ),
          { numRuns: 60 },
        );
      });
    });

    describe("logs brought in", () => {
      const chunk = {
        unixMs: instants(0, 1, 2, 3),
        columns: { cabinet: Float64Array.of(20, 19.5, Number.NaN, 18.5), ambient: Float64Array.of(25, 25, 25, 25) },
        sourceCodes: Uint8Array.of(4, 1, 0, 1),
      };
      const file = { name: "night.csv", sha256: "ab".repeat(32) };

      async function importing(
        chunks: readonly Parameters<ReturnType<Store["readings"]["import"]>["add"]>[0][],
        id = run.id,
      ) {
        const into = store.readings.import(id, { file });
        for (const one of chunks) into.add(one);
        return into.finish();
      }

      test("give the log back: rows, missing readings and sources", async () => {
        const own = await openRun({ origin: "file", name: file.name });
        expect(await importing([chunk], own.id)).toEqual({
          stored: 10,
          repeated: 0,
          contradicted: 0,
          contradictions: [],
        });
        await reopened();
        expect(await store.readings.recording(own.id)).toMatchObject({
          ...chunk,
          name: file.name,
          sha256: file.sha256,
        });
        expect(await store.runs.files(own.id)).toEqual([file]);
        expect(await store.runs.withFile(file.sha256)).toMatchObject([{ id: own.id }]);
      });

      test("show nothing until they are finished", async () => {
        const into = store.readings.import(run.id);
        into.add(chunk);
        expect((await store.readings.recording(run.id)).unixMs).toHaveLength(0);
        await into.finish();
        expect((await store.readings.recording(run.id)).unixMs).toHaveLength(4);
      });

      test("twice change nothing", async () => {
        await importing([chunk]);
        const before = await store.readings.recording(run.id);
        expect(await importing([chunk])).toMatchObject({ stored: 0, repeated: 10, contradicted: 0 });
        expect(await store.readings.recording(run.id)).toEqual(before);
        expect(await store.runs.files(run.id)).toEqual([file]);
      });

      test("that overlap add only what is new, and what contradicts is reported with its instant", async () => {
        await importing([chunk]);
        const overlap = {
          unixMs: instants(2, 3, 4),
          columns: { cabinet: Float64Array.of(19, 18.25, 18), ambient: Float64Array.of(25, 25, 26) },
          sourceCodes: Uint8Array.of(1, 2, 2),
        };
        expect(await importing([overlap])).toEqual({
          stored: 5,
          repeated: 2,
          contradicted: 2,
          contradictions: [
            { position: "cabinet", unixMs: start + 3 * second, kept: 18.5, refused: 18.25 },
            { position: "source", unixMs: start + 3 * second, kept: 1, refused: 2 },
          ],
        });
        expect(await store.readings.recording(run.id)).toMatchObject({
          unixMs: instants(0, 1, 2, 3, 4),
          columns: { cabinet: Float64Array.of(20, 19.5, 19, 18.5, 18) },
          sourceCodes: Uint8Array.of(4, 1, 1, 1, 2),
        });
      });

      test("meet live readings not yet sealed", async () => {
        await store.readings.append(run.id, [{ position: "cabinet", unixMs: start + second, raw: 19.5 }]);
        expect(await importing([chunk])).toMatchObject({ stored: 9, repeated: 1 });
        expect((await store.readings.series(run.id, "cabinet")).values).toEqual(Float64Array.of(20, 19.5, 18.5));
      });

      test("out of order come back in order; of two readings at one instant the first stays", async () => {
        const mixed = { unixMs: instants(5, 1, 3, 1, 4), columns: { cabinet: Float64Array.of(5, 1, 3, 1.5, 4) } };
        expect(await importing([mixed])).toMatchObject({
          stored: 4,
          contradicted: 1,
          contradictions: [{ kept: 1, refused: 1.5 }],
        });
        expect(await store.readings.series(run.id, "cabinet")).toEqual({
          unixMs: instants(1, 3, 4, 5),
          values: Float64Array.of(1, 3, 4, 5),
        });
      });

      test("of any length and any order are kept whole", async () => {
        const count = 10_000;
        const seconds = Array.from({ length: count }, (_, i) => (i * 7919) % count);
        const shuffled = {
          unixMs: instants(...seconds),
          columns: { cabinet: Float64Array.from(seconds, (at) => at / 16) },
        };
        expect(await importing([shuffled])).toMatchObject({ stored: count, repeated: 0 });
        const { unixMs, values } = await store.readings.series(run.id, "cabinet");
        expect(unixMs).toEqual(instants(...Array(count).keys()));
        expect(values).toEqual(Float64Array.from(Array(count).keys(), (at) => at / 16));
      });

      test("into no run leave nothing behind", async () => {
        expect(await refusal(importing([chunk], "2026-01-01-nobody"))).toMatchObject({ code: "no-such-record" });
        expect(await store.runs.withFile(file.sha256)).toEqual([]);
        expect((await store.care.check()).readings).toBe(0);
      });

      test("with arrays of different length are refused", () => {
        const into = store.readings.import(run.id);
        expect(() => into.add({ unixMs: instants(0, 1), columns: { cabinet: Float64Array.of(1) } })).toThrow(
          RangeError,
        );
      });
    });

    describe("reading back", () => {
      const codes = (recording: { sourceCodes: Uint8Array | null }) =>
        recording.sourceCodes && [...recording.sourceCodes];

      test("gives a part of a series: from an instant on, up to another without it", async () => {
        await store.readings.append(run.id, readings("cabinet", 10));
        await store.runs.close(run.id, start + minute);
        await store.readings.append(run.id, readings("cabinet", 5, 10));
        const part = { fromUnixMs: start + 8 * second, toUnixMs: start + 12 * second };
        expect((await store.readings.series(run.id, "cabinet", part)).unixMs).toEqual(instants(8, 9, 10, 11));
        expect((await store.readings.series(run.id, "boiler")).unixMs).toHaveLength(0);
      });

      test("corrects by the newest calibration made before the run, raw values stay", async () => {
        await store.probes.put({ id: "28-1" });
        const calibrate = (madeUnixMs: number, coefficients: readonly number[]) =>
          store.probes.calibrate({
            probeId: "28-1",
            madeUnixMs,
            method: "several-points",
            coefficients,
            standardUncertaintyKelvin: 0.1,
          });
        await store.readings.append(run.id, readings("cabinet", 1, 0, { probeId: "28-1" }));
        await store.readings.append(run.id, readings("ambient", 1, 0, { probeId: "28-2" }));
        const value = async (position: Position, values?: "raw") =>
          (await store.readings.series(run.id, position, { values })).values[0];

        expect(await value("cabinet")).toBe(20);
        const after = await calibrate(start + minute, [3, 1]);
        // Better than none.
        expect(await value("cabinet")).toBe(23);
        await calibrate(start - 2 * minute, [1, 1]);
        await calibrate(start - minute, [0.5, 1, 0.01]);
        await store.probes.removeCalibration(after.id);
        expect(await value("cabinet")).toBe(0.5 + 20 + 0.01 * 400);
        expect((await store.readings.recording(run.id)).columns).toEqual({
          cabinet: Float64Array.of(24.5),
          ambient: Float64Array.of(20),
        });
        expect(await value("cabinet", "raw")).toBe(20);
      });

      // IEC 60751: a Pt100 has 100 Ω at 0 °C and 138.5055 Ω at 100 °C.
      test("makes °C of ohms by the probe's curve of today, and leaves them out while it has none", async () => {
        const ohms = [100, 138.5055].map((raw, i) => ({ ...readings("flue", 1, i, { probeId: "pt" })[0], raw }));
        await store.readings.append(
          run.id,
          ohms.map((reading) => ({ ...reading, unit: "Ohm" as const })),
        );
        await store.readings.append(run.id, readings("cabinet", 2));
        const flue = async () =>
          Array.from((await store.readings.series(run.id, "flue")).values, (value) => Math.round(value) + 0);
        expect(await flue()).toEqual([]);
        expect(Object.keys((await store.readings.recording(run.id)).columns)).toEqual(["cabinet"]);
        await store.probes.put({ id: "pt", curve: { kind: "pt100", toleranceClass: "B" } });
        expect(await flue()).toEqual([0, 100]);
        await store.runs.close(run.id, start + minute);
        await store.care.compact();
        expect(await flue()).toEqual([0, 100]);
        const [part] = (await listed(store.readings.parts(run.id))).filter(({ position }) => position === "flue");
        expect(part).toMatchObject({ unit: "Ohm", raw: Float64Array.of(100, 138.5055) });
        await store.probes.put({ id: "pt", curve: null });
        expect(await flue()).toEqual([]);
      });

      test("a calibration made by another curve than the probe's present one is not used", async () => {
        await store.readings.append(run.id, [
          { ...readings("flue", 1, 0, { probeId: "pt" })[0], raw: 100, unit: "Ohm" },
        ]);
        await store.probes.put({ id: "pt", curve: { kind: "pt100", toleranceClass: "B" } });
        await store.probes.calibrate({
          probeId: "pt",
          madeUnixMs: start - minute,
          method: "ice-point",
          coefficients: [0.5, 1],
          standardUncertaintyKelvin: 0.1,
        });
        const flue = async () => (await store.readings.series(run.id, "flue")).values[0];
        expect(await flue()).toBeCloseTo(0.5, 6);
        await store.probes.put({ id: "pt", curve: { kind: "thermistor-b", curve: { ohmsAt25: 100, b: 3950 } } });
        expect(await flue()).toBeCloseTo(25, 6);
      });

      test("hands marks on as marks where no file told the sources, or written into the rows", async () => {
        await store.readings.append(run.id, readings("cabinet", 4));
        await store.edits.make(run.id, { kind: "source", unixMs: start + 1.5 * second, source: "gas" });
        const marked = await store.readings.recording(run.id);
        expect([codes(marked), marked.sourceMarks]).toEqual([null, [{ unixMs: start + 1.5 * second, source: "gas" }]]);
        const inRows = await store.readings.recording(run.id, { sources: "in-rows" });
        expect([codes(inRows), inRows.sourceMarks]).toEqual([[0, 0, 1, 1], []]);
      });

      test("lets a mark hold over the file's own sources until these change", async () => {
        const into = store.readings.import(run.id);
        const cabinet = new Float64Array(6).fill(20);
        into.add({
          unixMs: instants(0, 1, 2, 3, 4, 5),
          columns: { cabinet },
          sourceCodes: Uint8Array.of(1, 1, 1, 1, 4, 4),
        });
        await into.finish();
        await store.edits.make(run.id, { kind: "source", unixMs: start + 2 * second, source: "mains" });
        expect(codes(await store.readings.recording(run.id))).toEqual([1, 1, 2, 2, 4, 4]);
      });

      test("leaves excluded readings out, of all positions or of one, and keeps them for an export", async () => {
        await store.readings.append(run.id, [...readings("cabinet", 5), ...readings("ambient", 5)]);
        const [from, to] = [start + second, start + 2 * second];
        await store.edits.make(run.id, { kind: "exclusion", fromUnixMs: from, toUnixMs: to });
        const only = {
          kind: "exclusion",
          fromUnixMs: start + 3 * second,
          toUnixMs: start + 4 * second,
          position: "ambient",
        } as const;
        await store.edits.make(run.id, only);
        const { unixMs, columns } = await store.readings.recording(run.id);
        expect(unixMs).toEqual(instants(0, 2, 3, 4));
        expect(columns.ambient).toEqual(Float64Array.of(20, 20, Number.NaN, 20));
        expect(columns.cabinet).toEqual(Float64Array.of(20, 20, 20, 20));
        expect((await store.readings.recording(run.id, { exclusions: "kept" })).unixMs).toHaveLength(5);
      });

      test("is the same after compacting", async () => {
        for (let from = 0; from < 3000; from += 300) {
          const some = fromBoard("cabinet", 300, from).filter((_, i) => i % 10 !== 9);
          await store.readings.append(run.id, [...some, ...readings("ambient", 300, from)]);
        }
        // Every tenth comes late, so that blocks lie across one another.
        await store.readings.append(run.id, fromBoard("cabinet", 3000));
        await store.runs.close(run.id, start + 3000 * second);
        const [before, partsBefore] = [
          await store.readings.recording(run.id),
          await listed(store.readings.parts(run.id)),
        ];
        const { blocksBefore, blocksAfter } = await store.care.compact();
        expect(blocksBefore).toBeGreaterThan(2);
        expect(blocksAfter).toBe(2);
        expect(await store.readings.recording(run.id)).toEqual(before);
        expect((await listed(store.readings.parts(run.id))).flatMap(rowsOfPart).sort(byInstant)).toEqual(
          partsBefore.flatMap(rowsOfPart).sort(byInstant),
        );
      });
    });

    describe("edits", () => {
      const gas: Edit = { kind: "source", unixMs: start, source: "gas" };
      const mains: Edit = { kind: "source", unixMs: start + minute, source: "mains", how: "later" };
      const sources = async () => (await store.edits.current(run.id)).sourceMarks.map(({ source }) => source);

      test("replace and remove earlier ones, and the history keeps all", async () => {
        const first = await store.edits.make(run.id, gas, { unixMs: start, by: "Kim" });
        const second = await store.edits.make(run.id, mains);
        await store.edits.make(run.id, { kind: "replace", number: second, by: { ...mains, source: "dc12" } });
        expect(await sources()).toEqual(["gas", "dc12"]);
        await store.edits.make(run.id, { kind: "remove", number: first });
        expect(await sources()).toEqual(["dc12"]);
        const history = await store.edits.history(run.id);
        expect(history).toHaveLength(4);
        expect(history[0]).toEqual({ number: 1, madeUnixMs: start, madeBy: "Kim", step: gas, isUndone: false });
      });

      test("are undone from the last to the first and brought back the other way", async () => {
        await store.edits.make(run.id, gas);
        await store.edits.make(run.id, mains);
        await store.edits.make(run.id, { kind: "remove", number: 1 });
        expect(await sources()).toEqual(["mains"]);
        await store.edits.undo(run.id);
        expect(await sources()).toEqual(["gas", "mains"]);
        await store.edits.undo(run.id);
        expect(await sources()).toEqual(["gas"]);
        expect(await store.edits.redo(run.id)).toBe(true);
        expect(await sources()).toEqual(["gas", "mains"]);
        expect(await store.edits.current(run.id)).toMatchObject({ canUndo: true, canRedo: true });
      });

      test("made after an undo end the redoing", async () => {
        await store.edits.make(run.id, gas);
        await store.edits.undo(run.id);
        expect(await store.edits.undo(run.id)).toBe(false);
        await store.edits.make(run.id, mains);
        expect(await store.edits.redo(run.id)).toBe(false);
        expect(await sources()).toEqual(["mains"]);
        expect(await store.edits.current(run.id)).toMatchObject({ canUndo: true, canRedo: false });
      });

      test("of an edit that does not stand are refused", async () => {
        await store.edits.make(run.id, gas);
        await store.edits.make(run.id, { kind: "remove", number: 1 });
        for (const number of [1, 2, 9]) {
          expect(await refusal(store.edits.make(run.id, { kind: "remove", number }))).toMatchObject({
            code: "no-such-record",
            saying: { kind: "edit", id: `${number}` },
          });
        }
      });
    });

    test("events are listed in order of time and can be told more about", async () => {
      const late = await store.events.add(run.id, { kind: "gap", fromUnixMs: start + minute, details: { lines: 3 } });
      await store.events.add(run.id, { kind: "probe-lost", fromUnixMs: start, position: "cabinet", boardId: "b" });
      await store.events.edit(late, { toUnixMs: start + 2 * minute });
      expect(await store.events.list(run.id)).toMatchObject([
        { kind: "probe-lost", position: "cabinet", boardId: "b" },
        { kind: "gap", fromUnixMs: start + minute, toUnixMs: start + 2 * minute, details: { lines: 3 } },
      ]);
      expect(await refusal(store.events.edit("nothing", {}))).toMatchObject({ code: "no-such-record" });
    });

    describe("results", () => {
      const add = (marker: string, madeUnixMs: number, runIds: readonly string[]) =>
        store.results.add({
          kind: "analysis",
          fridgeId,
          runIds,
          method: "1",
          madeUnixMs,
          document: someDocument(marker),
        });

      test("are found newest first, of a fridge and of a run", async () => {
        const other = await openRun();
        const a = await add("a", start, [run.id]);
        const c = await add("c", start + 2, [other.id, run.id]);
        await add("b", start + 1, [other.id]);
        expect(await store.results.newest({ fridgeId })).toEqual(c);
        expect((await store.results.list({ runId: run.id })).map(({ id }) => id)).toEqual([c.id, a.id]);
        expect(await store.results.newest({ fridgeId }, "comparison")).toBeNull();
        await store.results.remove(c.id);
        expect(await store.results.newest({ runId: run.id })).toEqual(a);
      });

      test("go out of sight with a run they rest on, and for good when that is compacted away", async () => {
        const other = await openRun();
        const kept = await add("kept", start, [other.id]);
        const gone = await add("gone", start + 1, [other.id, run.id]);
        await store.runs.delete(run.id);
        expect(await store.results.newest({ fridgeId })).toEqual(kept);
        await store.runs.restore(run.id);
        expect(await store.results.newest({ fridgeId })).toEqual(gone);
        await store.runs.delete(run.id);
        await store.care.compact();
        expect(await refusal(store.results.get(gone.id))).toMatchObject({ code: "no-such-record" });
        expect(await store.results.get(kept.id)).toEqual(kept);
      });
    });

    test("baselines are listed newest first", async () => {
      await store.baselines.add({ fridgeId, kind: "own", madeUnixMs: start, runIds: [run.id] });
      const newer = await store.baselines.add({
        fridgeId,
        kind: "kind",
        madeUnixMs: start + 1,
        runIds: [],
        notes: "n",
      });
      expect((await store.baselines.list(fridgeId)).map(({ kind }) => kind)).toEqual(["kind", "own"]);
      await store.baselines.remove(newer.id);
      expect(await store.baselines.list(fridgeId)).toMatchObject([{ kind: "own", runIds: [run.id] }]);
    });

    describe("probes", () => {
      test("keep what was said before and is not said again", async () => {
        await store.probes.put({ id: "28-1", kind: "one-wire", resolutionKelvin: 0.0625 });
        await store.probes.put({ id: "28-1", label: "red" });
        expect(await store.probes.list()).toEqual([
          { id: "28-1", kind: "one-wire", resolutionKelvin: 0.0625, label: "red" },
        ]);
      });

      test("sit in one place of a fridge, and a place has one probe", async () => {
        await store.probes.put({ id: "28-1" });
        await store.probes.put({ id: "28-2" });
        const role = { fridgeId, boardId: "b", position: "cabinet", sinceUnixMs: start } as const;
        await store.probes.assign({ ...role, probeId: "28-1" });
        await store.probes.assign({ ...role, probeId: "28-2", position: "ambient" });
        await store.probes.assign({ ...role, probeId: "28-2" });
        expect(await store.probes.roles(fridgeId)).toEqual([{ ...role, probeId: "28-2" }]);
        await store.probes.unassign("28-2", fridgeId);
        expect(await store.probes.roles()).toEqual([]);
      });

      test("with readings cannot be forgotten, others with all that belongs to them", async () => {
        await store.probes.put({ id: "28-1" });
        await store.probes.put({ id: "28-2" });
        await store.readings.append(run.id, fromBoard("cabinet", 1));
        expect(await refusal(store.probes.remove("28-1"))).toMatchObject({
          code: "record-in-use",
          saying: { runs: 1 },
        });
        await store.probes.remove("28-2");
        expect(await store.probes.list()).toMatchObject([{ id: "28-1" }]);
      });
    });

    describe("boards", () => {
      test("are remembered with their last hello", async () => {
        await store.boards.seen("b", { unixMs: start, hello: { version: 1 } });
        await store.boards.edit("b", { label: "left bench" });
        expect(await store.boards.seen("b", { unixMs: start + 5, fridgeId })).toEqual({
          id: "b",
          label: "left bench",
          fridgeId,
          hello: { version: 1 },
          firstSeenUnixMs: start,
          lastSeenUnixMs: start + 5,
          hasToken: false,
        });
        expect(await store.boards.list()).toHaveLength(1);
        await store.boards.remove("b");
        expect(await store.boards.list()).toEqual([]);
      });

      test("are known by their newest token alone", async () => {
        const old = await store.boards.issueToken("b");
        const token = await store.boards.issueToken("b");
        expect(token).toMatch(/^[\w-]{43}$/);
        expect(await store.boards.withToken(token)).toMatchObject({ id: "b", hasToken: true });
        expect(await store.boards.withToken(old)).toBeNull();
        expect(await store.boards.withToken("")).toBeNull();
      });

      test("are claimed by one at a time, until the claim is given up or runs out", async () => {
        const mine = { name: "b", holder: "first", untilUnixMs: start + minute };
        const theirs = { name: "b", holder: "second", untilUnixMs: start + 2 * minute };
        expect(await store.boards.claim(mine, start)).toEqual(mine);
        expect(await store.boards.claim(theirs, start + 1)).toEqual(mine);
        const longer = { ...mine, untilUnixMs: start + 3 * minute };
        expect(await store.boards.claim(longer, start + 2)).toEqual(longer);
        await store.boards.release("b", "second");
        expect(await store.boards.claim(theirs, start + 3)).toEqual(longer);
        await store.boards.release("b", "first");
        expect(await store.boards.claim(theirs, start + 4)).toEqual(theirs);
        expect(await store.boards.claim(longer, start + 2 * minute)).toEqual(longer);
      });
    });

    describe("alarms", () => {
      const alarm = {
        kind: "cabinet-warm",
        position: "cabinet",
        raisedUnixMs: start,
        reason: { code: "warm", hours: 2 },
      } as const;

      test("latch: raised again before anyone looked they are the same one, also when their cause was over meanwhile", async () => {
        const { alarm: first, isNew } = await store.alarms.raise({ ...alarm, runId: run.id });
        await store.alarms.clear(first.id, start + minute);
        const again = await store.alarms.raise({ ...alarm, runId: run.id, raisedUnixMs: start + 2 * minute });
        expect([isNew, again]).toEqual([true, { isNew: false, alarm: first }]);
      });

      test("of one kind about another source, probe or board are another", async () => {
        const about = (subject: string) =>
          store.alarms.raise({ ...alarm, runId: run.id, reason: { ...alarm.reason, subject } });
        const raised = [await about("mains"), await about("gas"), await about("mains")];
        expect(raised.map(({ isNew }) => isNew)).toEqual([true, true, false]);
        expect(await store.alarms.list({ runId: run.id })).toHaveLength(2);
      });

      test("once acknowledged make room for a new one", async () => {
        const { alarm: first } = await store.alarms.raise({ ...alarm, runId: run.id });
        await store.alarms.acknowledge(first.id, start + 1, "Kim");
        const next = await store.alarms.raise({ ...alarm, runId: run.id, raisedUnixMs: start + 2 });
        expect(next.isNew).toBe(true);
        expect(await store.alarms.list({ runId: run.id, isAcknowledged: false })).toEqual([next.alarm]);
        expect(await store.alarms.list()).toMatchObject([
          { id: next.alarm.id },
          { id: first.id, acknowledgedUnixMs: start + 1, acknowledgedBy: "Kim", reason: alarm.reason },
        ]);
      });
    });

    test("the alarms of a deleted run wait for nobody, and are there again when it is restored", async () => {
      const alarm = { kind: "board-silent", raisedUnixMs: start, reason: { code: "x" } };
      await store.alarms.raise({ ...alarm, runId: run.id });
      await store.runs.delete(run.id);
      expect(await store.alarms.list()).toEqual([]);
      await store.runs.restore(run.id);
      expect(await store.alarms.list()).toHaveLength(1);
    });

    test("messages wait in the outbox, over a restart, until they are settled", async () => {
      const first = await store.outbox.add({ target: "http://127.0.0.1:1/", body: { a: 1 }, madeUnixMs: start });
      await store.outbox.add({ target: "http://127.0.0.1:1/", body: { a: 2 }, madeUnixMs: start + 1 });
      await store.outbox.postpone(first.id, start + minute, "no answer");
      await reopened();
      expect(await store.outbox.due(start + 1)).toMatchObject([{ body: { a: 2 }, attempts: 0 }]);
      expect(await store.outbox.due(start + minute)).toMatchObject([
        { body: { a: 1 }, attempts: 1, lastError: "no answer" },
        { body: { a: 2 } },
      ]);
      await store.outbox.settle(first.id);
      expect(await store.outbox.due(start + minute)).toHaveLength(1);
    });

    test("settings are the workshop's or a fridge's", async () => {
      await store.settings.set("log-mapping", { time: "Zeit" }, fridgeId);
      await store.settings.set("log-mapping", 1);
      await store.settings.set("log-mapping", 2);
      expect(await store.settings.get("log-mapping", fridgeId)).toEqual({ time: "Zeit" });
      expect(await store.settings.get("log-mapping")).toBe(2);
      await store.settings.set("log-mapping", undefined);
      expect(await store.settings.get("log-mapping")).toBeUndefined();
    });

    test("runs past their time are retired, known-good ones and those of a baseline only when told", async () => {
      const ended = async (purpose: "test" | "known-good") =>
        store.runs.close((await openRun({ purpose })).id, start + minute);
      const [old, good, baseline] = [await ended("test"), await ended("known-good"), await ended("test")];
      await store.baselines.add({ fridgeId, kind: "own", madeUnixMs: start, runIds: [baseline.id] });
      expect(await store.care.retire(start + minute)).toEqual([]);
      expect(await store.care.retire(start + 2 * minute)).toEqual([old.id]);
      expect((await store.runs.list({ areDeleted: true })).runs.map(({ id }) => id)).toEqual([old.id]);
      const rest = await store.care.retire(start + 2 * minute, { knownGoodToo: true });
      expect([...rest].sort()).toEqual([good.id, baseline.id].sort());
    });
  });
}

type FullReading = Required<Omit<NewReading, "position">>;

const withAllParts = (reading: NewReading): Partial<FullReading> => ({
  unixMs: reading.unixMs,
  raw: reading.raw,
  probeId: reading.probeId,
  sequence: reading.sequence,
  uptimeMs: reading.uptimeMs,
  hostUnixMs: reading.hostUnixMs,
});

function rowsOfPart(part: SeriesPart): Partial<FullReading>[] {
  const optional = (column: Float64Array | null, i: number) =>
    column === null || Number.isNaN(column[i]) ? undefined : column[i];
  return Array.from(part.unixMs, (unixMs, i) => ({
    unixMs,
    raw: part.raw[i],
    probeId: part.probeId ?? undefined,
    sequence: optional(part.sequence, i),
    uptimeMs: optional(part.uptimeMs, i),
    hostUnixMs: optional(part.hostUnixMs, i),
  }));
}

const byInstant = (a: { unixMs?: number }, b: { unixMs?: number }) => (a.unixMs ?? 0) - (b.unixMs ?? 0);
