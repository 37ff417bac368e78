// Two temperatures that water makes by itself, for calibrating a probe: melting ice and boiling water.

import { kelvinOfZeroCelsius } from "../../schema/index.ts";
import { standardPressure } from "../numbers/standard-atmosphere.ts";
import { combined, type MeasuredCelsius } from "../sensors/measured.ts";

/**
 * A slush of clean crushed ice and clean water, stirred: 0 °C, with a standard uncertainty of 0.05 K for a workshop's ice and
 * stirring (common practice, no source). Ice of distilled water in a Dewar does far better (ITS-90: the triple point lies
 * at 0.01 °C).
 */
export const icePoint: MeasuredCelsius = { celsius: 0, standardUncertainty: 0.05 };

/** How the air's pressure at the pan is known. Pressure at the place itself, hPa, not reduced to sea level as forecasts give it. */
export type AirPressure =
  | { readonly hectopascals: number; readonly standardUncertainty: number }
  | { readonly altitudeMetres: number };

/** How far the weather moves the pressure at one place about its mean, one standard deviation, hPa (common practice, no source). */
const weatherHectopascals = 10;
/** Depth of water over the probe, and superheating of the pan's bottom, K (common practice, no source). */
const panUncertainty = 0.1;

/**
 * Boiling clean water, the probe in the water and clear of the bottom.
 *
 * By altitude the pressure is that of the standard atmosphere, which the weather shifts: that alone is 0.28 K.
 *
 * @returns null where the pressure lies outside 600 to 1100 hPa, or the altitude outside -500 to 4000 m.
 */
export function boilingPoint(pressure: AirPressure): MeasuredCelsius | null {
  const isStated = "hectopascals" in pressure;
  if (!isStated && !(pressure.altitudeMetres >= -500 && pressure.altitudeMetres <= 4000)) return null;
  const hectopascals = isStated ? pressure.hectopascals : standardPressure(pressure.altitudeMetres);
  if (!(hectopascals >= 600 && hectopascals <= 1100)) return null;
  const celsius = boilingCelsius(hectopascals);
  const perHectopascal = boilingCelsius(hectopascals + 0.5) - boilingCelsius(hectopascals - 0.5);
  const spread = isStated ? pressure.standardUncertainty : weatherHectopascals;
  return { celsius, standardUncertainty: combined(perHectopascal * spread, panUncertainty) };
}

/**
 * Temperature at which water boils, °C.
 *
 * Source: IAPWS R7-97(2012), Industrial Formulation 1997, equation 31 (saturation temperature) and Table 34.
 */
export function boilingCelsius(hectopascals: number): number {
  const [n1, n2, n3, n4, n5, n6, n7, n8, n9, n10] = saturation;
  const beta = (hectopascals / 1e4) ** 0.25;
  const e = beta ** 2 + n3 * beta + n6;
  const f = n1 * beta ** 2 + n4 * beta + n7;
  const g = n2 * beta ** 2 + n5 * beta + n8;
  const d = (2 * g) / (-f - Math.sqrt(f ** 2 - 4 * e * g));
  return (n10 + d - Math.sqrt((n10 + d) ** 2 - 4 * (n9 + n10 * d))) / 2 - kelvinOfZeroCelsius;
}

const saturation = [
  0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.1202082470247e5, -0.32325550322333e7,
  0.1491510861353e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3,
] as const;
