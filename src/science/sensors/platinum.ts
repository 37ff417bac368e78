// Platinum resistance probes, Pt100, by the Callendar-Van Dusen equation of IEC 60751:2008, both ways.

import { combined, type MeasuredCelsius, rectangular } from "./measured.ts";

/** Coefficients of IEC 60751:2008, clause 4. `c` counts below 0 °C only. */
const a = 3.9083e-3;
const b = -5.775e-7;
const c = -4.183e-12;
const ohmsAtZero = 100;
const lowest = -200;
const highest = 850;

/** Tolerance classes of IEC 60751:2008, Table 3: ± (at 0 °C + per kelvin · |t|), K. From memory. */
const toleranceClasses = {
  AA: { atZero: 0.1, perKelvin: 0.0017 },
  A: { atZero: 0.15, perKelvin: 0.002 },
  B: { atZero: 0.3, perKelvin: 0.005 },
  C: { atZero: 0.6, perKelvin: 0.01 },
} as const;
export type PlatinumClass = keyof typeof toleranceClasses;

/**
 * The resistance of a Pt100 at a temperature, Ω.
 *
 * @throws RangeError outside -200 to 850 °C.
 * @example platinumOhms(100) // 138.5055
 */
export function platinumOhms(celsius: number): number {
  if (!(celsius >= lowest && celsius <= highest)) {
    throw new RangeError(`IEC 60751 holds from ${lowest} to ${highest} °C, not at ${celsius}`);
  }
  return ohmsAt(celsius);
}

/**
 * The temperature of a Pt100, °C.
 *
 * @returns null for a resistance outside -200 to 850 °C: a broken or shorted wire.
 * @example platinumCelsius(138.5055) // 100.0000
 */
export function platinumCelsius(ohms: number): number | null {
  if (!(ohms >= ohmsAt(lowest) && ohms <= ohmsAt(highest))) return null;
  // Above 0 °C the equation is a square one; below, its root is off by 2.4 K at most and Newton's rule ends it.
  let celsius = (-a + Math.sqrt(a * a - 4 * b * (1 - ohms / ohmsAtZero))) / (2 * b);
  for (let step = 0; step < 4 && ohms < ohmsAtZero; step++) {
    celsius -= (ohmsAt(celsius) - ohms) / ohmsPerKelvin(celsius);
  }
  return celsius;
}

/**
 * The same with its standard uncertainty: the class's tolerance and that of the measured resistance.
 *
 * @param ohmsUncertainty standard uncertainty of the resistance, leads included, Ω.
 */
export function measuredByPlatinum(
  ohms: number,
  { toleranceClass, ohmsUncertainty }: { readonly toleranceClass: PlatinumClass; readonly ohmsUncertainty: number },
): MeasuredCelsius | null {
  const celsius = platinumCelsius(ohms);
  if (celsius === null) return null;
  const { atZero, perKelvin } = toleranceClasses[toleranceClass];
  return {
    celsius,
    standardUncertainty: combined(
      rectangular(atZero + perKelvin * Math.abs(celsius)),
      ohmsUncertainty / ohmsPerKelvin(celsius),
    ),
  };
}

function ohmsAt(t: number): number {
  const belowZero = t < 0 ? c * (t - 100) * t ** 3 : 0;
  return ohmsAtZero * (1 + a * t + b * t ** 2 + belowZero);
}

function ohmsPerKelvin(t: number): number {
  const belowZero = t < 0 ? c * (4 * t ** 3 - 300 * t ** 2) : 0;
  return ohmsAtZero * (a + 2 * b * t + belowZero);
}
