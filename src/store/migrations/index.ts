// Brings a store to the newest version, one numbered file after another, all in one transaction.

import type { SchemaModule } from "kysely";
import { BadInput } from "../../schema/index.ts";
import type { StoreEngine } from "../engine.ts";
import { firstTables } from "./001-first-tables.ts";
import { rawUnits } from "./002-raw-units.ts";
import { editsTogether } from "./003-edits-together.ts";

/** Takes a store from the version before to the next. */
export type Migration = (schema: SchemaModule, engine: Pick<StoreEngine, "bytesType">) => Promise<void>;

/** The n-th makes version n. */
const migrations: readonly Migration[] = [firstTables, rawUnits, editsTogether];

/** The version that this program writes. */
export const storeVersion = migrations.length;

/** @throws BadInput "store-newer" when a newer program wrote the store; it is then left as it was. */
export async function migrate(engine: StoreEngine): Promise<void> {
  await engine.tables.transaction().execute(async (transaction) => {
    const tables = transaction.withTables<{ store_version: { version: number } }>();
    await tables.schema
      .createTable("store_version")
      .ifNotExists()
      .addColumn("version", "integer", (column) => column.notNull())
      .execute();
    const kept = await tables.selectFrom("store_version").select("version").executeTakeFirst();
    const version = kept?.version ?? 0;
    if (version > storeVersion) {
      throw new BadInput({ code: "store-newer", file: engine.name, version, known: storeVersion });
    }
    for (const step of migrations.slice(version)) await step(transaction.schema, engine);
    if (kept === undefined) await tables.insertInto("store_version").values({ version: storeVersion }).execute();
    else if (version < storeVersion) await tables.updateTable("store_version").set({ version: storeVersion }).execute();
  });
}
