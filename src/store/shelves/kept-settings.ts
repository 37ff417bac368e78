// Settings in the tables.

import { fromJson } from "../json-text.ts";
import type { Json } from "../records.ts";
import type { Settings } from "../store.ts";
import type { StoreDatabase } from "../store-database.ts";

export class KeptSettings implements Settings {
  readonly #database: StoreDatabase;

  constructor(database: StoreDatabase) {
    this.#database = database;
  }

  get(name: string, fridgeId: string | null = null): Promise<Json | undefined> {
    return this.#database.read(async (queries) => {
      const row = await queries
        .selectFrom("settings")
        .select("value")
        .where("owner", "=", ownerOf(fridgeId))
        .where("name", "=", name)
        .executeTakeFirst();
      return row && fromJson<Json>(row.value);
    });
  }

  set(name: string, value: Json | undefined, fridgeId: string | null = null): Promise<void> {
    const owner = ownerOf(fridgeId);
    return this.#database.write(async (queries) => {
      if (value === undefined) {
        await queries.deleteFrom("settings").where("owner", "=", owner).where("name", "=", name).execute();
        return;
      }
      const text = JSON.stringify(value);
      await queries
        .insertInto("settings")
        .values({ owner, name, value: text })
        .onConflict((conflict) => conflict.columns(["owner", "name"]).doUpdateSet({ value: text }))
        .execute();
    });
  }
}

/** Settings of the whole workshop belong to "", since a key cannot hold null. */
const ownerOf = (fridgeId: string | null) => fridgeId ?? "";
