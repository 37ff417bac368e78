// Readings and parts as rows that can be held against each other.

import type { NewReading, SeriesPart } from "../../../src/store/index.ts";

type FullReading = Required<Omit<NewReading, "position">>;

/** A reading as it was handed in. */
export const withAllParts = (reading: NewReading): Partial<FullReading> => ({
  unixMs: reading.unixMs,
  raw: reading.raw,
  probeId: reading.probeId,
  sequence: reading.sequence,
  uptimeMs: reading.uptimeMs,
  hostUnixMs: reading.hostUnixMs,
});

/** The readings of a part as they come back. */
export function rowsOfPart(part: SeriesPart): Partial<FullReading>[] {
  const optional = (column: Float64Array | null, i: number) =>
    column === null || Number.isNaN(column[i]) ? undefined : column[i];
  return Array.from(part.unixMs, (unixMs, i) => ({
    unixMs,
    raw: part.raw[i],
    probeId: part.probeId ?? undefined,
    sequence: optional(part.sequence, i),
    uptimeMs: optional(part.uptimeMs, i),
    hostUnixMs: optional(part.hostUnixMs, i),
  }));
}

/** For sorting. */
export const byInstant = (a: { unixMs?: number }, b: { unixMs?: number }) => (a.unixMs ?? 0) - (b.unixMs ?? 0);
