import { levenbergMarquardt } from "ml-levenberg-marquardt";
import { describe, expect, test } from "vitest";
import { cabinetTemperature } from "../../../src/science/pull-down/pull-down.ts";
import { type FittedPullDown, fitPullDown } from "../../../src/science/pull-down/pull-down-fit.ts";
import { type StretchReadings, UnusableReadings } from "../../../src/science/pull-down/pull-down-readings.ts";
import { asPullDown, certified, fitted, heaterStep, off, published } from "../published.ts";
import { modelStretch, usualStretch } from "./model-stretch.ts";

// NIST StRD, nonlinear regression, certified to 11 digits. y = b1 (1 - exp(-b2 x)) is a pull-down of -y whose start
// and onset are held at 0. The scan needs no start values. BoxBOD is of NIST's higher difficulty.
describe("a pull-down with its start and onset held agrees with NIST to 9 digits or more", () => {
  for (const [name, digits] of [
    ["Misra1a", 10],
    ["BoxBOD", 9],
  ] as const) {
    test(`${name}: values, standard errors and sum of squares`, () => {
      const { data, certified: answer } = certified(name);
      const fit = fitted(asPullDown(data.x, data.y), { held: { onset: 0, start: 0 } });
      const within = 10 ** -digits;
      expect(off(fit.pullDown.depth, answer.parameters[0])).toBeLessThan(within);
      expect(off(fit.pullDown.rate, answer.parameters[1])).toBeLessThan(within);
      expect(off(fit.standardErrors.depth, answer.standardDeviations[0])).toBeLessThan(within);
      expect(off(fit.standardErrors.rate, answer.standardDeviations[1])).toBeLessThan(within);
      expect(off(fit.rss, answer.residualSumOfSquares)).toBeLessThan(1e-10);
    });
  }
});

// R 4.2.2 nls with SSasymp, polished to 13 digits; Asym = -depth, R0 = start, lrc = ln(rate).
describe("a pull-down with its onset held agrees with R's nls", () => {
  const { fits } = published("curves.json");
  for (const [name, held, mirror] of [
    ["loblolly329", {}, 1],
    ["bod", { start: 0 }, 1],
    ["coffeeBlack", {}, -1],
    ["coffeeCream", {}, -1],
  ] as const) {
    test(name, () => {
      const { data, parameters, standardErrors, residualSumOfSquares } = fits[name];
      const mirrored = data.y.map((value: number) => mirror * value);
      const fit = fitted(asPullDown(data.x, mirrored), { held: { onset: 0, ...held } });
      // Gauss-Newton stops at 1e-9 standard errors.
      expect(off(mirror * fit.pullDown.depth, parameters.Asym)).toBeLessThan(1e-8);
      expect(off(Math.log(fit.pullDown.rate), parameters.lrc)).toBeLessThan(1e-8);
      expect(off(fit.standardErrors.depth, standardErrors.Asym)).toBeLessThan(1e-8);
      expect(off(fit.standardErrors.rate / fit.pullDown.rate, standardErrors.lrc)).toBeLessThan(1e-8);
      expect(off(fit.rss, residualSumOfSquares)).toBeLessThan(1e-11);
      if ("start" in held) return;
      expect(off(-mirror * fit.pullDown.start, parameters.R0)).toBeLessThan(1e-8);
      expect(off(fit.standardErrors.start, standardErrors.R0)).toBeLessThan(1e-8);
    });
  }
  // Asymptote held at the room's 17 °C: a pull-down of depth 0 in air of 17 °C.
  for (const name of ["coffeeBlackRoom17", "coffeeCreamRoom17"] as const) {
    test(`${name}, the depth held too`, () => {
      const { data, parameters, standardErrors, residualSumOfSquares } = fits[name];
      const air = new Float64Array(data.x.length).fill(17);
      const readings = {
        hours: Float64Array.from(data.x),
        cabinetCelsius: Float64Array.from(data.y),
        ambientCelsius: air,
      };
      const fit = fitted(readings, { held: { onset: 0, depth: 0 } });
      expect(off(fit.pullDown.rate, parameters.k)).toBeLessThan(1e-9);
      expect(off(fit.pullDown.start, parameters.T0)).toBeLessThan(1e-9);
      expect(off(fit.standardErrors.rate, standardErrors.k)).toBeLessThan(1e-8);
      expect(off(fit.rss, residualSumOfSquares)).toBeLessThan(1e-11);
    });
  }
});

// A measured step with dead time, 1,001 readings in steps of 0.32 K: public repository jckantor/TCLab (MIT licence,
// text in tests/reference/series/README.md, which has SciPy's and R's answers). The sum of squares has a kink in the
// dead time at every reading: T2 has a second minimum of 135.9676 at 89.92 s.
describe("a measured heater step is fitted to its least sum of squares", () => {
  for (const [column, rss, timeConstant, deadTime, digits] of [
    ["T1", 106.17433175, 150.45157, 27.58597, 4],
    ["T2", 135.9541328, 216.719, 90.31, 2],
  ] as const) {
    test(`${column}: time constant ${timeConstant} s, dead time ${deadTime} s`, () => {
      const { seconds, celsius } = heaterStep(column);
      // No air of its own: before the onset the sensor holds still.
      const fit = fitted(asPullDown(seconds, celsius), { warmingRate: 0 });
      // Ours may be the lower: SciPy too stops a little beside the kinked minimum of T2.
      expect(fit.rss).toBeLessThan(rss * (1 + 1e-8));
      expect(off(fit.rss, rss)).toBeLessThan(2e-8);
      // Over 1,000 readings the last step leaves less than 1e-4 standard errors (0.3 s and 0.4 s here).
      expect(1 / fit.pullDown.rate).toBeCloseTo(timeConstant, digits - 1);
      expect(fit.pullDown.onset).toBeCloseTo(deadTime, digits);
      // Residuals that remember 0.8 of the one before: plain standard errors are too small, and the fit says so.
      expect(fit.inflation).toBeGreaterThan(8);
    });
  }
  test("T1: start, rise and standard errors", () => {
    const { seconds, celsius } = heaterStep("T1");
    const { pullDown, standardErrors } = fitted(asPullDown(seconds, celsius), { warmingRate: 0 });
    expect(-pullDown.start).toBeCloseTo(23.39642857, 6);
    expect(pullDown.depth + pullDown.start).toBeCloseTo(41.79019719, 5);
    expect(standardErrors.start).toBeCloseTo(0.0617, 4);
    expect(standardErrors.rate / pullDown.rate ** 2).toBeCloseTo(0.3581, 4);
    expect(standardErrors.onset).toBeCloseTo(0.2987, 4);
  });
});

// ml-levenberg-marquardt 5.1 on the same model, started at our answer and, where it can, farther off.
describe("a general least-squares library finds no smaller sum of squares for the same model", () => {
  for (const [name, changes] of [
    ["12 h, white noise", { hours: 12 }],
    ["12 h, slow noise", { hours: 12, noise: "AR(1) 0.9" }],
    ["4 h, steps", { hours: 4, noise: "0.0625 K steps" }],
    ["12 h at 10 s", { hours: 12, stepMinutes: 1 / 6 }],
    ["12 h at 1 s", { hours: 12, stepMinutes: 1 / 60 }],
  ] as const) {
    test(name, () => {
      for (const seed of [1, 2, 3]) {
        const stretch = modelStretch({ ...changes, ambient: "drifting" }, seed);
        const fit = fitted(stretch);
        expect(off(leastByLibrary(stretch, fit), fit.rss)).toBeLessThan(1e-8);
      }
    });
  }
});

/** The library's sum of squares; it fits k, onset, D and start in units of our standard errors. */
function leastByLibrary(stretch: StretchReadings, { pullDown, standardErrors, warmingRate }: FittedPullDown): number {
  const order = ["rate", "onset", "depth", "start"] as const;
  const modelAt = (moves: readonly number[]) => {
    const moved = { ...pullDown };
    for (const [at, name] of order.entries()) moved[name] += moves[at] * standardErrors[name];
    return cabinetTemperature(stretch, moved, { warmingRate });
  };
  let kept: { key: string; model: Float64Array } = { key: "", model: new Float64Array(0) };
  const { parameterError } = levenbergMarquardt(
    { x: stretch.hours.map((_, i) => i), y: stretch.cabinetCelsius },
    (moves) => {
      const key = moves.join();
      if (kept.key !== key) kept = { key, model: modelAt(moves) };
      const { model } = kept;
      return (i) => model[i];
    },
    {
      initialValues: [0.3, -0.3, 0.3, -0.3],
      damping: 1e-3,
      gradientDifference: 0.01,
      centralDifference: true,
      maxIterations: stretch.hours.length > 2000 ? 8 : 25,
      errorTolerance: 0,
    },
  );
  return parameterError;
}

describe("readings without noise give the pull-down back", () => {
  for (const [name, changes] of [
    ["a usual night", {}],
    ["a still ambient", { ambient: "constant" }],
    ["an onset between two readings", { onset: 0.6789 }],
    ["a slow fridge", { rate: 0.08, depth: 35 }],
    ["a quick one", { rate: 1.2 }],
    ["a start far below ambient", { start: 12 }],
    ["one reading in ten minutes", { stepMinutes: 10 }],
    ["a late onset", { onset: 3.3 }],
  ] as const) {
    test(name, () => {
      const wanted = { ...usualStretch, ...changes };
      const { pullDown } = fitted(modelStretch({ ...changes, noise: "none" }));
      expect(pullDown.rate).toBeCloseTo(wanted.rate, 7);
      expect(pullDown.depth).toBeCloseTo(wanted.depth, 6);
      expect(pullDown.onset).toBeCloseTo(wanted.onset, 6);
      expect(pullDown.start).toBeCloseTo(wanted.start, 6);
    });
  }
});

test("gaps and uneven spacing are no trouble", () => {
  const whole = modelStretch({ noise: "none" });
  const keep = (_: number, i: number) => i % 7 < 3 && (i < 200 || i > 290);
  const { pullDown } = fitted({
    hours: whole.hours.filter(keep),
    cabinetCelsius: whole.cabinetCelsius.filter(keep),
    ambientCelsius: whole.ambientCelsius.filter(keep),
  });
  // The drifting ambient is straight between readings: 90 min left out bend it by a few hundredths of a kelvin.
  expect(pullDown.rate).toBeCloseTo(usualStretch.rate, 3);
  expect(pullDown.depth).toBeCloseTo(usualStretch.depth, 1);
  expect(pullDown.onset).toBeCloseTo(usualStretch.onset, 2);
});

test("a stretch whose first reading comes late is fitted from the switch-on", () => {
  const whole = modelStretch({ noise: "none", ambient: "constant" });
  const late = {
    hours: whole.hours.slice(15),
    cabinetCelsius: whole.cabinetCelsius.slice(15),
    ambientCelsius: whole.ambientCelsius.slice(15),
  };
  const fit = fitted(late);
  expect(fit.pullDown.onset).toBeCloseTo(usualStretch.onset, 6);
  expect(fit.pullDown.start).toBeCloseTo(usualStretch.start, 6);
  expect(fit.count).toBe(late.hours.length);
});

describe("what is known beforehand stays, and narrows the rest", () => {
  const stretch = modelStretch({ hours: 4 });
  const free = fitted(stretch);
  test("held parameters come back unchanged, with no error", () => {
    const held = { onset: 0.7, start: 23.9, depth: 27.5 };
    const fit = fitted(stretch, { held });
    expect(fit.pullDown).toMatchObject(held);
    expect(fit.standardErrors).toMatchObject({ onset: 0, start: 0, depth: 0 });
    expect(fit.parameters).toBe(1);
  });
  for (const held of [{ onset: usualStretch.onset }, { start: usualStretch.start }, { depth: usualStretch.depth }]) {
    test(`with ${Object.keys(held)[0]} held the rate's error is smaller and the rate within three of the old`, () => {
      const fit = fitted(stretch, { held });
      // The variance of a reading is estimated anew: it may come out a little larger.
      expect(fit.standardErrors.rate).toBeLessThan(1.005 * free.standardErrors.rate);
      expect(Math.abs(fit.pullDown.rate - usualStretch.rate)).toBeLessThan(3 * free.standardErrors.rate);
      expect(fit.rss).toBeGreaterThan(free.rss);
    });
  }
});

describe("a door opening is a jump that decays with the rate", () => {
  const whole = modelStretch({ noise: "none" });
  const jumps = [
    { hours: 3, kelvin: 4 },
    { hours: 6.51, kelvin: 2.5 },
  ];
  const opened = cabinetTemperature(whole, { ...usualStretch, jumps }, { warmingRate: usualStretch.warmingRate });
  const stretch = { ...whole, cabinetCelsius: opened };
  test("told of the openings, the fit gives pull-down and jumps back, in any order", () => {
    const fit = fitted(stretch, { doorHours: [6.51, 3] });
    expect(fit.pullDown.rate).toBeCloseTo(usualStretch.rate, 7);
    expect(fit.pullDown.depth).toBeCloseTo(usualStretch.depth, 6);
    for (const [j, { hours, kelvin }] of fit.pullDown.jumps.entries()) {
      expect(hours).toBe(jumps[j].hours);
      expect(kelvin).toBeCloseTo(jumps[j].kelvin, 6);
    }
  });
  test("not told, it is off by more than a twentieth", () => {
    expect(off(fitted(stretch).pullDown.rate, usualStretch.rate)).toBeGreaterThan(0.05);
  });
  test("an opening before a held onset, or after the last reading, is none of the pull-down's", () => {
    const fit = fitted(whole, { held: { onset: usualStretch.onset }, doorHours: [0.3, 20] });
    expect(fit.pullDown.jumps).toEqual([]);
    expect(fit.pullDown.rate).toBeCloseTo(usualStretch.rate, 7);
  });
  test("with its onset free, the pull-down begins before the first opening", () => {
    for (const hours of [0.1, 0.5, 0.66, 0.7, 2]) {
      const { onset, rate, depth } = fitted(modelStretch({}, 4), { doorHours: [hours] }).pullDown;
      expect(onset).toBeLessThanOrEqual(Math.max(hours, usualStretch.onset + 0.1));
      for (const value of [onset, rate, depth]) expect(value).toSatisfy(Number.isFinite);
    }
  });
  test("an opening that let no heat in adds no jump and no cold", () => {
    const colder = whole.cabinetCelsius.map((value, i) => (whole.hours[i] > 5 ? value - 0.2 : value));
    const fit = fitted({ ...whole, cabinetCelsius: colder }, { doorHours: [5] });
    for (const jump of fit.pullDown.jumps) expect(jump.kelvin).toBeGreaterThanOrEqual(0);
  });
});

test("robust weights keep single bad readings from bending the curve", () => {
  const stretch = modelStretch();
  const cabinetCelsius = stretch.cabinetCelsius.map((value, i) => (i % 40 === 7 ? value + 3 : value));
  const plain = fitted({ ...stretch, cabinetCelsius });
  const robust = fitted({ ...stretch, cabinetCelsius }, { robust: true });
  const clean = fitted(stretch);
  const error = (fit: FittedPullDown) => Math.abs(fit.pullDown.depth - clean.pullDown.depth);
  expect(error(robust)).toBeLessThan(error(plain) / 5);
  expect(off(robust.standardErrors.rate, clean.standardErrors.rate)).toBeLessThan(0.15);
});

test("robust weights cost nothing on clean readings", () => {
  const stretch = modelStretch();
  const [plain, robust] = [fitted(stretch), fitted(stretch, { robust: true })];
  expect(Math.abs(robust.pullDown.rate - plain.pullDown.rate)).toBeLessThan(0.5 * plain.standardErrors.rate);
  expect(off(robust.standardErrors.rate, plain.standardErrors.rate)).toBeLessThan(0.1);
});

// The least sum of squares is never above that of the pull-down that made the readings. Short stretches are a curved valley
// in rate and depth, where steps along straight lines in both creep or go astray.
describe("the fit is never worse than the truth", () => {
  for (const [hours, stepMinutes, robust] of [
    [2, 0.1, false],
    [2, 0.1, true],
    [2, 0.5, true],
  ] as const) {
    test(`${hours} h, a reading every ${stepMinutes} min${robust ? ", robust" : ""}, 20 seeds`, () => {
      const truth = { ...usualStretch, rate: 0.15, onset: 0.77, start: 25, jumps: [] };
      for (let seed = 1; seed <= 20; seed++) {
        const stretch = modelStretch({ ...truth, hours, stepMinutes }, seed);
        const squares = (pullDown: typeof truth | FittedPullDown["pullDown"]) =>
          cabinetTemperature(stretch, pullDown, truth).reduce(
            (sum, celsius, i) => sum + (stretch.cabinetCelsius[i] - celsius) ** 2,
            0,
          );
        const fit = fitted(stretch, { robust, warmingRate: truth.warmingRate });
        expect(squares(fit.pullDown)).toBeLessThan(squares(truth) * (robust ? 1.01 : 1 + 1e-9));
      }
    });
  }
});

describe("arrays that are no stretch are refused before any work, saying what is wrong", () => {
  const good = modelStretch({ hours: 1 });
  const [hours, cabinetCelsius, ambientCelsius] = [good.hours, good.cabinetCelsius, good.ambientCelsius];
  const cut = (n: number) => ({
    hours: hours.slice(0, n),
    cabinetCelsius: cabinetCelsius.slice(0, n),
    ambientCelsius: ambientCelsius.slice(0, n),
  });
  for (const [name, stretch, code, message] of [
    ["four readings", cut(4), "too-few-readings", /4 readings.* at least 5/],
    ["no readings", cut(0), "too-few-readings", /0 readings.* at least 5/],
    [
      "lengths that differ",
      { ...good, ambientCelsius: ambientCelsius.slice(1) },
      "lengths-differ",
      /61 instants, 61 cabinet and 60 ambient/,
    ],
    ["weights of another length", { ...good, weights: new Float64Array(3) }, "lengths-differ", /3 weights/],
    [
      "time that stands still",
      { ...good, hours: hours.with(30, hours[29]) },
      "not-ascending",
      /reading 31 of 61: time does not advance/,
    ],
    ["time that goes backwards", { ...good, hours: hours.toReversed() }, "not-ascending", /reading 2 of 61/],
    ["an instant that is no number", { ...good, hours: hours.with(5, Number.NaN) }, "not-ascending", /reading 6 of 61/],
    [
      "a first instant before the switch-on",
      { ...good, hours: hours.map((hour) => hour - 0.5) },
      "before-switch-on",
      /-0.5 h/,
    ],
    [
      "a missing cabinet reading",
      { ...good, cabinetCelsius: cabinetCelsius.with(7, Number.NaN) },
      "not-finite",
      /reading 8 of 61.*cabinet NaN/,
    ],
    [
      "an endless ambient",
      { ...good, ambientCelsius: ambientCelsius.with(60, Number.POSITIVE_INFINITY) },
      "not-finite",
      /reading 61 of 61.*ambient Infinity/,
    ],
  ] as const) {
    test(name, () => {
      expect(() => fitPullDown(stretch)).toThrow(UnusableReadings);
      expect(() => fitPullDown(stretch)).toThrow(
        expect.objectContaining({ code, message: expect.stringMatching(message) }),
      );
    });
  }
});

describe("readings that are no pull-down give numbers or none, never NaN", () => {
  const hours = Float64Array.from({ length: 60 }, (_, i) => i / 10);
  const still = hours.map(() => 25);
  for (const [name, cabinet, ambient] of [
    ["constant, equal to the ambient", hours.map(() => 25), still],
    ["constant, below the ambient", hours.map(() => 5), still],
    ["two levels", hours.map((hour) => (hour < 3 ? 25 : 5)), still],
    ["a step in a single reading", hours.map((_, i) => (i === 30 ? 5 : 25)), still],
    ["stairs", hours.map((hour) => 25 - 5 * Math.floor(hour)), still],
    ["a straight line", hours.map((hour) => 25 - hour), still],
    ["warming", hours.map((hour) => 5 + hour), still],
    [
      "an ambient equal to the cabinet",
      hours.map((hour) => 25 - hour ** 2 / 10),
      hours.map((hour) => 25 - hour ** 2 / 10),
    ],
    ["a wild ambient", hours.map((hour) => 25 - hour), hours.map((_, i) => (i % 2 === 0 ? 60 : -20))],
    ["a saw", hours.map((_, i) => i % 5), still],
  ] as const) {
    for (const robust of [false, true]) {
      test(`${name}${robust ? ", robust" : ""}`, () => {
        const fit = fitPullDown({ hours, cabinetCelsius: cabinet, ambientCelsius: ambient }, { robust });
        if (fit.outcome === "not fitted") return expect(fit.reason).toBe("no shape");
        const { jumps, ...values } = fit.pullDown;
        expect(jumps).toEqual([]);
        for (const value of Object.values(values)) expect(value).toSatisfy(Number.isFinite);
        for (const error of Object.values(fit.standardErrors)) expect(error).toBeGreaterThanOrEqual(0);
        expect(fit.rss).toBeGreaterThanOrEqual(0);
        expect(fit.inflation).toBeGreaterThanOrEqual(1);
      });
    }
  }
});
