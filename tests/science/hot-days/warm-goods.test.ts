// Goods put in warm slow a run's fall: it then tells no settled depth. The simulator knows what the empty fridge reaches.

import { describe, expect, test } from "vitest";
import type { Recording, RunSheet } from "../../../src/schema/index.ts";
import { hotDay } from "../../../src/science/hot-days/index.ts";
import { knownGoodFridge, randomFridge, settledCabinet, simulateRun } from "../../../src/simulate/index.ts";
import { judged, simulated, stretchIn } from "../simulated-runs.ts";
import { known } from "./hot-day-runs.ts";

const hot = 33;

function mainsRun(seed: number, kilograms: number, hours: number, sheet?: RunSheet): Recording {
  return simulateRun({
    name: `run ${seed}.csv`,
    seed,
    startUnixMs: Date.parse("2026-06-01T19:00:00Z"),
    fridge: randomFridge(seed),
    schedule: [
      { source: "off", hours: 1 },
      { source: "mains", hours },
      { source: "off", hours: 3 },
    ],
    ambient: { meanCelsius: 24, swingKelvin: 2 },
    samplingSeconds: 60,
    nightToNight: { heat: 0.015, cooling: 0.015 },
    faults: kilograms > 0 ? [{ name: "warm-load", size: kilograms }] : [],
    ...(sheet === undefined ? {} : { sheet }),
  }).recording;
}

const settledAtHot = (recording: Recording) =>
  hotDay([recording], { ambient: hot, source: "mains" }).sources[0].settled;

describe("goods put in warm, hot day", () => {
  // Of 3 kg a fall of 5 h does not always tell: two of fourteen such fridges pass for empty ones that settle warmer.
  for (const [kilograms, lengths] of [
    [3, [9, 13]],
    [8, [6, 9, 13]],
    [15, [6, 9, 13]],
  ] as const)
    for (const hours of lengths)
      test(`${kilograms} kg, ${hours} h: no settled depth, but one that the empty fridge goes beyond`, () => {
        for (const seed of [1, 2, 3, 4]) {
          const answer = settledAtHot(mainsRun(seed, kilograms, hours));
          expect(answer).toMatchObject({ why: { code: "goods-may-have-cooled" } });
          if (!("why" in answer) || answer.why.code !== "goods-may-have-cooled") continue;
          const { belowAmbient, ambient } = answer.why;
          const truth = ambient - settledCabinet(randomFridge(seed), [], "mains", ambient);
          expect(belowAmbient).toBeLessThan(truth);
        }
      });

  test("the advice is to run it empty, not to record a source that was recorded", () => {
    const { advice } = hotDay([mainsRun(1, 8, 9)], { ambient: hot, source: "mains" });
    const given = advice.map((one) => one.advice);
    expect(given).toContain("record-empty");
    expect(given).not.toContain("record-the-source");
    expect(advice.find((one) => one.advice === "record-empty")?.cautions).toEqual(
      expect.arrayContaining(["night", "two-sources", "mains"]),
    );
  });

  for (const hours of [6, 9, 13])
    test(`the same fridges empty, ${hours} h: an answer, and the truth within`, () => {
      for (const seed of [1, 2, 3, 4]) {
        const { low, high } = known(settledAtHot(mainsRun(seed, 0, hours)));
        const truth = settledCabinet(randomFridge(seed), [], "mains", hot);
        expect(truth).toBeGreaterThan(low ?? Number.NaN);
        expect(truth).toBeLessThan(high ?? Number.NaN);
      }
    });

  test("after two days the goods are cold, and the run tells its depth again", () => {
    for (const seed of [1, 2, 3, 4]) {
      const { low, high } = known(settledAtHot(mainsRun(seed, 8, 60)));
      const truth = settledCabinet(randomFridge(seed), [], "mains", hot);
      expect(truth).toBeGreaterThan(low ?? Number.NaN);
      expect(truth).toBeLessThan(high ?? Number.NaN);
    }
  });

  test("a cabinet that the sheet calls empty is believed to be", () => {
    known(settledAtHot(mainsRun(1, 3, 6, { load: "empty" })));
  });
});

test("of a cabinet with warm goods no temperature is called out of its reach", () => {
  for (const kilograms of [6, 14]) {
    const { to5, to0 } = stretchIn(
      judged(simulated(221, { faults: [{ name: "warm-load", size: kilograms }] })),
      "mains",
    ).milestones;
    for (const answer of [to5, to0]) expect(answer).toMatchObject({ why: { code: "goods-hide-the-end" } });
  }
});

test("does it keep up: with a warm load on every source no settled temperature is told, and without one it is", () => {
  const loaded = judged(simulated(220, { faults: [{ name: "warm-load", size: 6 }] }));
  for (const { settledAt32 } of loaded.keepsUp)
    expect(settledAt32).toMatchObject({ why: { code: "goods-may-have-cooled" } });
  for (const { source, settledAt32 } of judged(simulated(220)).keepsUp) {
    const { low, high } = known(settledAt32);
    if (source === null) throw new Error("the source was told");
    const truth = settledCabinet(knownGoodFridge(), [], source, 32);
    expect(truth).toBeGreaterThan(low ?? Number.NaN);
    expect(truth).toBeLessThan(high ?? Number.NaN);
  }
});
