// Runs in the tables, with what they hold in short.

import type { ExpressionBuilder } from "kysely";
import { BadInput, type Position, positions } from "../../schema/index.ts";
import { existingFridge, existingRun, foundRun, missing } from "../existing-records.ts";
import { GroupCommit, type Outcome } from "../group-commit.ts";
import { fromJsonText, jsonText } from "../json-text.ts";
import { newRunId } from "../new-id.ts";
import type {
  NewRun,
  Run,
  RunChanges,
  RunFile,
  RunList,
  RunOrigin,
  RunPurpose,
  RunQuery,
  SeriesExtent,
} from "../records.ts";
import { sealTail } from "../seal-tail.ts";
import type { Runs } from "../store.ts";
import type { Queries, StoreDatabase } from "../store-database.ts";
import type { RunRow, Tables } from "../tables.ts";

/** Runs in one list unless another number is asked for. */
const usualLimit = 50;

export class KeptRuns implements Runs {
  readonly #database: StoreDatabase;
  /** When power comes back, hundreds of boards ask for a run in the same second: they share commits as readings do. */
  readonly #opening: GroupCommit<RunRow, Run>;

  constructor(database: StoreDatabase) {
    this.#database = database;
    this.#opening = new GroupCommit((rows) => this.#open(rows), 0);
  }

  open(run: NewRun): Promise<Run> {
    const id = newRunId(run.startedUnixMs);
    const row: RunRow = {
      id,
      fridge_id: run.fridgeId,
      name: run.name ?? id,
      purpose: run.purpose,
      origin: run.origin,
      started_ms: run.startedUnixMs,
      ended_ms: null,
      utc_offset_minutes: run.utcOffsetMinutes,
      sheet: jsonText(run.sheet),
      plan: jsonText(run.plan),
      notes: run.notes ?? null,
      deleted_ms: null,
    };
    return this.#opening.add(row);
  }

  #open(rows: readonly RunRow[]): Promise<readonly Outcome<Run>[]> {
    return this.#database.write(async (queries) => {
      const outcomes: Outcome<Run>[] = [];
      for (const row of rows) {
        try {
          const { removed_ms } = await existingFridge(queries, row.fridge_id);
          if (removed_ms !== null) missing("fridge", row.fridge_id);
        } catch (error) {
          // Looked up before anything of it was written: the others go on.
          if (!(error instanceof BadInput)) throw error;
          outcomes.push({ error });
          continue;
        }
        await queries.insertInto("runs").values(row).execute();
        outcomes.push({ answer: runOf(row) });
      }
      return outcomes;
    });
  }

  /** Waits for runs being opened. */
  drained(): Promise<void> {
    return this.#opening.drained();
  }

  edit(id: string, changes: RunChanges): Promise<Run> {
    return this.#database.write(async (queries) => {
      const before = await existingRun(queries, id);
      const set = {
        name: changes.name ?? before.name,
        purpose: changes.purpose ?? before.purpose,
        started_ms: changes.startedUnixMs ?? before.started_ms,
        ended_ms: changes.endedUnixMs === undefined ? before.ended_ms : changes.endedUnixMs,
        utc_offset_minutes: changes.utcOffsetMinutes ?? before.utc_offset_minutes,
        sheet: changes.sheet === undefined ? before.sheet : jsonText(changes.sheet),
        plan: changes.plan === undefined ? before.plan : jsonText(changes.plan),
        notes: changes.notes ?? before.notes,
      };
      await queries.updateTable("runs").set(set).where("id", "=", id).execute();
      return runOf({ ...before, ...set });
    });
  }

  close(id: string, endedUnixMs: number): Promise<Run> {
    return this.#database.write(async (queries) => {
      const row = { ...(await existingRun(queries, id)), ended_ms: endedUnixMs };
      await queries.updateTable("runs").set({ ended_ms: endedUnixMs }).where("id", "=", id).execute();
      await sealTail(queries, id);
      return runOf(row);
    });
  }

  async list({
    fridgeId,
    purpose,
    isOpen,
    areDeleted = false,
    limit = usualLimit,
    cursor,
  }: RunQuery = {}): Promise<RunList> {
    return this.#database.read(async (queries) => {
      let query = queries
        .selectFrom("runs")
        .selectAll()
        .where("deleted_ms", areDeleted ? "is not" : "is", null);
      if (fridgeId !== undefined) query = query.where("fridge_id", "=", fridgeId);
      if (purpose !== undefined) query = query.where("purpose", "=", purpose);
      if (isOpen !== undefined) query = query.where("ended_ms", isOpen ? "is" : "is not", null);
      if (cursor !== undefined) query = query.where((eb) => startsBefore(eb, cursor));
      const rows = await query
        .orderBy("started_ms", "desc")
        .orderBy("id", "desc")
        .limit(limit + 1)
        .execute();
      const runs = rows.slice(0, limit).map(runOf);
      const last = runs.at(-1);
      return { runs, next: rows.length > limit && last ? `${last.startedUnixMs} ${last.id}` : null };
    });
  }

  get(id: string): Promise<Run> {
    return this.#database.read(async (queries) => {
      // No id has other letters, so none of them can mean something else to "like".
      const beginning = id.toLowerCase();
      const rows = /^[0-9a-z-]+$/.test(beginning)
        ? await queries
            .selectFrom("runs")
            .selectAll()
            .where("id", "like", `${beginning}%`)
            .where("deleted_ms", "is", null)
            .orderBy("id")
            .limit(5)
            .execute()
        : [];
      const exact = rows.find((row) => row.id === beginning);
      if (!exact && rows.length > 1) {
        throw new BadInput({ code: "not-one-record", kind: "run", id, known: rows.map((row) => row.id) });
      }
      return runOf(exact ?? rows[0] ?? missing("run", id));
    });
  }

  find(id: string): Promise<Run | null> {
    return this.#database.read(async (queries) => {
      const row = await foundRun(queries, id);
      return row === undefined ? null : runOf(row);
    });
  }

  extents(id: string): Promise<readonly SeriesExtent[]> {
    return this.#database.read(async (queries) => {
      const kept = [...(await sealedExtents(queries, id)), ...(await openExtents(queries, id))];
      return positions.flatMap((position) => {
        const own = kept.filter(({ series }) => series === position);
        return own.length === 0 ? [] : [extentOf(position, own)];
      });
    });
  }

  files(id: string): Promise<readonly RunFile[]> {
    return this.#database.read((queries) =>
      queries.selectFrom("run_files").select(["name", "sha256"]).where("run_id", "=", id).orderBy("place").execute(),
    );
  }

  withFile(sha256: string): Promise<readonly Run[]> {
    return this.#database.read(async (queries) => {
      const rows = await queries
        .selectFrom("runs")
        .innerJoin("run_files", "run_files.run_id", "runs.id")
        .selectAll("runs")
        .where("run_files.sha256", "=", sha256)
        .where("runs.deleted_ms", "is", null)
        .orderBy("runs.started_ms", "desc")
        .execute();
      return rows.map(runOf);
    });
  }

  delete(id: string): Promise<void> {
    return this.#database.write(async (queries) => {
      await existingRun(queries, id);
      await queries.updateTable("runs").set({ deleted_ms: Date.now() }).where("id", "=", id).execute();
    });
  }

  restore(id: string): Promise<Run> {
    return this.#database.write(async (queries) => {
      const row = await queries
        .updateTable("runs")
        .set({ deleted_ms: null })
        .where("id", "=", id)
        .returningAll()
        .executeTakeFirst();
      if (!row) return missing("run", id);
      const { removed_ms } = await existingFridge(queries, row.fridge_id);
      // A run cannot be seen without its fridge, so that has to come back first.
      return removed_ms === null ? runOf(row) : missing("fridge", row.fridge_id);
    });
  }
}

/** After the run that a cursor names, in the order of the list. */
function startsBefore(eb: ExpressionBuilder<Tables, "runs">, cursor: string) {
  const [started, id] = cursor.split(" ");
  return eb.or([
    eb("started_ms", "<", Number(started)),
    eb.and([eb("started_ms", "=", Number(started)), eb("id", "<", id ?? "")]),
  ]);
}

interface Extent {
  readonly series: string;
  readonly readings: number | string;
  readonly first: number;
  readonly last: number;
}

const sealedExtents = (queries: Queries, runId: string): Promise<Extent[]> =>
  queries
    .selectFrom("blocks")
    .select(({ fn }) => [
      "series",
      fn.sum<number>("readings").as("readings"),
      fn.min("from_ms").as("first"),
      fn.max("to_ms").as("last"),
    ])
    .where("run_id", "=", runId)
    .groupBy("series")
    .execute();

const openExtents = (queries: Queries, runId: string): Promise<Extent[]> =>
  queries
    .selectFrom("open_readings")
    .select(({ fn }) => [
      "series",
      fn.countAll<number>().as("readings"),
      fn.min("unix_ms").as("first"),
      fn.max("unix_ms").as("last"),
    ])
    .where("run_id", "=", runId)
    .groupBy("series")
    .execute();

const extentOf = (position: Position, parts: readonly Extent[]): SeriesExtent => ({
  position,
  // Some databases give counts as text.
  readings: parts.reduce((sum, { readings }) => sum + Number(readings), 0),
  firstUnixMs: Math.min(...parts.map(({ first }) => first)),
  lastUnixMs: Math.max(...parts.map(({ last }) => last)),
});

const runOf = (row: RunRow): Run => ({
  id: row.id,
  fridgeId: row.fridge_id,
  name: row.name,
  purpose: row.purpose as RunPurpose,
  origin: row.origin as RunOrigin,
  startedUnixMs: row.started_ms,
  endedUnixMs: row.ended_ms,
  utcOffsetMinutes: row.utc_offset_minutes,
  sheet: fromJsonText(row.sheet),
  plan: fromJsonText(row.plan),
  notes: row.notes,
  deletedUnixMs: row.deleted_ms,
});
