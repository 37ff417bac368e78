// The cooling unit: vapour becomes ammonia flow (with a threshold, a bend and a lag), flow becomes cooling,
// less of it for a colder evaporator and in hotter air.

import { kelvinOfZeroCelsius } from "../schema/index.ts";
import type { CoolingUnitBuild, SimulatedFridge } from "./fridge.ts";

/** Flow on its way to the evaporator, relative to design: the pipes as three vessels in a row. */
export type FlowState = readonly [number, number, number];

/**
 * Pumped flow relative to design.
 *
 * Below the pump share the bubbles lift nothing. Then flow follows vapour, and bends over where the condenser and
 * the gas heat exchanger have no more to give (more heat adds little cooling: Starace & De Pascalis, 2012).
 * Seen from the heat, boiler loss included, cooling goes about as heat^1.4 below rated, heat^1.0 just above, heat^0.4 well above.
 *
 * @param vapour heat in the vapour relative to design.
 */
export function pumpedFlow(vapour: number, pumpShare: number): number {
  const lifted = (vapour - pumpShare) / (1 - pumpShare);
  if (!(lifted > 0)) return 0;
  const bend = (1 + (lifted / 1.25) ** 10) / (1 + (1 / 1.25) ** 10);
  return lifted ** 0.98 * bend ** (-0.5 / 10);
}

/** A rising or falling flow reaches the evaporator late and softly. */
export function stepFlow(
  [first, second, last]: FlowState,
  pumped: number,
  minutes: number,
  seconds: number,
): FlowState {
  const share = seconds / ((minutes * 60) / 3);
  return [first + share * (pumped - first), second + share * (first - second), last + share * (second - last)];
}

/** Where condenser and absorber work, °C: in the air behind the fridge, warmed by what they give off. */
export function rejectionCelsius(
  unit: CoolingUnitBuild,
  ventCelsius: number,
  vapour: number,
  ventFlow: number,
): number {
  // Free convection: the lift goes as power^0.75; a choked shaft as flow^(-2/3).
  return ventCelsius + (unit.rejectionKelvin * Math.max(0, vapour) ** 0.75) / ventFlow ** (2 / 3);
}

/**
 * Cooling, W, that the flow gives at an evaporator temperature.
 *
 * @param flow at the evaporator, relative to design.
 * @param rejection where condenser and absorber work, °C.
 */
export function coolingWatts(
  { unit, boiler }: Pick<SimulatedFridge, "unit" | "boiler">,
  flow: number,
  evaporatorCelsius: number,
  rejection: number,
): number {
  const designRejection = 25 + unit.rejectionKelvin;
  const gas = evaporation(unit, evaporatorCelsius, rejection) / evaporation(unit, -5, designRejection);
  const liquid = condensed(boiler.pressureBar, rejection) / condensed(boiler.pressureBar, designRejection);
  return unit.coolingWatts * flow * gas * liquid * chilled(rejection - designRejection);
}

/**
 * Share of the liquid that evaporates. A warm evaporator uses nearly all of it; a cold one fills the gas with
 * ammonia first. A hotter absorber leaves more ammonia in the gas, so the cold limit rises with it.
 */
function evaporation(unit: CoolingUnitBuild, evaporator: number, rejection: number): number {
  const limit = unit.coldLimitCelsius + 0.8 * (rejection - 25 - unit.rejectionKelvin);
  return 1 - Math.exp(-Math.max(0, evaporator - limit) / 15);
}

/**
 * Share of the cooling left after the liquid, arriving warm from the condenser, has chilled itself: 4.8 kJ/(kg K)
 * of its 1200 kJ/kg for each kelvin. Both values from memory.
 */
const chilled = (hotter: number) => Math.max(0, 1 - (4.8 / 1200) * hotter);

/** Share of the ammonia that still condenses: softly none as the condenser reaches the pressure's own limit. */
const condensed = (bar: number, rejection: number) => 1 / (1 + Math.exp((rejection - ammoniaCondenses(bar)) / 4.5));

/**
 * Where pure ammonia condenses, °C: the hottest usable condenser. Straight in 1/T against ln p through 36.0 °C
 * at 14 bar and 58.0 °C at 25 bar. Source: as in boiler.ts.
 */
export const ammoniaCondenses = (bar: number) => 1 / (4.212_79e-3 - 3.7063e-4 * Math.log(bar)) - kelvinOfZeroCelsius;
