// Edits in the tables: a journal per run that is only ever added to.

import { currentEdits, nextNumber, standingEdits } from "../current-edits.ts";
import { existingRun, missing } from "../existing-records.ts";
import { fromJson } from "../json-text.ts";
import type { EditEntry, EditStep, RunEdits } from "../records.ts";
import type { Edits } from "../store.ts";
import type { Queries, StoreDatabase } from "../store-database.ts";
import type { EditRow } from "../tables.ts";

/** EditRow.undone */
const inForce = 0;
const undone = 1;
const undoneForGood = 2;

export class KeptEdits implements Edits {
  readonly #database: StoreDatabase;

  constructor(database: StoreDatabase) {
    this.#database = database;
  }

  make(runId: string, step: EditStep, made: { readonly unixMs?: number; readonly by?: string } = {}): Promise<number> {
    return this.#database.write(async (queries) => {
      await existingRun(queries, runId);
      const entries = await editEntries(queries, runId);
      // Only an edit that stands can be replaced or removed.
      if ((step.kind === "replace" || step.kind === "remove") && !standingEdits(entries).has(step.number))
        missing("edit", `${step.number}`);
      await mark(queries, runId, undone, undoneForGood);
      const number = nextNumber(entries);
      await queries
        .insertInto("edits")
        .values({
          run_id: runId,
          number,
          made_ms: made.unixMs ?? Date.now(),
          made_by: made.by ?? null,
          step: JSON.stringify(step),
          undone: inForce,
        })
        .execute();
      return number;
    });
  }

  undo(runId: string): Promise<boolean> {
    return this.#database.write(async (queries) => {
      const last = (await editRows(queries, runId)).findLast((row) => row.undone === inForce);
      return last ? setUndone(queries, last, undone) : false;
    });
  }

  redo(runId: string): Promise<boolean> {
    return this.#database.write(async (queries) => {
      // Undoing goes from the last edit to the first, so bringing back goes the other way.
      const next = (await editRows(queries, runId)).find((row) => row.undone === undone);
      return next ? setUndone(queries, next, inForce) : false;
    });
  }

  current(runId: string): Promise<RunEdits> {
    return this.#database.read(async (queries) => currentEdits(await editEntries(queries, runId)));
  }

  history(runId: string): Promise<readonly EditEntry[]> {
    return this.#database.read(async (queries) =>
      (await editEntries(queries, runId)).map(({ canRedo: _, ...entry }) => entry),
    );
  }
}

/** All edits of the run, the oldest first. */
export async function editEntries(
  queries: Queries,
  runId: string,
): Promise<readonly (EditEntry & { readonly canRedo: boolean })[]> {
  return (await editRows(queries, runId)).map((row) => ({
    number: row.number,
    madeUnixMs: row.made_ms,
    madeBy: row.made_by,
    step: fromJson<EditStep>(row.step),
    isUndone: row.undone !== inForce,
    canRedo: row.undone === undone,
  }));
}

const editRows = (queries: Queries, runId: string) =>
  queries.selectFrom("edits").selectAll().where("run_id", "=", runId).orderBy("number").execute();

const mark = (queries: Queries, runId: string, from: number, to: number) =>
  queries.updateTable("edits").set({ undone: to }).where("run_id", "=", runId).where("undone", "=", from).execute();

async function setUndone(queries: Queries, { run_id, number }: EditRow, to: number): Promise<true> {
  await queries
    .updateTable("edits")
    .set({ undone: to })
    .where("run_id", "=", run_id)
    .where("number", "=", number)
    .execute();
  return true;
}
