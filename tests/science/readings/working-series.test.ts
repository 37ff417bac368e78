import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { energySources } from "../../../src/schema/index.ts";
import { cleanRecording } from "../../../src/science/readings/cleaning.ts";
import { workingSeries } from "../../../src/science/readings/working-series.ts";
import { logOf, minute, startMs } from "../logs.ts";

describe("means over a minute", () => {
  test("a log of every 10 s becomes a row a minute, with mean, mean instant and count", () => {
    const series = workingSeries(logOf({ rows: 18, stepMs: 10_000, columns: { cabinet: (row) => row } }));
    expect(series.columns.cabinet).toEqual(Float64Array.of(2.5, 8.5, 14.5));
    expect(series.counts).toEqual(Float64Array.of(6, 6, 6));
    expect(series.unixMs).toEqual(Float64Array.of(25_000, 85_000, 145_000).map((ms) => startMs + ms));
  });

  for (const stepMs of [minute, 90_000, 5 * minute]) {
    test(`a log of every ${stepMs / 1000} s stays as it is`, () => {
      const log = logOf({ rows: 40, stepMs, columns: { cabinet: (row) => row / 3 }, source: () => "gas" });
      const series = workingSeries(log);
      expect(series.unixMs).toEqual(log.unixMs);
      expect(series.columns).toEqual(log.columns);
      expect(series.sourceCodes).toEqual(log.sourceCodes);
    });
  }

  test("missing readings do not count in the mean; a minute without any is missing", () => {
    const cabinet = (row: number) =>
      row < 6 ? [Number.NaN, 4, Number.NaN, 6, Number.NaN, Number.NaN][row] : Number.NaN;
    const series = workingSeries(logOf({ rows: 12, stepMs: 10_000, columns: { cabinet } }));
    expect(series.columns.cabinet).toEqual(Float64Array.of(5, Number.NaN));
  });

  test("a minute in which the source changes becomes two rows", () => {
    const series = workingSeries(
      logOf({
        rows: 6,
        stepMs: 10_000,
        columns: { cabinet: (row) => row },
        source: (row) => (row < 2 ? "mains" : "gas"),
      }),
    );
    expect(series.columns.cabinet).toEqual(Float64Array.of(0.5, 3.5));
    expect(series.sourceCodes).toEqual(Uint8Array.of(2, 1));
  });

  test("a minute in which a mark stands becomes two rows, when no column tells the source", () => {
    const marks = [{ unixMs: startMs + 15_000, source: "gas" }] as const;
    const series = workingSeries(logOf({ rows: 6, stepMs: 10_000, columns: { cabinet: (row) => row }, marks }));
    expect(series.counts).toEqual(Float64Array.of(2, 4));
  });

  test("a blank source cell does not part a minute", () => {
    const source = (row: number) => (row % 2 === 0 ? null : "gas");
    const series = workingSeries(logOf({ rows: 6, stepMs: 10_000, columns: { cabinet: (row) => row }, source }));
    expect(series.sourceCodes).toEqual(Uint8Array.of(1));
  });
});

describe("whatever the log", () => {
  const logs = fc
    .array(
      fc.record({
        step: fc.oneof(fc.integer({ min: 1, max: 90_000 }), fc.constant(3_600_000)),
        cabinet: fc.oneof(fc.double({ min: -20, max: 40, noNaN: true }), fc.constant(Number.NaN)),
        source: fc.constantFrom(...energySources, null),
      }),
      { maxLength: 80 },
    )
    .map((rows) => {
      let at = startMs;
      const unixMs = rows.map((row) => (at += row.step));
      return logOf({ unixMs, columns: { cabinet: (i) => rows[i].cabinet }, source: (i) => rows[i].source });
    });

  property.prop([logs])("no row spans more than a minute or mixes two sources, and every log row is in one", (log) => {
    const series = workingSeries(cleanRecording(log).recording);
    const { unixMs } = log;
    let from = 0;
    for (let row = 0; row < series.counts.length; row++) {
      const to = from + series.counts[row];
      expect(unixMs[to - 1] - unixMs[from]).toBeLessThan(minute);
      const told = new Set([...(log.sourceCodes?.subarray(from, to) ?? [])].filter((code) => code !== 0));
      expect(told.size).toBeLessThanOrEqual(1);
      from = to;
    }
    expect(from).toBe(unixMs.length);
  });

  property.prop([logs, fc.integer({ min: -20_600, max: 20_000 })])(
    "whole days added to all times change nothing else",
    (log, days) => {
      const later = { ...log, unixMs: log.unixMs.map((ms) => ms + days * 86_400_000) };
      const [series, moved] = [workingSeries(log), workingSeries(later)];
      expect({ ...moved, unixMs: moved.unixMs.map((ms) => ms - days * 86_400_000) }).toEqual(series);
    },
  );
});
