// A command's work on the store, which is open only as long as the work lasts.

import { openStore, type Store } from "../../store/index.ts";
import { storeFileOf } from "../store-option.ts";

/** What every command on the store may be told. */
export interface StoreOptions {
  /** The store's file; the usual one unless stated. */
  readonly store?: string;
  readonly json?: boolean;
}

/** @throws BadInput when the store cannot be opened, or as the work does */
export async function withStore<Result>(
  { store: stated }: StoreOptions,
  work: (store: Store) => Promise<Result>,
): Promise<Result> {
  await using store = await openStore(storeFileOf(stated));
  return await work(store);
}
