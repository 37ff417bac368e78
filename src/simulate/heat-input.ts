// How much heat a source sends into the boiler, from what feeds it: volts, gas, air pressure.

import type { HeatSource } from "../schema/index.ts";
import type { FaultEffects } from "./faults.ts";
import type { SimulatedFridge } from "./fridge.ts";

export interface Supply {
  /** At the fridge's terminals; rated where left out. */
  readonly volts?: { readonly mains?: number; readonly dc12?: number };
  /** The fridge is built for propane at 30 mbar at sea level. */
  readonly gas?: { readonly kind?: GasKind; readonly pressureMbar?: number };
  readonly altitudeMetres?: number;
}
export type GasKind = "propane" | "butane" | "mixed";

/** Nominal pressure in leisure vehicles. Source: EN 1949, through a trade article. */
const nominalMbar = 30;

/** Volts at the terminals of an electric source, or null on gas. */
export function voltsOf(
  source: HeatSource,
  fridge: SimulatedFridge,
  supply: Supply,
  faults: FaultEffects,
): number | null {
  if (source === "gas") return null;
  return (supply.volts?.[source] ?? fridge.ratedVolts[source]) * faults.volts;
}

/** Heat that reaches the boiler once the heater is warm, W. */
export function heatInput(source: HeatSource, fridge: SimulatedFridge, supply: Supply, faults: FaultEffects): number {
  const rated = fridge.ratedWatts[source] * faults.heat[source];
  const volts = voltsOf(source, fridge, supply, faults);
  if (source === "gas" || volts === null) return rated * fridge.burnerEfficiency * gasFlow(supply, faults.gasPressure);
  return rated * (volts / fridge.ratedVolts[source]) ** 2;
}

/** Heat of the burnt gas relative to propane at nominal pressure at sea level. */
export function gasFlow(supply: Supply, pressureLeft = 1): number {
  const pressure = ((supply.gas?.pressureMbar ?? nominalMbar) / nominalMbar) * pressureLeft;
  // The regulator holds the pressure above the air's; the flow through the jet is thinner gas at thinner air.
  const airPressure = airPressureHectopascal(supply.altitudeMetres ?? 0) / airPressureHectopascal(0);
  return (wobbe[supply.gas?.kind ?? "propane"] / wobbe.propane) * Math.sqrt(pressure * airPressure);
}

/**
 * A jet passes heat as calorific value over the root of density (Wobbe). With ideal gases that is MJ/kg times the
 * root of the molar mass. Net values 46.335 and 45.721 MJ/kg: formation enthalpies, CODATA and NIST WebBook, ISO 6976.
 */
const wobbe: { readonly [K in GasKind]: number } = {
  propane: 46.335 * Math.sqrt(44.096),
  butane: 45.721 * Math.sqrt(58.122),
  mixed: (46.335 * Math.sqrt(44.096) + 45.721 * Math.sqrt(58.122)) / 2,
};

/** The standard atmosphere below 11 km. Source: ISO 2533:1975. */
function airPressureHectopascal(metres: number): number {
  return 1013.25 * (1 - (0.0065 * metres) / 288.15) ** 5.255_88;
}
