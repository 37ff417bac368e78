import { fc, test as propTest } from "@fast-check/vitest";
import { expect, test } from "vitest";
import { LiveRows } from "../../../src/science/live/live-rows.ts";

const start = Date.parse("2026-06-04T20:00:00Z");

test("readings of one minute become one row, the mean of each position", () => {
  const rows = new LiveRows();
  rows.add(start, "cabinet", 10);
  rows.add(start + 20_000, "cabinet", 11);
  rows.add(start + 40_000, "evaporator", -3);
  rows.add(start + 60_000, "cabinet", 9);
  expect([...rows.unixMs()]).toEqual([start + 20_000, start + 60_000]);
  expect([...rows.column("cabinet")]).toEqual([10.5, 9]);
  expect([...rows.column("evaporator")]).toEqual([-3, Number.NaN]);
});

test("however long it goes on there are at most 480 rows, and no reading is lost", () => {
  const rows = new LiveRows();
  const readings = 40 * 60;
  for (let i = 0; i < readings; i++) rows.add(start + i * 60_000, "cabinet", i);
  expect(rows.length).toBeLessThanOrEqual(480);
  expect(rows.length).toBeGreaterThan(240);
  // Rows join whole pairs, so that every mean lies in the middle of what it joins.
  const [values, instants] = [rows.column("cabinet"), rows.unixMs()];
  instants.forEach((ms, i) => {
    expect(values[i]).toBeCloseTo((ms - start) / 60_000, 6);
  });
});

propTest.prop([
  fc.array(fc.tuple(fc.integer({ min: 0, max: 90_000 }), fc.double({ min: -30, max: 40, noNaN: true })), {
    maxLength: 300,
  }),
])("the order in which readings come makes no difference", (readings) => {
  const [forwards, backwards] = [new LiveRows(), new LiveRows()];
  for (const [seconds, value] of readings) forwards.add(start + seconds * 1000, "cabinet", value);
  for (const [seconds, value] of readings.toReversed()) backwards.add(start + seconds * 1000, "cabinet", value);
  expect([...forwards.unixMs()]).toEqual([...backwards.unixMs()]);
  const values = backwards.column("cabinet");
  forwards.column("cabinet").forEach((value, i) => {
    expect(value).toBeCloseTo(values[i], 9);
  });
});
