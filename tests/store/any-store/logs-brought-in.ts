// Whole logs brought into a run.

import { describe, expect, test } from "vitest";
import type { Store } from "../../../src/store/index.ts";
import { instants, refusal, type StoreBench, second, start } from "./store-bench.ts";

/** Tests of any store. */
export function logsInStore(bench: StoreBench): void {
  describe("logs brought in", () => {
    const chunk = {
      unixMs: instants(0, 1, 2, 3),
      columns: { cabinet: Float64Array.of(20, 19.5, Number.NaN, 18.5), ambient: Float64Array.of(25, 25, 25, 25) },
      sourceCodes: Uint8Array.of(4, 1, 0, 1),
    };
    const file = { name: "night.csv", sha256: "ab".repeat(32) };

    async function importing(
      chunks: readonly Parameters<ReturnType<Store["readings"]["import"]>["add"]>[0][],
      id = bench.run.id,
    ) {
      const into = bench.store.readings.import(id, { file });
      for (const one of chunks) into.add(one);
      return into.finish();
    }

    test("give the log back: rows, missing readings and sources", async () => {
      const own = await bench.openRun({ origin: "file", name: file.name });
      expect(await importing([chunk], own.id)).toEqual({
        stored: 10,
        repeated: 0,
        contradicted: 0,
        contradictions: [],
      });
      await bench.reopened();
      expect(await bench.store.readings.recording(own.id)).toMatchObject({
        ...chunk,
        name: file.name,
        sha256: file.sha256,
      });
      expect(await bench.store.runs.files(own.id)).toEqual([file]);
      expect(await bench.store.runs.withFile(file.sha256)).toMatchObject([{ id: own.id }]);
    });

    test("show nothing until they are finished", async () => {
      const into = bench.store.readings.import(bench.run.id);
      into.add(chunk);
      expect((await bench.store.readings.recording(bench.run.id)).unixMs).toHaveLength(0);
      await into.finish();
      expect((await bench.store.readings.recording(bench.run.id)).unixMs).toHaveLength(4);
    });

    test("twice change nothing", async () => {
      await importing([chunk]);
      const before = await bench.store.readings.recording(bench.run.id);
      expect(await importing([chunk])).toMatchObject({ stored: 0, repeated: 10, contradicted: 0 });
      expect(await bench.store.readings.recording(bench.run.id)).toEqual(before);
      expect(await bench.store.runs.files(bench.run.id)).toEqual([file]);
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
      expect(await bench.store.readings.recording(bench.run.id)).toMatchObject({
        unixMs: instants(0, 1, 2, 3, 4),
        columns: { cabinet: Float64Array.of(20, 19.5, 19, 18.5, 18) },
        sourceCodes: Uint8Array.of(4, 1, 1, 1, 2),
      });
    });

    test("meet live readings not yet sealed", async () => {
      await bench.store.readings.append(bench.run.id, [{ position: "cabinet", unixMs: start + second, raw: 19.5 }]);
      expect(await importing([chunk])).toMatchObject({ stored: 9, repeated: 1 });
      expect((await bench.store.readings.series(bench.run.id, "cabinet")).values).toEqual(
        Float64Array.of(20, 19.5, 18.5),
      );
    });

    test("out of order come back in order; of two readings at one instant the first stays", async () => {
      const mixed = { unixMs: instants(5, 1, 3, 1, 4), columns: { cabinet: Float64Array.of(5, 1, 3, 1.5, 4) } };
      expect(await importing([mixed])).toMatchObject({
        stored: 4,
        contradicted: 1,
        contradictions: [{ kept: 1, refused: 1.5 }],
      });
      expect(await bench.store.readings.series(bench.run.id, "cabinet")).toEqual({
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
      const { unixMs, values } = await bench.store.readings.series(bench.run.id, "cabinet");
      expect(unixMs).toEqual(instants(...Array(count).keys()));
      expect(values).toEqual(Float64Array.from(Array(count).keys(), (at) => at / 16));
    });

    test("into no run leave nothing behind", async () => {
      expect(await refusal(importing([chunk], "2026-01-01-nobody"))).toMatchObject({ code: "no-such-record" });
      expect(await bench.store.runs.withFile(file.sha256)).toEqual([]);
      expect((await bench.store.care.check()).readings).toBe(0);
    });

    test("with arrays of different length are refused", () => {
      const into = bench.store.readings.import(bench.run.id);
      expect(() => into.add({ unixMs: instants(0, 1), columns: { cabinet: Float64Array.of(1) } })).toThrow(RangeError);
    });
  });
}
