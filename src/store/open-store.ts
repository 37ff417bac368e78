// Opens the store that is embedded by default: one SQLite file.

import type { OpenStoreOptions } from "./kept-store.ts";
import type { Store } from "./store.ts";

/**
 * Opens the store in a file, making file and folders when there are none. Several processes may have it open at once.
 *
 * @throws BadInput "store-newer", "not-a-store", "store-busy", "store-disk-full", "store-unusable", "cannot-write"
 */
export async function openStore(file: string, options: OpenStoreOptions = {}): Promise<Store> {
  // The engine is loaded by who opens a store, not by everyone who knows of one.
  const { keptStore } = await import("./kept-store.ts");
  const { openSqlite } = await import("./sqlite-engine.ts");
  return keptStore(openSqlite(file), options);
}
