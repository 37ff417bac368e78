import { describe, expect, test } from "vitest";
import { varianceInflation } from "../../../src/science/numbers/effective-readings.ts";
import { fitPullDown } from "../../../src/science/pull-down/pull-down-fit.ts";
import { pullDownIntervals } from "../../../src/science/pull-down/pull-down-intervals.ts";
import { withstandsSoftStart } from "../../../src/science/pull-down/soft-start.ts";
import { fitted } from "../published.ts";
import { modelStretch, type Noise } from "../pull-down/model-stretch.ts";

const residuals = (noise: Noise) => {
  const [noisy, quiet] = [modelStretch({ noise }, 5), modelStretch({ noise: "none" })];
  return noisy.cabinetCelsius.map((value, i) => value - quiet.cabinetCelsius[i]);
};

// Bayley & Hammersley (1946): a mean of n AR(1) readings is worth n (1 - r) / (1 + r) in large samples.
describe("remembering residuals are worth fewer readings", () => {
  for (const [noise, least, most] of [
    ["white", 1, 1.6],
    ["AR(1) 0.6", 3.2, 6],
    ["AR(1) 0.9", 12, 33],
  ] as const) {
    test(`${noise}: a variance ${least} to ${most} times as large`, () => {
      const found = varianceInflation(residuals(noise), null, 4);
      expect(found).toBeGreaterThanOrEqual(least);
      expect(found).toBeLessThan(most);
    });
  }
  test("a slow wander under white noise, which the raw lag-1 correlation hardly sees, is seen in bin means", () => {
    const found = residuals("white + 10 min wander");
    const lag1 = found.reduce((sum, r, i) => sum + (i > 0 ? r * found[i - 1] : 0), 0);
    const correlation = lag1 / found.reduce((sum, r) => sum + r * r, 0);
    expect(varianceInflation(found, null, 4)).toBeGreaterThan(1.8 * ((1 + correlation) / (1 - correlation)));
  });
});

test("residuals that are one slow wave are worth one reading, not less", () => {
  const wave = Float64Array.from({ length: 480 }, (_, i) => Math.cos(i / 150));
  expect(varianceInflation(wave, null, 4)).toBe(480);
});

test("unit weights and no weights are the same", () => {
  const found = residuals("AR(1) 0.6");
  expect(varianceInflation(found, new Float64Array(found.length).fill(1), 4)).toBe(varianceInflation(found, null, 4));
});

test("a dozen residuals hold no memory worth the name, and perfect ones none", () => {
  expect(
    varianceInflation(
      Float64Array.from({ length: 12 }, (_, i) => i),
      null,
      4,
    ),
  ).toBe(1);
  expect(varianceInflation(new Float64Array(100), null, 4)).toBe(1);
});

describe("cooling that builds up over 10 to 30 min can pass for another rate", () => {
  const holds = (hours: number) => {
    const fit = fitted(modelStretch({ hours }));
    return withstandsSoftStart(fit, pullDownIntervals(fit));
  };
  test("in 3 h it would, so rate and depth are not given", () => expect(holds(3)).toBe(false));
  test("a fit is left as it was", () => {
    const stretch = modelStretch({ hours: 4 });
    const fit = fitted(stretch);
    const before = structuredClone(fit.pullDown);
    withstandsSoftStart(fit, pullDownIntervals(fit));
    expect(fit.pullDown).toEqual(before);
    expect(fitPullDown(stretch)).toMatchObject({ pullDown: before });
  });
});
