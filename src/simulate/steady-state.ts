// Where everything ends when nothing changes any more: cooling strength and settled cabinet. The true answers
// that a verdict and a hot-day forecast can be held against.

import type { HeatSource } from "../schema/index.ts";
import { designVapourWatts, settledBoiler, vapourWatts } from "./boiler.ts";
import { type Cabinet, cabinetOf, finWatts, wallLeakOf } from "./cabinet.ts";
import { coolingWatts, pumpedFlow, rejectionCelsius } from "./cooling-unit.ts";
import { type FaultEffects, faultEffects, type SimulatedFault } from "./faults.ts";
import type { SimulatedFridge } from "./fridge.ts";
import { heatInput, type Supply } from "./heat-input.ts";

/** Cooling under a steady heat, as a function of the evaporator's temperature, W. */
function steadyCooling(fridge: SimulatedFridge, faults: FaultEffects, heatWatts: number, ambient: number) {
  const { boiler, unit } = fridge;
  const settled = settledBoiler(boiler, heatWatts, ambient, faults.boilerLoss);
  const vapour = vapourWatts(boiler, settled) / designVapourWatts(fridge);
  const flow = pumpedFlow(vapour, unit.pumpShare);
  const rejection = rejectionCelsius(unit, ambient, vapour, faults.ventFlow);
  return (evaporator: number) => faults.cooling * coolingWatts(fridge, flow, evaporator, rejection);
}

/** Cooling at 25 °C ambient with the evaporator at -5 °C, W: what cooling strength compares. */
export const strengthWatts = (fridge: SimulatedFridge, faults: FaultEffects, heatWatts: number) =>
  steadyCooling(fridge, faults, heatWatts, 25)(-5);

/**
 * The cabinet air of a fridge left alone at full heat, door closed, °C.
 *
 * @param ambient air all around the fridge, °C.
 */
export function settledCabinet(
  fridge: SimulatedFridge,
  faults: readonly SimulatedFault[],
  source: HeatSource,
  ambient: number,
  supply: Supply = {},
): number {
  const effects = faultEffects(faults);
  const cooling = steadyCooling(fridge, effects, heatInput(source, fridge, supply, effects), ambient);
  const cabinet = cabinetOf(fridge, effects, { loadKilograms: 0, fanInside: false, frostGramsPerHour: 0 });
  const airAt = (evaporator: number) => evaporator + finDifference(cabinet, cooling(evaporator));
  // The warmer the evaporator, the more it cools and the less leaks in: one crossing, halved in on.
  let cold = -60;
  let warm = ambient + 40;
  for (let i = 0; i < 60; i++) {
    const middle = (cold + warm) / 2;
    if (heatIn(cabinet, airAt(middle), ambient) > cooling(middle)) cold = middle;
    else warm = middle;
  }
  return airAt(warm);
}

/** Air over fins that carry this heat, K: `finWatts` the other way round. */
const finDifference = (cabinet: Cabinet, watts: number) => (watts / finWatts(cabinet, 1)) ** (1 / cabinet.finExponent);

/** What comes in through wall, seal and lamp, W. */
const heatIn = ({ build, doorLeak, lampWatts }: Cabinet, air: number, ambient: number) =>
  (wallLeakOf(build) + doorLeak) * (ambient - air) + lampWatts;
