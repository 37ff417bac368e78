// What a probe at each position can see in and around a fridge. Outside of this it is the probe, not the fridge.
// Common practice, no source; wide on purpose: a believable reading must never be thrown away.

import type { Position } from "../../schema/index.ts";

export interface ProbeLimits {
  /** °C (V for the supply). */
  readonly low: number;
  readonly high: number;
  /** The fastest believable change and return, K per minute; infinite for volts, which do jump. */
  readonly perMinute: number;
}

/** What can be believed at each position. */
export const probeLimits: { readonly [P in Position]: ProbeLimits } = {
  evaporator: { low: -45, high: 70, perMinute: 30 },
  cabinet: { low: -40, high: 70, perMinute: 30 },
  freezer: { low: -45, high: 70, perMinute: 30 },
  // A parked vehicle in the sun, or the probe itself in the sun.
  ambient: { low: -40, high: 75, perMinute: 20 },
  room: { low: -40, high: 75, perMinute: 20 },
  ventOut: { low: -40, high: 120, perMinute: 60 },
  boiler: { low: -40, high: 300, perMinute: 120 },
  flue: { low: -40, high: 800, perMinute: 600 },
  // 12 V on charge up to 15 V; mains of 240 V + 10 %.
  supply: { low: 0, high: 270, perMinute: Number.POSITIVE_INFINITY },
};

/** Positions where the power-on value of a one-wire sensor, 85 °C, may be the truth. */
export const canBeAt85 = (position: Position) => probeLimits[position].high > 85;
