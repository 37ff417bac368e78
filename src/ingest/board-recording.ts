// A board's file, placed in time (board-file.ts), as a log like any other: a row for each round, a column for each position.

import { type Position, positions, type Recording } from "../schema/index.ts";
import type { BoardFile, PlacedReading } from "./board-file.ts";

export interface BoardRecordingOptions {
  /** The log's name as people know it. */
  readonly name: string;
  readonly utcOffsetMinutes: number;
  /** Where each probe sat; a probe that is not here has the role that its board gave it, or none. */
  readonly places: ReadonlyMap<string, Position>;
  /** The temperature of a value that did not come in °C; NaN where the probe's curve is not known or gives none. */
  readonly celsiusOf?: (reading: PlacedReading) => number;
}

/**
 * The readings as a recording, values as the probes gave them.
 *
 * @returns the recording; in `ignoredColumns` the probes that have no place, or share one with a probe before them.
 */
export function boardRecording(file: BoardFile, options: BoardRecordingOptions): Recording {
  const { name, utcOffsetMinutes, celsiusOf = () => Number.NaN } = options;
  const probeIds = [...new Set([...file.probes, ...file.readings].map(({ probeId }) => probeId))];
  const probeAt = new Map<Position, string>();
  for (const probeId of probeIds) {
    const place = options.places.get(probeId) ?? file.probes.find((probe) => probe.probeId === probeId)?.role;
    if (place && !probeAt.has(place)) probeAt.set(place, probeId);
  }
  const rows = [...new Set(file.readings.map(({ unixMs }) => unixMs))];
  const rowOf = new Map(rows.map((unixMs, row) => [unixMs, row]));
  const columns: { [P in Position]?: Float64Array } = {};
  for (const position of positions) {
    const probeId = probeAt.get(position);
    if (probeId === undefined) continue;
    const column = new Float64Array(rows.length).fill(Number.NaN);
    for (const reading of file.readings) {
      const row = rowOf.get(reading.unixMs);
      if (reading.probeId === probeId && row !== undefined) column[row] = valueAt(position, reading, celsiusOf);
    }
    columns[position] = column;
  }
  const placed = new Set(probeAt.values());
  return {
    name,
    unixMs: Float64Array.from(rows),
    utcOffsetMinutes,
    columns,
    sourceCodes: null,
    sourceMarks: [],
    sheet: null,
    unreadable: [],
    ignoredColumns: probeIds.filter((probeId) => !placed.has(probeId)),
  };
}

/** Volts belong to the supply alone, and nothing else does. */
function valueAt(position: Position, reading: PlacedReading, celsiusOf: (reading: PlacedReading) => number): number {
  if (position === "supply") return reading.unit === "V" ? reading.value : Number.NaN;
  if (reading.unit === "Cel") return reading.value;
  return reading.unit === "V" ? Number.NaN : celsiusOf(reading);
}
