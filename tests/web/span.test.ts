import { fc, test as property } from "@fast-check/vitest";
import { expect, test } from "vitest";
import { holds, isMidnight, moved, nearest, roundInstants, type Span, zoomed } from "../../web/parts/span.ts";

const hour = 3_600_000;
const whole: Span = { from: 0, to: 24 * hour };

test("narrowing keeps the instant under the pointer where it is in the drawing", () => {
  const before = { from: 6 * hour, to: 18 * hour };
  const after = zoomed(before, 9 * hour, 0.5, whole);
  expect(after).toEqual({ from: 7.5 * hour, to: 13.5 * hour });
  expect((9 * hour - after.from) / (after.to - after.from)).toBe(0.25);
});

test("nothing is shown before the run's first or after its last reading", () => {
  expect(moved({ from: 0, to: 6 * hour }, -hour, whole)).toEqual({ from: 0, to: 6 * hour });
  expect(moved({ from: 16 * hour, to: 22 * hour }, 5 * hour, whole)).toEqual({ from: 18 * hour, to: 24 * hour });
  expect(zoomed({ from: 0, to: 20 * hour }, 10 * hour, 3, whole)).toEqual(whole);
});

test("a drawing is narrowed to a minute at the least", () => {
  const narrow = zoomed({ from: hour, to: hour + 80_000 }, hour, 0.01, whole);
  expect(narrow.to - narrow.from).toBe(60_000);
});

property.prop([
  fc.double({ min: 0, max: 23, noNaN: true }),
  fc.double({ min: 0.1, max: 24, noNaN: true }),
  fc.double({ min: 0, max: 1, noNaN: true }),
  fc.double({ min: 0.05, max: 20, noNaN: true }),
  fc.double({ min: -48, max: 48, noNaN: true }),
])(
  "whatever is turned, what is shown lies within the whole and has some width",
  (from, width, share, factor, hours) => {
    const begin = Math.min(from, 24 - Math.min(width, 24)) * hour;
    const span = { from: begin, to: begin + Math.min(width, 24) * hour };
    const at = span.from + share * (span.to - span.from);
    for (const next of [zoomed(span, at, factor, whole), moved(span, hours * hour, whole)]) {
      expect(next.from).toBeGreaterThanOrEqual(-1e-3);
      expect(next.to).toBeLessThanOrEqual(whole.to + 1e-3);
      expect(next.to - next.from).toBeGreaterThan(59_000);
    }
  },
);

test("the axis is ruled at round instants of the run's own clock, not of UTC", () => {
  // Half an hour beside UTC: midnight there is 18:30 here.
  const instants = roundInstants({ from: 0, to: 24 * hour }, 330, 6);
  expect(instants.map((at) => new Date(at + 330 * 60_000).toISOString().slice(11, 16))).toEqual([
    "06:00",
    "12:00",
    "18:00",
    "00:00",
  ]);
  expect(instants.filter((at) => isMidnight(at, 330))).toEqual([18.5 * hour]);
});

test("the reading shown for a place between two is the nearer one", () => {
  expect([5, 10, 14.9, 15.1, 30].map((at) => nearest([10, 20], at))).toEqual([0, 0, 0, 1, 1]);
  expect(nearest([], 5)).toBe(-1);
});

test("what was fetched serves as long as it holds all that is shown", () => {
  expect(holds({ from: 1, to: 9 }, { from: 2, to: 8 })).toBe(true);
  expect(holds({ from: 1, to: 9 }, { from: 2, to: 9.5 })).toBe(false);
});
