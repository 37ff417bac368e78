// Fridges in the tables. What belongs to one goes and comes back with it.

import { BadInput } from "../../schema/index.ts";
import { existingFridge, missing } from "../existing-records.ts";
import { keepPieces } from "../fridge-arrival.ts";
import { fridgePieces } from "../fridge-export.ts";
import { fromJson } from "../json-text.ts";
import { nameKey } from "../name-key.ts";
import { newId } from "../new-id.ts";
import type { Fridge, FridgeChanges, FridgeDetails, FridgeTakenIn } from "../records.ts";
import type { Fridges, Store } from "../store.ts";
import type { Queries, StoreDatabase } from "../store-database.ts";
import type { FridgeRow } from "../tables.ts";

export class KeptFridges implements Fridges {
  readonly #database: StoreDatabase;
  readonly #store: () => Store;

  /** @param store the whole store, for an export */
  constructor(database: StoreDatabase, store: () => Store) {
    this.#database = database;
    this.#store = store;
  }

  add(details: FridgeDetails): Promise<Fridge> {
    const row: FridgeRow = { id: newId(), ...describing(details), added_ms: Date.now(), removed_ms: null };
    return this.#database.write(async (queries) => {
      await refuseTaken(queries, row);
      await queries.insertInto("fridges").values(row).execute();
      return fridgeOf(row);
    });
  }

  edit(id: string, changes: FridgeChanges): Promise<Fridge> {
    return this.#database.write(async (queries) => {
      const before = await existingFridge(queries, id);
      const changed = describing(withChanges(detailsOf(before), changes));
      const row = { ...before, ...changed };
      await refuseTaken(queries, row);
      await queries.updateTable("fridges").set(changed).where("id", "=", id).execute();
      return fridgeOf(row);
    });
  }

  takeIn([{ record }, ...pieces]: Parameters<Fridges["takeIn"]>[0]): Promise<FridgeTakenIn> {
    return this.#database.write(async (queries) => {
      const { id, addedUnixMs, removedUnixMs: _, ...details } = record;
      const row: FridgeRow = { id, ...describing(details), added_ms: addedUnixMs, removed_ms: null };
      const known = await queries.selectFrom("fridges").selectAll().where("id", "=", id).executeTakeFirst();
      if (known === undefined) {
        await refuseTaken(queries, row);
        await queries.insertInto("fridges").values(row).execute();
      } else if (known.removed_ms !== null) await bringBack(queries, known);
      const arrived = await keepPieces(queries, id, pieces, this.#database.name);
      return { fridge: fridgeOf({ ...(known ?? row), removed_ms: null }), isNew: known === undefined, ...arrived };
    });
  }

  list({ areRemoved = false }: { readonly areRemoved?: boolean } = {}): Promise<readonly Fridge[]> {
    return this.#database.read(async (queries) =>
      (await rowsInUse(queries, areRemoved)).map(fridgeOf).sort((a, b) => a.name.localeCompare(b.name)),
    );
  }

  get(id: string): Promise<Fridge> {
    return this.#database.read(async (queries) => fridgeOf(await existingFridge(queries, id)));
  }

  named(name: string): Promise<Fridge> {
    return this.#database.read(async (queries) => {
      const rows = await rowsInUse(queries, false);
      const row = rows.find(({ name_key }) => name_key === nameKey(name));
      return row ? fridgeOf(row) : missing("fridge", name, rows.map((other) => other.name).sort());
    });
  }

  remove(id: string): Promise<void> {
    return this.#database.write(async (queries) => {
      const { removed_ms } = await existingFridge(queries, id);
      if (removed_ms !== null) return;
      // The same instant on both tells, when restoring, which runs went with the fridge.
      const now = Date.now();
      await queries.updateTable("fridges").set({ removed_ms: now }).where("id", "=", id).execute();
      await queries
        .updateTable("runs")
        .set({ deleted_ms: now })
        .where("fridge_id", "=", id)
        .where("deleted_ms", "is", null)
        .execute();
    });
  }

  restore(id: string): Promise<Fridge> {
    return this.#database.write(async (queries) => {
      const row = await existingFridge(queries, id);
      if (row.removed_ms === null) return fridgeOf(row);
      await bringBack(queries, row);
      return fridgeOf({ ...row, removed_ms: null });
    });
  }

  export(id: string) {
    return fridgePieces(this.#store(), id);
  }
}

const rowsInUse = (queries: Queries, areRemoved: boolean) =>
  queries
    .selectFrom("fridges")
    .selectAll()
    .where("removed_ms", areRemoved ? "is not" : "is", null)
    .execute();

/** A removed fridge, and the runs that went with it. @throws BadInput "name-taken" */
async function bringBack(queries: Queries, row: FridgeRow): Promise<void> {
  await refuseTaken(queries, row);
  await queries.updateTable("fridges").set({ removed_ms: null }).where("id", "=", row.id).execute();
  await queries
    .updateTable("runs")
    .set({ deleted_ms: null })
    .where("fridge_id", "=", row.id)
    .where("deleted_ms", "=", row.removed_ms)
    .execute();
}

async function refuseTaken(queries: Queries, { id, name, name_key }: FridgeRow): Promise<void> {
  const other = await queries
    .selectFrom("fridges")
    .select("id")
    .where("name_key", "=", name_key)
    .where("removed_ms", "is", null)
    .where("id", "!=", id)
    .executeTakeFirst();
  if (other) throw new BadInput({ code: "name-taken", kind: "fridge", name });
}

function withChanges(details: FridgeDetails, changes: FridgeChanges): FridgeDetails {
  const all = Object.entries({ ...details, ...changes }).filter(([, value]) => value !== null);
  // A name is never null.
  return Object.fromEntries(all) as unknown as FridgeDetails;
}

const describing = ({ name, ...details }: FridgeDetails) => ({
  name: name.trim().normalize("NFC"),
  name_key: nameKey(name),
  details: JSON.stringify(details),
});

const detailsOf = ({ name, details }: FridgeRow): FridgeDetails => ({
  ...fromJson<Omit<FridgeDetails, "name">>(details),
  name,
});

const fridgeOf = (row: FridgeRow): Fridge => ({
  id: row.id,
  ...detailsOf(row),
  addedUnixMs: row.added_ms,
  removedUnixMs: row.removed_ms,
});
