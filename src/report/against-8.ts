// Where a temperature lies against 8 °C, the limit that answers are told by.

import type { Estimate } from "../science/index.ts";

export type Side = "below" | "across" | "above";

/** Only a closed end can put an estimate wholly on one side. */
export function sideOf8({ low, high }: Estimate): Side {
  if (high !== null && high <= 8) return "below";
  return low !== null && low > 8 ? "above" : "across";
}
