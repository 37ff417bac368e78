// From a value as it came over the line, in its unit, to °C with its uncertainty: one row per kind of sensor. The conversions
// themselves are in the files beside this one.

import type { MeasuredCelsius } from "./measured.ts";
import { oneWireUncertainty } from "./one-wire-code.ts";
import { measuredByPlatinum, type PlatinumClass } from "./platinum.ts";
import { type BCurve, measuredByB, measuredBySteinhartHart, type SteinhartHartCurve } from "./thermistor.ts";
import { measuredByTypeK } from "./type-k.ts";

/** A kind of sensor with its curve. */
export type ProbeSensor =
  | { readonly kind: "one-wire" }
  | { readonly kind: "thermistor-b"; readonly curve: BCurve }
  | { readonly kind: "thermistor-steinhart-hart"; readonly curve: SteinhartHartCurve }
  | { readonly kind: "pt100"; readonly toleranceClass: PlatinumClass }
  /** `coldJunction`: where the couple's wires end; a front end that compensates sends °C and is a sensor of its own. */
  | { readonly kind: "type-k"; readonly toleranceClass: 1 | 2; readonly coldJunction: MeasuredCelsius };

/** The unit in which each kind comes over the line. */
export const sensorUnits = {
  "one-wire": "Cel",
  "thermistor-b": "Ohm",
  "thermistor-steinhart-hart": "Ohm",
  pt100: "Ohm",
  "type-k": "mV",
} as const satisfies Readonly<Record<ProbeSensor["kind"], string>>;

/** What a simple front end does to the value (common practice, no source): a fixed resistor and 10 bits, two leads of copper, an amplifier. */
const thermistorParts = { ohms: 0.004, ohmsAt25: 0.006, b: 0.006 };
const leadOhms = 0.1;
const amplifierMillivolts = 0.02;

/**
 * The temperature that a value means, uncalibrated.
 *
 * @param value in the unit that `sensorUnits` names for the sensor.
 * @returns null where no such sensor gives that value: a fault, not a temperature.
 */
export function sensorCelsius(sensor: ProbeSensor, value: number): MeasuredCelsius | null {
  if (!Number.isFinite(value)) return null;
  switch (sensor.kind) {
    case "one-wire":
      return { celsius: value, standardUncertainty: oneWireUncertainty(value) };
    case "thermistor-b":
      return value > 0 ? measuredByB(value, sensor.curve, thermistorParts) : null;
    case "thermistor-steinhart-hart":
      return value > 0 ? measuredBySteinhartHart(value, sensor.curve, thermistorParts.ohms) : null;
    case "pt100":
      return measuredByPlatinum(value, { toleranceClass: sensor.toleranceClass, ohmsUncertainty: leadOhms });
    case "type-k":
      return measuredByTypeK(value, sensor.coldJunction, {
        toleranceClass: sensor.toleranceClass,
        millivoltsUncertainty: amplifierMillivolts,
      });
  }
}
