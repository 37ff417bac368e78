import { describe, expect, test } from "vitest";
import { fitPullDown } from "../../../src/science/pull-down/pull-down-fit.ts";
import { type Interval, pullDownIntervals } from "../../../src/science/pull-down/pull-down-intervals.ts";
import { asPullDown, fitted, published } from "../published.ts";
import { modelStretch, type Noise, usualStretch } from "./model-stretch.ts";

// R 4.2.2 confint.nls: profile likelihood, which R reads off a spline. Ends are compared in widths of R's interval. BOD's
// six readings bend the depth so much that its upper end, read off the points of the profile, falls 2 % short.
describe("profile intervals agree with R's confint", () => {
  const { fits } = published("curves.json");
  const apart = (found: number | null, expected: number, [low, high]: readonly [number, number]) =>
    found === null ? Number.POSITIVE_INFINITY : Math.abs(found - expected) / (high - low);
  for (const [name, held, mirror, withinDepth] of [
    ["loblolly329", {}, 1, 0.005],
    ["bod", { start: 0 }, 1, 0.02],
    ["coffeeBlack", {}, -1, 0.002],
    ["coffeeCream", {}, -1, 0.002],
  ] as const) {
    test(name, () => {
      const { data, profileLikelihoodCI95: answer } = fits[name];
      const readings = asPullDown(
        data.x,
        data.y.map((value: number) => mirror * value),
      );
      // R takes residuals as independent; coffee's are not, and our own interval is the wider for it.
      const { rate, depth } = pullDownIntervals({ ...fitted(readings, { held: { onset: 0, ...held } }), inflation: 1 });
      expect(apart(Math.log(rate.low ?? 0), answer.lrc[0], answer.lrc)).toBeLessThan(0.002);
      expect(apart(Math.log(rate.high ?? 0), answer.lrc[1], answer.lrc)).toBeLessThan(0.002);
      const [low, high] = mirror > 0 ? [depth.low, depth.high] : [-(depth.high ?? 0), -(depth.low ?? 0)];
      expect(apart(low, answer.Asym[0], answer.Asym)).toBeLessThan(withinDepth);
      expect(apart(high, answer.Asym[1], answer.Asym)).toBeLessThan(withinDepth);
    });
  }
});

const isInside = (value: number, { low, high }: Interval) =>
  (low === null || low <= value) && (high === null || value <= high);

// The smaller sister of tests/bench/interval-study.ts, whose table is in DEVELOPERS.md. Of 200 intervals that cover
// 95 %, fewer than 178 do so once in 10,000 times.
describe("95 % intervals cover the truth", () => {
  for (const [hours, noise] of [
    [7, "white"],
    [7, "AR(1) 0.6"],
    [12, "AR(1) 0.9"],
    [12, "white + 10 min wander"],
    [12, "0.0625 K steps"],
  ] as const satisfies readonly (readonly [number, Noise])[]) {
    test(`${hours} h, ${noise}, drifting ambient, 200 seeds`, () => {
      const covered = { rate: 0, depth: 0, initialSlope: 0, onset: 0 };
      for (let seed = 0; seed < 200; seed++) {
        const intervals = pullDownIntervals(fitted(modelStretch({ hours, noise }, seed)));
        const { rate, depth, onset } = usualStretch;
        if (isInside(rate, intervals.rate)) covered.rate++;
        if (isInside(depth, intervals.depth)) covered.depth++;
        if (isInside(rate * depth, intervals.initialSlope)) covered.initialSlope++;
        if (isInside(onset, intervals.onset)) covered.onset++;
      }
      for (const [name, count] of Object.entries(covered)) expect(count, name).toBeGreaterThanOrEqual(178);
    });
  }
});

test("intervals of independent readings are as wide as their standard errors say", () => {
  const fit = fitted(modelStretch());
  const { rate } = pullDownIntervals({ ...fit, inflation: 1 });
  const width = Number(rate.high) - Number(rate.low);
  expect(width / (2 * 1.96 * fit.standardErrors.rate)).toBeCloseTo(1, 2);
});

test("a stretch too short for its rate has an open interval, never a made-up end", () => {
  const { rate, depth } = pullDownIntervals(fitted(modelStretch({ hours: 1.2, noiseKelvin: 0.3 })));
  expect(rate.low).toBeNull();
  expect(depth.high).toBeNull();
});

test("held numbers have no width", () => {
  const { depth, onset } = pullDownIntervals(fitted(modelStretch(), { held: { depth: 27, onset: 0.67 } }));
  expect(depth).toEqual({ low: 27, high: 27 });
  expect(onset).toEqual({ low: 0.67, high: 0.67 });
});

test("the pull-downs called possible go from the slowest rate that the readings allow to the fastest", () => {
  const fit = fitted(modelStretch());
  const { possible, rate } = pullDownIntervals(fit);
  const rates = possible.map(({ pullDown }) => pullDown.rate);
  expect(rates).toEqual(rates.toSorted((a, b) => a - b));
  expect(rates[0]).toBeCloseTo(Number(rate.low), 10);
  expect(rates.at(-1)).toBeCloseTo(Number(rate.high), 10);
  for (const { depthReach } of possible) {
    expect(depthReach).toBeGreaterThanOrEqual(0);
  }
});

test("odd readings have intervals without NaN", () => {
  const hours = Float64Array.from({ length: 40 }, (_, i) => i / 8);
  const ambientCelsius = hours.map(() => 25);
  for (const cabinet of [
    hours.map((hour) => 25 - hour),
    hours.map((hour) => 5 + hour),
    hours.map((hour) => (hour < 2 ? 25 : 5)),
    hours.map((_, i) => i % 3),
    hours.map(() => 25),
  ]) {
    const fit = fitPullDown({ hours, cabinetCelsius: cabinet, ambientCelsius });
    if (fit.outcome === "not fitted") continue;
    const { possible, ...intervals } = pullDownIntervals(fit);
    for (const { low, high } of Object.values(intervals)) {
      for (const end of [low, high]) expect(end === null || Number.isFinite(end)).toBe(true);
      if (low !== null && high !== null) expect(low).toBeLessThanOrEqual(high);
    }
    expect(possible.every(({ pullDown }) => Number.isFinite(pullDown.rate))).toBe(true);
  }
});
