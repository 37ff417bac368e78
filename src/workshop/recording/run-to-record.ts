// Which run a recording goes into: the one it was interrupted in, or a new one.

import { msPerHour, positions, type Recording, type RunSheet } from "../../schema/index.ts";
import type { Json, Run, RunOrigin, RunPurpose, Store } from "../../store/index.ts";

/** The part of a store that decides it. */
export type RunShelves = Pick<Store, "runs" | "readings" | "settings">;

/** A run as recording would open it. */
export interface RunWanted {
  readonly fridgeId: string;
  readonly origin: RunOrigin;
  readonly purpose: RunPurpose;
  readonly startedUnixMs: number;
  readonly utcOffsetMinutes: number;
  readonly name?: string;
  readonly sheet?: RunSheet;
  readonly plan?: Json;
}

/** The run, and the last instant it holds a reading of (of a log replayed: a reading of that log); null for a new one. */
export interface RunToRecord {
  readonly run: Run;
  readonly lastUnixMs: number | null;
}

/** A recording that stopped longer ago than this, ms, is over: half a day. Our own choice. */
export const longestPauseMs = 12 * msPerHour;

/**
 * The open run of the fridge, if it was recorded from the same kind of source and not too long ago; else a new one. Older
 * open runs are closed where they stopped.
 */
export async function runToRecord(store: RunShelves, wanted: RunWanted, nowUnixMs: number): Promise<RunToRecord> {
  const { runs: open } = await store.runs.list({ fridgeId: wanted.fridgeId, isOpen: true });
  for (const run of open.filter(({ origin }) => origin === wanted.origin)) {
    const lastUnixMs = await lastReading(store, run.id);
    const pausedSince = lastUnixMs ?? run.startedUnixMs;
    if (nowUnixMs - pausedSince < longestPauseMs) return { run, lastUnixMs };
    await store.runs.close(run.id, pausedSince);
  }
  return { run: await store.runs.open(wanted), lastUnixMs: null };
}

/**
 * The run that an earlier replay of the same log into the same fridge began; else a new one.
 *
 * @param log rows in order of time
 * @param sha256 of its file
 */
export async function runToReplay(
  store: RunShelves,
  wanted: RunWanted,
  log: Recording,
  sha256: string,
): Promise<RunToRecord> {
  const name = `replay ${sha256}`;
  const known = await store.settings.get(name, wanted.fridgeId);
  const run = typeof known === "string" ? await store.runs.find(known) : null;
  if (run !== null) {
    if (run.endedUnixMs !== null) await store.runs.edit(run.id, { endedUnixMs: null });
    return { run, lastUnixMs: await lastReplayed(store, run.id, log) };
  }
  const opened = await store.runs.open(wanted);
  await store.settings.set(name, opened.id, wanted.fridgeId);
  return { run: opened, lastUnixMs: null };
}

async function lastReading({ runs }: RunShelves, id: string): Promise<number | null> {
  const ends = (await runs.extents(id)).map(({ lastUnixMs }) => lastUnixMs);
  return ends.length === 0 ? null : Math.max(...ends);
}

/** The last row of the log that is in the run: readings noted by hand meanwhile are no sign that a replay got so far. */
async function lastReplayed({ readings }: RunShelves, id: string, log: Recording): Promise<number | null> {
  const kept = new Set<number>();
  for (const position of positions) {
    if (log.columns[position] === undefined) continue;
    for (const unixMs of (await readings.series(id, position)).unixMs) kept.add(unixMs);
  }
  return log.unixMs.findLast((unixMs) => kept.has(unixMs)) ?? null;
}
