import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { energySources } from "../../../src/schema/index.ts";
import { isKnown } from "../../../src/science/index.ts";
import { knownGoodFridge, settledCabinet, simulateRun } from "../../../src/simulate/index.ts";
import { numbersIn, simulated } from "../simulated-runs.ts";
import { forecastOf, hour, known, logs, type Part, predicted, seenAt, tripOf, tripStart } from "./hot-day-runs.ts";

describe("the settled cabinet at a chosen ambient", () => {
  for (const ambient of [20, 25, 32, 38]) {
    test(`at ${ambient} °C holds the simulator's truth on both sources`, () => {
      const { sources } = predicted({ ambient });
      expect(sources.map(({ source }) => source).toSorted()).toEqual(["gas", "mains"]);
      for (const { source, settled } of sources) {
        const truth = settledCabinet(knownGoodFridge(), [], source ?? "mains", ambient);
        expect(known(settled).low).toBeLessThan(truth);
        expect(known(settled).high).toBeGreaterThan(truth);
      }
    });
  }

  test("is within 3 K where the runs are near, and wider the further it is carried on", () => {
    const halfWidth = (ambient: number) => {
      const { low, high } = known(predicted({ ambient, source: "mains" }).sources[0].settled);
      return ((high ?? Number.NaN) - (low ?? Number.NaN)) / 2;
    };
    expect(halfWidth(32)).toBeLessThan(3);
    expect(halfWidth(38)).toBeGreaterThan(halfWidth(32));
    expect(halfWidth(43)).toBeGreaterThan(halfWidth(38));
  });

  test("is that of the newest stretch's source unless another is asked for", () => {
    expect(predicted({ ambient: 32 }).source).toBe("gas");
    expect(predicted({ ambient: 32, source: "mains" }).source).toBe("mains");
  });

  test("of a source that did not run cannot be said, and why", () => {
    const { sources, advice } = predicted({ ambient: 32, source: "dc12" });
    expect(sources[0]).toMatchObject({ source: "dc12", settled: { why: { code: "source-not-run", source: "dc12" } } });
    expect(advice.map((one) => one.advice)).toContain("record-the-source");
  });

  test("rests on no run below 15 °C, and says how many were left out", () => {
    const cold = predicted({ ambient: 32, source: "mains" }, seenAt([10]));
    expect(cold.sources[0].settled).toMatchObject({ why: { code: "ambient-too-low" } });
    const mixed = predicted({ ambient: 32, source: "mains" }, seenAt([10, 23]));
    expect(mixed.sources[0].points).toHaveLength(1);
    expect(mixed.sources[0].reasons).toContainEqual({ code: "cold-runs-left-out", runs: 1, below: 15 });
  });

  test("says that it is carried on when the runs were 3 K cooler or more", () => {
    const [near, far] = [30, 35].map((ambient) => predicted({ ambient, source: "mains" }).sources[0]);
    expect(near.isExtrapolated).toBe(false);
    expect(far.isExtrapolated).toBe(true);
    expect(far.reasons.map(({ code }) => code)).toContain("beyond-runs");
  });

  test("is as the dial stood where the thermostat cycled: never colder than it held", () => {
    const run = simulated(560, {
      thermostatSetCelsius: 5,
      schedule: [
        { source: "off", hours: 1 },
        { source: "mains", hours: 16 },
        { source: "off", hours: 3 },
      ],
    });
    const [cool, hot] = [22, 38].map((ambient) => known(predicted({ ambient }, [run.recording]).sources[0].settled));
    expect(cool.value).toBeGreaterThan(4);
    expect(cool.value).toBeLessThan(6);
    const truth = settledCabinet(knownGoodFridge(), [], "mains", 38);
    expect(hot.low).toBeLessThan(truth);
    expect(hot.high).toBeGreaterThan(truth);
  });

  test("does not depend on the order of the logs", () => {
    expect(predicted({ ambient: 32 }, logs.toReversed())).toEqual(predicted({ ambient: 32 }));
  });

  test("the warmest ambient that still holds 8 °C is where the settled cabinet reads 8 °C", () => {
    const { warmestAmbientFor8 } = predicted({ ambient: 32, source: "mains" }).sources[0];
    const there = known(predicted({ ambient: known(warmestAmbientFor8).value, source: "mains" }).sources[0].settled);
    expect(there.value).toBeGreaterThan(7.7);
    expect(there.value).toBeLessThanOrEqual(8);
    expect(settledCabinet(knownGoodFridge(), [], "mains", known(warmestAmbientFor8).low ?? Number.NaN)).toBeLessThan(8);
    expect(
      settledCabinet(knownGoodFridge(), [], "mains", known(warmestAmbientFor8).high ?? Number.NaN),
    ).toBeGreaterThan(8);
  });

  test("a climate class is held where its warmest ambient stays below 8 °C with the whole interval", () => {
    for (const { warmest, settled, holds8 } of predicted({ ambient: 32, source: "mains" }).sources[0].classes) {
      expect(settled).toEqual(known(predicted({ ambient: warmest, source: "mains" }).sources[0].settled));
      expect(holds8 === "yes").toBe((settled.high ?? Infinity) <= 8);
      expect(holds8 === "no").toBe((settled.low ?? -Infinity) > 8);
    }
  });
});

describe("a trip", () => {
  const schedule = [
    { source: "mains", hours: 6 },
    { source: "off", hours: 3 },
    { source: "gas", hours: 7 },
    { source: "off", hours: 2 },
    { source: "mains", hours: 12 },
  ] as const;

  test("follows a simulated one within its band", () => {
    const ambient = 29;
    const run = simulateRun({
      name: "trip.csv",
      seed: 4,
      startUnixMs: tripStart,
      fridge: knownGoodFridge(),
      before: [{ source: "mains", hours: 24 }],
      schedule,
      ambient: { meanCelsius: ambient },
      samplingSeconds: 60,
    });
    const { hours } = tripOf(
      predicted({
        forecast: forecastOf(...schedule.map(({ source, hours: length }) => [length, ambient, source] as const)),
      }),
    );
    expect(hours).toHaveLength(31);
    const inside = hours.filter(({ cabinet }, i) => {
      const truth = run.recording.columns.cabinet?.[i * 60] ?? Number.NaN;
      const { low, high } = known(cabinet);
      return (low ?? Infinity) <= truth && truth <= (high ?? -Infinity);
    });
    expect(inside.length).toBeGreaterThanOrEqual(29);
  });

  test("starts settled, or from the temperature told, or from a log that just ended", () => {
    const forecast = forecastOf([6, 25, "mains"]);
    const { start } = tripOf(predicted({ forecast }));
    expect(start.from).toBe("settled");
    expect(
      Math.abs(start.celsius - known(predicted({ ambient: 25, source: "mains" }).sources[0].settled).value),
    ).toBeLessThan(0.1);
    expect(tripOf(predicted({ forecast, begin: 9 })).start).toEqual({ celsius: 9, from: "stated" });
    const just = simulated(570);
    const end = just.recording.unixMs[just.recording.unixMs.length - 1];
    const rows = forecast.rows.map((row) => ({ ...row, unixMs: row.unixMs - tripStart + end + 0.5 * hour }));
    const fresh = tripOf(predicted({ forecast: { ...forecast, rows } }, [just.recording])).start;
    expect(fresh.from).toBe("last-reading");
    expect(fresh.celsius).toBeCloseTo(just.recording.columns.cabinet?.at(-1) ?? Number.NaN, 0);
    expect(tripOf(predicted({ forecast: forecastOf([6, 31, "off"]) })).start).toEqual({ celsius: 31, from: "ambient" });
  });

  test("says nothing from the hour on which a source comes that no run tells of, and everything before", () => {
    const trip = tripOf(predicted({ forecast: forecastOf([5, 25, "mains"], [3, 25, "dc12"], [5, 25, "mains"]) }));
    const said = trip.hours.map(({ cabinet }) => isKnown(cabinet));
    expect(said.slice(0, 6)).toEqual([true, true, true, true, true, true]);
    expect(said.slice(6)).toEqual(said.slice(6).map(() => false));
    expect(trip.hoursAbove8).toMatchObject({ why: { code: "source-not-run", source: "dc12" } });
    expect(trip.reasons).toContainEqual(expect.objectContaining({ code: "cannot-from", unixMs: tripStart + 5 * hour }));
  });

  test("warm goods start it warmer and slow it down; the more, the more", () => {
    const forecast = forecastOf([24, 25, "mains"]);
    const [none, some, much] = [undefined, 3, 9].map((kilograms) =>
      tripOf(predicted({ forecast, ...(kilograms ? { load: { kilograms, celsius: 25 } } : {}) })),
    );
    const at = (trip: typeof none, i: number) => known(trip.hours[i].cabinet).value;
    for (const i of [0, 3, 8]) {
      expect(at(some, i)).toBeGreaterThan(at(none, i) + 0.5);
      expect(at(much, i)).toBeGreaterThan(at(some, i) + 0.5);
    }
    expect(known(much.hoursUntil8).value).toBeGreaterThan(known(some.hoursUntil8).value);
    expect(much.crosses8).toBe("falling");
  });

  test("hours above 8 °C and the hours until then fit the curve", () => {
    const trip = tripOf(predicted({ forecast: forecastOf([4, 27, "mains"], [10, 27, "off"]) }));
    expect(trip.crosses8).toBe("rising");
    const until = known(trip.hoursUntil8);
    const above = known(trip.hoursAbove8);
    expect(until.value + above.value).toBeCloseTo(14, 1);
    const before = known(trip.hours[Math.floor(until.value)].cabinet).value;
    expect(before).toBeLessThanOrEqual(8);
    expect(known(trip.hours[Math.ceil(until.value)].cabinet).value).toBeGreaterThan(8);
  });

  test("another seed of the draws moves the band by less than it is read to", () => {
    const forecast = forecastOf([4, 27, "mains"], [5, 33, "off"], [8, 33, "gas"]);
    const [one, other] = [1, 2].map((seed) => tripOf(predicted({ forecast, seed })));
    one.hours.forEach(({ cabinet }, i) => {
      const [a, b] = [known(cabinet), known(other.hours[i].cabinet)];
      expect(a.value).toBe(b.value);
      for (const end of ["low", "high"] as const) expect(Math.abs((a[end] ?? 0) - (b[end] ?? 0))).toBeLessThan(1);
    });
  });

  test("marks the hours beyond what the runs saw, sun counted", () => {
    const { hours } = tripOf(
      predicted({
        forecast: forecastOf([3, 25, "mains"], [3, 30, "mains"], [3, 30, "mains", { sun: true }], [3, 35, "mains"]),
      }),
    );
    expect(hours.map(({ isExtrapolated }) => isExtrapolated).filter((_, i) => [1, 4, 7, 10].includes(i))).toEqual([
      false,
      false,
      true,
      true,
    ]);
  });
});

describe("what holds for every trip", () => {
  const part = fc.tuple(
    fc.double({ min: 0.3, max: 9, noNaN: true }),
    fc.double({ min: -5, max: 48, noNaN: true }),
    fc.constantFrom("gas", "mains", "off"),
    fc.record({ sun: fc.boolean(), driving: fc.boolean() }),
  );
  const trips = fc.array(part, { minLength: 1, maxLength: 8 });
  const cabinets = (parts: readonly Part[], begin?: number) =>
    tripOf(predicted({ forecast: forecastOf(...parts), ...(begin === undefined ? {} : { begin }) })).curves;

  property.prop([trips, fc.double({ min: 0.1, max: 8, noNaN: true })], { numRuns: 12 })(
    "a warmer ambient never gives a colder cabinet",
    (parts, warmer) => {
      const hot = parts.map(([hours, ambient, source, extra]) => [hours, ambient + warmer, source, extra] as const);
      const [here, there] = [cabinets(parts), cabinets(hot)];
      for (const line of ["cabinet", "low", "high"] as const) {
        here[line].forEach((celsius, i) => {
          expect(there[line][i]).toBeGreaterThanOrEqual(celsius - 1e-9);
        });
      }
    },
  );

  property.prop([trips, fc.nat()], { numRuns: 12 })(
    "hours switched off never give a colder cabinet",
    (parts, which) => {
      const off = parts.map(
        ([hours, ambient, source, extra], i) =>
          [hours, ambient, i === which % parts.length ? ("off" as const) : source, extra] as const,
      );
      const [on, less] = [cabinets(parts, 6), cabinets(off, 6)];
      for (const line of ["cabinet", "low", "high"] as const) {
        on[line].forEach((celsius, i) => {
          expect(less[line][i]).toBeGreaterThanOrEqual(celsius - 1e-9);
        });
      }
    },
  );

  property.prop(
    [
      fc.array(
        fc.tuple(
          fc.double({ min: 0.001, max: 60, noNaN: true }),
          fc.double({ min: -30, max: 60, noNaN: true }),
          fc.constantFrom(...energySources),
          fc.record({ sun: fc.boolean(), driving: fc.boolean() }),
        ),
        { minLength: 1, maxLength: 6 },
      ),
    ],
    { numRuns: 15 },
  )("no number is NaN or infinite on odd forecasts, and every interval holds its value", (parts) => {
    const { trip, ...rest } = predicted({ forecast: forecastOf(...parts), load: { kilograms: 4, celsius: 30 } });
    const { curves, ...told } = trip ?? tripOf({ ...rest, trip });
    for (const number of numbersIn([rest, told])) expect(Number.isFinite(number)).toBe(true);
    for (const { cabinet } of told.hours) {
      if (!isKnown(cabinet)) continue;
      expect(cabinet.low).toBeLessThanOrEqual(cabinet.value);
      expect(cabinet.high).toBeGreaterThanOrEqual(cabinet.value);
    }
    expect(curves.cabinet).toHaveLength(curves.hours.length);
  });
});

test("neither an ambient nor a forecast is a fault of the caller", () => {
  expect(() => predicted({})).toThrow(RangeError);
});

test("a log in which nothing was heated gives no number, and the reason", () => {
  const off = simulated(580, { schedule: [{ source: "off", hours: 4 }] });
  const { source, sources } = predicted({ ambient: 32 }, [off.recording]);
  expect(source).toBeNull();
  expect(sources[0].settled).toMatchObject({ why: { code: "source-not-run" } });
});
