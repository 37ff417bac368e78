// What comes to whoever watches a run, from whatever is listened to: a board, a log replayed, a hand.

import type { EnergySource } from "../../schema/index.ts";
import type { NewReading, RunEvent } from "../../store/index.ts";

/** One thing that came. */
export type Arrival =
  /** Readings, in order of time. */
  | { readonly kind: "readings"; readonly readings: readonly NewReading[] }
  /** A board spoke, and said nothing new. */
  | { readonly kind: "heard"; readonly unixMs: number; readonly boardId: string }
  /** A board feeds another run from now on. */
  | { readonly kind: "left"; readonly unixMs: number; readonly boardId: string }
  /** "From this instant on, on gas." */
  | { readonly kind: "source"; readonly unixMs: number; readonly source: EnergySource }
  /** Something that is no reading: a restart, missed lines, a clock that jumped. */
  | { readonly kind: "happened"; readonly event: RunEvent }
  /** Nothing came, but time went on to this instant. */
  | { readonly kind: "quiet"; readonly unixMs: number };
