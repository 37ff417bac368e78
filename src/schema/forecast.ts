// A trip's forecast in memory, row by row, and what its cells may say, in a file (src/ingest/forecast-file.ts) and typed into a
// page (web/parts/trip-text.ts) alike.

import { type EnergySource, energySources } from "./recording.ts";

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

export const forecastColumns = ["time", "ambient", "source", "sun", "driving"] as const;
export type ForecastColumn = (typeof forecastColumns)[number];

/** °C. Outside nobody camps. */
export const forecastAmbient = { least: -30, most: 60 } as const;

export const mostForecastDays = 31;

/** The source that a word names, in either case; "12v" is dc12. */
export function forecastSource(word: string): EnergySource | undefined {
  const named = word.toLowerCase();
  return named === "12v" ? "dc12" : energySources.find((source) => source === named);
}

/** What a cell says of the sun or of driving: yes, no or a word of the column's own, in either case; empty is no. */
export function forecastMark(column: "sun" | "driving", cell: string): boolean | undefined {
  const word = cell.toLowerCase();
  const [own, opposite] = forecastWords[column];
  if (word === "yes" || word === own) return true;
  return word === "" || word === "no" || word === opposite ? false : undefined;
}

/** The columns' own words: for yes, and for no. */
const forecastWords = { sun: ["sun", "shade"], driving: ["driving", "parked"] } as const;
