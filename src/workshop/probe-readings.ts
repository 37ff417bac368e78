// What each probe said in a run, a log or a board's own file: what the checks of probes look at. A board's file need not be
// placed in time for that, and its probes need no position.

import { boardLinesOf, readWholeFile } from "../ingest/index.ts";
import { type Position, positions, type Recording } from "../schema/index.ts";
import { correctionsFor, type SeriesPart, type Store } from "../store/index.ts";

/** A probe's readings, in order of time. */
export interface ProbeReadings {
  /** Its own number; the position where the log knows no numbers. */
  readonly probeId: string;
  readonly position: Position | null;
  /** ms since 1970, or since the board's start where nobody knows more. */
  readonly unixMs: readonly number[];
  readonly celsius: readonly number[];
  /** When it gave no reading though it was asked, in order of time. */
  readonly faultsMs: readonly number[];
}

/** Probes with the clock that their instants are on. */
export interface ProbesRead {
  readonly probes: readonly ProbeReadings[];
  /** Null where the instants count from the board's start. */
  readonly utcOffsetMinutes: number | null;
}

/** Readings of a run of the store, uncalibrated, by their curves where they are no °C. @throws BadInput "no-such-record" */
export async function probesOfRun(
  store: Pick<Store, "runs" | "readings" | "events" | "probes">,
  runId: string,
): Promise<ProbesRead> {
  const run = await store.runs.get(runId);
  const correctionOf = correctionsFor(run.startedUnixMs, await store.probes.list(), []);
  const parts: SeriesPart[] = [];
  for await (const part of store.readings.parts(run.id)) if (isTemperature(part.position)) parts.push(part);
  const silent = (await store.events.list(run.id)).filter(({ kind }) => kind === "probe-silent");
  const probes = [...Map.groupBy(parts, ({ probeId, position }) => probeId ?? position)].map(([probeId, own]) => {
    const rows = own
      .flatMap((part) => {
        const correction = correctionOf(part);
        const { unixMs, raw } = part;
        return Array.from(unixMs, (at, i) => ({ at, value: correction === null ? raw[i] : correction(raw[i]) }));
      })
      .filter(({ value }) => !Number.isNaN(value))
      .toSorted((one, other) => one.at - other.at);
    const faults = silent.filter(({ details }) => (details as { readonly probe?: string } | null)?.probe === probeId);
    return {
      probeId,
      position: own[own.length - 1].position as Position,
      unixMs: rows.map(({ at }) => at),
      celsius: rows.map(({ value }) => value),
      faultsMs: faults.map(({ fromUnixMs }) => fromUnixMs),
    };
  });
  return { probes, utcOffsetMinutes: run.utcOffsetMinutes };
}

/** Readings of a board's own file, over its last start; null for any other file. @throws BadInput as `readWholeFile` does */
export function probesOfBoardFile(file: string): ProbesRead | null {
  const lines = boardLinesOf(readWholeFile(file));
  if (lines.length === 0) return null;
  const boot = lines[lines.length - 1].boot;
  const probes = new Map<string, { unixMs: number[]; celsius: number[]; faultsMs: number[] }>();
  for (const line of lines) {
    if (line.boot !== boot || (line.type !== "reading" && line.type !== "fault")) continue;
    const { probeId, uptimeMs } = line;
    const own = probes.get(probeId) ?? { unixMs: [], celsius: [], faultsMs: [] };
    probes.set(probeId, own);
    if (line.type === "fault") own.faultsMs.push(uptimeMs);
    else if (line.unit === "Cel") {
      own.unixMs.push(uptimeMs);
      own.celsius.push(line.value);
    }
  }
  return {
    probes: Array.from(probes, ([probeId, own]) => ({ probeId, position: null, ...own })),
    utcOffsetMinutes: null,
  };
}

/** Readings of a log. */
export function probesOfLog(recording: Recording): ProbesRead {
  const probes = positions.filter(isTemperature).flatMap((position): ProbeReadings[] => {
    const column = recording.columns[position];
    if (column === undefined) return [];
    const rows = Array.from(column.keys()).toSorted((one, other) => recording.unixMs[one] - recording.unixMs[other]);
    const read = rows.filter((row) => Number.isFinite(column[row]));
    const others = positions.filter((other) => other !== position);
    // A row in which others were read and this one was not.
    const faults = rows.filter(
      (row) =>
        !Number.isFinite(column[row]) && others.some((other) => Number.isFinite(recording.columns[other]?.[row])),
    );
    const at = (row: number) => recording.unixMs[row];
    return [
      {
        probeId: position,
        position,
        unixMs: read.map(at),
        celsius: read.map((row) => column[row]),
        faultsMs: faults.map(at),
      },
    ];
  });
  return { probes, utcOffsetMinutes: recording.utcOffsetMinutes };
}

const isTemperature = (position: Position | "source") => position !== "supply" && position !== "source";
