import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { type EnergySource, energySources, msPerHour } from "../../../src/schema/index.ts";
import { cleanRecording } from "../../../src/science/readings/cleaning.ts";
import type { Stretch } from "../../../src/science/readings/series.ts";
import { findStretches } from "../../../src/science/readings/stretches.ts";
import { workingSeries } from "../../../src/science/readings/working-series.ts";
import { knownGoodFridge, type SimulationPlan, simulateRun } from "../../../src/simulate/index.ts";
import { minute, seriesOf, startMs } from "../logs.ts";

/** "gas 0-60 cold-boiler": source, rows and how it began. */
const told = (stretches: readonly Stretch[]) =>
  stretches.map(
    ({ source, from, to, startState }) => `${source} ${from}-${to}${startState === null ? "" : ` ${startState}`}`,
  );

/** Sources by rows: [["off", 30], ["gas", 60]]. */
const column =
  (...parts: readonly (readonly [EnergySource | null, number])[]) =>
  (row: number) => {
    let end = 0;
    for (const [source, rows] of parts) {
      end += rows;
      if (row < end) return source;
    }
    return null;
  };

const ambient = () => 25;
const warm = { ambient, cabinet: () => 24.5, evaporator: () => 24.4 };
const cold = { ambient, cabinet: () => 5, evaporator: () => -2 };

const stretchesOf = (rows: number, source: (row: number) => EnergySource | null, columns: typeof warm = warm) =>
  told(findStretches(seriesOf({ rows, columns, source }), []));

describe("stretches that the log tells", () => {
  test("each source makes a stretch, up to the row where the next begins", () => {
    const series = seriesOf({ rows: 100, columns: warm, source: column(["off", 30], ["mains", 70]) });
    const [off, mains] = findStretches(series, []);
    expect(off).toMatchObject({ source: "off", heated: false, sourceFrom: "told", startState: null });
    expect(off.endMs).toBe(startMs + 30 * minute);
    expect(mains).toMatchObject({ source: "mains", heated: true, startMs: startMs + 30 * minute });
    expect(mains.endMs).toBe(startMs + 99 * minute);
  });

  test("cells that say nothing carry on the last source", () => {
    const source = column(["off", 10], [null, 20], ["gas", 10], [null, 20]);
    expect(stretchesOf(60, source)).toEqual(["off 0-30", "gas 30-60 cold-boiler"]);
  });

  test("one or two rows of another source make no stretch, in the middle or at the start", () => {
    const source = column(["gas", 30], ["off", 2], ["gas", 30], ["mains", 1], ["gas", 30]);
    expect(stretchesOf(93, source)).toEqual(["gas 0-93 cold-boiler"]);
    expect(stretchesOf(40, column(["gas", 1], ["mains", 39]))).toEqual(["mains 0-40 cold-boiler"]);
  });

  test("three rows make a stretch, and so do two at the very end: the source may just have been switched", () => {
    expect(stretchesOf(63, column(["gas", 30], ["off", 3], ["gas", 30]))).toHaveLength(3);
    expect(stretchesOf(32, column(["gas", 30], ["off", 2]))).toEqual(["gas 0-30 cold-boiler", "off 30-32"]);
  });

  test("a gap does not cut a stretch", () => {
    const unixMs = Array.from({ length: 60 }, (_, row) => startMs + (row + (row < 30 ? 0 : 120)) * minute);
    expect(told(findStretches(seriesOf({ unixMs, columns: warm, source: () => "gas" }), []))).toEqual([
      "gas 0-60 cold-boiler",
    ]);
  });

  test("a pause of the log of more than a week does, and what was told before it no longer counts", () => {
    const unixMs = Array.from({ length: 60 }, (_, row) => startMs + (row + (row < 30 ? 0 : 15_000)) * minute);
    const source = (row: number) => (row < 30 ? "gas" : null);
    const [before, after] = findStretches(seriesOf({ unixMs, columns: warm, source }), []);
    expect(before).toMatchObject({ source: "gas", endMs: startMs + 29 * minute });
    expect(after).toMatchObject({ source: null, sourceFrom: "found" });
  });
});

describe("how heating began", () => {
  test("the first heating of a warm fridge starts from a cold boiler", () => {
    expect(stretchesOf(60, column(["gas", 60]))).toEqual(["gas 0-60 cold-boiler"]);
  });

  test("off for two hours or more lets the boiler go cold, off for less leaves it warm", () => {
    expect(stretchesOf(300, column(["mains", 60], ["off", 120], ["gas", 120]), cold)[2]).toBe(
      "gas 180-300 cold-boiler",
    );
    expect(stretchesOf(300, column(["mains", 60], ["off", 110], ["gas", 130]), cold)[2]).toBe(
      "gas 170-300 warm-boiler",
    );
  });

  test("another source without a pause of 10 min, in a cold cabinet, is switched while cold", () => {
    expect(stretchesOf(120, column(["mains", 60], ["gas", 60]), cold)[1]).toBe("gas 60-120 switched-while-cold");
    expect(stretchesOf(120, column(["mains", 60], ["off", 5], ["gas", 55]), cold)[2]).toBe(
      "gas 65-120 switched-while-cold",
    );
    expect(stretchesOf(120, column(["mains", 60], ["off", 12], ["gas", 48]), cold)[2]).toBe("gas 72-120 warm-boiler");
  });

  test("the same in a cabinet that is not cold yet is only a warm boiler", () => {
    expect(stretchesOf(120, column(["mains", 60], ["gas", 60]))[1]).toBe("gas 60-120 warm-boiler");
  });

  test("a log that begins heated in a cold cabinet begins as if switched while cold: no onset can be seen", () => {
    expect(stretchesOf(60, column(["gas", 60]), cold)).toEqual(["gas 0-60 switched-while-cold"]);
  });

  test("a hot boiler beside a warm cabinet was heated before the log began", () => {
    const columns = { ...warm, boiler: () => 140 };
    expect(told(findStretches(seriesOf({ rows: 60, columns, source: () => "gas" }), []))).toEqual([
      "gas 0-60 warm-boiler",
    ]);
  });
});

describe("stretches from marks", () => {
  const marks = [
    { unixMs: startMs + 40 * minute, source: "off" },
    { unixMs: startMs, source: "mains" },
  ] as const;

  test("marks tell where the log does not, in whatever order they are given", () => {
    const series = seriesOf({ rows: 60, columns: warm });
    expect(told(findStretches(series, marks))).toEqual(["mains 0-40 cold-boiler", "off 40-60"]);
    expect(findStretches(series, marks)[0].sourceFrom).toBe("told");
  });

  test("the log's own column goes before marks", () => {
    const series = seriesOf({ rows: 60, columns: warm, source: () => "gas" });
    expect(told(findStretches(series, marks))).toEqual(["gas 0-60 cold-boiler"]);
  });
});

describe("stretches found from the curves", () => {
  const plan: SimulationPlan = {
    name: "found.csv",
    seed: 4,
    startUnixMs: startMs,
    fridge: knownGoodFridge(),
    schedule: [
      { source: "off", hours: 1 },
      { source: "mains", hours: 7 },
      { source: "off", hours: 4 },
      { source: "gas", hours: 5 },
    ],
    ambient: { meanCelsius: 24, swingKelvin: 4 },
    samplingSeconds: 60,
    tellSource: false,
  };
  const found = (change: Partial<SimulationPlan> = {}, without: readonly string[] = []) => {
    const { recording, truth } = simulateRun({ ...plan, ...change });
    const columns = Object.fromEntries(Object.entries(recording.columns).filter(([name]) => !without.includes(name)));
    const stretches = findStretches(workingSeries(cleanRecording({ ...recording, columns }).recording), []);
    return { stretches, truth };
  };

  for (const without of [
    [],
    ["evaporator"],
    ["cabinet"],
    ["ambient"],
    ["ambient", "evaporator"],
    ["ambient", "cabinet"],
  ]) {
    const probes = without.length === 0 ? "all probes" : `no ${without.join(" and no ")} probe`;
    test(`with ${probes}, on and off are found within half an hour of the turn of the cold`, () => {
      const { stretches, truth } = found({}, without);
      expect(stretches.map(({ source, heated, sourceFrom }) => `${source} ${heated} ${sourceFrom}`)).toEqual([
        "off false found",
        "null true found",
        "off false found",
        "null true found",
      ]);
      const began = truth.stretches.map(({ coldBeganMs, startMs: at }) => coldBeganMs ?? at);
      // A switch-off shows when the boiler's heat is used up, a quarter of an hour later.
      for (const [i, stretch] of stretches.entries()) {
        expect(Math.abs(stretch.startMs - began[i])).toBeLessThan(0.6 * msPerHour);
      }
    });
  }

  test("they start with a warm boiler: when it was lit, nobody knows", () => {
    const { stretches } = found();
    expect(stretches.map((stretch) => stretch.startState)).toEqual([null, "warm-boiler", null, "warm-boiler"]);
  });

  test("a cycling thermostat and a flame that went out for an hour do not cut a found stretch", () => {
    const one: Partial<SimulationPlan> = { schedule: [{ source: "gas", hours: 14 }] };
    expect(found({ ...one, thermostatSetCelsius: 6 }).stretches).toHaveLength(2);
    expect(found({ ...one, outages: [{ atHours: 6, hours: 0.8 }] }).stretches).toHaveLength(2);
  });

  test("an evaporator probe that falls off does not switch the fridge off", () => {
    const probes = { evaporator: { fallsAtHours: 5 } };
    expect(found({ probes }).stretches.map((stretch) => stretch.heated)).toEqual([false, true, false, true]);
  });

  test("a fridge that never cools is one stretch of which nobody knows the source", () => {
    const faults = [{ name: "cooling-unit", size: 1 }] as const;
    const { stretches } = found({ faults });
    expect(told(stretches)).toEqual([`null 0-${stretches[0].to} cold-boiler`]);
  });

  test("rows before the first told source are found, the rest is told", () => {
    const { recording } = simulateRun({ ...plan, tellSource: true });
    const sourceCodes = recording.sourceCodes?.map((code, row) => (row < 8 * 60 ? 0 : code)) ?? null;
    const stretches = findStretches(workingSeries({ ...recording, sourceCodes }), []);
    expect(stretches.map(({ source, sourceFrom }) => `${source} ${sourceFrom}`)).toEqual([
      "off found",
      "null found",
      "off told",
      "gas told",
    ]);
  });
});

describe("whatever the series", () => {
  const reading = fc.oneof(fc.double({ min: -30, max: 40, noNaN: true }), fc.constantFrom(Number.NaN, 20, 20, 20));
  const anySeries = fc
    .array(
      fc.record({
        step: fc.constantFrom(1000, minute, minute, minute, 3_600_000, 1e10),
        values: fc.tuple(reading, reading, reading),
        code: fc.constantFrom(0, 1, 2, 3, 4, 77),
      }),
      { maxLength: 120 },
    )
    .map((rows) => {
      let at = startMs;
      const unixMs = rows.map((row) => (at += row.step));
      const columns = {
        evaporator: (i: number) => rows[i].values[0],
        cabinet: (i: number) => rows[i].values[1],
        ambient: (i: number) => rows[i].values[2],
      };
      return { ...seriesOf({ unixMs, columns }), sourceCodes: Uint8Array.from(rows, (row) => row.code) };
    });
  const anyMarks = fc.array(
    fc.record({
      unixMs: fc.oneof(
        fc.constant(Number.NaN),
        fc.integer({ min: 0, max: 100 }).map((m) => startMs + m * minute),
      ),
      source: fc.constantFrom(...energySources),
    }),
    { maxLength: 5 },
  );

  property.prop([anySeries, anyMarks, fc.boolean()])(
    "stretches hold every row once, in order",
    (series, marks, hasColumn) => {
      const stretches = findStretches(hasColumn ? series : { ...series, sourceCodes: null }, marks);
      let next = 0;
      for (const { from, to, startMs: start, endMs } of stretches) {
        expect(from).toBe(next);
        expect(to).toBeGreaterThan(from);
        expect(endMs).toBeGreaterThanOrEqual(start);
        next = to;
      }
      expect(next).toBe(series.unixMs.length);
    },
  );

  test("no rows, no stretches; three readings, one", () => {
    expect(findStretches(seriesOf({ rows: 0 }), [])).toEqual([]);
    expect(findStretches(seriesOf({ rows: 3, columns: { cabinet: () => 20 } }), [])).toHaveLength(1);
  });
});
