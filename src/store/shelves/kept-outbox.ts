// Messages on their way out, in the tables, so that a restart forgets none.

import { missing } from "../existing-records.ts";
import { fromJson } from "../json-text.ts";
import { newId } from "../new-id.ts";
import type { Message, NewMessage } from "../records.ts";
import type { Outbox } from "../store.ts";
import type { StoreDatabase } from "../store-database.ts";
import type { MessageRow } from "../tables.ts";

/** Messages handed out at once unless another number is asked for. */
const usualLimit = 20;

export class KeptOutbox implements Outbox {
  readonly #database: StoreDatabase;

  constructor(database: StoreDatabase) {
    this.#database = database;
  }

  add({ target, body, madeUnixMs }: NewMessage): Promise<Message> {
    const row: MessageRow = {
      id: newId(),
      target,
      body: JSON.stringify(body),
      made_ms: madeUnixMs,
      attempts: 0,
      next_ms: madeUnixMs,
      last_error: null,
    };
    return this.#database.write(async (queries) => {
      await queries.insertInto("outbox").values(row).execute();
      return messageOf(row);
    });
  }

  due(nowUnixMs: number, limit = usualLimit): Promise<readonly Message[]> {
    return this.#database.read(async (queries) => {
      const rows = await queries
        .selectFrom("outbox")
        .selectAll()
        .where("next_ms", "<=", nowUnixMs)
        .orderBy("made_ms")
        .orderBy("id")
        .limit(limit)
        .execute();
      return rows.map(messageOf);
    });
  }

  settle(id: string): Promise<void> {
    return this.#database.write(async (queries) => {
      await queries.deleteFrom("outbox").where("id", "=", id).execute();
    });
  }

  postpone(id: string, nextUnixMs: number, error: string): Promise<void> {
    return this.#database.write(async (queries) => {
      const { numUpdatedRows } = await queries
        .updateTable("outbox")
        .set((eb) => ({ attempts: eb("attempts", "+", 1), next_ms: nextUnixMs, last_error: error }))
        .where("id", "=", id)
        .executeTakeFirst();
      if (numUpdatedRows === 0n) missing("message", id);
    });
  }
}

const messageOf = (row: MessageRow): Message => ({
  id: row.id,
  target: row.target,
  body: fromJson(row.body),
  madeUnixMs: row.made_ms,
  attempts: row.attempts,
  nextUnixMs: row.next_ms,
  lastError: row.last_error,
});
