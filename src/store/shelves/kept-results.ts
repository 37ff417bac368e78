// Results in the tables. One that rests on a deleted run is out of sight with it.

import { existingFridge, missing } from "../existing-records.ts";
import { fromJson } from "../json-text.ts";
import { newId } from "../new-id.ts";
import type { NewResult, Result, ResultDocument } from "../records.ts";
import type { Results } from "../store.ts";
import type { Queries, StoreDatabase } from "../store-database.ts";
import type { ResultRow } from "../tables.ts";

type Owner = { readonly fridgeId: string } | { readonly runId: string };

/** Results in one list unless another number is asked for. */
const usualLimit = 50;

export class KeptResults implements Results {
  readonly #database: StoreDatabase;

  constructor(database: StoreDatabase) {
    this.#database = database;
  }

  add(result: NewResult): Promise<Result> {
    const id = newId();
    const { fridgeId, runIds, kind, method, madeUnixMs, document } = result;
    return this.#database.write(async (queries) => {
      await existingFridge(queries, fridgeId);
      await queries
        .insertInto("results")
        .values({ id, fridge_id: fridgeId, kind, method, made_ms: madeUnixMs, document: JSON.stringify(document) })
        .execute();
      const runs = runIds.map((run_id, place) => ({ result_id: id, place, run_id }));
      if (runs.length > 0) await queries.insertInto("result_runs").values(runs).execute();
      return { ...result, id };
    });
  }

  newest(of: Owner, kind: ResultDocument["kind"] = "analysis"): Promise<Result | null> {
    return this.#database.read(async (queries) => {
      const row = await resultsOf(queries, of).where("kind", "=", kind).limit(1).executeTakeFirst();
      return row ? withRuns(queries, row) : null;
    });
  }

  list(of: Owner, limit = usualLimit): Promise<readonly Result[]> {
    return this.#database.read(async (queries) => {
      const rows = await resultsOf(queries, of).limit(limit).execute();
      return Promise.all(rows.map((row) => withRuns(queries, row)));
    });
  }

  get(id: string): Promise<Result> {
    return this.#database.read(async (queries) => {
      const row = await queries.selectFrom("results").selectAll().where("id", "=", id).executeTakeFirst();
      return withRuns(queries, row ?? missing("result", id));
    });
  }

  remove(id: string): Promise<void> {
    return this.#database.write(async (queries) => {
      const { numDeletedRows } = await queries.deleteFrom("results").where("id", "=", id).executeTakeFirst();
      if (numDeletedRows === 0n) missing("result", id);
    });
  }
}

/** Newest first; of one run, those that speak of it in any place. */
function resultsOf(queries: Queries, of: Owner) {
  const inSight = queries
    .selectFrom("results")
    .selectAll()
    .where(({ not, exists, selectFrom }) =>
      not(
        exists(
          selectFrom("result_runs")
            .innerJoin("runs", "runs.id", "result_runs.run_id")
            .select("runs.id")
            .whereRef("result_runs.result_id", "=", "results.id")
            .where("runs.deleted_ms", "is not", null),
        ),
      ),
    )
    .orderBy("made_ms", "desc")
    .orderBy("id", "desc");
  if ("fridgeId" in of) return inSight.where("fridge_id", "=", of.fridgeId);
  return inSight.where("id", "in", (from) =>
    from.selectFrom("result_runs").select("result_id").where("run_id", "=", of.runId),
  );
}

async function withRuns(queries: Queries, row: ResultRow): Promise<Result> {
  const runs = await queries
    .selectFrom("result_runs")
    .select("run_id")
    .where("result_id", "=", row.id)
    .orderBy("place")
    .execute();
  // Which document goes with which kind is what `add` was given.
  return {
    id: row.id,
    fridgeId: row.fridge_id,
    runIds: runs.map(({ run_id }) => run_id),
    method: row.method,
    madeUnixMs: row.made_ms,
    kind: row.kind,
    document: fromJson(row.document),
  } as Result;
}
