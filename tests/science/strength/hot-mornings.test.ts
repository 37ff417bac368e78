// A gas stretch on a summer's day: attended, so in the morning, while the ambient climbs from 29 to 38 °C and takes of the cooling.

import { describe, expect, test } from "vitest";
import { isKnown } from "../../../src/science/index.ts";
import { ambientForSteadyCooling } from "../../../src/science/pull-down/cooling-in-heat.ts";
import { judged, simulated, sourceIn, stretchIn } from "../simulated-runs.ts";

const hotDay = (swingKelvin: number) => ({ meanCelsius: 33, swingKelvin });
const startUnixMs = Date.parse("2026-07-04T20:00:00Z");

const onGas = (seed: number, swing: number, flue: number) => {
  const faults = flue === 0 ? [] : [{ name: "flue", size: flue } as const];
  const run = simulated(seed, { ambient: hotDay(swing), startUnixMs, faults });
  const truth = run.truth.stretches.find(({ source }) => source === "gas")?.strength?.ofFaults ?? Number.NaN;
  return { finding: sourceIn(judged(run), "gas"), truth };
};

describe("a morning that grows hot", () => {
  for (const swing of [4, 8, 12]) {
    test(`with ${swing} K between night and day neither hides a blocked flue nor invents a strong source`, () => {
      for (const seed of [24, 31, 32]) {
        const sound = onGas(seed, swing, 0);
        expect(sound.finding.verdict).toBe("sound");
        const blocked = onGas(seed, swing, 0.3);
        expect(blocked.truth).toBeLessThan(0.7);
        expect(blocked.finding.verdict).toBe("weak");
        for (const { finding, truth } of [sound, blocked]) {
          const { coolingStrength } = finding;
          if (!isKnown(coolingStrength)) throw new Error("no strength");
          expect(coolingStrength.low).toBeLessThan(truth);
          expect(coolingStrength.high).toBeGreaterThan(truth);
        }
      }
    });
  }

  test("a steady ambient is left as it is, a climbing one counts as warmer at its end", () => {
    expect(ambientForSteadyCooling(new Float64Array(9).fill(35), 35, 25)).toBeNull();
    const climbing = Float64Array.from({ length: 9 }, (_, i) => 30 + i);
    const steady = ambientForSteadyCooling(climbing, 34, 25);
    // ln(cooling) at 38 °C over that at 34: -0.0014 * 4 - 0.001 * (13² - 9²) = -0.0936, of 25 K.
    expect((steady?.[8] ?? 0) - 38).toBeCloseTo(25 * (1 - Math.exp(-0.0936)), 9);
    expect(steady?.[4]).toBeCloseTo(34, 12);
  });
});

test("an evaporator probe that fell off is looked for first, and its run is no known-good one", () => {
  const analysis = judged(simulated(10, { faults: [{ name: "probe", size: 1 }] }));
  expect(analysis.causes[0].cause).toBe("probe");
  const codes = stretchIn(analysis, "mains").reasons.map(({ code }) => code);
  expect(codes).toContain("frost-or-moved-probe");
  expect(codes).not.toContain("offered-as-baseline");
});

test("a source that would cool twice as well as known-good is no good source, but a wrong log", () => {
  const { recording } = simulated(5);
  const { evaporator, cabinet, ambient } = recording.columns;
  if (evaporator === undefined || cabinet === undefined || ambient === undefined) throw new Error("no probes");
  const exchanged = { ...recording, columns: { evaporator: cabinet, cabinet: ambient, ambient: evaporator } };
  const { sources } = judged({ ...simulated(5), recording: exchanged });
  for (const { verdict } of sources) expect(verdict).toBe("undecided");
});
