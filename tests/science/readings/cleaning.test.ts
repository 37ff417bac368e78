import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { type Position, positions, type Recording } from "../../../src/schema/index.ts";
import { cleanRecording } from "../../../src/science/readings/cleaning.ts";
import { logOf, minute, seededNoise, startMs, withRows } from "../logs.ts";
import { simulated } from "../simulated-runs.ts";

/** Cabinet falling slowly, in steps of a sixteenth of a kelvin. */
const steady = (row: number) => Math.round((20 - row / 100) * 16) / 16;
const withBad = (bad: Readonly<Record<number, number>>) => (row: number) => bad[row] ?? steady(row);

const rejected = (log: Recording) =>
  cleanRecording(log).rejections.map(({ position, reason, readings }) => `${position}: ${reason} ${readings}`);
const blankRows = (log: Recording, position: Position = "cabinet") =>
  [...(cleanRecording(log).recording.columns[position] ?? [])].flatMap((value, row) =>
    Number.isNaN(value) ? [row] : [],
  );
const kindsOf = (log: Recording) => cleanRecording(log).events.map((event) => event.kind);

describe("bad readings", () => {
  test("a clean log comes back as it is, with nothing rejected and nothing said", () => {
    const log = logOf({ columns: { cabinet: steady, ambient: () => 25 }, source: () => "mains" });
    const cleaned = cleanRecording(log);
    expect(cleaned.rejections).toEqual([]);
    expect(cleaned.events).toEqual([]);
    expect(cleaned.recording).toEqual(log);
  });

  for (const [value, reason] of [
    [85, "power-on-value"],
    [85.0625, "power-on-value"],
    [-127, "disconnected-value"],
    [-126.9375, "disconnected-value"],
    [-196.6, "out-of-range"],
    [71, "out-of-range"],
    [Number.POSITIVE_INFINITY, "out-of-range"],
    [1e300, "out-of-range"],
  ] as const) {
    test(`a cabinet reading of ${value} °C is blanked and counted as ${reason}`, () => {
      const log = logOf({ columns: { cabinet: withBad({ 10: value, 30: value }) } });
      expect(rejected(log)).toEqual([`cabinet: ${reason} 2`]);
      expect(blankRows(log)).toEqual([10, 30]);
    });
  }

  test("the log that was given is left alone", () => {
    const log = logOf({ columns: { cabinet: withBad({ 10: 85 }) } });
    cleanRecording(log);
    expect(log.columns.cabinet?.[10]).toBe(85);
  });

  test("a boiler that warms through 85 °C keeps that reading", () => {
    const log = logOf({ columns: { boiler: (row) => 65 + 2 * row } });
    expect(log.columns.boiler?.[10]).toBe(85);
    expect(rejected(log)).toEqual([]);
  });

  test("a boiler that stands at exactly 85 °C keeps its readings", () => {
    expect(rejected(logOf({ columns: { boiler: (row) => Math.min(85, 65 + 2 * row) } }))).toEqual([]);
  });

  test("a boiler at 25 °C that reads 85.0 for three rows met the power-on value", () => {
    const boiler = (row: number) => (row >= 20 && row < 23 ? 85 : 25);
    expect(rejected(logOf({ columns: { boiler } }))).toEqual(["boiler: power-on-value 3"]);
  });

  test("a boiler log that begins with 85.0 and goes on at 25 °C met the power-on value", () => {
    const boiler = (row: number) => (row === 0 ? 85 : 25);
    expect(rejected(logOf({ columns: { boiler } }))).toEqual(["boiler: power-on-value 1"]);
  });

  test("a single reading 4 K off between steady neighbours is a spike, up or down", () => {
    const log = logOf({ columns: { cabinet: withBad({ 10: steady(10) + 4, 40: steady(40) - 4 }) } });
    expect(rejected(log)).toEqual(["cabinet: spike 2"]);
  });

  test("a door opening is no spike: the reading after its peak has not recovered", () => {
    const door = (row: number) => steady(row) + (row < 20 ? 0 : 6 * Math.exp(-(row - 20) / 1.5));
    expect(rejected(logOf({ columns: { cabinet: door } }))).toEqual([]);
  });

  test("with a reading every 5 min a lone high one may be a door and is kept", () => {
    const log = logOf({ stepMs: 5 * minute, columns: { cabinet: withBad({ 10: steady(10) + 4 }) } });
    expect(rejected(log)).toEqual([]);
  });

  test("readings that leave and come back faster than a probe can follow are too fast", () => {
    const cabinet = (row: number) => steady(row) + (row >= 100 && row < 103 ? 9 : 0);
    const log = logOf({ rows: 300, stepMs: 1000, columns: { cabinet } });
    expect(rejected(log)).toEqual(["cabinet: too-fast 3"]);
  });

  test("readings that leave and stay away are kept: the probe was moved", () => {
    const cabinet = (row: number) => steady(row) + (row >= 100 ? 9 : 0);
    expect(rejected(logOf({ rows: 300, stepMs: 1000, columns: { cabinet } }))).toEqual([]);
  });

  test("volts may jump, and are no temperature", () => {
    const supply = (row: number) => (row < 30 ? 12.4 : row === 40 ? 85 : 230);
    expect(rejected(logOf({ columns: { supply } }))).toEqual([]);
    expect(rejected(logOf({ columns: { supply: (row) => (row === 5 ? -127 : 12) } }))).toEqual([
      "supply: out-of-range 1",
    ]);
  });

  test("every bad reading is kept with its instant and what it said", () => {
    const log = logOf({
      columns: { cabinet: (row) => (row === 7 ? 85 : row === 30 || row === 31 ? -127 : steady(row)) },
    });
    const { rejections } = cleanRecording(log);
    expect(rejections.map(({ reason, unixMs, values }) => [reason, [...unixMs], [...values]])).toEqual([
      ["power-on-value", [log.unixMs[7]], [85]],
      ["disconnected-value", [log.unixMs[30], log.unixMs[31]], [-127, -127]],
    ]);
  });

  test("what the file reader could not read is counted among the rejected", () => {
    const log = logOf({ columns: { cabinet: steady } });
    const unreadable = [
      { position: "cabinet", reason: "not-a-number", readings: 3, firstLine: 9, firstText: "err" },
    ] as const;
    expect(rejected({ ...log, unreadable })).toEqual(["cabinet: not-a-number 3"]);
  });
});

describe("stuck probes", () => {
  const evaporator = (row: number) => 20 - row / 10;

  test("a cabinet probe that stands still while the evaporator falls by kelvins is stuck", () => {
    const cabinet = (row: number) => (row >= 60 && row < 180 ? 17.5 : steady(3 * row));
    const log = logOf({ rows: 240, columns: { cabinet, evaporator } });
    expect(rejected(log)).toEqual(["cabinet: stuck 120"]);
    const fault = cleanRecording(log).events.find((event) => event.kind === "probe-fault");
    expect(fault).toMatchObject({ position: "cabinet", reason: { code: "probe-stuck", celsius: 17.5, minutes: 120 } });
  });

  test("a settled cabinet read in steps of 0.5 K is not stuck, however long it stands", () => {
    const cabinet = (row: number) => (row < 30 ? 8 - Math.floor(row / 10) / 2 : 6.5);
    const log = logOf({ rows: 1000, columns: { cabinet, evaporator: (row) => -5 + (row % 40) / 20 } });
    expect(rejected(log)).toEqual([]);
  });

  test("a steady room is not stuck while the fridge pulls down", () => {
    const ambient = (row: number) => (row < 20 ? 22.5 : 23);
    expect(rejected(logOf({ rows: 600, columns: { ambient, evaporator, cabinet: steady } }))).toEqual([]);
  });

  test("a finely read ambient probe that stands still for hours, as never before, is stuck", () => {
    const noise = seededNoise(1);
    const ambient = (row: number) => (row >= 300 ? 22.0625 : Math.round((22 + 0.2 * noise()) * 16) / 16);
    const log = logOf({ rows: 600, columns: { ambient, evaporator: (row) => 20 - row / 50 } });
    expect(rejected(log)).toEqual(["ambient: stuck 300"]);
  });

  test("melting frost holds the fins at 0 °C: not stuck", () => {
    const fins = (row: number) => (row >= 60 && row < 180 ? 0 : row < 60 ? -6 + row / 10 : (row - 180) / 20);
    expect(rejected(logOf({ rows: 240, columns: { evaporator: fins, cabinet: (row) => 4 + row / 20 } }))).toEqual([]);
  });
});

describe("the clock", () => {
  const cabinet = (row: number) => steady(row);
  const log = logOf({ rows: 100, columns: { cabinet }, source: (row) => (row < 50 ? "mains" : "gas") });
  const range = (from: number, to: number) => Array.from({ length: to - from }, (_, i) => from + i);

  test("a log written newest first is put in order, every late row counted", () => {
    const cleaned = cleanRecording(withRows(log, range(0, 100).reverse()));
    expect(cleaned.recording).toEqual(log);
    expect(cleaned.rejections).toMatchObject([
      { log: "test.csv", position: "time", reason: "out-of-order", readings: 99, unixMs: { length: 0 } },
    ]);
  });

  test("a log given twice in one file is the log once, the copies counted", () => {
    const cleaned = cleanRecording(withRows(log, [...range(0, 100), ...range(0, 100)]));
    expect(cleaned.recording).toEqual(log);
    expect(cleaned.rejections).toMatchObject([
      { log: "test.csv", position: "time", reason: "duplicate-instant", readings: 100, unixMs: log.unixMs },
    ]);
    expect(cleaned.events).toEqual([]);
  });

  test("of two readings for one instant the first stands", () => {
    const twice = withRows(log, [...range(0, 11), 10, ...range(11, 100)]);
    (twice.columns.cabinet as Float64Array)[11] = 3;
    const cleaned = cleanRecording(twice);
    expect(cleaned.recording.columns.cabinet?.[10]).toBe(steady(10));
    expect(rejected(twice)).toEqual(["time: duplicate-instant 1"]);
  });

  test("a log with one row per probe and instant becomes one row per instant, nothing rejected", () => {
    const rows = range(0, 200);
    const spread = logOf({
      unixMs: rows.map((row) => startMs + Math.floor(row / 2) * minute),
      columns: {
        cabinet: (row) => (row % 2 === 0 ? steady(row) : Number.NaN),
        ambient: (row) => (row % 2 === 1 ? 25 : Number.NaN),
      },
    });
    const cleaned = cleanRecording(spread);
    expect(cleaned.recording.unixMs).toHaveLength(100);
    expect(cleaned.rejections).toEqual([]);
    expect(blankRows(spread, "cabinet")).toEqual([]);
    expect(blankRows(spread, "ambient")).toEqual([]);
  });

  test("what a clock set back by an hour writes over logged time is set aside and said, not mixed in", () => {
    const instants = range(0, 200).map(
      (row) => startMs + (row < 120 ? row : row - 60) * minute + (row < 120 ? 0 : 7000),
    );
    const jumped = logOf({ unixMs: instants, columns: { cabinet } });
    const cleaned = cleanRecording(jumped);
    expect(rejected(jumped)).toEqual(["time: clock-jump 59"]);
    expect(cleaned.recording.unixMs).toHaveLength(141);
    expect(cleaned.recording.columns.cabinet?.[119]).toBe(steady(119));
    expect(cleaned.events).toMatchObject([{ kind: "clock-jump", reason: { code: "clock-jumped" } }]);
    expect((cleaned.events[0].size ?? 0) * 60).toBeCloseTo(-60 + 7 / 60, 6);
  });

  test("a clock set back onto the very same instants is a clock jump, not a row of duplicates", () => {
    const instants = range(0, 200).map((row) => startMs + (row < 120 ? row : row - 60) * minute);
    const jumped = logOf({ unixMs: instants, columns: { cabinet } });
    expect(rejected(jumped)).toEqual(["time: clock-jump 60"]);
    expect(kindsOf(jumped)).toEqual(["clock-jump"]);
  });

  test("the few rows before a clock was set, decades earlier, are set aside and said", () => {
    const instants = range(0, 100).map((row) => (row < 5 ? row * minute : startMs + row * minute));
    const jumped = logOf({ unixMs: instants, columns: { cabinet } });
    expect(rejected(jumped)).toEqual(["time: clock-jump 5"]);
    expect(kindsOf(jumped)).toEqual(["clock-jump"]);
  });

  test("a clock that falls back to 1970 in the middle keeps the longer part, whichever comes first", () => {
    const instants = range(0, 100).map((row) => (row < 70 ? startMs + row * minute : row * minute));
    expect(rejected(logOf({ unixMs: instants, columns: { cabinet } }))).toContain("time: clock-jump 30");
  });

  test("a logger that never had a clock is read as it is", () => {
    expect(rejected(logOf({ unixMs: range(0, 100).map((row) => row * minute), columns: { cabinet } }))).toEqual([]);
  });

  test("rows without an instant are left out and counted", () => {
    const instants = range(0, 60).map((row) => (row === 7 ? Number.NaN : row === 9 ? 1e300 : startMs + row * minute));
    expect(rejected(logOf({ unixMs: instants, columns: { cabinet } }))).toContain("time: unreadable-time 2");
  });
});

describe("gaps and silent probes", () => {
  const pause = (minutes: number, stepMs: number) => (row: number) => row * stepMs + (row < 50 ? 0 : minutes * minute);
  const paused = (minutes: number, stepMs: number) =>
    logOf({
      unixMs: Array.from({ length: 100 }, (_, row) => startMs + pause(minutes, stepMs)(row)),
      columns: { cabinet: steady },
    });

  test("a pause of 12 min in a log of every 10 s is a gap, one of 9 min is none", () => {
    expect(kindsOf(paused(12, 10_000))).toEqual(["gap"]);
    expect(kindsOf(paused(9, 10_000))).toEqual([]);
  });

  test("in a log of every 5 min a gap begins beyond 50 min", () => {
    expect(kindsOf(paused(40, 5 * minute))).toEqual([]);
    expect(kindsOf(paused(50, 5 * minute))).toEqual(["gap"]);
  });

  test("a gap says from when to when, and for how long", () => {
    const [gap] = cleanRecording(paused(59, minute)).events;
    expect(gap).toMatchObject({
      startMs: startMs + 49 * minute,
      endMs: startMs + 109 * minute,
      size: 1,
      sizeUnit: "h",
      reason: { code: "no-rows", minutes: 60 },
    });
  });

  test("a place where somebody read a thermometer now and then is no probe that fell silent", () => {
    const read = (rows: readonly number[]) => (row: number) => (rows.includes(row) ? -9 : Number.NaN);
    const withFreezer = (rows: readonly number[]) => logOf({ columns: { cabinet: steady, freezer: read(rows) } });
    expect(kindsOf(withFreezer([40]))).toEqual([]);
    expect(kindsOf(withFreezer([2, 12, 20, 40]))).toEqual([]);
    // A probe that gives reading after reading and then none any more is one.
    expect(kindsOf(withFreezer([0, 1, 2, 3]))).toEqual(["probe-fault"]);
  });

  test("a probe that is blank for 6 min is a probe fault, for 3 min it is not", () => {
    const blank = (rows: number) => (row: number) => (row >= 20 && row < 20 + rows ? Number.NaN : steady(row));
    expect(kindsOf(logOf({ columns: { cabinet: blank(3) } }))).toEqual([]);
    const fault = cleanRecording(logOf({ columns: { cabinet: blank(6), ambient: () => 25 } })).events;
    expect(fault).toMatchObject([
      { kind: "probe-fault", position: "cabinet", reason: { code: "probe-silent", minutes: 6 } },
    ]);
  });

  test("a probe that reads -127 for 10 min is a probe fault that names the value", () => {
    const cabinet = (row: number) => (row >= 20 && row < 30 ? -127 : steady(row));
    expect(cleanRecording(logOf({ columns: { cabinet } })).events).toMatchObject([
      { kind: "probe-fault", reason: { code: "probe-unbelievable", celsius: -127, minutes: 10 } },
    ]);
  });

  test("a probe read every 10 min in a log of every minute is at no fault between its readings", () => {
    const ambient = (row: number) => (row % 10 === 0 ? 25 : Number.NaN);
    expect(kindsOf(logOf({ rows: 200, columns: { cabinet: steady, ambient } }))).toEqual([]);
  });

  test("a column that never holds a reading is one silent probe", () => {
    const log = logOf({ columns: { cabinet: steady, ambient: () => Number.NaN } });
    expect(cleanRecording(log).events).toMatchObject([{ kind: "probe-fault", position: "ambient" }]);
  });
});

describe("whatever the log", () => {
  const odd = fc.oneof(
    fc.double(),
    fc.constantFrom(85, -127, Number.NaN, 0, 20, Number.POSITIVE_INFINITY, -0),
    fc.double({ min: -40, max: 40, noNaN: true }),
  );
  const oddLog = fc
    .array(
      fc.record({
        at: fc.oneof(
          fc.double(),
          fc.integer({ min: 0, max: 5000 }).map((step) => startMs + step * 20_000),
        ),
        values: fc.tuple(odd, odd, odd, odd),
        code: fc.integer({ min: 0, max: 255 }),
      }),
      { maxLength: 60 },
    )
    .map((rows) => ({
      ...logOf({
        unixMs: rows.map((row) => row.at),
        columns: {
          evaporator: (i) => rows[i].values[0],
          cabinet: (i) => rows[i].values[1],
          boiler: (i) => rows[i].values[2],
          supply: (i) => rows[i].values[3],
        },
      }),
      sourceCodes: Uint8Array.from(rows, (row) => row.code),
    }));

  property.prop([oddLog])("cleaning never throws, and its rows ascend strictly in time", (log) => {
    const { recording } = cleanRecording(log);
    const { unixMs, columns, sourceCodes } = recording;
    for (let i = 1; i < unixMs.length; i++) expect(unixMs[i]).toBeGreaterThan(unixMs[i - 1]);
    for (const position of positions) if (columns[position]) expect(columns[position]).toHaveLength(unixMs.length);
    expect(sourceCodes).toHaveLength(unixMs.length);
  });

  property.prop([oddLog])("no reading is invented: each that remains stood in the log at that instant", (log) => {
    const { recording } = cleanRecording(log);
    for (const position of ["evaporator", "cabinet", "boiler", "supply"] as const) {
      const given = log.columns[position] ?? new Float64Array(0);
      const stood = new Set(Array.from(given, (value, row) => `${log.unixMs[row]} ${value}`));
      recording.columns[position]?.forEach((value, row) => {
        if (!Number.isNaN(value)) expect(stood).toContain(`${recording.unixMs[row]} ${value}`);
      });
    }
  });

  property.prop([oddLog])("cleaning what is clean finds nothing more to say about time", (log) => {
    const once = cleanRecording(log).recording;
    const twice = cleanRecording(once);
    expect(twice.recording.unixMs).toEqual(once.unixMs);
    expect(twice.rejections.filter((one) => one.position === "time")).toEqual([]);
  });

  const noise = seededNoise(3);
  const usual = logOf({
    rows: 300,
    columns: { cabinet: (row) => 20 - row / 40 + 0.2 * noise(), ambient: (row) => 25 + (row % 7) / 16 },
    source: (row) => (row < 150 ? "mains" : "off"),
  });
  const order = fc.shuffledSubarray(
    Array.from({ length: 300 }, (_, row) => row),
    { minLength: 300 },
  );

  property.prop([order])("the order of the rows in the file does not matter", (rows) => {
    expect(cleanRecording(withRows(usual, rows)).recording).toEqual(cleanRecording(usual).recording);
  });

  property.prop([order, fc.array(fc.nat(299), { minLength: 1, maxLength: 50 })])(
    "rows that stand twice change nothing but the count",
    (rows, again) => {
      const cleaned = cleanRecording(withRows(usual, [...rows, ...again]));
      expect(cleaned.recording).toEqual(cleanRecording(usual).recording);
      expect(cleaned.rejections).toContainEqual(
        expect.objectContaining({ reason: "duplicate-instant", readings: again.length }),
      );
    },
  );

  test("a log without rows is a log without rows", () => {
    expect(cleanRecording(logOf({ rows: 0, columns: { cabinet: steady } })).recording.unixMs).toHaveLength(0);
  });

  test("cleaning takes four times as long for four times as many rows, not sixteen", () => {
    const noisy = (rows: number) => {
      const random = seededNoise(5);
      return logOf({
        rows,
        stepMs: 1000,
        columns: { cabinet: () => 5 + random(), evaporator: () => -5 + random(), ambient: () => 25 + random() },
      });
    };
    const [few, many] = [noisy(100_000), noisy(400_000)];
    const milliseconds = (log: Recording) => {
      const times = [1, 2, 3].map(() => {
        const before = performance.now();
        cleanRecording(log);
        return performance.now() - before;
      });
      return Math.min(...times);
    };
    cleanRecording(few);
    expect(milliseconds(many) / milliseconds(few)).toBeLessThan(10);
  });
});

test("a supply that is blank on gas and off, where there are no volts, is no probe fault", () => {
  const { recording } = simulated(9, { includeSupply: true });
  expect(cleanRecording(recording).events.filter((event) => event.position === "supply")).toEqual([]);
  expect(recording.columns.supply?.some(Number.isNaN)).toBe(true);
});
