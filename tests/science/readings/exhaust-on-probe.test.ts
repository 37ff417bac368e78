// The ambient probe in the warm air that leaves the fridge: the simulator's upper vent in place of its ambient column.

import { describe, expect, test } from "vitest";
import type { Recording } from "../../../src/schema/index.ts";
import { runEvidence } from "../../../src/science/evidence/run-evidence.ts";
import { hotDay } from "../../../src/science/hot-days/index.ts";
import { randomFridge, type SimulationPlan, settledCabinet, simulateRun } from "../../../src/simulate/index.ts";
import { known } from "../hot-days/hot-day-runs.ts";
import { judged, knownGood, simulated, sourceIn } from "../simulated-runs.ts";

type Change = Partial<SimulationPlan>;

/** The run with its ambient probe in the upper vent. */
function inExhaust(seed: number, change: Change = {}) {
  const run = simulated(seed, { ...change, probes: { ...change.probes, ventOut: {} } });
  const { ventOut, ...columns } = run.recording.columns;
  return { ...run, recording: { ...run.recording, columns: { ...columns, ambient: ventOut } } };
}

const oneHeating = [
  { source: "off", hours: 1 },
  { source: "mains", hours: 9 },
] as const;

const eventsIn = (recording: Recording) =>
  runEvidence(recording).events.filter(({ kind }) => kind === "exhaust-on-probe");
const kindsIn = (recording: Recording) => new Set(runEvidence(recording).events.map(({ kind }) => kind));

describe("warm exhaust on the ambient probe", () => {
  test("is found in every heated stretch alike, the one that ends the log too, and is no sun", () => {
    for (const seed of [201, 202, 203]) {
      const { recording } = inExhaust(seed);
      expect(eventsIn(recording)).toMatchObject([
        { reason: { code: "exhaust-on-ambient", isProven: true } },
        { reason: { code: "exhaust-on-ambient", isProven: true } },
      ]);
      expect(kindsIn(recording)).not.toContain("sun-on-probe");
    }
  });

  test("is taken off: the ambient of each stretch is that of the probe beside it, within its error", () => {
    for (const seed of [201, 202, 203]) {
      const right = runEvidence(simulated(seed).recording).stretches;
      for (const [i, { ambient, ambientError, stretch }] of runEvidence(
        inExhaust(seed).recording,
      ).stretches.entries()) {
        if (!stretch.heated) continue;
        expect(ambientError).toBeGreaterThan(0);
        expect(Math.abs(ambient - right[i].ambient)).toBeLessThan(2 * ambientError);
      }
    }
  });

  test("with one switch-on and no end of the heating in the log it only may be: all of it stays open", () => {
    const { recording } = inExhaust(204, { schedule: oneHeating });
    const [event] = eventsIn(recording);
    expect(event.reason).toMatchObject({ isProven: false });
    const heatedIn = (log: Recording) => runEvidence(log).stretches.find(({ stretch }) => stretch.heated);
    const { ambient, ambientError } = heatedIn(recording) ?? { ambient: Number.NaN, ambientError: Number.NaN };
    const { size } = event;
    const right = heatedIn(simulated(204, { schedule: oneHeating }).recording);
    // With the exhaust taken off it is the true one; as it was read, warmer by nearly all that was seen.
    expect(ambient - 2 * ambientError).toBeLessThan(right?.ambient ?? Number.NaN);
    expect(ambient + 2 * ambientError).toBeGreaterThan((right?.ambient ?? Number.NaN) + 0.95 * (size ?? Number.NaN));
  });

  test("under a thermostat that lets it come and go it is found as well", () => {
    const { recording } = inExhaust(205, { thermostatSetCelsius: 6 });
    expect(kindsIn(recording)).toContain("cycling");
    expect(eventsIn(recording).length).toBeGreaterThan(0);
  });

  test("is found where nobody told the source and the curves alone show the heating", () => {
    for (const seed of [206, 207, 208]) {
      const { recording } = inExhaust(seed);
      expect(eventsIn({ ...recording, sourceCodes: null }).length).toBeGreaterThan(0);
    }
  });
});

describe("no exhaust", () => {
  const quiet: readonly (readonly [string, Change])[] = [
    ["an ordinary night", {}],
    ["a day that swings by 18 K", { ambient: { meanCelsius: 24, swingKelvin: 18 } }],
    ["an afternoon that warms by 1 K per hour", { ambient: { meanCelsius: 20, driftKelvinPerHour: 1 } }],
    ["air that wanders by 1 K", { ambient: { meanCelsius: 24, swingKelvin: 2, wanderKelvin: 1 } }],
    ["sun that comes soon after the switch-on and goes again", { sun: [{ atHours: 1.5, hours: 3, kelvin: 8 }] }],
    ["sun over the switch-off", { sun: [{ atHours: 6, hours: 4.5, kelvin: 8 }] }],
  ];
  for (const [name, change] of quiet)
    test(`${name}`, () => {
      for (const seed of [211, 212, 213]) expect(eventsIn(simulated(seed, change).recording)).toEqual([]);
    });

  test("the same without a word of the source", () => {
    for (const seed of [211, 212, 213])
      for (const [, change] of quiet.slice(0, 4))
        expect(eventsIn({ ...simulated(seed, change).recording, sourceCodes: null })).toEqual([]);
  });

  test("a log that pauses over the switch-on while the day warms", () => {
    const { recording } = simulated(215, { ambient: { meanCelsius: 24, swingKelvin: 16 } });
    const hours = Array.from(recording.unixMs, (ms) => (ms - recording.unixMs[0]) / 3_600_000);
    const kept = (column: Float64Array) => column.filter((_, row) => hours[row] < 0.9 || hours[row] > 4);
    const { evaporator, cabinet, ambient } = recording.columns;
    if (!evaporator || !cabinet || !ambient || !recording.sourceCodes) throw new Error("a column is missing");
    const columns = { evaporator: kept(evaporator), cabinet: kept(cabinet), ambient: kept(ambient) };
    const sourceCodes = recording.sourceCodes.filter((_, row) => hours[row] < 0.9 || hours[row] > 4);
    expect(eventsIn({ ...recording, unixMs: kept(recording.unixMs), columns, sourceCodes })).toEqual([]);
  });

  test("a room that warms and cools with the heating is the air itself", () => {
    const { recording } = inExhaust(214);
    const columns = { ...recording.columns, room: recording.columns.ambient };
    expect(eventsIn({ ...recording, columns })).toEqual([]);
  });
});

describe("what the exhaust would have flattered", () => {
  const cabinetAndAmbient = (recording: Recording): Recording => {
    const { cabinet, ambient } = recording.columns;
    return { ...recording, columns: { cabinet, ambient } };
  };

  test("a unit at 72 % is never called good by the cabinet probe alone", () => {
    const plain = knownGood.map(cabinetAndAmbient);
    for (const seed of [201, 202, 203, 204]) {
      const run = inExhaust(seed, { faults: [{ name: "cooling-unit", size: 0.28 }] });
      const analysis = judged({ ...run, recording: cabinetAndAmbient(run.recording) }, { knownGood: plain });
      for (const source of ["mains", "gas"] as const) {
        const { verdict, coolingStrength } = sourceIn(analysis, source);
        expect(verdict).not.toBe("sound");
        expect(known(coolingStrength).low ?? 0).toBeLessThan(0.72);
      }
    }
  });

  test("with all probes it is weak on both sources, and no source's own heat is blamed", () => {
    for (const seed of [201, 202, 203, 204]) {
      const analysis = judged(inExhaust(seed, { faults: [{ name: "cooling-unit", size: 0.3 }] }));
      for (const source of ["mains", "gas"] as const) expect(sourceIn(analysis, source).verdict).toBe("weak");
      expect(["ventilation", "not-level", "cooling-unit"]).toContain(analysis.causes[0].cause);
    }
  });

  for (const hours of [9, 10, 12])
    test(`${hours} h on mains: a hot day is promised no colder than it is, and the doubt is told`, () => {
      for (const fridge of [1, 2, 3, 4]) {
        const runs = [22, 25, 27].map((meanCelsius, i) => {
          const { recording } = simulateRun({
            name: `run ${i}.csv`,
            seed: 10 * fridge + i,
            startUnixMs: Date.parse("2026-06-01T19:00:00Z") + i * 86_400_000,
            fridge: randomFridge(fridge),
            schedule: [
              { source: "off", hours: 1 },
              { source: "mains", hours },
              { source: "off", hours: 3 },
            ],
            ambient: { meanCelsius, swingKelvin: 2 },
            samplingSeconds: 60,
            probes: { ventOut: {} },
          });
          const { ventOut, ...columns } = recording.columns;
          return { ...recording, columns: { ...columns, ambient: ventOut } };
        });
        const [{ settled, reasons }] = hotDay(runs, { ambient: 35, source: "mains" }).sources;
        expect(known(settled).high).toBeGreaterThan(settledCabinet(randomFridge(fridge), [], "mains", 35));
        expect(reasons.map(({ code }) => code)).toContain("exhaust-on-probe");
      }
    });
});
