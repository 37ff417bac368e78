// What was kept, read back.

import { describe, expect, test } from "vitest";
import type { Position } from "../../../src/schema/index.ts";
import { byInstant, rowsOfPart } from "./reading-rows.ts";
import { fromBoard, instants, listed, minute, readings, type StoreBench, second, start } from "./store-bench.ts";

/** Tests of any store. */
export function readingBackFromStore(bench: StoreBench): void {
  describe("reading back", () => {
    const codes = (recording: { sourceCodes: Uint8Array | null }) =>
      recording.sourceCodes && [...recording.sourceCodes];

    test("gives a part of a series: from an instant on, up to another without it", async () => {
      await bench.store.readings.append(bench.run.id, readings("cabinet", 10));
      await bench.store.runs.close(bench.run.id, start + minute);
      await bench.store.readings.append(bench.run.id, readings("cabinet", 5, 10));
      const part = { fromUnixMs: start + 8 * second, toUnixMs: start + 12 * second };
      expect((await bench.store.readings.series(bench.run.id, "cabinet", part)).unixMs).toEqual(instants(8, 9, 10, 11));
      expect((await bench.store.readings.series(bench.run.id, "boiler")).unixMs).toHaveLength(0);
    });

    test("corrects by the newest calibration made before the run, raw values stay", async () => {
      await bench.store.probes.put({ id: "28-1" });
      const calibrate = (madeUnixMs: number, coefficients: readonly number[]) =>
        bench.store.probes.calibrate({
          probeId: "28-1",
          madeUnixMs,
          method: "several-points",
          coefficients,
          standardUncertaintyKelvin: 0.1,
        });
      await bench.store.readings.append(bench.run.id, readings("cabinet", 1, 0, { probeId: "28-1" }));
      await bench.store.readings.append(bench.run.id, readings("ambient", 1, 0, { probeId: "28-2" }));
      const value = async (position: Position, values?: "raw") =>
        (await bench.store.readings.series(bench.run.id, position, { values })).values[0];

      expect(await value("cabinet")).toBe(20);
      const after = await calibrate(start + minute, [3, 1]);
      // Better than none.
      expect(await value("cabinet")).toBe(23);
      await calibrate(start - 2 * minute, [1, 1]);
      await calibrate(start - minute, [0.5, 1, 0.01]);
      await bench.store.probes.removeCalibration(after.id);
      expect(await value("cabinet")).toBe(0.5 + 20 + 0.01 * 400);
      expect((await bench.store.readings.recording(bench.run.id)).columns).toEqual({
        cabinet: Float64Array.of(24.5),
        ambient: Float64Array.of(20),
      });
      expect(await value("cabinet", "raw")).toBe(20);
    });

    // IEC 60751: a Pt100 has 100 Ω at 0 °C and 138.5055 Ω at 100 °C.
    test("makes °C of ohms by the probe's curve of today, and leaves them out while it has none", async () => {
      const ohms = [100, 138.5055].map((raw, i) => ({ ...readings("flue", 1, i, { probeId: "pt" })[0], raw }));
      await bench.store.readings.append(
        bench.run.id,
        ohms.map((reading) => ({ ...reading, unit: "Ohm" as const })),
      );
      await bench.store.readings.append(bench.run.id, readings("cabinet", 2));
      const flue = async () =>
        Array.from((await bench.store.readings.series(bench.run.id, "flue")).values, (value) => Math.round(value) + 0);
      expect(await flue()).toEqual([]);
      expect(Object.keys((await bench.store.readings.recording(bench.run.id)).columns)).toEqual(["cabinet"]);
      await bench.store.probes.put({ id: "pt", curve: { kind: "pt100", toleranceClass: "B" } });
      expect(await flue()).toEqual([0, 100]);
      await bench.store.runs.close(bench.run.id, start + minute);
      await bench.store.care.compact();
      expect(await flue()).toEqual([0, 100]);
      const [part] = (await listed(bench.store.readings.parts(bench.run.id))).filter(
        ({ position }) => position === "flue",
      );
      expect(part).toMatchObject({ unit: "Ohm", raw: Float64Array.of(100, 138.5055) });
      await bench.store.probes.put({ id: "pt", curve: null });
      expect(await flue()).toEqual([]);
    });

    test("a calibration made by another curve than the probe's present one is not used", async () => {
      await bench.store.readings.append(bench.run.id, [
        { ...readings("flue", 1, 0, { probeId: "pt" })[0], raw: 100, unit: "Ohm" },
      ]);
      await bench.store.probes.put({ id: "pt", curve: { kind: "pt100", toleranceClass: "B" } });
      await bench.store.probes.calibrate({
        probeId: "pt",
        madeUnixMs: start - minute,
        method: "ice-point",
        coefficients: [0.5, 1],
        standardUncertaintyKelvin: 0.1,
      });
      const flue = async () => (await bench.store.readings.series(bench.run.id, "flue")).values[0];
      expect(await flue()).toBeCloseTo(0.5, 6);
      await bench.store.probes.put({ id: "pt", curve: { kind: "thermistor-b", curve: { ohmsAt25: 100, b: 3950 } } });
      expect(await flue()).toBeCloseTo(25, 6);
    });

    test("hands marks on as marks where no file told the sources, or written into the rows", async () => {
      await bench.store.readings.append(bench.run.id, readings("cabinet", 4));
      await bench.store.edits.make(bench.run.id, { kind: "source", unixMs: start + 1.5 * second, source: "gas" });
      const marked = await bench.store.readings.recording(bench.run.id);
      expect([codes(marked), marked.sourceMarks]).toEqual([null, [{ unixMs: start + 1.5 * second, source: "gas" }]]);
      const inRows = await bench.store.readings.recording(bench.run.id, { sources: "in-rows" });
      expect([codes(inRows), inRows.sourceMarks]).toEqual([[0, 0, 1, 1], []]);
    });

    test("lets a mark hold over the file's own sources until these change", async () => {
      const into = bench.store.readings.import(bench.run.id);
      const cabinet = new Float64Array(6).fill(20);
      into.add({
        unixMs: instants(0, 1, 2, 3, 4, 5),
        columns: { cabinet },
        sourceCodes: Uint8Array.of(1, 1, 1, 1, 4, 4),
      });
      await into.finish();
      await bench.store.edits.make(bench.run.id, { kind: "source", unixMs: start + 2 * second, source: "mains" });
      expect(codes(await bench.store.readings.recording(bench.run.id))).toEqual([1, 1, 2, 2, 4, 4]);
    });

    test("leaves excluded readings out, of all positions or of one, and keeps them for an export", async () => {
      await bench.store.readings.append(bench.run.id, [...readings("cabinet", 5), ...readings("ambient", 5)]);
      const [from, to] = [start + second, start + 2 * second];
      await bench.store.edits.make(bench.run.id, { kind: "exclusion", fromUnixMs: from, toUnixMs: to });
      const only = {
        kind: "exclusion",
        fromUnixMs: start + 3 * second,
        toUnixMs: start + 4 * second,
        position: "ambient",
      } as const;
      await bench.store.edits.make(bench.run.id, only);
      const { unixMs, columns } = await bench.store.readings.recording(bench.run.id);
      expect(unixMs).toEqual(instants(0, 2, 3, 4));
      expect(columns.ambient).toEqual(Float64Array.of(20, 20, Number.NaN, 20));
      expect(columns.cabinet).toEqual(Float64Array.of(20, 20, 20, 20));
      expect((await bench.store.readings.recording(bench.run.id, { exclusions: "kept" })).unixMs).toHaveLength(5);
    });

    test("is the same after compacting", async () => {
      for (let from = 0; from < 3000; from += 300) {
        const some = fromBoard("cabinet", 300, from).filter((_, i) => i % 10 !== 9);
        await bench.store.readings.append(bench.run.id, [...some, ...readings("ambient", 300, from)]);
      }
      // Every tenth comes late, so that blocks lie across one another.
      await bench.store.readings.append(bench.run.id, fromBoard("cabinet", 3000));
      await bench.store.runs.close(bench.run.id, start + 3000 * second);
      const [before, partsBefore] = [
        await bench.store.readings.recording(bench.run.id),
        await listed(bench.store.readings.parts(bench.run.id)),
      ];
      const { blocksBefore, blocksAfter } = await bench.store.care.compact();
      expect(blocksBefore).toBeGreaterThan(2);
      expect(blocksAfter).toBe(2);
      expect(await bench.store.readings.recording(bench.run.id)).toEqual(before);
      expect((await listed(bench.store.readings.parts(bench.run.id))).flatMap(rowsOfPart).sort(byInstant)).toEqual(
        partsBefore.flatMap(rowsOfPart).sort(byInstant),
      );
    });
  });
}
