// A trip's forecast in memory, row by row. How it comes out of a file is in src/ingest.

import type { EnergySource } from "./recording.ts";

/** From this instant on, until the next row, the fridge runs on `source`; the ambient goes straight from row to row. */
export interface ForecastRow {
  readonly unixMs: number;
  /** °C */
  readonly ambient: number;
  readonly source: EnergySource;
  /** Sun on the vents or on the outer wall behind the fridge. */
  readonly sun: boolean;
  readonly driving: boolean;
}

/** At least two rows, in order of time; the last one ends the trip. */
export interface Forecast {
  readonly name: string;
  readonly sha256: string;
  /** UTC offset of the first row, minutes; screens show times with it. */
  readonly utcOffsetMinutes: number;
  readonly rows: readonly ForecastRow[];
}
