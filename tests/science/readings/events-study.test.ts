// The smaller sister of tests/bench/events-study.ts: the goals, on fewer runs.

import { describe, expect, test } from "vitest";
import { foundStretchesRow, studyRow } from "./simulated-events.ts";

describe("on random fridges with noisy probes, read every second to every 5 min", () => {
  test("nothing is invented in 40 runs of which nothing should be told", () => {
    expect(studyRow("quiet", 40).wrong).toEqual([]);
  });

  test("19 of 20 door openings of a kelvin and more are found through probes of 0.1 K noise and less", () => {
    const rows = [studyRow("doors", 40, 0.05), studyRow("doors", 40, 0.1)];
    const [there, found] = [rows[0].there + rows[1].there, rows[0].found + rows[1].found];
    expect(there).toBeGreaterThan(100);
    expect(found / there).toBeGreaterThanOrEqual(0.95);
  });

  test("through probes of 0.3 K noise more than half of the openings are found, and none is invented", () => {
    const { there, found, runsWithInvented } = studyRow("doors", 40, 0.3);
    expect(found / there).toBeGreaterThan(0.5);
    expect(runsWithInvented).toBe(0);
  });

  for (const [what, name] of [
    ["cycling thermostats", "thermostat"],
    ["flames and supplies that fail", "outage"],
    ["fallen evaporator probes", "fallen"],
    ["hours of sun on the ambient probe", "sunny"],
  ] as const) {
    test(`all ${what} of 24 runs are found, and nothing else is told`, () => {
      const row = studyRow(name, 24);
      expect(row.wrong).toEqual([]);
      expect(row.there).toBeGreaterThan(10);
    });
  }

  test("where nobody told the source, each pull-down of 16 runs is found within 35 min of its onset", () => {
    expect(foundStretchesRow("doors", 16).wrong).toEqual([]);
  });
});
