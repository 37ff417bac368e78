// The boiler: heater warms boiler, boiler loses heat, and what it gains above boiling becomes vapour.

import { kelvinOfZeroCelsius } from "../schema/index.ts";
import type { BoilerBuild, SimulatedFridge } from "./fridge.ts";

export interface BoilerState {
  readonly heaterCelsius: number;
  readonly boilerCelsius: number;
}

/**
 * Where a solution of 30 % ammonia begins to boil, °C. Straight in 1/T against ln p (Clausius and Clapeyron)
 * through 115.6 °C at 14 bar and 142.7 °C at 25 bar. Source: Pátek & Klomfar, Int. J. Refrigeration 18 (1995).
 */
export const solutionBoils = (bar: number) => 1 / (3.335_35e-3 - 2.8912e-4 * Math.log(bar)) - kelvinOfZeroCelsius;

/** Heat that goes into vapour, W. */
export const vapourWatts = (build: BoilerBuild, boilerCelsius: number) =>
  build.vapourWattsPerKelvin * Math.max(0, boilerCelsius - solutionBoils(build.pressureBar));

/** Where the boiler settles under a steady heat, °C. */
export function settledBoiler(build: BoilerBuild, heatWatts: number, ventCelsius: number, lossFactor: number): number {
  const loss = build.lossWattsPerKelvin * lossFactor;
  const dry = ventCelsius + heatWatts / loss;
  const boils = solutionBoils(build.pressureBar);
  if (dry <= boils) return dry;
  return (heatWatts + loss * ventCelsius + build.vapourWattsPerKelvin * boils) / (loss + build.vapourWattsPerKelvin);
}

/** The vapour a fridge was built for: design heat at 25 °C ambient, W. */
export function designVapourWatts({ boiler, unit }: SimulatedFridge): number {
  return vapourWatts(boiler, settledBoiler(boiler, unit.designHeatWatts, 25, 1));
}

/** The boiler after a step; `lossFactor` 1 is sound insulation. */
export function stepBoiler(
  state: BoilerState,
  build: BoilerBuild,
  heatWatts: number,
  ventCelsius: number,
  lossFactor: number,
  seconds: number,
): BoilerState {
  const { heaterCelsius, boilerCelsius } = state;
  const handedOn = build.heaterWattsPerKelvin * (heaterCelsius - boilerCelsius);
  const lost = build.lossWattsPerKelvin * lossFactor * (boilerCelsius - ventCelsius);
  const gained = handedOn - lost - vapourWatts(build, boilerCelsius);
  return {
    heaterCelsius: heaterCelsius + ((heatWatts - handedOn) * seconds) / build.heaterHeatCapacity,
    boilerCelsius: boilerCelsius + (gained * seconds) / build.heatCapacity,
  };
}
