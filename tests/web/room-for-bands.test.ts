import { expect, test } from "vitest";
import { roomForBands } from "../../web/parts/room-for-bands.ts";

test("an axis has room for the whole of a band beside its lines", () => {
  expect(roomForBands([-5, 25], [{ low: [8, -20], high: [8, 1] }])).toEqual([-20, 25]);
  expect(roomForBands([-5, 25], [])).toEqual([-5, 25]);
});

test("a band without end, or far wider than the lines, leaves them half of the axis at the least", () => {
  const low = [8, -400, Number.NEGATIVE_INFINITY];
  expect(roomForBands([-5, 25], [{ low, high: [8, Number.NaN, 30] }])).toEqual([-35, 30]);
});
