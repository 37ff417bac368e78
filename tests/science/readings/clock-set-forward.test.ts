// A clock set forward looks like a gap, but the curves go on across it as if no time had passed.

import { expect, test } from "vitest";
import type { Recording } from "../../../src/schema/index.ts";
import { cleanRecording } from "../../../src/science/readings/cleaning.ts";
import { knownGoodFridge, simulateRun } from "../../../src/simulate/index.ts";

const night = (seed: number): Recording =>
  simulateRun({
    name: "night.csv",
    seed,
    startUnixMs: Date.parse("2026-03-28T20:00:00Z"),
    fridge: knownGoodFridge(),
    schedule: [
      { source: "off", hours: 1 },
      { source: "mains", hours: 8 },
    ],
    ambient: { meanCelsius: 24, swingKelvin: 2, wanderKelvin: 0.2 },
    samplingSeconds: 60,
  }).recording;

const hour = 3_600_000;
const kinds = (recording: Recording) => cleanRecording(recording).events.map(({ kind }) => kind);

/** All rows from so many hours after the beginning on say an hour more than it was. */
const setForward = (log: Recording, afterHours: number): Recording => ({
  ...log,
  unixMs: log.unixMs.map((unixMs) => (unixMs - log.unixMs[0] >= afterHours * hour ? unixMs + hour : unixMs)),
});

/** No row for an hour. */
function withGap(log: Recording, fromHours: number): Recording {
  const rows = [...log.unixMs.keys()].filter((row) => {
    const at = (log.unixMs[row] - log.unixMs[0]) / hour;
    return at < fromHours || at >= fromHours + 1;
  });
  const picked = (column: Float64Array) => Float64Array.from(rows, (row) => column[row]);
  return {
    ...log,
    unixMs: picked(log.unixMs),
    columns: Object.fromEntries(Object.entries(log.columns).map(([name, column]) => [name, picked(column)])),
    sourceCodes: log.sourceCodes && Uint8Array.from(rows, (row) => log.sourceCodes?.[row] ?? 0),
  };
}

test("a clock set forward by an hour during the pull-down is told with its size, beside the gap", () => {
  const { events } = cleanRecording(setForward(night(1), 3));
  expect(events).toContainEqual(expect.objectContaining({ kind: "gap" }));
  const jump = events.find(({ kind }) => kind === "clock-jump");
  expect(jump?.size).toBeCloseTo(1, 2);
});

test("an hour without rows during the pull-down is a gap and nothing else", () => {
  for (let seed = 1; seed <= 20; seed++) expect(kinds(withGap(night(seed), 3))).toEqual(["gap"]);
});

test("an hour without rows in a settled part is never called a clock", () => {
  for (let seed = 1; seed <= 20; seed++) {
    expect(kinds(withGap(night(seed), 7.5))).not.toContain("clock-jump");
    expect(kinds(setForward(night(seed), 0.4))).not.toContain("clock-jump");
  }
});
