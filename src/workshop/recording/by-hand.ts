// What people say while a fridge is being recorded: what it runs on, and readings taken by hand.

import { BadInput, type EnergySource, msPerDay, msPerMinute, offsetName, type Position } from "../../schema/index.ts";
import { probeLimits } from "../../science/live/index.ts";
import type { Fridge, Received, Run, Store } from "../../store/index.ts";

/** The run that is being recorded on a fridge: the open one that began last; null when nothing is. */
export async function openRunOf(store: Pick<Store, "runs">, fridgeId: string): Promise<Run | null> {
  const { runs } = await store.runs.list({ fridgeId, isOpen: true, limit: 1 });
  return runs[0] ?? null;
}

/**
 * The run that something is said of: the one named, else the one being recorded.
 *
 * @throws BadInput "nothing-recorded" when no run of the fridge is open and none was named; "different-fridges"
 */
export async function runSpokenOf(store: Pick<Store, "runs">, fridge: Fridge, runId?: string): Promise<Run> {
  const run = runId === undefined ? await openRunOf(store, fridge.id) : await store.runs.get(runId);
  if (run === null) throw new BadInput({ code: "nothing-recorded", fridge: fridge.name });
  if (run.fridgeId !== fridge.id) throw new BadInput({ code: "different-fridges", run: run.name, other: fridge.name });
  return run;
}

/** When something is said to have been. */
interface SaidAt {
  /** What this machine's clock says. */
  readonly clockUnixMs: number;
  /** When it was; the run's own now unless stated. */
  readonly unixMs?: number;
}

/**
 * "Now on gas."
 *
 * @returns the run, and the instant that was noted
 * @throws BadInput as `runSpokenOf` does; "outside-run"
 */
export async function sayNowOn(
  store: Pick<Store, "runs" | "edits">,
  fridge: Fridge,
  source: EnergySource,
  at: SaidAt & { readonly runId?: string },
): Promise<{ readonly run: Run; readonly unixMs: number }> {
  const run = await runSpokenOf(store, fridge, at.runId);
  const nowMs = await nowOf(store, run, at.clockUnixMs);
  const unixMs = at.unixMs ?? nowMs;
  if (at.unixMs !== undefined) await refuseOutside(store, run, at.unixMs, nowMs);
  const how = at.unixMs === undefined ? "told" : "later";
  await store.edits.make(run.id, { kind: "source", unixMs, source, how });
  return { run, unixMs };
}

/**
 * What was said for another year, or of another night, would move an edge of the run unseen. A day on either side is left,
 * for what was switched before the probes went in and for what is planned.
 *
 * @param nowMs the run's own now
 */
async function refuseOutside(store: Pick<Store, "runs">, run: Run, unixMs: number, nowMs: number): Promise<void> {
  const { startedUnixMs, endedUnixMs, utcOffsetMinutes } = run;
  const lasts = (await store.runs.extents(run.id)).map(({ lastUnixMs }) => lastUnixMs);
  const toMs = Math.max(startedUnixMs, ...lasts, endedUnixMs ?? nowMs);
  if (unixMs >= startedUnixMs - msPerDay && unixMs <= toMs + msPerDay) return;
  const text = (ms: number) => instantText(ms, utcOffsetMinutes);
  throw new BadInput({
    code: "outside-run",
    run: run.name,
    at: text(unixMs),
    from: text(startedUnixMs),
    to: text(toMs),
  });
}

/** Such as 2026-06-04T07:15:00+02:00, as an instant is typed in. */
const instantText = (unixMs: number, utcOffsetMinutes: number) =>
  `${new Date(unixMs + utcOffsetMinutes * msPerMinute).toISOString().slice(0, 19)}${offsetName(utcOffsetMinutes)}`;

/**
 * "Now" as a run means it: this clock's, but in a log that is replayed the instant it has come to.
 *
 * @param clockUnixMs what this machine's clock says
 */
export async function nowOf(store: Pick<Store, "runs">, run: Run, clockUnixMs: number): Promise<number> {
  if (run.origin !== "replay") return clockUnixMs;
  const extents = await store.runs.extents(run.id);
  return Math.max(run.startedUnixMs, ...extents.map(({ lastUnixMs }) => lastUnixMs));
}

/**
 * Readings taken by hand at one instant, into the run given, else into the one being recorded, else into a run of their
 * own that stays open.
 *
 * @param values °C, `supply` in V
 * @returns the run, and the instant they were noted at
 * @throws BadInput "unbelievable-reading"; "outside-run"; "reading-kept", and none of them is noted
 */
export async function noteReadings(
  store: Pick<Store, "runs" | "readings">,
  fridge: Fridge,
  values: ReadonlyMap<Position, number>,
  at: SaidAt & { readonly utcOffsetMinutes: number; readonly run?: Run },
): Promise<{ readonly run: Run; readonly unixMs: number; readonly received: Received }> {
  for (const [position, value] of values) {
    const { low, high } = probeLimits[position];
    if (value >= low && value <= high) continue;
    throw new BadInput({ code: "unbelievable-reading", position, value, low, high });
  }
  const run =
    at.run ??
    (await openRunOf(store, fridge.id)) ??
    (await store.runs.open({
      fridgeId: fridge.id,
      purpose: "test",
      origin: "hand",
      startedUnixMs: at.unixMs ?? at.clockUnixMs,
      utcOffsetMinutes: at.utcOffsetMinutes,
    }));
  const nowMs = await nowOf(store, run, at.clockUnixMs);
  const unixMs = at.unixMs ?? nowMs;
  if (at.unixMs !== undefined) await refuseOutside(store, run, at.unixMs, nowMs);
  const kept = await keptOf(store, run, [...values.keys()], unixMs);
  for (const [position, given] of values) {
    const there = kept.get(position);
    if (there === undefined || there === given) continue;
    const at = instantText(unixMs, run.utcOffsetMinutes);
    throw new BadInput({ code: "reading-kept", position, kept: there, given, run: run.name, at });
  }
  const readings = [...values]
    .filter(([position]) => !kept.has(position))
    .map(([position, raw]) => ({ position, raw, unixMs }));
  const received = await store.readings.append(run.id, readings);
  return { run, unixMs, received: { ...received, repeated: received.repeated + kept.size } };
}

/** What a run holds of an instant already, corrected: a board's own number is nothing that a person reads. */
async function keptOf(
  store: Pick<Store, "readings">,
  run: Run,
  noted: readonly Position[],
  unixMs: number,
): Promise<ReadonlyMap<Position, number>> {
  const kept = new Map<Position, number>();
  for (const position of noted) {
    const { values } = await store.readings.series(run.id, position, { fromUnixMs: unixMs, toUnixMs: unixMs + 1 });
    if (values.length > 0) kept.set(position, values[0]);
  }
  return kept;
}
