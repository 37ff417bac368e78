// From a value as it came over the line, in its unit, to °C with its uncertainty: one row per kind of sensor. The conversions
// themselves are in the files beside this one.

import type { ProbeCurve, RawUnit } from "../../schema/index.ts";
import type { MeasuredCelsius } from "./measured.ts";
import { oneWireUncertainty } from "./one-wire.ts";
import { measuredByPlatinum, platinumOhms } from "./platinum.ts";
import { measuredByB, measuredBySteinhartHart, ohmsBySteinhartHart, thermistorOhmsByB } from "./thermistor.ts";
import { measuredByTypeK, typeKMillivolts } from "./type-k.ts";

/** A kind of sensor, with its curve where it sends no °C. A front end that does all of it sends °C and is a sensor of its own. */
export type ProbeSensor = { readonly kind: "one-wire" } | ProbeCurve;

/** The unit in which each kind comes over the line. */
export const sensorUnits = {
  "one-wire": "Cel",
  "thermistor-b": "Ohm",
  "thermistor-steinhart-hart": "Ohm",
  pt100: "Ohm",
  "type-k": "mV",
} as const satisfies Readonly<Record<ProbeSensor["kind"], "Cel" | RawUnit>>;

/**
 * What a simple front end does to the value (common practice, no source): a fixed resistor and 10 bits, two leads of
 * copper, an amplifier.
 */
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

/**
 * The value that a probe with this curve sends at a temperature, in the curve's unit: what a person can check with a meter.
 *
 * @param celsius within what the sensor is described for; -40 to 125 suits all
 * @returns null where coefficients of Steinhart and Hart describe no thermistor there
 */
export function sensorRaw(curve: ProbeCurve, celsius: number): number | null {
  switch (curve.kind) {
    case "thermistor-b":
      return thermistorOhmsByB(celsius, curve.curve);
    case "thermistor-steinhart-hart":
      return ohmsBySteinhartHart(celsius, curve.curve);
    case "pt100":
      return platinumOhms(celsius);
    case "type-k":
      return typeKMillivolts(celsius) - typeKMillivolts(curve.coldJunction.celsius);
  }
}
