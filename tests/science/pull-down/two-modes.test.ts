import { expect, test } from "vitest";
import { cabinetTemperature } from "../../../src/science/pull-down/pull-down.ts";
import { buildUpHours, secondMode } from "../../../src/science/pull-down/two-modes.ts";
import { asPullDown, fitted, off, published } from "../published.ts";
import { modelStretch, normalRandom } from "./model-stretch.ts";

const { fits } = published("curves.json");
// Coffee is already warm when the clock starts: nothing to wait for, and a pull-down of its own readings.
const coffee = fitted(
  asPullDown(
    fits.coffeeBlack.data.x,
    fits.coffeeBlack.data.y.map((value: number) => -value),
  ),
  { held: { onset: 0 } },
);

// Cup of black coffee, Gould & Tobochnik, An Introduction to Computer Simulation Methods, chapter 2; R 4.2.2 nls.
test("black coffee fits one exponential beautifully, with a settled temperature of 32 °C in a room of 17 °C", () => {
  expect(-coffee.pullDown.depth).toBeCloseTo(fits.coffeeBlack.parameters.Asym, 6);
  expect(coffee.rss).toBeCloseTo(fits.coffeeBlack.residualSumOfSquares, 9);
  expect(Math.sqrt(coffee.rss / coffee.count)).toBeLessThan(0.32);
});

test("one mode is said not to fit black coffee: F(2, 19) is 67.93 as in R, and so rare that no doubt is left", () => {
  const two = secondMode(coffee);
  if (two === null) throw new Error("one mode was thought enough");
  const ratio = (coffee.rss - two.fit.rss) / 2 / (two.fit.rss / 19);
  expect(off(ratio, fits.coffeeBlackTwoExponentials.extraSumOfSquaresF.F)).toBeLessThan(1e-7);
  expect(two.pValue).toBeLessThan(1e-6);
});

test("readings of one mode are left with one mode, whatever their noise remembers", () => {
  for (const noise of ["white", "AR(1) 0.6", "AR(1) 0.9", "0.0625 K steps"] as const) {
    const found = Array.from({ length: 40 }, (_, seed) => secondMode(fitted(modelStretch({ noise }, seed))));
    // A false alarm once in a thousand: one in 40 would be a strange day, two would not be chance.
    expect(found.filter((two) => two !== null).length, noise).toBeLessThanOrEqual(1);
  }
});

test("contents slower than the air are seen as a second mode that closes the gap in the residuals", () => {
  const stretch = modelStretch({ noise: "none", depth: 0.001, start: 25, ambient: "constant" });
  const random = normalRandom(7);
  const cabinetCelsius = stretch.hours.map((hours) => {
    const since = Math.max(0, hours - 0.67);
    return 25 - 27 + 9 * Math.exp(-1.5 * since) + 18 * Math.exp(-0.2 * since) + 0.05 * random();
  });
  const fit = fitted({ ...stretch, cabinetCelsius });
  const two = secondMode(fit);
  if (two === null) throw new Error("one mode was thought enough");
  expect(two.fit.rates[0]).toBeCloseTo(0.2, 1);
  // Two modes in place of the one that `amplitude` stands for follow the readings within their noise.
  const one = cabinetTemperature(fit.readings, fit.pullDown, { warmingRate: fit.warmingRate });
  const { onset, rate } = fit.pullDown;
  let squares = 0;
  let count = 0;
  for (const [i, hours] of stretch.hours.entries()) {
    const since = hours - onset;
    if (since < buildUpHours) continue;
    const modes = two.fit.rates.reduce((sum, k, j) => sum + two.fit.amplitudes[j] * Math.exp(-k * since), 0);
    const curve = one[i] + two.fit.constant + modes - two.amplitude * Math.exp(-rate * since);
    squares += (cabinetCelsius[i] - curve) ** 2;
    count++;
  }
  expect(Math.sqrt(squares / count)).toBeLessThan(0.06);
});

test("a stretch with hardly a reading after the onset is not asked for a second mode", () => {
  expect(secondMode(fitted(modelStretch({ hours: 1, stepMinutes: 5 })))).toBeNull();
});
