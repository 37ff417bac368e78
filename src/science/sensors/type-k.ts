// Type K thermocouples, for boiler and flue: the reference function of IEC 60584-1:2013 (the same as in NIST Monograph 175,
// 1993), turned round, with the cold junction taken into account.

import { combined, type MeasuredCelsius, rectangular } from "./measured.ts";

const lowest = -200;
const highest = 1372;

/**
 * Voltage in mV over °C, below and from 0 °C; from 0 °C on with a bell on top. IEC 60584-1:2013; NIST Monograph 175,
 * Table 7.2.1 ff.
 */
const belowZero = [
  0, 0.039450128025, 2.3622373598e-5, -3.2858906784e-7, -4.9904828777e-9, -6.7509059173e-11, -5.7410327428e-13,
  -3.1088872894e-15, -1.0451609365e-17, -1.9889266878e-20, -1.6322697486e-23,
];
const fromZero = [
  -0.017600413686, 0.038921204975, 1.8558770032e-5, -9.9457592874e-8, 3.1840945719e-10, -5.6072844889e-13,
  5.6075059059e-16, -3.2020720003e-19, 9.7151147152e-23, -1.2104721275e-26,
];
const bell = { height: 0.1185976, width: -1.183432e-4, centre: 126.9686 };

/** °C over mV by ranges, within 0.06 K; where the search for the exact temperature begins. Source as above. */
const inverses = [
  {
    below: 0,
    polynomial: [
      0, 25.173462, -1.1662878, -1.0833638, -0.8977354, -0.37342377, -0.086632643, -0.010450598, -5.1920577e-4,
    ],
  },
  {
    below: 20.644,
    polynomial: [
      0, 25.08355, 0.07860106, -0.2503131, 0.0831527, -0.01228034, 9.804036e-4, -4.41303e-5, 1.057734e-6, -1.052755e-8,
    ],
  },
  {
    below: Infinity,
    polynomial: [-131.8058, 48.30222, -1.646031, 0.05464731, -9.650715e-4, 8.802193e-6, -3.11081e-8],
  },
];

/** Tolerances of IEC 60584-1:2013 from -40 °C on, the larger of the two, K. From memory. */
const toleranceClasses = { 1: { least: 1.5, share: 0.004 }, 2: { least: 2.5, share: 0.0075 } } as const;

/**
 * The voltage of a type K couple with its cold junction at 0 °C, mV.
 *
 * @throws RangeError outside -200 to 1372 °C.
 * @example typeKMillivolts(100) // 4.0962
 */
export function typeKMillivolts(celsius: number): number {
  if (!(celsius >= lowest && celsius <= highest)) {
    throw new RangeError(`a type K couple is described from ${lowest} to ${highest} °C, not at ${celsius}`);
  }
  return millivoltsAt(celsius);
}

/**
 * The temperature of the hot junction, °C.
 *
 * @param millivolts as measured between the cold ends.
 * @param coldJunctionCelsius where the couple's wires end. 0 for a voltage that a front end has already compensated.
 * @returns null where no type K couple gives that voltage: an open or reversed one.
 */
export function typeKCelsius(millivolts: number, coldJunctionCelsius: number): number | null {
  const total = millivolts + typeKMillivolts(coldJunctionCelsius);
  if (!(total >= millivoltsAt(lowest) && total <= millivoltsAt(highest))) return null;
  const { polynomial } = inverses.find(({ below }) => total < below) ?? inverses[2];
  let celsius = polynomialAt(polynomial, total);
  for (let step = 0; step < 3; step++) celsius -= (millivoltsAt(celsius) - total) / millivoltsPerKelvin(celsius);
  return celsius;
}

/** The same with its standard uncertainty: the class's tolerance, the voltage's, and the cold junction's. */
export function measuredByTypeK(
  millivolts: number,
  coldJunction: MeasuredCelsius,
  {
    toleranceClass,
    millivoltsUncertainty,
  }: { readonly toleranceClass: keyof typeof toleranceClasses; readonly millivoltsUncertainty: number },
): MeasuredCelsius | null {
  const celsius = typeKCelsius(millivolts, coldJunction.celsius);
  if (celsius === null) return null;
  const { least, share } = toleranceClasses[toleranceClass];
  const perKelvin = millivoltsPerKelvin(celsius);
  const coldShare = millivoltsPerKelvin(coldJunction.celsius) / perKelvin;
  return {
    celsius,
    standardUncertainty: combined(
      rectangular(Math.max(least, share * Math.abs(celsius))),
      millivoltsUncertainty / perKelvin,
      coldShare * coldJunction.standardUncertainty,
    ),
  };
}

function millivoltsAt(t: number): number {
  return t < 0 ? polynomialAt(belowZero, t) : polynomialAt(fromZero, t) + bellAt(t);
}

function millivoltsPerKelvin(t: number): number {
  if (t < 0) return polynomialAt(derivative(belowZero), t);
  return polynomialAt(derivative(fromZero), t) + 2 * bell.width * (t - bell.centre) * bellAt(t);
}

const bellAt = (t: number) => bell.height * Math.exp(bell.width * (t - bell.centre) ** 2);

const polynomialAt = (coefficients: readonly number[], x: number) =>
  coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0);

const derivative = (coefficients: readonly number[]) => coefficients.slice(1).map((value, i) => value * (i + 1));
