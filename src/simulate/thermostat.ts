// The thermostat: gas drops to a small flame, mains switches off. On 12 V these fridges usually have none
// (common practice, no source), so it heats without a stop.

import type { HeatSource } from "../schema/index.ts";
import type { SimulationPlan } from "./plan.ts";

/** Half of the band between switching off and on, K, unless stated. */
const usualHalfBand = 0.8;
/** What the small flame keeps of the full one, unless stated. Common practice, no source. */
const usualSmallFlame = 0.25;

/** Whether the thermostat calls for heat, from the cabinet air and what it called for before. */
export function callsForHeat(
  before: boolean,
  cabinetCelsius: number,
  { thermostatSetCelsius: setCelsius, thermostatHalfBandKelvin: halfBand = usualHalfBand }: SimulationPlan,
): boolean {
  if (setCelsius === undefined) return true;
  return before ? cabinetCelsius > setCelsius - halfBand : cabinetCelsius > setCelsius + halfBand;
}

/** Share of the heat that remains. */
export function throttle(
  source: HeatSource,
  calls: boolean,
  { thermostatSmallFlame: smallFlame = usualSmallFlame }: SimulationPlan,
): number {
  if (calls || source === "dc12") return 1;
  return source === "gas" ? smallFlame : 0;
}
