import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { msPerHour } from "../../../src/schema/index.ts";
import type { RunEvent } from "../../../src/science/findings.ts";
import { cleanRecording } from "../../../src/science/readings/cleaning.ts";
import { findEvents, pullDownEnd } from "../../../src/science/readings/events/find-events.ts";
import { findStretches } from "../../../src/science/readings/stretches.ts";
import { workingSeries } from "../../../src/science/readings/working-series.ts";
import { knownGoodFridge, type SimulationPlan, simulateRun } from "../../../src/simulate/index.ts";
import { minute, seededNoise, seriesOf, startMs } from "../logs.ts";

const plan: SimulationPlan = {
  name: "night.csv",
  seed: 4,
  startUnixMs: startMs,
  fridge: knownGoodFridge(),
  schedule: [
    { source: "off", hours: 0.75 },
    { source: "mains", hours: 9 },
    { source: "off", hours: 3 },
  ],
  ambient: { meanCelsius: 24, swingKelvin: 4, wanderKelvin: 0.2 },
  samplingSeconds: 30,
};

function found(change: Partial<SimulationPlan> = {}, without: readonly string[] = []) {
  const { recording } = simulateRun({ ...plan, ...change });
  const columns = Object.fromEntries(Object.entries(recording.columns).filter(([name]) => !without.includes(name)));
  const series = workingSeries(cleanRecording({ ...recording, columns }).recording);
  const stretches = findStretches(series, []);
  const events = findEvents(series, stretches);
  const endHours = stretches
    .filter((stretch) => stretch.heated)
    .map((stretch) => (series.unixMs[pullDownEnd(stretch, events, series) - 1] - startMs) / msPerHour);
  return { series, stretches, events, endHours };
}

const hoursOf = (event: RunEvent) => (event.startMs - startMs) / msPerHour;
const kinds = (events: readonly RunEvent[]) => events.map((event) => event.kind);
const gas = [{ source: "gas", hours: 10 }] as const;

describe("a run in which nothing happens", () => {
  test("holds no event, and its pull-down lasts to the switch-off", () => {
    const { events, endHours } = found();
    expect(events).toEqual([]);
    expect(endHours[0]).toBeCloseTo(9.75, 1);
  });

  test("switching from mains to gas and back in a cold cabinet is no event", () => {
    const schedule = [{ source: "mains", hours: 6 }, ...gas, { source: "mains", hours: 3 }] as const;
    expect(found({ schedule }).events).toEqual([]);
  });

  test("a day's own swing of 14 K is no sun on the probe", () => {
    expect(found({ ambient: { meanCelsius: 24, swingKelvin: 14, wanderKelvin: 0.4 } }).events).toEqual([]);
  });
});

describe("door openings", () => {
  test("each is found at its minute with its rise, on and off, also several in a row", () => {
    const atHours = [3, 5, 5.2, 5.4, 8, 11];
    const { events } = found({ doors: atHours.map((at) => ({ atHours: at, seconds: 40 })) });
    expect(kinds(events)).toEqual(atHours.map(() => "door-opening"));
    for (const [i, event] of events.entries()) {
      expect(Math.abs(hoursOf(event) - atHours[i])).toBeLessThan(3 / 60);
      expect(event).toMatchObject({ position: "cabinet", sizeUnit: "K", reason: { code: "door-opened" } });
      expect(event.size).toBeGreaterThan(1);
      expect(event.size).toBeLessThan(8);
    }
  });

  test("an opening of a few seconds that lifts the air by less than a kelvin is not reported", () => {
    expect(found({ doors: [{ atHours: 4, seconds: 10 }] }).events).toEqual([]);
  });

  test("a door left open for ten minutes is one opening", () => {
    const { events } = found({ doors: [{ atHours: 6, seconds: 600 }] });
    expect(kinds(events)).toEqual(["door-opening"]);
    expect(events[0].size).toBeGreaterThan(5);
  });

  test("a cabinet probe that is moved to a warmer place and stays is no door", () => {
    const noise = seededNoise(2);
    const cabinet = (row: number) => 6 + 0.05 * noise() + (row < 200 ? 0 : 4);
    const series = seriesOf({ rows: 400, columns: { cabinet, ambient: () => 25, evaporator: () => -3 } });
    expect(findEvents(series, [])).toMatchObject([{ kind: "probe-moved", position: "cabinet" }]);
  });
});

describe("the thermostat", () => {
  const cycling = (source: "mains" | "gas", change: Partial<SimulationPlan> = {}) =>
    found({
      schedule: [
        { source: "off", hours: 0.5 },
        { source, hours: 14 },
      ],
      thermostatSetCelsius: 5,
      ...change,
    });

  for (const source of ["mains", "gas"] as const) {
    test(`on ${source}, cycling is one event to the end, with duty and period, and ends the pull-down`, () => {
      const { series, events, endHours } = cycling(source);
      expect(kinds(events)).toEqual(["cycling"]);
      const [{ startMs: from, endMs, size, sizeUnit, reason }] = events;
      const firstCold = series.columns.cabinet?.findIndex((celsius) => celsius < 4.2) ?? 0;
      expect(Math.abs(from - series.unixMs[firstCold])).toBeLessThan(20 * minute);
      expect(endMs).toBe(series.unixMs[series.unixMs.length - 1]);
      expect(sizeUnit).toBe("1");
      expect(reason).toMatchObject({ code: "thermostat-cycles", duty: size, cycles: expect.any(Number) });
      expect(endHours[0]).toBeCloseTo((from - startMs) / msPerHour, 1);
    });
  }

  // The simulator's heater is on or off: its share, read from the boiler probe's rising and falling, is the duty.
  test("the duty is within a tenth of the share of time in which the boiler was heated", () => {
    const { series, events } = cycling("mains", {
      probes: { boiler: { noiseKelvin: 0, stepKelvin: 0, lagSeconds: 0 } },
    });
    const boiler = series.columns.boiler ?? new Float64Array(0);
    let on = 0;
    let rows = 0;
    for (let i = 1; i < boiler.length; i++) {
      if (series.unixMs[i] < events[0].startMs) continue;
      rows++;
      // At full heat the boiler rises, or stands where it boils hardest; without heat it falls.
      if (boiler[i] - boiler[i - 1] > -0.02) on++;
    }
    expect(Math.abs((events[0].size ?? Number.NaN) - on / rows)).toBeLessThan(0.1);
  });

  for (const probe of ["evaporator", "cabinet"] as const) {
    test(`cycling is also found without the ${probe} probe`, () => {
      const { recording } = simulateRun({
        ...plan,
        schedule: [{ source: "mains", hours: 14 }],
        thermostatSetCelsius: 5,
      });
      const { [probe]: _, ...columns } = recording.columns;
      const series = workingSeries({ ...recording, columns });
      expect(kinds(findEvents(series, findStretches(series, [])))).toEqual(["cycling"]);
    });
  }

  test("a first pause that has only begun is no event yet, but no pull-down either", () => {
    const whole = cycling("mains").events[0];
    const hours = (whole.startMs - startMs) / msPerHour + 0.5;
    const { events, endHours } = cycling("mains", {
      schedule: [
        { source: "off", hours: 0.5 },
        { source: "mains", hours: hours - 0.5 },
      ],
    });
    expect(events).toEqual([]);
    expect(endHours[0]).toBeLessThan(hours - 0.4);
  });
});

describe("cooling that stops", () => {
  test("a flame that goes out for good is found from the first hour on, told as gas, and ends the pull-down", () => {
    const schedule = [
      { source: "off", hours: 0.5 },
      { source: "gas", hours: 5.5 },
    ] as const;
    const { events, endHours } = found({ schedule, outages: [{ atHours: 5, hours: 9 }] });
    expect(kinds(events)).toEqual(["cooling-stopped"]);
    expect(events[0].reason).toMatchObject({ code: "cooling-stopped", source: "gas" });
    expect(Math.abs(hoursOf(events[0]) - 5)).toBeLessThan(0.4);
    expect(events[0].endMs).toBe(startMs + 6 * msPerHour);
    expect(endHours[0]).toBeLessThan(5.4);
  });

  test("a stop that ends tells until when; the cabinet then goes on falling", () => {
    const { events } = found({ outages: [{ atHours: 4, hours: 1 }] });
    expect(kinds(events)).toEqual(["cooling-stopped"]);
    expect((events[0].endMs - startMs) / msPerHour).toBeGreaterThan(5);
    expect((events[0].endMs - startMs) / msPerHour).toBeLessThan(5.6);
    const { reason } = events[0];
    if (reason.code !== "cooling-stopped") throw new Error(`told as ${reason.code}`);
    expect(reason.finDifferenceAfter).toBeLessThan(0.5 * reason.finDifferenceBefore);
  });

  describe("with a thermostat, on gas", () => {
    const steady = { meanCelsius: 24, swingKelvin: 0, wanderKelvin: 0.2 };
    const held = (hours: number, change: Partial<SimulationPlan> = {}) => {
      const schedule = [
        { source: "off", hours: 0.75 },
        { source: "gas", hours: hours - 0.75 },
      ] as const;
      return found({ schedule, samplingSeconds: 60, ambient: steady, thermostatSetCelsius: 7, ...change }).events.map(
        ({ reason }) => reason,
      );
    };
    const boiler = { probes: { boiler: {} } } as const;
    const outages = [{ atHours: 5.05, hours: 9 }];

    test("a first hold looks like a dead flame, and the stop says so", () => {
      expect(held(6.05)).toMatchObject([{ code: "cooling-stopped", doubt: "first-hold" }]);
      expect(held(6.05, { outages })).toMatchObject([{ code: "cooling-stopped", doubt: "first-hold" }]);
    });

    test("a boiler probe shows that the small flame burns, and a dead one is told no later", () => {
      for (const hours of [5.95, 6.05, 6.15]) {
        expect(held(hours, boiler)).toEqual([]);
        expect(held(hours, { ...boiler, outages })).toMatchObject([{ code: "cooling-stopped", doubt: "first-hold" }]);
      }
    });

    test("a boiler probe that is stuck, silent or not hot hushes nothing", () => {
      const spoilt = (as: "stuck" | "missing") => [{ position: "boiler" as const, atHours: 5, hours: 9, as }];
      expect(held(6.05, { ...boiler, outages, spoilt: spoilt("stuck") })).toHaveLength(1);
      expect(held(6.05, { ...boiler, outages, spoilt: spoilt("missing") })).toHaveLength(1);
      expect(held(6.05, { probes: { boiler: { offsetKelvin: -90 } } })).toHaveLength(1);
    });

    test("cold that stays away though the boiler stays hot is told once no thermostat holds for so long, as no dead flame", () => {
      const small = { ...boiler, thermostatSmallFlame: 0.25, thermostatHalfBandKelvin: 8 };
      const codes = (hours: number) => held(hours, { ...small, thermostatSetCelsius: 14.2 });
      expect(codes(6.6)).toEqual([]);
      expect(codes(7.6)).toMatchObject([{ code: "cooling-stopped", doubt: "heat-goes-on" }]);
    });

    test("a flame that died for two hours and was lit again is heat that came back, before any cold does", () => {
      const lost = { ...boiler, thermostatSetCelsius: -20, outages: [{ atHours: 5.05, hours: 2 }] };
      expect(held(7.3, lost)).toMatchObject([{ code: "cooling-stopped", doubt: "heat-came-back" }]);
    });

    test("after holds a flame that died is told once the cabinet is warmer than they let it be, and is no first hold", () => {
      for (const [diedHours, minutes] of [
        [6.9, 68],
        [8.5, 74],
        [9.2, 50],
      ]) {
        const told = held(diedHours + minutes / 60, { outages: [{ atHours: diedHours, hours: 20 }] });
        expect(told.filter(({ code }) => code === "cooling-stopped")).toMatchObject([{ doubt: null }]);
      }
    });
  });

  test("warming back after the switch-off is no stop", () => {
    expect(
      found({
        schedule: [
          { source: "mains", hours: 6 },
          { source: "off", hours: 6 },
        ],
      }).events,
    ).toEqual([]);
  });

  test("a source that never cooled has not stopped", () => {
    expect(found({ faults: [{ name: "mains-element", size: 0.97 }] }).events).toEqual([]);
  });
});

describe("probes", () => {
  test("an evaporator probe that falls into the cabinet air is moved, not a flame gone out", () => {
    const { events, endHours } = found({ probes: { evaporator: { fallsAtHours: 6 } } });
    expect(events).toMatchObject([{ kind: "probe-moved", position: "evaporator", sizeUnit: "K" }]);
    expect(Math.abs(hoursOf(events[0]) - 6)).toBeLessThan(0.15);
    expect(events[0].size).toBeGreaterThan(5);
    // The cabinet tells the pull-down; that probe did not move.
    expect(endHours[0]).toBeCloseTo(9.75, 1);
  });

  test("sun on the ambient probe is found with its size and its hours", () => {
    const { events } = found({ sun: [{ atHours: 4, hours: 1.5, kelvin: 6 }] });
    expect(events).toMatchObject([{ kind: "sun-on-probe", position: "ambient", reason: { code: "sun-on-ambient" } }]);
    expect(Math.abs(hoursOf(events[0]) - 4)).toBeLessThan(0.4);
    expect(events[0].size).toBeGreaterThan(5);
    expect(events[0].size).toBeLessThan(7.5);
  });

  test("a room that warms by as much is no sun on the probe", () => {
    const warmed = (row: number) => 20 + (row >= 100 && row < 200 ? 6 : 0);
    const series = seriesOf({ rows: 400, columns: { ambient: warmed, room: warmed, cabinet: () => 5 } });
    expect(findEvents(series, [])).toEqual([]);
  });
});

describe("whatever the series", () => {
  const reading = fc.oneof(fc.double({ min: -30, max: 60, noNaN: true }), fc.constantFrom(Number.NaN, 20, 20, 20, 5));
  const anySeries = fc
    .array(
      fc.record({
        step: fc.constantFrom(1000, minute, minute, 5 * minute, 3_600_000),
        values: fc.tuple(reading, reading, reading, reading),
        code: fc.constantFrom(0, 1, 2, 3, 4),
      }),
      { maxLength: 150 },
    )
    .map((rows) => {
      let at = startMs;
      const unixMs = rows.map((row) => {
        at += row.step;
        return at;
      });
      const columns = {
        evaporator: (i: number) => rows[i].values[0],
        cabinet: (i: number) => rows[i].values[1],
        ambient: (i: number) => rows[i].values[2],
        room: (i: number) => rows[i].values[3],
      };
      return { ...seriesOf({ unixMs, columns }), sourceCodes: Uint8Array.from(rows, (row) => row.code) };
    });

  property.prop([anySeries])(
    "events come in order, within the run, with finite numbers; the pull-down ends in its stretch",
    (series) => {
      const stretches = findStretches(series, []);
      const events = findEvents(series, stretches);
      const [first, last] = [series.unixMs[0], series.unixMs[series.unixMs.length - 1]];
      let before = Number.NEGATIVE_INFINITY;
      for (const event of events) {
        expect(event.startMs).toBeGreaterThanOrEqual(Math.max(before, first));
        expect(event.endMs).toBeGreaterThanOrEqual(event.startMs);
        expect(event.endMs).toBeLessThanOrEqual(last);
        const numbers = [event.size, ...Object.values(event.reason)].filter((value) => typeof value === "number");
        for (const value of numbers) expect(value).toSatisfy(Number.isFinite);
        before = event.startMs;
      }
      for (const stretch of stretches) {
        const end = pullDownEnd(stretch, events, series);
        expect(end).toBeGreaterThanOrEqual(stretch.from);
        expect(end).toBeLessThanOrEqual(stretch.to);
      }
    },
  );

  for (const [what, column] of [
    ["all missing", () => Number.NaN],
    ["constant", () => 20],
  ] as const) {
    test(`columns that are ${what} hold no event`, () => {
      const series = seriesOf({ rows: 300, columns: { cabinet: column, evaporator: column, ambient: column } });
      expect(findEvents(series, findStretches(series, []))).toEqual([]);
    });
  }

  const eventful = simulateRun({
    ...plan,
    doors: [{ atHours: 4, seconds: 40 }],
    outages: [{ atHours: 5, hours: 1 }],
    sun: [{ atHours: 3, hours: 1, kelvin: 6 }],
  }).recording;
  const eventsOf = (days: number) => {
    const moved = { ...eventful, unixMs: eventful.unixMs.map((ms) => ms + days * 86_400_000) };
    const series = workingSeries(cleanRecording(moved).recording);
    return findEvents(series, findStretches(series, []));
  };

  property.prop([fc.integer({ min: -5000, max: 5000 })], { numRuns: 10 })(
    "whole days added to all times change nothing else",
    (days) => {
      const shift = days * 86_400_000;
      const back = eventsOf(days).map((event) => ({
        ...event,
        startMs: event.startMs - shift,
        endMs: event.endMs - shift,
      }));
      expect(kinds(back).sort()).toEqual(["cooling-stopped", "door-opening", "sun-on-probe"]);
      expect(back).toEqual(eventsOf(0));
    },
  );
});
