// What a probe with a curve should send where a person can easily hold it: told back, so that a slip in the curve shows at once.

import type { ProbeCurve, RawUnit } from "../../schema/index.ts";
import { sensorCelsius, sensorRaw, sensorUnits } from "./probe-sensor.ts";

/** A value that a probe should send. */
export interface CurveCheck {
  readonly celsius: number;
  readonly raw: number;
  readonly unit: RawUnit;
  /** How far its temperature is then right without a calibration, K, 95 %. */
  readonly within: number;
}

/** Ice and a warm room; ice and boiling water. °C. */
const easilyHeld = {
  "thermistor-b": [0, 25],
  "thermistor-steinhart-hart": [0, 25],
  pt100: [0, 100],
  "type-k": [0, 100],
} as const;

/** Thermistors that are sold: resistance at 25 °C, Ω, and B, K. Common practice, no source. */
const sold = { ohmsAt25: [10, 10_000_000], b: [1000, 10_000] } as const;
const isWithin = (value: number, [least, most]: readonly [number, number]) => value >= least && value <= most;

/** Null where no sensor has such a curve. */
export function curveChecks(curve: ProbeCurve): readonly CurveCheck[] | null {
  if (curve.kind === "thermistor-b") {
    const { ohmsAt25, b } = curve.curve;
    if (!isWithin(ohmsAt25, sold.ohmsAt25) || !isWithin(b, sold.b)) return null;
  }
  const checks = easilyHeld[curve.kind].flatMap((celsius) => {
    const raw = sensorRaw(curve, celsius);
    const measured = raw === null ? null : sensorCelsius(curve, raw);
    return raw === null || measured === null
      ? []
      : [{ celsius, raw, unit: sensorUnits[curve.kind], within: 2 * measured.standardUncertainty }];
  });
  return checks.length < easilyHeld[curve.kind].length ? null : checks;
}

/**
 * Standard uncertainties of a cold junction, K: in a front end that measures it, and as told by a person (common
 * practice, no source).
 */
const [measuredJunction, toldJunction] = [0.5, 3];

/** Where a couple's wires end, °C; left out, the front end refers its millivolts to 0 °C. */
export const coldJunctionAt = (celsius?: number) =>
  celsius === undefined
    ? { celsius: 0, standardUncertainty: measuredJunction }
    : { celsius, standardUncertainty: toldJunction };
