// Thermistors whose resistance falls as they warm (NTC): by the B parameter (IEC 60539-1), good within some tens of
// kelvins of its two temperatures, and by Steinhart and Hart (Deep-Sea Research 15, 497, 1968), good over all of a fridge.

import { kelvinOfZeroCelsius } from "../../schema/index.ts";
import { combined, type MeasuredCelsius } from "./measured.ts";

/** A curve by the B parameter. */
export interface BCurve {
  readonly ohmsAt25: number;
  /** K. */
  readonly b: number;
}

/** 1/T = a + b·ln R + c·(ln R)³, T in kelvin and R in ohms. */
export interface SteinhartHartCurve {
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

/** Standard uncertainties, as shares of the value: 0.01 is 1 %. */
export interface ThermistorUncertainty {
  /** Of the measured resistance. */
  readonly ohms: number;
  /** Of the resistance at 25 °C, where the probe has not been calibrated. */
  readonly ohmsAt25: number;
  readonly b: number;
}

const reference = kelvinOfZeroCelsius + 25;

/**
 * The temperature, °C, by the B parameter.
 *
 * @throws RangeError for a resistance not above 0: an open or shorted wire is a fault and no temperature.
 * @example thermistorByB(33_620.6037, { ohmsAt25: 10_000, b: 3950 }) // 0.0000
 */
export function thermistorByB(ohms: number, { ohmsAt25, b }: BCurve): number {
  checkOhms(ohms);
  return 1 / (1 / reference + Math.log(ohms / ohmsAt25) / b) - kelvinOfZeroCelsius;
}

/** The resistance at a temperature, Ω, by the B parameter. */
export function thermistorOhmsByB(celsius: number, { ohmsAt25, b }: BCurve): number {
  return ohmsAt25 * Math.exp(b * (1 / (celsius + kelvinOfZeroCelsius) - 1 / reference));
}

/** The temperature by the B parameter with its standard uncertainty, to first order (GUM 5.1.2). */
export function measuredByB(ohms: number, curve: BCurve, uncertainty: ThermistorUncertainty): MeasuredCelsius {
  const celsius = thermistorByB(ohms, curve);
  const kelvin = celsius + kelvinOfZeroCelsius;
  // T = 1/(1/T25 + ln(R/R25)/B): dT = -T²/B · (dR/R - dR25/R25) + T²·(1/T - 1/T25) · dB/B.
  const perShare = kelvin ** 2 / curve.b;
  const perShareOfB = kelvin ** 2 * (1 / kelvin - 1 / reference);
  return {
    celsius,
    standardUncertainty: combined(
      perShare * uncertainty.ohms,
      perShare * uncertainty.ohmsAt25,
      perShareOfB * uncertainty.b,
    ),
  };
}

/**
 * The temperature, °C, by Steinhart and Hart.
 *
 * @throws RangeError for a resistance not above 0.
 */
export function thermistorBySteinhartHart(ohms: number, { a, b, c }: SteinhartHartCurve): number {
  checkOhms(ohms);
  const log = Math.log(ohms);
  return 1 / (a + b * log + c * log ** 3) - kelvinOfZeroCelsius;
}

/** Resistances of thermistors in use, Ω: nothing that a board could measure lies outside. */
const [leastOhms, mostOhms] = [10, 10_000_000];

/**
 * The resistance at a temperature, Ω, by Steinhart and Hart.
 *
 * @returns null where the coefficients describe no thermistor: its resistance does not fall all the way from 10 MΩ to 10 Ω as it
 *   warms, or does not pass the temperature on that way
 */
export function ohmsBySteinhartHart(celsius: number, { a, b, c }: SteinhartHartCurve): number | null {
  const inverseKelvin = (log: number) => a + b * log + c * log ** 3;
  const wanted = 1 / (celsius + kelvinOfZeroCelsius);
  let [low, high] = [Math.log(leastOhms), Math.log(mostOhms)];
  const isFalling = [low, high].every((log) => b + 3 * c * log ** 2 > 0);
  if (!isFalling || !(inverseKelvin(low) <= wanted && inverseKelvin(high) >= wanted)) return null;
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (inverseKelvin(middle) < wanted) low = middle;
    else high = middle;
  }
  return Math.exp(high);
}

/** The temperature by Steinhart and Hart with the uncertainty of the measured resistance alone; `ohmsShare` 0.01 is 1 %. */
export function measuredBySteinhartHart(ohms: number, curve: SteinhartHartCurve, ohmsShare: number): MeasuredCelsius {
  const celsius = thermistorBySteinhartHart(ohms, curve);
  const kelvin = celsius + kelvinOfZeroCelsius;
  // d(1/T)/d(ln R) = b + 3c·(ln R)².
  const perShare = kelvin ** 2 * (curve.b + 3 * curve.c * Math.log(ohms) ** 2);
  return { celsius, standardUncertainty: Math.abs(perShare) * ohmsShare };
}

function checkOhms(ohms: number): void {
  if (!(ohms > 0 && ohms < Infinity)) throw new RangeError(`a thermistor has more than 0 Ω, not ${ohms}`);
}
