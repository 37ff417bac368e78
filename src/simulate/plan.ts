// What is asked of the simulator. Hours count from the start of the recording; only the first block must be given.

import type { EnergySource, Position, RunSheet } from "../schema/index.ts";
import type { AmbientPlan } from "./ambient.ts";
import type { SimulatedFault } from "./faults.ts";
import type { SimulatedFridge } from "./fridge.ts";
import type { Supply } from "./heat-input.ts";
import type { ProbeBuild, SpoiltReadings } from "./probes.ts";

export interface SimulationPlan {
  readonly name: string;
  readonly seed: number;
  readonly startUnixMs: number;
  readonly fridge: SimulatedFridge;
  readonly schedule: readonly ScheduledStretch[];
  readonly ambient: AmbientPlan;

  readonly utcOffsetMinutes?: number;
  /** 30 s unless stated. */
  readonly samplingSeconds?: number;
  readonly faults?: readonly SimulatedFault[];
  /** Air before the door; like the ambient unless stated. */
  readonly room?: AmbientPlan;
  /** What ran before the recording began; before that everything was at ambient. */
  readonly before?: readonly ScheduledStretch[];
  readonly doors?: readonly DoorOpening[];
  /** Heat fails while the source still says on: flame out, fuse blown. */
  readonly outages?: readonly Outage[];
  /** Cabinet air at which the thermostat holds; never reached unless stated. */
  readonly thermostatSetCelsius?: number;
  /** Half of its band between switching off and on, K; 0.8 unless stated. */
  readonly thermostatHalfBandKelvin?: number;
  /** Share of the gas flame that it leaves burning, 0 where it shuts the gas and lights anew; 0.25 unless stated. */
  readonly thermostatSmallFlame?: number;
  readonly supply?: Supply;
  /** A load known to those who wrote the sheet; at the ambient of the start unless `celsius` is given. */
  readonly load?: { readonly kilograms: number; readonly celsius?: number };
  readonly fanInside?: boolean;
  /** Frost that grows on the fins in an hour below 0 °C, g. */
  readonly frostGramsPerHour?: number;
  readonly nightToNight?: NightToNight;
  /** Evaporator, cabinet and ambient unless stated; an entry changes the usual probe. */
  readonly probes?: { readonly [P in SimulatedPosition]?: ProbeBuild };
  readonly spoilt?: readonly SpoiltReadings[];
  /** Sun on the ambient probe, which the air itself does not feel. */
  readonly sun?: readonly { readonly atHours: number; readonly hours: number; readonly kelvin: number }[];
  /** Whether the log has a `source` column; it has unless stated. */
  readonly tellSource?: boolean;
  /** Whether the log has a `supply` column; it has none unless stated. */
  readonly includeSupply?: boolean;
  readonly sheet?: RunSheet;
}

export interface ScheduledStretch {
  readonly source: EnergySource;
  readonly hours: number;
}

export interface DoorOpening {
  readonly atHours: number;
  readonly seconds: number;
}

export interface Outage {
  readonly atHours: number;
  readonly hours: number;
}

/** Standard deviations, as shares. Heat and volts change from stretch to stretch, cooling from run to run. */
export interface NightToNight {
  readonly heat?: number;
  readonly cooling?: number;
  readonly volts?: number;
}

/** Positions that the simulator can read. */
export type SimulatedPosition = Exclude<Position, "supply" | "freezer">;

/** How long a schedule takes, h. */
export const hoursOf = (stretches: readonly ScheduledStretch[]) => stretches.reduce((sum, { hours }) => sum + hours, 0);
