import { fc, test as prop } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { keepExtremes } from "../../../src/science/index.ts";

const everything = { fromUnixMs: -Infinity, toUnixMs: Infinity };
const evenly = (length: number, stepMs = 1000) => Float64Array.from({ length }, (_, i) => i * stepMs);

/** Steps of 1 to 5 s, and a value for each. */
const series = fc.array(fc.tuple(fc.integer({ min: 1, max: 5 }), fc.integer({ min: -400, max: 900 })), {
  minLength: 1,
  maxLength: 600,
});
const laidOut = (steps: readonly (readonly [number, number])[]) => {
  let at = 0;
  const unixMs = Float64Array.from(steps, ([step]) => (at += 1000 * step));
  return { unixMs, values: Float64Array.from(steps, ([, value]) => value) };
};

describe("keeping extremes", () => {
  prop.prop([series, fc.integer({ min: 10, max: 100 })])(
    "the highest, the lowest, the first and the last reading always stay",
    (steps, points) => {
      const { unixMs, values } = laidOut(steps);
      const { indices } = keepExtremes(unixMs, values, everything, points);
      const kept = Array.from(indices, (i) => values[i]);
      expect(Math.max(...kept)).toBe(Math.max(...values));
      expect(Math.min(...kept)).toBe(Math.min(...values));
      expect([indices[0], indices.at(-1)]).toEqual([0, unixMs.length - 1]);
    },
  );

  prop.prop([series, fc.integer({ min: 10, max: 100 })])(
    "indices ascend, and there are no more of them than asked for",
    (steps, points) => {
      const { unixMs, values } = laidOut(steps);
      const { indices, readings } = keepExtremes(unixMs, values, everything, points);
      expect(indices.length).toBeLessThanOrEqual(Math.min(points, unixMs.length));
      expect(readings).toBe(unixMs.length);
      expect(indices.every((index, i) => i === 0 || index > indices[i - 1])).toBe(true);
    },
  );

  test("a short span stays whole, with one reading on either side so that the line reaches the edges", () => {
    const { indices, readings } = keepExtremes(evenly(100), evenly(100), { fromUnixMs: 10_000, toUnixMs: 20_000 }, 50);
    expect([...indices]).toEqual(Array.from({ length: 12 }, (_, i) => 9 + i));
    expect(readings).toBe(10);
  });

  test("both ends of a gap stay, and the gap is told", () => {
    const unixMs = evenly(1000).map((ms) => (ms < 500_000 ? ms : ms + 3_600_000));
    const { indices, gaps } = keepExtremes(unixMs, new Float64Array(1000), everything, 20);
    expect(gaps).toEqual([[499, 500]]);
    expect([...indices]).toEqual(expect.arrayContaining([499, 500]));
  });

  test("nothing comes of nothing", () => {
    const { indices, readings, gaps } = keepExtremes(new Float64Array(), new Float64Array(), everything, 20);
    expect([indices.length, readings, gaps.length]).toEqual([0, 0, 0]);
  });
});
