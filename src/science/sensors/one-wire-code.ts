// The temperature register of one-wire digital probes (18B20 type): a 16-bit two's complement number of sixteenths of a
// degree. Source: data sheet of the 18B20 type, table "Temperature/Data Relationship" and "Thermometer Error".

import { combined, type MeasuredCelsius, ofStep, rectangular } from "./measured.ts";

/** The smallest step at 12 bits, K. */
const oneWireStep = 0.0625;

/** What the register holds from power-on until the first conversion: 85 °C, a suspect value whenever it is met. */
export const oneWirePowerOnCode = 0x0550;

const lowest = -55;
const highest = 125;

/**
 * The temperature of a register's content.
 *
 * @param code 0 to FFFF (hex).
 * @returns null for a code outside -55 to 125 °C, which no such probe gives.
 * @throws RangeError when the code is no 16-bit number.
 * @example celsiusOfOneWireCode(0xff5e)?.celsius // -10.125
 */
export function celsiusOfOneWireCode(code: number): MeasuredCelsius | null {
  if (!(Number.isInteger(code) && code >= 0 && code <= 0xffff)) {
    throw new RangeError(`a one-wire code is a whole number from 0 to FFFF (hex), not ${code}`);
  }
  const celsius = (code >= 0x8000 ? code - 0x10000 : code) * oneWireStep;
  return celsius < lowest || celsius > highest ? null : { celsius, standardUncertainty: oneWireUncertainty(celsius) };
}

/**
 * The code that a probe gives at a temperature, rounded to the nearest step.
 *
 * @throws RangeError outside -55 to 125 °C.
 * @example oneWireCodeOf(-10.125) // 0xff5e
 */
export function oneWireCodeOf(celsius: number): number {
  if (!(celsius >= lowest && celsius <= highest)) {
    throw new RangeError(`a one-wire probe measures ${lowest} to ${highest} °C, not ${celsius}`);
  }
  return Math.round(celsius / oneWireStep) & 0xffff;
}

/**
 * Standard uncertainty of an uncalibrated one-wire probe, K: its tolerance (0.5 K from -10 to 85 °C, 2 K beyond; from
 * memory of the data sheet) and its step.
 */
export function oneWireUncertainty(celsius: number): number {
  const tolerance = celsius >= -10 && celsius <= 85 ? 0.5 : 2;
  return combined(rectangular(tolerance), ofStep(oneWireStep));
}
