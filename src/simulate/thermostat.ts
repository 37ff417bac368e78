// The thermostat: gas drops to a small flame, mains switches off. On 12 V these fridges usually have none
// (common practice, no source), so it heats without a stop.

import type { HeatSource } from "../schema/index.ts";

/** Half of the band between switching off and on, K. */
const halfBand = 0.8;
/** What the small flame keeps of the full one. Common practice, no source. */
const smallFlame = 0.25;

/** Whether the thermostat calls for heat, from the cabinet air and what it called for before. */
export function callsForHeat(before: boolean, cabinetCelsius: number, setCelsius: number | undefined): boolean {
  if (setCelsius === undefined) return true;
  return before ? cabinetCelsius > setCelsius - halfBand : cabinetCelsius > setCelsius + halfBand;
}

/** Share of the heat that remains. */
export function throttle(source: HeatSource, calls: boolean): number {
  if (calls || source === "dc12") return 1;
  return source === "gas" ? smallFlame : 0;
}
