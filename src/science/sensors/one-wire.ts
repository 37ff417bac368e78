// One-wire digital probes (18B20 type): what their temperature register means, a 16-bit two's complement number of sixteenths
// of a degree, and how far it can be trusted. Source: data sheet of the 18B20 type, tables "Temperature/Data Relationship" and
// "Thermometer Error". Our boards send the °C; a board that sends the register's content is read by this.

import { combined, type MeasuredCelsius, ofStep, rectangular } from "./measured.ts";

/** The smallest step at 12 bits, K. */
const oneWireStep = 0.0625;

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
 * Standard uncertainty of an uncalibrated one-wire probe, K: its tolerance (0.5 K from -10 to 85 °C, 2 K beyond; from
 * memory of the data sheet) and its step.
 */
export function oneWireUncertainty(celsius: number): number {
  const tolerance = celsius >= -10 && celsius <= 85 ? 0.5 : 2;
  return combined(rectangular(tolerance), ofStep(oneWireStep));
}
