// How finely a log writes its readings: what differs by less is the same reading, written shorter or in another unit.

import type { LogPiece, LogWay } from "../ingest/index.ts";
import { kelvinOfZeroCelsius, type Position, positions, type TemperatureUnit } from "../schema/index.ts";

/** Rows of each piece looked at: they tell as much as all of them. */
const rowsSeen = 200;
const mostDecimals = 6;
/** What converting from °F leaves, K. */
const ofConverting = 1e-6;

/** Sees the pieces of a log as they are read, and tells how finely each position was written. */
export class LogResolution {
  readonly #way: LogWay;
  readonly #decimals = new Map<Position, number>();

  constructor(way: LogWay) {
    this.#way = way;
  }

  see({ columns }: LogPiece): void {
    for (const position of positions) {
      let decimals = this.#decimals.get(position) ?? 0;
      for (const value of columns[position]?.subarray(0, rowsSeen) ?? [])
        if (!Number.isNaN(value)) decimals = Math.max(decimals, decimalsOf(asWritten(value, this.#unitOf(position))));
      this.#decimals.set(position, decimals);
    }
  }

  /** Half of the last digit, K (V for the supply); what a board sends is kept as it is, so 0. */
  halfStep(position: Position): number {
    if (this.#way.format === "board") return 0;
    const unit = this.#unitOf(position);
    const step = 10 ** -(this.#decimals.get(position) ?? mostDecimals);
    return (0.5 * step) / (unit === "[degF]" ? 1.8 : 1) + ofConverting;
  }

  #unitOf(position: Position): TemperatureUnit {
    if (this.#way.format !== "mapped" || position === "supply") return "Cel";
    const { units, unit = "Cel" } = this.#way.mapping;
    return units?.[position] ?? unit;
  }
}

function asWritten(celsius: number, unit: TemperatureUnit): number {
  if (unit === "[degF]") return celsius * 1.8 + 32;
  return unit === "K" ? celsius + kelvinOfZeroCelsius : celsius;
}

function decimalsOf(value: number): number {
  for (let decimals = 0; decimals < mostDecimals; decimals++) {
    const scaled = value * 10 ** decimals;
    if (Math.abs(scaled - Math.round(scaled)) < ofConverting) return decimals;
  }
  return mostDecimals;
}
