// Baselines in the tables.

import { existingFridge, missing } from "../existing-records.ts";
import { fromJson } from "../json-text.ts";
import { newId } from "../new-id.ts";
import type { Baseline, NewBaseline } from "../records.ts";
import type { Baselines } from "../store.ts";
import type { StoreDatabase } from "../store-database.ts";

export class KeptBaselines implements Baselines {
  readonly #database: StoreDatabase;

  constructor(database: StoreDatabase) {
    this.#database = database;
  }

  add(baseline: NewBaseline): Promise<Baseline> {
    const id = newId();
    return this.#database.write(async (queries) => {
      await existingFridge(queries, baseline.fridgeId);
      await queries
        .insertInto("baselines")
        .values({
          id,
          fridge_id: baseline.fridgeId,
          made_ms: baseline.madeUnixMs,
          details: JSON.stringify(baseline),
        })
        .execute();
      return { ...baseline, id };
    });
  }

  list(fridgeId: string): Promise<readonly Baseline[]> {
    return this.#database.read(async (queries) => {
      const rows = await queries
        .selectFrom("baselines")
        .selectAll()
        .where("fridge_id", "=", fridgeId)
        .orderBy("made_ms", "desc")
        .orderBy("id", "desc")
        .execute();
      return rows.map(({ id, details }) => ({ ...fromJson<NewBaseline>(details), id }));
    });
  }

  remove(id: string): Promise<void> {
    return this.#database.write(async (queries) => {
      const { numDeletedRows } = await queries.deleteFrom("baselines").where("id", "=", id).executeTakeFirst();
      if (numDeletedRows === 0n) missing("baseline", id);
    });
  }
}
