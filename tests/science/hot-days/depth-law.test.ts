import { describe, expect, test } from "vitest";
import { runEvidence } from "../../../src/science/evidence/run-evidence.ts";
import { depthAt, depthBy, drawnTerms, lawThrough, nightlyDepth } from "../../../src/science/hot-days/depth-law.ts";
import { type SettledDepth, settledDepth } from "../../../src/science/hot-days/stretch-depth.ts";
import { fitStraightLine } from "../../../src/science/numbers/straight-line.ts";
import { priorSpread } from "../../../src/science/strength/witness-spread.ts";
import { simulated } from "../simulated-runs.ts";

const point = (ambient: number, depth: number, standardError = 0.3): SettledDepth => ({
  log: "invented.csv",
  startMs: 0,
  ambient,
  depth,
  standardError,
  from: "fit",
});

/** Without known-good runs the usual spread between nights is believed. */
const lawOf = (points: readonly SettledDepth[], spread = priorSpread) => lawThrough(points, nightlyDepth(spread));

describe("the law of depths", () => {
  test("from one run is that run with the usual slope, wider the further from it", () => {
    const law = lawOf([point(24, 27)]);
    expect(depthAt(law, 24).depth).toBeCloseTo(27, 6);
    expect(law.isOwnSlope).toBe(false);
    expect(law.slope / 27).toBeCloseTo(-0.002, 6);
    const errors = [24, 28, 32, 36, 40].map((ambient) => depthAt(law, ambient).error);
    expect(errors).toEqual(errors.toSorted((a, b) => a - b));
    expect(errors[4]).toBeGreaterThan(2 * errors[0]);
  });

  test("from many runs far apart and below the bend is their straight line", () => {
    // Four tenths per kelvin is ten times the usual: only runs of its own can tell it.
    const ambients = Array.from({ length: 30 }, (_, i) => 15 + 0.4 * i);
    const depths = ambients.map((ambient, i) => 30 - 0.4 * (ambient - 15) + (i % 2 ? 0.1 : -0.1));
    const line = fitStraightLine(ambients, depths);
    const law = lawOf(ambients.map((ambient, i) => point(ambient, depths[i], 0.1)));
    expect(law.isOwnSlope).toBe(true);
    expect(law.slope).toBeCloseTo(line?.slope ?? Number.NaN, 1);
  });

  test("loses ground ever faster in great heat, and is never below nothing", () => {
    const law = lawOf([point(24, 27), point(28, 26.8)]);
    const fall = (ambient: number) => depthAt(law, ambient).depth - depthAt(law, ambient + 2).depth;
    expect(fall(34)).toBeGreaterThan(fall(30));
    expect(fall(38)).toBeGreaterThan(fall(34));
    expect(depthAt(law, 90).depth).toBe(0);
  });

  test("runs that differ widen it", () => {
    const [alike, apart] = [0.1, 3].map((spread) =>
      lawOf([point(22, 27 + spread), point(22, 27 - spread), point(24, 27 + spread), point(24, 27 - spread)]),
    );
    expect(depthAt(apart, 23).error).toBeGreaterThan(2 * depthAt(alike, 23).error);
  });

  test("one run of a weak source is hardly surer in kelvin than one of a sound source", () => {
    const [weak, sound] = [8, 28].map((depth) => depthAt(lawOf([point(24, depth)]), 24).error);
    expect(weak).toBeGreaterThan(0.8 * sound);
  });

  test("known-good runs that scatter more widen one run's law, alike ones narrow it", () => {
    const errorAt = (share: number) =>
      depthAt(lawOf([point(24, 27)], { fins: share ** 2, slope: share ** 2, both: share ** 2, freedom: 9 }), 24).error;
    expect(errorAt(0.1)).toBeGreaterThan(1.5 * depthAt(lawOf([point(24, 27)]), 24).error);
    expect(errorAt(0.02)).toBeLessThan(0.7 * depthAt(lawOf([point(24, 27)]), 24).error);
  });

  test("more runs narrow it", () => {
    const of = (runs: number) => depthAt(lawOf(Array.from({ length: runs }, (_, i) => point(22 + (i % 3), 27))), 32);
    expect(of(9).error).toBeLessThan(of(1).error);
  });

  test("drawn with all noughts it is the law itself; no draw cools more than the air outside warms", () => {
    const law = lawOf([point(22, 27), point(25, 26)]);
    expect(depthBy(drawnTerms(law, [0, 0, 0, 0]), 31)).toBeCloseTo(depthAt(law, 31).depth, 9);
    for (const z of [-4, 4]) {
      const terms = drawnTerms(law, [z, z, z, z]);
      for (let ambient = 15; ambient < 50; ambient++) {
        expect(depthBy(terms, ambient + 1) - depthBy(terms, ambient)).toBeLessThan(1);
      }
    }
  });

  test("of a fridge that does not cool is about nothing, with a width", () => {
    const law = lawOf([point(22, 0.1), point(25, -0.1)]);
    expect(depthAt(law, 32).depth).toBeLessThan(0.5);
    expect(depthAt(law, 32).error).toBeGreaterThan(0.1);
  });
});

describe("the depth of one stretch", () => {
  /** A source with so little heat left that its cold begins late or never. */
  const barelyHeated = (hours: number) =>
    runEvidence(
      simulated(500, {
        schedule: [
          { source: "off", hours: 1 },
          { source: "mains", hours },
          { source: "off", hours: 1 },
        ],
        faults: [{ name: "mains-element", size: 0.8 }],
      }).recording,
    ).stretches.filter(({ stretch }) => stretch.heated);

  test("is not that of a cabinet at ambient whose cold may yet begin", () => {
    expect(barelyHeated(4).map(settledDepth)).toEqual([null]);
  });

  test("is about nothing once the latest cold would have begun", () => {
    const [depth] = barelyHeated(9).map(settledDepth);
    expect(Math.abs(depth?.depth ?? Number.NaN)).toBeLessThan(1.5);
  });
});
