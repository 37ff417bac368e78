// What the answer on hot days names of each source, in any language.

import type { HeatSource } from "../../schema/index.ts";
import type { Estimate } from "../../science/index.ts";
import type { Side } from "../against-8.ts";

/** Where the cabinet settles on one source. */
export interface Settling {
  readonly source: HeatSource | null;
  readonly settled: Estimate;
  /** Where the whole interval lies against 8 °C. */
  readonly side: Side;
  /** By the thermostat rather than by what the unit can do. */
  readonly isHeld: boolean;
}
