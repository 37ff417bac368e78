// One step of the whole fridge: heat in, vapour, flow, cooling, cabinet. The parts are in boiler.ts,
// cooling-unit.ts and cabinet.ts.

import { type BoilerState, designVapourWatts, stepBoiler, vapourWatts } from "./boiler.ts";
import { type Cabinet, type CabinetConditions, type CabinetState, cabinetOf, stepCabinet } from "./cabinet.ts";
import { coolingWatts, type FlowState, pumpedFlow, rejectionCelsius, stepFlow } from "./cooling-unit.ts";
import type { FaultEffects } from "./faults.ts";
import type { SimulatedFridge } from "./fridge.ts";

export interface FridgeState {
  readonly boiler: BoilerState;
  readonly flow: FlowState;
  readonly cabinet: CabinetState;
}

/** A fridge as it stands there for one run: faults, load and fan put in. */
export interface PreparedFridge {
  readonly fridge: SimulatedFridge;
  readonly faults: FaultEffects;
  readonly cabinet: Cabinet;
  readonly designVapour: number;
  /** This night's own factor on the cooling. */
  readonly coolingFactor: number;
}

export interface Surroundings {
  readonly heatWatts: number;
  /** Air entering the lower vent, °C. */
  readonly ventCelsius: number;
  /** Air before the door, °C. */
  readonly roomCelsius: number;
  /** Share of the step that the door stands open. */
  readonly doorOpen: number;
}

/** A fridge with its faults, made ready for many steps. */
export function prepareFridge(
  fridge: SimulatedFridge,
  faults: FaultEffects,
  conditions: CabinetConditions,
  coolingFactor: number,
): PreparedFridge {
  const cabinet = cabinetOf(fridge, faults, conditions);
  return { fridge, faults, cabinet, designVapour: designVapourWatts(fridge), coolingFactor };
}

/** Everything at one temperature, nothing running. */
export const atRest = (celsius: number): FridgeState => ({
  boiler: { heaterCelsius: celsius, boilerCelsius: celsius },
  flow: [0, 0, 0],
  cabinet: { evaporator: celsius, air: celsius, wall: celsius, shelves: celsius, load: celsius, frostGrams: 0 },
});

/** Cooling at this moment, W. */
export function coolingNow(state: FridgeState, prepared: PreparedFridge, ventCelsius: number): number {
  const { fridge, faults, coolingFactor } = prepared;
  const rejection = rejectionNow(state, prepared, ventCelsius);
  return faults.cooling * coolingFactor * coolingWatts(fridge, state.flow[2], state.cabinet.evaporator, rejection);
}

/** Where condenser and absorber work at this moment, °C. */
export function rejectionNow(state: FridgeState, prepared: PreparedFridge, ventCelsius: number): number {
  const { fridge, faults } = prepared;
  return rejectionCelsius(fridge.unit, ventCelsius, vapourNow(state, prepared), faults.ventFlow);
}

const vapourNow = ({ boiler }: FridgeState, { fridge, designVapour }: PreparedFridge) =>
  vapourWatts(fridge.boiler, boiler.boilerCelsius) / designVapour;

/** The whole fridge after so many seconds in these surroundings. */
export function stepFridge(
  state: FridgeState,
  prepared: PreparedFridge,
  around: Surroundings,
  seconds: number,
): FridgeState {
  const { fridge, faults, cabinet } = prepared;
  const { unit, volumeLitres } = fridge;
  const { heatWatts, ventCelsius } = around;
  const pumped = pumpedFlow(vapourNow(state, prepared), unit.pumpShare);
  const cooling = coolingNow(state, prepared, ventCelsius);
  return {
    boiler: stepBoiler(state.boiler, fridge.boiler, heatWatts, ventCelsius, faults.boilerLoss, seconds),
    flow: stepFlow(state.flow, pumped, unit.transportMinutes, seconds),
    cabinet: stepCabinet(state.cabinet, cabinet, around, cooling, volumeLitres, seconds),
  };
}
