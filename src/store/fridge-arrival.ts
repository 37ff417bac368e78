// A fridge that was exported comes into this store (fridge-export.ts is the way out): under the ids it had, so that the same
// export twice changes nothing, and a later one adds what is new.

import type { InsertObject } from "kysely";
import type { FridgePiece } from "../schema/documents/index.ts";
import { jsonText } from "./json-text.ts";
import { keepBlocks } from "./keep-blocks.ts";
import { ReceivedCount } from "./received.ts";
import { alarmRow, calibrationRow, eventRow } from "./record-rows.ts";
import type { Received, SeriesPart } from "./records.ts";
import { blockOfPart, cut } from "./series-part.ts";
import type { Queries } from "./store-database.ts";
import type { Tables } from "./tables.ts";

type RecordOf<Kind extends FridgePiece["kind"]> = Extract<FridgePiece, { kind: Kind }>["record"];

/** What came in. */
export interface Arrived {
  readonly newRuns: number;
  readonly received: Received;
}

/**
 * Everything but the fridge itself, which is there by now. What is kept already stays as it is, whatever the pieces say.
 *
 * @param store what people call the store, for messages
 * @throws BadInput "store-damaged"
 */
export async function keepPieces(
  queries: Queries,
  fridgeId: string,
  pieces: readonly FridgePiece[],
  store: string,
): Promise<Arrived> {
  const of = <Kind extends FridgePiece["kind"]>(kind: Kind): readonly RecordOf<Kind>[] =>
    pieces.flatMap((piece) => (piece.kind === kind ? [piece.record as RecordOf<Kind>] : []));
  let newRuns = 0;
  for (const run of of("run")) newRuns += await keepRun(queries, fridgeId, run);
  const inSight = await runsInSight(queries, fridgeId);
  const isOfRun = ({ runId }: { readonly runId: string }) => inSight.has(runId);
  await keepEdits(queries, of("edit").filter(isOfRun));
  await keepEvents(queries, of("event").filter(isOfRun));
  await keepAlarms(queries, of("alarm").filter(isOfRun));
  for (const result of of("result")) {
    if (result.runIds.every((id) => inSight.has(id))) await keepResult(queries, fridgeId, result);
  }
  await keepBaselines(queries, fridgeId, of("baseline"));
  await keepProbes(queries, fridgeId, {
    probes: of("probe"),
    roles: of("probe-role"),
    calibrations: of("calibration"),
  });
  const count = new ReceivedCount();
  const parts = Map.groupBy(of("readings").filter(isOfRun), ({ runId, position }) => `${runId} ${position}`);
  for (const own of parts.values()) {
    const blocks = own.flatMap((record) => [...cut(partOf(record))].map((part) => blockOfPart(record.runId, part)));
    await keepBlocks(queries, blocks, count, store);
  }
  return { newRuns, received: count.result() };
}

/** @returns 1 for a run that was not there, not even deleted */
async function keepRun(queries: Queries, fridgeId: string, run: RecordOf<"run">): Promise<0 | 1> {
  const known = await queries.selectFrom("runs").select("id").where("id", "=", run.id).executeTakeFirst();
  if (known !== undefined) return 0;
  await queries
    .insertInto("runs")
    .values({
      id: run.id,
      fridge_id: fridgeId,
      name: run.name,
      purpose: run.purpose,
      origin: run.origin,
      started_ms: run.startedUnixMs,
      ended_ms: run.endedUnixMs,
      utc_offset_minutes: run.utcOffsetMinutes,
      sheet: jsonText(run.sheet),
      plan: jsonText(run.plan),
      notes: run.notes,
      deleted_ms: null,
    })
    .execute();
  const files = run.files.map(({ name, sha256 }, place) => ({ run_id: run.id, place, sha256, name }));
  if (files.length > 0) await queries.insertInto("run_files").values(files).execute();
  return 1;
}

/** Runs of this fridge alone: a piece of another one's run is none of ours. */
async function runsInSight(queries: Queries, fridgeId: string): Promise<ReadonlySet<string>> {
  const rows = await queries
    .selectFrom("runs")
    .select("id")
    .where("fridge_id", "=", fridgeId)
    .where("deleted_ms", "is", null)
    .execute();
  return new Set(rows.map(({ id }) => id));
}

/** As the tables mark an edit that was undone and cannot be redone (shelves/kept-edits.ts). */
const undoneForGood = 2;

const keepEdits = (queries: Queries, edits: readonly RecordOf<"edit">[]): Promise<void> =>
  addMissing(
    queries,
    "edits",
    edits.map(({ runId, number, madeUnixMs, madeBy, step, isUndone }) => ({
      run_id: runId,
      number,
      made_ms: madeUnixMs,
      made_by: madeBy,
      step: JSON.stringify(step),
      undone: isUndone ? undoneForGood : 0,
    })),
  );

const keepEvents = (queries: Queries, events: readonly RecordOf<"event">[]): Promise<void> =>
  addMissing(
    queries,
    "events",
    events.map(({ id, runId, ...event }) => eventRow(id, runId, event)),
  );

const keepAlarms = (queries: Queries, alarms: readonly RecordOf<"alarm">[]): Promise<void> =>
  addMissing(queries, "alarms", alarms.map(alarmRow));

async function keepResult(queries: Queries, fridgeId: string, result: RecordOf<"result">): Promise<void> {
  const { id, runIds, kind, method, madeUnixMs, document } = result;
  await addMissing(queries, "results", [
    { id, fridge_id: fridgeId, kind, method, made_ms: madeUnixMs, document: JSON.stringify(document) },
  ]);
  await addMissing(
    queries,
    "result_runs",
    runIds.map((run_id, place) => ({ result_id: id, place, run_id })),
  );
}

const keepBaselines = (queries: Queries, fridgeId: string, baselines: readonly RecordOf<"baseline">[]): Promise<void> =>
  addMissing(
    queries,
    "baselines",
    baselines.map(({ id, ...baseline }) => ({
      id,
      fridge_id: fridgeId,
      made_ms: baseline.madeUnixMs,
      details: JSON.stringify({ ...baseline, fridgeId }),
    })),
  );

interface ProbePieces {
  readonly probes: readonly RecordOf<"probe">[];
  readonly roles: readonly RecordOf<"probe-role">[];
  readonly calibrations: readonly RecordOf<"calibration">[];
}

/** A probe may have served here, too: what is known of it here stays, calibrations are added to those it has. */
async function keepProbes(queries: Queries, fridgeId: string, { probes, roles, calibrations }: ProbePieces) {
  const ids = new Set(probes.map(({ id }) => id));
  const isOfProbe = ({ probeId }: { readonly probeId: string }) => ids.has(probeId);
  await addMissing(
    queries,
    "probes",
    probes.map((probe) => ({ id: probe.id, details: JSON.stringify(probe) })),
  );
  await addMissing(
    queries,
    "probe_roles",
    roles.filter(isOfProbe).map(({ probeId, boardId, position, sinceUnixMs }) => ({
      probe_id: probeId,
      fridge_id: fridgeId,
      board_id: boardId,
      position,
      since_ms: sinceUnixMs,
    })),
  );
  await addMissing(
    queries,
    "calibrations",
    calibrations.filter(isOfProbe).map(({ id, ...calibration }) => calibrationRow(id, calibration)),
  );
}

/** Adds the rows whose key is not there yet; what is kept already stays as it is. */
async function addMissing<Table extends keyof Tables>(
  queries: Queries,
  table: Table,
  rows: readonly InsertObject<Tables, Table>[],
): Promise<void> {
  for (const row of rows) {
    await queries
      .insertInto(table)
      .values(row)
      .onConflict((conflict) => conflict.doNothing())
      .execute();
  }
}

function partOf({
  runId: _,
  unixMs,
  raw,
  sequence,
  uptimeMs,
  hostUnixMs,
  ...origin
}: RecordOf<"readings">): SeriesPart {
  const optional = (column: readonly (number | null)[] | null) =>
    column === null ? null : Float64Array.from(column, (value) => value ?? Number.NaN);
  return {
    ...origin,
    unixMs: Float64Array.from(unixMs),
    raw: Float64Array.from(raw),
    sequence: optional(sequence),
    uptimeMs: optional(uptimeMs),
    hostUnixMs: optional(hostUnixMs),
  };
}
