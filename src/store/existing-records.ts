// Looks records up that must be there, and says so when they are not.

import { BadInput, type StoreRecord } from "../schema/index.ts";
import type { Queries } from "./store-database.ts";
import type { FridgeRow, RunRow } from "./tables.ts";

/** The run, unless it was deleted. */
export const foundRun = (queries: Queries, id: string): Promise<RunRow | undefined> =>
  queries.selectFrom("runs").selectAll().where("id", "=", id).where("deleted_ms", "is", null).executeTakeFirst();

/** @throws BadInput "no-such-record" when there is none */
export async function existingRun(queries: Queries, id: string): Promise<RunRow> {
  return (await foundRun(queries, id)) ?? missing("run", id);
}

/** The fridge, also one that was removed. @throws BadInput "no-such-record" */
export async function existingFridge(queries: Queries, id: string): Promise<FridgeRow> {
  return (
    (await queries.selectFrom("fridges").selectAll().where("id", "=", id).executeTakeFirst()) ?? missing("fridge", id)
  );
}

/** @throws BadInput "no-such-record", always */
export function missing(kind: StoreRecord, id: string, known?: readonly string[]): never {
  throw new BadInput({ code: "no-such-record", kind, id, ...(known && { known }) });
}
