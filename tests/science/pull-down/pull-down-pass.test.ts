import { describe, expect, test } from "vitest";
import { cabinetTemperature, type PullDown } from "../../../src/science/pull-down/pull-down.ts";
import { passOver } from "../../../src/science/pull-down/pull-down-pass.ts";
import { modelStretch, usualStretch } from "./model-stretch.ts";

const warmingRate = 0.12;

/** A pull-down moved by one number per row of the system: rate, onset, depth, start, then jumps. */
function moved(from: PullDown, row: number, by: number): PullDown {
  const [rate, onset, depth, start, ...jumps] = [
    from.rate,
    from.onset,
    from.depth,
    from.start,
    ...from.jumps.map((jump) => jump.kelvin),
  ].map((value, at) => (at === row ? value + by : value));
  return { rate, onset, depth, start, jumps: from.jumps.map(({ hours }, j) => ({ hours, kelvin: jumps[j] })) };
}

describe("the sums of one pass are those of the model and its derivatives by differences", () => {
  const night = modelStretch({ hours: 8, stepMinutes: 5 });
  const keep = (_: number, i: number) => i % 5 !== 2 && (i < 40 || i > 46);
  const readings = {
    hours: night.hours.filter(keep),
    cabinetCelsius: night.cabinetCelsius.filter(keep),
    ambientCelsius: night.ambientCelsius.filter(keep),
  };
  const weights = readings.hours.map((_, i) => 1 + (i % 3));
  // The first opening lies in the gap from 40 to 46, half an hour before the next reading.
  const jumps = [3.4, 5.02].map((hours, j) => ({ hours, kelvin: 2 + j }));
  for (const [name, pullDown, given] of [
    ["plain", { ...usualStretch, jumps: [] }, null],
    ["with weights", { ...usualStretch, jumps: [] }, weights],
    ["with door openings", { ...usualStretch, jumps }, null],
    ["with both", { ...usualStretch, jumps }, weights],
  ] as const) {
    test(name, () => {
      const model = (of: PullDown) => cabinetTemperature(readings, of, { warmingRate });
      const at = { ...pullDown, onset: 0.66 };
      const residual = new Float64Array(readings.hours.length);
      const system = passOver({ ...readings, weights: given }, at, warmingRate, residual);
      const h = 1e-5;
      const columns = Array.from({ length: system.size }, (_, row) => {
        const [up, down] = [model(moved(at, row, h)), model(moved(at, row, -h))];
        return up.map((value, i) => (value - down[i]) / (2 * h));
      });
      const sum = (a: Float64Array, b: Float64Array) => a.reduce((s, v, i) => s + (given?.[i] ?? 1) * v * b[i], 0);
      const course = model(at);
      for (const [i, value] of residual.entries()) {
        expect(value).toBeCloseTo(readings.cabinetCelsius[i] - course[i], 10);
      }
      expect(system.rss).toBeCloseTo(sum(residual, residual), 8);
      // Differences of 1e-5 keep 8 digits or more of sums as large as these.
      const within = (found: number, expected: number) =>
        expect(Math.abs(found - expected)).toBeLessThan(1e-6 * (1 + Math.abs(expected)));
      for (const [row, column] of columns.entries()) {
        within(system.right[row], sum(column, residual));
        for (const [other, beside] of columns.entries()) {
          within(system.matrix[row * system.size + other], sum(column, beside));
        }
      }
    });
  }
});
