import { expect, test } from "vitest";
import { type Growth, growing } from "../../web/parts/growing-curve.ts";
import { withGaps } from "../../web/parts/with-gaps.ts";

test("readings that are there already are not drawn twice", () => {
  const growth: Growth = { cabinet: { unixMs: [1, 2, 3], values: [9, 8, 7] } };
  const grown = growing(growth, "cabinet", [2, 3, 4], [8, 7, 6]);
  expect(grown.cabinet).toEqual({ unixMs: [1, 2, 3, 4], values: [9, 8, 7, 6] });
  expect(growing(grown, "cabinet", [4], [6])).toBe(grown);
});

test("a long night stays bounded, and its coldest and warmest instants stay in it", () => {
  let growth: Growth = {};
  for (let i = 0; i < 40_000; i++) {
    const value = i === 12_345 ? -30 : i === 23_456 ? 50 : Math.sin(i / 300);
    growth = growing(growth, "cabinet", [i], [value]);
  }
  const { unixMs, values } = growth.cabinet ?? { unixMs: [], values: [] };
  expect(unixMs.length).toBeLessThanOrEqual(6001);
  expect(Math.min(...values)).toBe(-30);
  expect(Math.max(...values)).toBe(50);
  expect(unixMs.at(-1)).toBe(39_999);
  expect(unixMs.every((at, i) => i === 0 || at > unixMs[i - 1])).toBe(true);
});

test("the pen is lifted over a gap and nowhere else", () => {
  const curve = withGaps({ unixMs: [1, 2, 10, 11], values: [5, 5, 4, 4], gaps: [{ fromUnixMs: 2, toUnixMs: 10 }] });
  expect(curve.unixMs).toEqual([1, 2, 6, 10, 11]);
  expect(curve.values).toEqual([5, 5, Number.NaN, 4, 4]);
});
