import { describe, expect, test } from "vitest";
import { cabinetTemperature, hoursToFall, meanDecay, type PullDown } from "../../../src/science/pull-down/pull-down.ts";
import { off, published } from "../published.ts";

const { textbookCooling } = published("curves.json");
const { atp, lumped, stepResponse } = published("absorption.json");

/** The model at single instants, h, in still air. */
function temperatureAt(instants: readonly number[], pullDown: Partial<PullDown>, ambient: number): readonly number[] {
  const hours = Float64Array.of(0, ...instants);
  const course = { hours, ambientCelsius: new Float64Array(hours.length).fill(ambient) };
  const whole = { start: ambient, onset: 0, rate: 1, depth: 0, jumps: [], ...pullDown };
  return [...cabinetTemperature(course, whole, { warmingRate: 0 })].slice(1);
}

// A body in still air is a pull-down of depth 0: it closes on the air with its rate.
describe("cooling examples of OpenStax Calculus come out as computed, and as printed", () => {
  interface Example {
    readonly source: string;
    readonly T0: number;
    readonly Ta: number;
    readonly k: number;
    readonly at?: readonly (readonly [number, number])[];
    readonly times?: readonly { readonly T: number; readonly t: number; readonly printed?: number }[];
    readonly values?: readonly { readonly t: number; readonly T: number }[];
  }
  for (const [row, { source, T0, Ta, k, at = [], times = [], values = [] }] of (
    textbookCooling as readonly Example[]
  ).entries()) {
    test(`example ${row + 1}: ${source}`, () => {
      // Warming (the thawing) is a fall seen in the mirror.
      const timeTo = (T: number) => hoursToFall(k, Math.abs(T0 - Ta), Math.abs(T0 - T));
      for (const [t, T] of at) expect(timeTo(T)).toBeCloseTo(t, 10);
      for (const { t, T, printed } of times) {
        expect(timeTo(T)).toBeCloseTo(t, 10);
        // The book truncates 6.126 to 6.12.
        if (printed !== undefined) expect(Math.abs(t - printed)).toBeLessThan(0.01);
      }
      for (const { t, T } of values) {
        const found = t === 0 ? T0 : temperatureAt([t], { start: T0, rate: k }, Ta)[0];
        expect(found).toBeCloseTo(T, 10);
      }
    });
  }
});

// 1 - exp(-n): definition of the time constant.
test("after one to five time constants the share of the fall is 1 - exp(-n)", () => {
  const { n, value } = stepResponse.percent;
  const shares = temperatureAt(n, { rate: 1, depth: 1 }, 0).map((fall) => -fall);
  for (const [i, share] of shares.entries()) expect(share).toBeCloseTo(value[i], 14);
});

// ATP (UNECE) Annex 1: refrigerating power over wall loss is 1.35 or 1.75. The time to the class temperature is
// τ ln(r / (r - 1)), r the full depth over the wanted one (absorption.json, computed from the definition).
test("an ATP vehicle of 1.35 or 1.75 times its loss is down after 1.349927 or 0.847298 time constants", () => {
  expect(hoursToFall(1, atp.overcapacity.factorCombined, 1)).toBeCloseTo(1.349927, 6);
  expect(hoursToFall(1, atp.overcapacity.factorSeparate, 1)).toBeCloseTo(0.847298, 6);
  expect(hoursToFall(1, 2.5, 1)).toBeCloseTo(0.510826, 6);
});

// ATP Annex 1 Appendix 2, equipment in service, class A (to 0 °C): 180 min at 30 °C outside, 110 at 20 °C. One
// exponential with a factor of 1.75 that needs 180 min from 30 °C is sooner down from 20 °C, its depth the same.
test("an ATP pull-down that needs 180 min from 30 °C keeps the 110 min that class A allows from 20 °C", () => {
  const rate = Math.log(1.75 / 0.75) / 3;
  const depth = 1.75 * 30;
  expect(hoursToFall(rate, depth, 30)).toBeCloseTo(3, 12);
  expect(60 * Number(hoursToFall(rate, depth, 20))).toBeLessThan(110);
});

test("a fall as large as the depth is never reached, and no fall takes no time", () => {
  expect(hoursToFall(0.25, 27, 27)).toBeNull();
  expect(hoursToFall(0.25, 27, 30)).toBeNull();
  expect(hoursToFall(0.25, 27, 0)).toBe(0);
});

describe("lumped bodies of heat transfer textbooks", () => {
  // Lienhard & Lienhard, A Heat Transfer Textbook, chapter 1: solder bead, 20 °C into gas of 200 °C.
  test("the solder bead stands at 191.038 °C after three time constants", () => {
    const { startC, gasC, timeConstantS, at3TauC } = lumped[0];
    const found = temperatureAt([3 * timeConstantS], { start: startC, rate: 1 / timeConstantS }, gasC);
    expect(found[0]).toBeCloseTo(at3TauC, 10);
  });
  // Cengel, Heat Transfer, example 4-1: 99 % of the step; printed 10 s.
  test("the thermocouple junction reads 99 % of a step after 9.9413 s", () => {
    expect(hoursToFall(lumped[1].b, 1, 0.99)).toBeCloseTo(lumped[1].t99S, 10);
  });
  // Incropera & DeWitt, example 5.1: printed 5.2 s.
  test("the junction of time constant 1 s warms from 25 to 199 °C in gas of 200 °C in 5.165 s", () => {
    expect(hoursToFall(1 / lumped[2].tauS, 200 - 25, 199 - 25)).toBeCloseTo(lumped[2].from25inGas200to199S, 10);
  });
  // Measurement textbook, Scilab companion 1436, example 8.4.
  test("a probe that reads 200 °C three seconds into a step from 70 to 300 °C reads 242.61 °C at five", () => {
    const { stepC, tauS, at5SC } = lumped[3];
    expect(temperatureAt([5], { start: stepC[0], rate: 1 / tauS }, stepC[1])[0]).toBeCloseTo(at5SC, 9);
    expect(temperatureAt([3], { start: stepC[0], rate: 1 / tauS }, stepC[1])[0]).toBeCloseTo(200, 9);
  });
});

// Public control-course exercise: gain 3, time constant 2, dead time 5.
test("a lag with dead time answers a unit step as the control-course exercise says", () => {
  const found = temperatureAt([5, 7, 11], { onset: 5, rate: 0.5, depth: 3 }, 0);
  const { yAt5, yAt7, yAt11 } = stepResponse.exercise;
  expect(-found[0]).toBeCloseTo(yAt5, 12);
  expect(-found[1]).toBeCloseTo(yAt7, 12);
  expect(-found[2]).toBeCloseTo(yAt11, 12);
});

describe("two-point rules of process control give back the time constant and dead time of a pull-down", () => {
  const [timeConstant, deadTime] = [4, 0.67];
  const curve = { hours: Float64Array.from({ length: 40_001 }, (_, i) => i / 1000), depth: 27 };
  const course = { hours: curve.hours, ambientCelsius: new Float64Array(curve.hours.length).fill(25) };
  const pullDown = { start: 25, onset: deadTime, rate: 1 / timeConstant, depth: curve.depth, jumps: [] };
  const temperature = cabinetTemperature(course, pullDown, { warmingRate: 0.12 });
  /** When the share of the fall is read off the curve, linear between its points. */
  const readOff = (share: number) => {
    const wanted = 25 - share * curve.depth;
    const after = temperature.findIndex((value) => value <= wanted);
    const [high, low] = [temperature[after - 1], temperature[after]];
    return curve.hours[after - 1] + (0.001 * (high - wanted)) / (high - low);
  };
  // Between points 3.6 s apart a straight line strays from the curve by h² k / 8 = 3e-8 h.
  test("Smith (1972): 28.3 and 63.2 %", () => {
    const [early, late] = stepResponse.twoPoint.levels.map(readOff);
    expect(1.5 * (late - early)).toBeCloseTo(timeConstant, 6);
    expect(late - 1.5 * (late - early)).toBeCloseTo(deadTime, 6);
  });
  test("Sundaresan & Krishnaswamy (1978): 35.3 and 85.3 %", () => {
    const { levels, exactCoefficients } = stepResponse.twoPoint35_85;
    const [early, late] = levels.map(readOff);
    expect(exactCoefficients[0] * (late - early)).toBeCloseTo(timeConstant, 6);
    expect(exactCoefficients[1] * early - exactCoefficients[2] * late).toBeCloseTo(deadTime, 6);
    // The printed, rounded rule: 0.67, 1.3 and 0.29.
    expect(off(0.67 * (late - early), timeConstant)).toBeLessThan(0.01);
    expect(Math.abs(1.3 * early - 0.29 * late - deadTime)).toBeLessThan(0.05);
  });
  test("O'Dwyer (2006): one and two thirds", () => {
    const { levels, tauCoefficient, deadTimeCoefficient } = stepResponse.thirds;
    const [early, late] = levels.map(readOff);
    expect(tauCoefficient * (late - early)).toBeCloseTo(timeConstant, 6);
    expect(early - deadTimeCoefficient * timeConstant).toBeCloseTo(deadTime, 6);
  });
});

/** The heat balance in many small midpoint steps; the ambient linear between its readings. */
function integrated(
  pullDown: PullDown,
  setting: { warmingRate: number; buildUp: number },
  ambientAt: (hours: number) => number,
  until: number,
): number {
  const { rate, depth, onset, jumps } = pullDown;
  const slope = (hours: number, kelvin: number) => {
    if (hours < onset) return -setting.warmingRate * (kelvin - ambientAt(hours));
    const share = setting.buildUp > 0 ? -Math.expm1(-(hours - onset) / setting.buildUp) : 1;
    return -rate * (kelvin - ambientAt(hours) + depth * share);
  };
  const steps = 200_000;
  const h = until / steps;
  let temperature = pullDown.start;
  for (let i = 0; i < steps; i++) {
    const hours = i * h;
    for (const jump of jumps) if (jump.hours > hours && jump.hours <= hours + h) temperature += jump.kelvin;
    const middle = temperature + (h / 2) * slope(hours, temperature);
    temperature += h * slope(hours + h / 2, middle);
  }
  return temperature;
}

describe("the formula agrees with the heat balance integrated in small steps", () => {
  const hours = Float64Array.of(0, 0.3, 0.9, 1, 1.7, 3.2, 3.3, 5, 8);
  const ambientCelsius = Float64Array.of(25, 24, 26, 26.5, 23, 22, 27, 30, 21);
  const ambientAt = (at: number) => {
    const after = Math.max(
      1,
      hours.findIndex((hour) => hour >= at),
    );
    const share = (at - hours[after - 1]) / (hours[after] - hours[after - 1]);
    return ambientCelsius[after - 1] + share * (ambientCelsius[after] - ambientCelsius[after - 1]);
  };
  for (const [name, jumps, buildUp] of [
    ["with a step of cooling", [], 0],
    ["with cooling that builds up over 20 min", [], 1 / 3],
    ["with a build-up time equal to the time constant", [], 4],
    ["with two door openings", [2.5, 4].map((at) => ({ hours: at, kelvin: 3 })), 0],
    ["with doors and a build-up", [{ hours: 2.5, kelvin: 3 }], 0.5],
  ] as const) {
    test(`${name}, uneven readings and a drifting ambient`, () => {
      const pullDown = { start: 20, onset: 0.6, rate: 0.25, depth: 27, jumps };
      const setting = { warmingRate: 0.12, buildUp };
      const found = cabinetTemperature({ hours, ambientCelsius }, pullDown, setting);
      // Midpoint steps of 0.14 s: kinks at onset, doors and readings leave at most 1e-4 K.
      for (const at of [3, 5, 8]) {
        expect(Math.abs(found[at] - integrated(pullDown, setting, ambientAt, hours[at]))).toBeLessThan(3e-4);
      }
    });
  }
});

test("readings left out of a straight ambient do not change the others", () => {
  const ambient = (hours: Float64Array) => hours.map((hour) => 25 - 0.4 * hour);
  const pullDown = { start: 24, onset: 0.55, rate: 0.25, depth: 27, jumps: [{ hours: 2.2, kelvin: 2 }] };
  const all = Float64Array.from({ length: 200 }, (_, i) => i / 20);
  const some = all.filter((_, i) => i === 0 || i % 7 === 3 || (i > 100 && i < 130));
  const of = (hours: Float64Array) =>
    cabinetTemperature({ hours, ambientCelsius: ambient(hours) }, pullDown, { warmingRate: 0.12 });
  const whole = of(all);
  for (const [i, value] of of(some).entries()) expect(value).toBeCloseTo(whole[all.indexOf(some[i])], 11);
});

test("the mean of a decay is exact for short and long steps", () => {
  expect(meanDecay(0)).toBe(1);
  expect(meanDecay(1e-9)).toBeCloseTo(1 - 5e-10, 16);
  expect(meanDecay(1)).toBeCloseTo(1 - 1 / Math.E, 15);
});
