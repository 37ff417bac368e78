import { expect, test } from "vitest";
import { type BoardFile, readBoardFile } from "../../src/ingest/board-file.ts";
import { boardRecording } from "../../src/ingest/board-recording.ts";
import type { LineUnit, ProbeLine } from "../../src/ingest/probe-line.ts";
import type { Position } from "../../src/schema/index.ts";
import { thermistorByB } from "../../src/science/sensors/thermistor.ts";
import { probeLineText } from "./probe-line-text.ts";

const start = Date.parse("2026-07-12T18:00:00Z");
const units: Readonly<Record<string, LineUnit>> = { fin: "Cel", air: "Cel", vent: "Ohm", volts: "V", spare: "Cel" };

/** Three rounds of a board whose hello knows the place of `vent` alone; in the second round `air` is cut off. */
function file(): BoardFile {
  const head = { boardId: "b1", boot: 1 };
  const probes = Object.entries(units).map(([probeId, unit]) => ({
    probeId,
    role: probeId === "vent" ? ("ambient" as const) : null,
    unit,
    resolution: 0.0625,
  }));
  const hello = { formatVersion: 1, firmware: "1.0.0", reason: "power-on", intervalSeconds: 10, probes } as const;
  const lines: ProbeLine[] = [{ type: "hello", ...head, sequence: 1, uptimeMs: 50, ...hello }];
  for (const [round, uptimeMs] of [10_000, 20_000, 30_000].entries()) {
    for (const [probeId, unit] of Object.entries(units)) {
      const sequence = lines.length + 1;
      const value = unit === "Ohm" ? 10_000 : unit === "V" ? 12.5 : round - 2.5;
      lines.push(
        probeId === "air" && round === 1
          ? { type: "fault", ...head, sequence, uptimeMs, probeId, fault: "absent" }
          : { type: "reading", ...head, sequence, uptimeMs, probeId, value, unit },
      );
    }
  }
  const bytes = Buffer.from(lines.map((line) => `${probeLineText(line)}\n`).join(""), "latin1");
  const read = readBoardFile(bytes, [{ boot: 1, uptimeMs: 0, unixMs: start }]);
  if (read.outcome !== "placed") throw new Error(read.outcome);
  return read.file;
}

const places = new Map<string, Position>([
  ["fin", "evaporator"],
  ["air", "cabinet"],
  ["volts", "supply"],
]);

test("a board's file becomes a log: a row a round, a missing reading where a probe gave none, places said or the board's own", () => {
  const recording = boardRecording(file(), {
    name: "weekend",
    utcOffsetMinutes: 120,
    places,
    celsiusOf: ({ value }) => thermistorByB(value, { ohmsAt25: 10_000, b: 3950 }),
  });
  expect([...recording.unixMs]).toEqual([start + 10_000, start + 20_000, start + 30_000]);
  expect(recording.columns.evaporator).toEqual(Float64Array.of(-2.5, -1.5, -0.5));
  expect(recording.columns.cabinet).toEqual(Float64Array.of(-2.5, Number.NaN, -0.5));
  expect(recording.columns.ambient?.[0]).toBeCloseTo(25, 9);
  expect(recording.columns.supply).toEqual(Float64Array.of(12.5, 12.5, 12.5));
  expect(recording.ignoredColumns).toEqual(["spare"]);
});

test("ohms without a curve, and volts at a place for temperatures, are missing readings and never a temperature", () => {
  const recording = boardRecording(file(), {
    name: "weekend",
    utcOffsetMinutes: 0,
    places: new Map([["volts", "cabinet"]]),
  });
  expect([...(recording.columns.ambient ?? [])]).toEqual([Number.NaN, Number.NaN, Number.NaN]);
  expect([...(recording.columns.cabinet ?? [])]).toEqual([Number.NaN, Number.NaN, Number.NaN]);
});

test("of two probes said to sit at one place the first is taken and the other named", () => {
  const recording = boardRecording(file(), {
    name: "weekend",
    utcOffsetMinutes: 0,
    places: new Map([...places, ["spare", "cabinet"]]),
  });
  expect(recording.columns.cabinet?.[0]).toBe(-2.5);
  expect(recording.ignoredColumns).toEqual(["spare"]);
});
