// The working series: what every later step of the science reads. At most one row per minute, so that
// a night is a few hundred rows however fast the probes were sampled. Made in working-series.ts.

import type { StartState } from "../../schema/documents/index.ts";
import type { EnergySource, HeatSource, Position } from "../../schema/index.ts";

/** Cleaned means over up to a minute; all arrays have the same length, times ascend, NaN is missing. */
export interface Series {
  readonly log: string;
  /** Mean instant of the readings in each row. */
  readonly unixMs: Float64Array;
  readonly columns: { readonly [P in Position]?: Float64Array };
  /** How many log rows each row was made from. */
  readonly counts: Float64Array;
  /** Per row: 0 says nothing, n says `energySources[n - 1]`; null when nobody said anything. */
  readonly sourceCodes: Uint8Array | null;
}

/** Part of a run on one energy source. Rows `from` to `to` (half-open) of the series. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly startMs: number;
  readonly endMs: number;
  /** null: it was heated (or not), but nobody said by what. */
  readonly source: EnergySource | null;
  readonly heated: boolean;
  readonly sourceFrom: "told" | "found";
  /** null for a stretch that warms back. */
  readonly startState: StartState | null;
}

/** A heated stretch's energy source, null when it is not known. */
export const heatSourceOf = (stretch: Stretch): HeatSource | null =>
  stretch.source === null || stretch.source === "off" ? null : stretch.source;
