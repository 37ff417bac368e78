// Small invented logs for the tests of cleaning, stretches and events.

import {
  type EnergySource,
  energySources,
  type Position,
  type Recording,
  type SourceMark,
} from "../../src/schema/index.ts";
import type { Series } from "../../src/science/readings/series.ts";

export const startMs = Date.UTC(2026, 5, 4, 7);
export const minute = 60_000;

/** What a log of the tests may state; `rows` long, one row every `stepMs` from `startMs` on. */
interface LogParts {
  readonly rows?: number;
  readonly stepMs?: number;
  readonly unixMs?: readonly number[];
  readonly columns?: { readonly [P in Position]?: (row: number) => number };
  readonly source?: (row: number) => EnergySource | null;
  readonly marks?: readonly SourceMark[];
}

export function logOf({ rows = 60, stepMs = minute, unixMs, columns = {}, source, marks = [] }: LogParts): Recording {
  const instants = Float64Array.from(unixMs ?? Array.from({ length: rows }, (_, row) => startMs + row * stepMs));
  const values = Object.entries(columns).map(([position, at]) => [position, instants.map((_, row) => at(row))]);
  return {
    name: "test.csv",
    unixMs: instants,
    utcOffsetMinutes: 0,
    columns: Object.fromEntries(values),
    sourceCodes: source === undefined ? null : Uint8Array.from(instants, (_, row) => codeOf(source(row))),
    sourceMarks: marks,
    sheet: null,
    unreadable: [],
  };
}

const codeOf = (source: EnergySource | null) => (source === null ? 0 : energySources.indexOf(source) + 1);

/** The log's rows in another order; `rows` may repeat some or leave some out. */
export function withRows(log: Recording, rows: readonly number[]): Recording {
  const pick = (values: Float64Array) => Float64Array.from(rows, (row) => values[row]);
  return {
    ...log,
    unixMs: pick(log.unixMs),
    columns: Object.fromEntries(Object.entries(log.columns).map(([position, values]) => [position, pick(values)])),
    sourceCodes: log.sourceCodes === null ? null : Uint8Array.from(rows, (row) => log.sourceCodes?.[row] ?? 0),
  };
}

/** A working series straight from columns, a row a minute. */
export function seriesOf(parts: LogParts): Series {
  const log = logOf(parts);
  const counts = new Float64Array(log.unixMs.length).fill(1);
  return { log: log.name, unixMs: log.unixMs, columns: log.columns, counts, sourceCodes: log.sourceCodes };
}

/** Seeded noise in [-1, 1), the same everywhere. */
export function seededNoise(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2147483648 - 1;
  };
}
