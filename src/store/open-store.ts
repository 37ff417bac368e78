// Opens the store that is embedded by default: one SQLite file.

import { keptStore, type OpenStoreOptions } from "./kept-store.ts";
import { openSqlite } from "./sqlite-engine.ts";
import type { Store } from "./store.ts";

/**
 * Opens the store in a file, making file and folders when there are none. Several processes may have it open at once.
 *
 * @throws BadInput "store-newer", "not-a-store", "store-busy", "store-disk-full", "store-unusable", "cannot-write"
 */
export const openStore = async (file: string, options: OpenStoreOptions = {}): Promise<Store> =>
  keptStore(openSqlite(file), options);
