// Events of runs in the tables.

import type { Position } from "../../schema/index.ts";
import { existingRun, missing } from "../existing-records.ts";
import { fromJson, jsonText } from "../json-text.ts";
import { newId } from "../new-id.ts";
import { eventRow } from "../record-rows.ts";
import type { KeptEvent, RunEvent } from "../records.ts";
import type { Events } from "../store.ts";
import type { StoreDatabase } from "../store-database.ts";

export class KeptEvents implements Events {
  readonly #database: StoreDatabase;

  constructor(database: StoreDatabase) {
    this.#database = database;
  }

  add(runId: string, event: RunEvent): Promise<string> {
    const id = newId();
    return this.#database.write(async (queries) => {
      await existingRun(queries, runId);
      await queries
        .insertInto("events")
        .values(eventRow(id, runId, event))
        .execute();
      return id;
    });
  }

  edit(id: string, { toUnixMs, details }: Pick<RunEvent, "toUnixMs" | "details">): Promise<void> {
    return this.#database.write(async (queries) => {
      const before = await queries.selectFrom("events").selectAll().where("id", "=", id).executeTakeFirst();
      if (!before) missing("event", id);
      await queries
        .updateTable("events")
        .set({ to_ms: toUnixMs ?? before.to_ms, details: details === undefined ? before.details : jsonText(details) })
        .where("id", "=", id)
        .execute();
    });
  }

  list(runId: string): Promise<readonly KeptEvent[]> {
    return this.#database.read(async (queries) => {
      const rows = await queries
        .selectFrom("events")
        .selectAll()
        .where("run_id", "=", runId)
        .orderBy("from_ms")
        .orderBy("id")
        .execute();
      return rows.map((row) => ({
        id: row.id,
        runId,
        kind: row.kind,
        fromUnixMs: row.from_ms,
        ...(row.to_ms !== null && { toUnixMs: row.to_ms }),
        ...(row.position !== null && { position: row.position as Position }),
        ...(row.board_id !== null && { boardId: row.board_id }),
        ...(row.details !== null && { details: fromJson(row.details) }),
      }));
    });
  }
}
