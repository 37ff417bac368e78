// Readings as they arrive.

import { fc } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { byInstant, rowsOfPart, withAllParts } from "./reading-rows.ts";
import {
  fromBoard,
  instants,
  listed,
  minute,
  readings,
  refusal,
  type StoreBench,
  second,
  start,
} from "./store-bench.ts";

/** Tests of any store. */
export function liveReadingsInStore(bench: StoreBench): void {
  describe("live readings", () => {
    test("come back as they were, from another opening of the store", async () => {
      await bench.store.readings.append(bench.run.id, [...readings("cabinet", 3), ...readings("evaporator", 2, 1)]);
      await bench.reopened();
      const { unixMs, columns, sourceCodes, utcOffsetMinutes, sheet } = await bench.store.readings.recording(
        bench.run.id,
      );
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
      await bench.store.readings.append(bench.run.id, readings("cabinet", 3));
      expect(await bench.store.readings.append(bench.run.id, readings("cabinet", 5))).toMatchObject({
        stored: 2,
        repeated: 3,
        contradicted: 0,
      });
      const [one] = readings("ambient", 1);
      expect(await bench.store.readings.append(bench.run.id, [one, one])).toMatchObject({ stored: 1, repeated: 1 });
    });

    test("that contradict what is kept are reported with their instant and leave it as it was", async () => {
      await bench.store.readings.append(bench.run.id, readings("cabinet", 3));
      const unixMs = start + second;
      expect(await bench.store.readings.append(bench.run.id, [{ position: "cabinet", unixMs, raw: 5 }])).toEqual({
        stored: 0,
        repeated: 0,
        contradicted: 1,
        contradictions: [{ position: "cabinet", unixMs, kept: 20, refused: 5 }],
      });
      expect((await bench.store.readings.recording(bench.run.id)).columns.cabinet?.[1]).toBe(20);
    });

    for (const sealed of [false, true]) {
      test(`of a line sent twice are known by the board's number, even at another instant, ${sealed ? "sealed" : "not yet sealed"}`, async () => {
        await bench.store.readings.append(bench.run.id, fromBoard("cabinet", 5));
        if (sealed) await bench.store.runs.close(bench.run.id, start + minute);
        const again = fromBoard("cabinet", 5).map((reading) => ({ ...reading, unixMs: reading.unixMs + 3 }));
        expect(await bench.store.readings.append(bench.run.id, again)).toMatchObject({ stored: 0, repeated: 5 });
        const other = { ...again[2], raw: -3 };
        expect(await bench.store.readings.append(bench.run.id, [other])).toMatchObject({
          contradicted: 1,
          contradictions: [{ unixMs: other.unixMs, kept: 20, refused: -3 }],
        });
        // After a restart the board counts anew: these are other lines.
        const restarted = fromBoard("cabinet", 2, 0, 1).map((one) => ({ ...one, unixMs: one.unixMs + minute }));
        expect(await bench.store.readings.append(bench.run.id, restarted)).toMatchObject({ stored: 2 });
      });
    }

    test("are sealed every ten minutes, and late, repeated and contradicting ones are still known", async () => {
      const night = 45 * 60;
      for (let from = 0; from < night; from += 60) {
        // Every tenth second is left out, to come late.
        const some = fromBoard("cabinet", 60, from).filter((_, i) => i % 10 !== 9);
        await bench.store.readings.append(bench.run.id, some);
      }
      const { blocks, readings: kept, damage } = await bench.store.care.check();
      expect({ blocks, kept, damage }).toEqual({ blocks: 4, kept: 0.9 * night, damage: [] });

      const all = fromBoard("cabinet", night);
      expect(await bench.store.readings.append(bench.run.id, all)).toMatchObject({
        stored: night / 10,
        repeated: 0.9 * night,
      });
      const series = await bench.store.readings.series(bench.run.id, "cabinet");
      expect(series.unixMs).toEqual(Float64Array.from(all, ({ unixMs }) => unixMs));
      expect(series.values).toEqual(Float64Array.from(all, ({ raw }) => raw));
      expect(await bench.store.runs.extents(bench.run.id)).toEqual([
        { position: "cabinet", readings: night, firstUnixMs: start, lastUnixMs: start + (night - 1) * second },
      ]);
    });

    test("of many batches at once are each answered, and a batch for no run fails alone", async () => {
      const good = Array.from({ length: 20 }, (_, i) =>
        bench.store.readings.append(bench.run.id, readings("cabinet", 2, i)),
      );
      const bad = bench.store.readings.append("2026-01-01-nobody", readings("cabinet", 1));
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
        expect(await refusal(bench.store.readings.append(bench.run.id, batch))).toBeInstanceOf(RangeError);
        expect((await bench.store.readings.recording(bench.run.id)).unixMs).toHaveLength(0);
      });
    }

    test("go to the deleted run no more", async () => {
      await bench.store.runs.delete(bench.run.id);
      expect(await refusal(bench.store.readings.append(bench.run.id, readings("cabinet", 1)))).toMatchObject({
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
            const { id } = await bench.openRun();
            const batch = arrivals.map((one) => ({ ...one, position: "boiler" as const }));
            await bench.store.readings.append(id, batch);
            const expected = batch.map(withAllParts).sort(byInstant);
            expect((await listed(bench.store.readings.parts(id))).flatMap(rowsOfPart).sort(byInstant)).toEqual(
              expected,
            );
            await bench.store.runs.close(id, start);
            expect((await listed(bench.store.readings.parts(id))).flatMap(rowsOfPart).sort(byInstant)).toEqual(
              expected,
            );
          },
        ),
        { numRuns: 60 },
      );
    });
  });
}
