// How cooling follows the heat put into the boiler, and heat the supply voltage. A smooth bend: steep below the rated
// heat (part of the heat only keeps the boiler warm), about proportional near it, flat well above. From a study on this
// project's simulated fridges; no published source was found.

import type { RunSheet } from "../../schema/index.ts";

/** Slopes of ln(cooling) against ln(heat): far below and far above rated. */
const slopeBelow = 1.4;
const slopeAbove = 0.4;
/** Where the bend lies and how wide it is, in ln(heat / rated). */
const bendAt = 0.12;
const bendWidth = 0.06;

/** Slope of ln(cooling) against ln(heat) at rated heat: what the bend below comes to there. */
export const slopeAtRated = 1.3;

/** ln(cooling over cooling at rated heat), for heat over rated heat. */
export function logCooling(heatOverRated: number): number {
  const x = Math.log(heatOverRated);
  const bent = (at: number) => Math.log1p(Math.exp((at - bendAt) / bendWidth));
  return slopeBelow * x - (slopeBelow - slopeAbove) * bendWidth * (bent(x) - bent(0));
}

/** Standard error of `logCooling` between two heats: the exponent is known to ±0.4 above rated, ±0.15 below. */
export function logCoolingError(heatOverRated: number, otherOverRated: number): number {
  const doubt = Math.max(heatOverRated, otherOverRated) > 1 ? 0.3 : 0.15;
  return doubt * Math.abs(Math.log(heatOverRated / otherOverRated));
}

/** Rated volts where no sheet says otherwise. Source: IEC 60038 for 230 V; 12 V is the trade's name of the supply. */
const usualVolts = { mains: 230, dc12: 12 } as const;

/** What an electric source's element is rated for, V. */
export const ratedVoltsOf = (source: "mains" | "dc12", sheet: RunSheet | null): number =>
  sheet?.ratedVolts?.[source] ?? usualVolts[source];

/** An element's supply counts as low below this share of its rated voltage: the tolerance of IEC 60038 for mains. */
export const lowSupplyShare = 0.9;

/** Heat of an element over its rated heat: Ohm's law, the element's resistance holding. */
export const heatAtVoltage = (volts: number, ratedVolts: number): number => (volts / ratedVolts) ** 2;
