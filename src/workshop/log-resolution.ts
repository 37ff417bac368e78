// How finely a log writes its readings, and how finely those kept were written: what differs by less is the same reading,
// written shorter or in another unit.

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
    return halfStepOf(this.#decimals.get(position) ?? mostDecimals, this.#unitOf(position));
  }

  #unitOf(position: Position): TemperatureUnit {
    if (this.#way.format !== "mapped" || position === "supply") return "Cel";
    const { units, unit = "Cel" } = this.#way.mapping;
    return units?.[position] ?? unit;
  }
}

/**
 * Half of the last digit of readings that are kept, °C: of the unit in which they are shortest, since nobody remembers in which
 * they were written.
 */
export function halfStepKept(kept: Float64Array): number {
  const known = halfSteps.get(kept);
  if (known !== undefined) return known;
  const seen = kept.subarray(0, rowsSeen);
  const halfStep = Math.max(
    ...(["Cel", "[degF]", "K"] as const).map((unit) => {
      const decimals = seen.reduce((most, value) => Math.max(most, decimalsOf(asWritten(value, unit))), 0);
      return halfStepOf(decimals, unit);
    }),
  );
  halfSteps.set(kept, halfStep);
  return halfStep;
}

const halfSteps = new WeakMap<Float64Array, number>();

const halfStepOf = (decimals: number, unit: TemperatureUnit) =>
  (0.5 * 10 ** -decimals) / (unit === "[degF]" ? 1.8 : 1) + ofConverting;

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
