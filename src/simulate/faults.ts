// What can be wrong, by the names of the causes it is judged by, and what each does to the heat balance.

import type { Cause } from "../schema/documents/index.ts";
import type { HeatSource } from "../schema/index.ts";

interface FaultKind {
  /** What `size` counts. */
  readonly size: string;
  /** A size that a technician would be called for. */
  readonly typicalSize: number;
  /** Where alone it shows; on every source where left out. */
  readonly on?: readonly HeatSource[];
}

const kinds = {
  burner: { size: "share of the gas flow lost", typicalSize: 0.25, on: ["gas"] },
  flue: { size: "share of the gas heat that no longer reaches the boiler", typicalSize: 0.25, on: ["gas"] },
  "gas-supply": { size: "share of the gas pressure lost; heat follows its root", typicalSize: 0.45, on: ["gas"] },
  "mains-element": { size: "share of the mains heat lost", typicalSize: 0.25, on: ["mains"] },
  "dc12-element": { size: "share of the 12 V heat lost", typicalSize: 0.25, on: ["dc12"] },
  "supply-voltage": {
    size: "share of the voltage lost at the terminals; heat follows its square",
    typicalSize: 0.13,
    on: ["mains", "dc12"],
  },
  "boiler-insulation": { size: "share of the boiler's insulation lost", typicalSize: 0.5 },
  ventilation: { size: "share of the air flow behind the fridge lost", typicalSize: 0.55 },
  "not-level": { size: "share of the cooling lost through tilt", typicalSize: 0.3 },
  "cooling-unit": { size: "share of the cooling lost", typicalSize: 0.3 },
  "door-seal": { size: "leak added, as a share of the sound fridge's whole leak", typicalSize: 0.67 },
  "warm-load": { size: "kg of water put in at the start", typicalSize: 8 },
  lamp: { size: "W that stay on behind the closed door", typicalSize: 5 },
  probe: {
    size: "how far the evaporator probe reads towards the cabinet air: 0 seated, 1 fallen off",
    typicalSize: 0.5,
  },
} as const satisfies { readonly [C in Cause]?: FaultKind };

export type FaultName = keyof typeof kinds;
/** Every fault with what its size means, and a size that makes a fridge weak. */
export const faultKinds: { readonly [F in FaultName]: FaultKind } = kinds;
/** The faults by name, in the order they are listed. */
export const faultNames = Object.keys(faultKinds) as readonly FaultName[];

export interface SimulatedFault {
  readonly name: FaultName;
  /** See `faultKinds[name].size`. */
  readonly size: number;
}

/** The sum of all faults, as factors and additions to the sound fridge's balance. */
export interface FaultEffects {
  /** On the heat that reaches the boiler, per source. */
  readonly heat: { readonly [S in HeatSource]: number };
  /** Share of the gas flow that is left; what of its heat does not reach the boiler goes up the flue. */
  readonly gasFlow: number;
  readonly volts: number;
  readonly gasPressure: number;
  readonly boilerLoss: number;
  readonly ventFlow: number;
  readonly cooling: number;
  /** Share of the whole sound leak that comes in at the door besides. */
  readonly addedLeak: number;
  readonly warmLoadKilograms: number;
  readonly lampWatts: number;
  readonly probeTowardsAir: number;
}

/**
 * What these faults do together.
 *
 * @throws RangeError when a size is not a number ≥ 0, or a share of 1 or more where something must remain.
 */
export function faultEffects(faults: readonly SimulatedFault[]): FaultEffects {
  for (const { name, size } of faults) checkSize(name, size);
  const total = (...names: FaultName[]) => faults.reduce((sum, f) => (names.includes(f.name) ? sum + f.size : sum), 0);
  const left = (...names: FaultName[]) =>
    faults.reduce((rest, f) => (names.includes(f.name) ? rest * (1 - f.size) : rest), 1);
  return {
    heat: { gas: left("burner", "flue"), mains: left("mains-element"), dc12: left("dc12-element") },
    gasFlow: left("burner"),
    volts: left("supply-voltage"),
    gasPressure: left("gas-supply"),
    boilerLoss: 1 / left("boiler-insulation"),
    ventFlow: left("ventilation"),
    cooling: left("not-level", "cooling-unit"),
    addedLeak: total("door-seal"),
    warmLoadKilograms: total("warm-load"),
    lampWatts: total("lamp"),
    probeTowardsAir: 1 - left("probe"),
  };
}

const unbounded: readonly FaultName[] = ["door-seal", "warm-load", "lamp"];
/** Insulation and air flow divide: nothing left of them is no fridge. */
const neverWhole: readonly FaultName[] = ["boiler-insulation", "ventilation"];

function checkSize(name: FaultName, size: number): void {
  const most = unbounded.includes(name) ? Infinity : 1;
  if (!(size >= 0 && size <= most && size < Infinity) || (neverWhole.includes(name) && size === 1))
    throw new RangeError(`fault "${name}": ${size} is no ${faultKinds[name].size}`);
}
