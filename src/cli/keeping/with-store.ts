// A command's work on the store, which is open only as long as the work lasts.

import { existsSync } from "node:fs";
import { BadInput } from "../../schema/index.ts";
import { openStore, type Store } from "../../store/index.ts";
import type { LanguageOptions } from "../language-option.ts";
import { storeFileOf } from "../store-option.ts";

/** What every command on the store may be told. */
export interface StoreOptions extends Pick<LanguageOptions, "language"> {
  /** The store's file; the usual one unless stated. */
  readonly store?: string;
  readonly json?: boolean;
}

/**
 * Does the work on a store that is there; without one stated, on the usual one, which is made when it is not.
 *
 * @throws BadInput "no-such-store" for a stated one, when the store cannot be opened, or as the work does
 */
export async function withStore<Result>(
  options: StoreOptions,
  work: (store: Store) => Promise<Result>,
): Promise<Result> {
  // Made anew, a mistyped one would be empty, and say so as if it were the workshop's.
  if (options.store !== undefined && !existsSync(options.store)) {
    throw new BadInput({ code: "no-such-store", file: options.store });
  }
  return withNewStore(options, work);
}

/** Looks for something among what was removed. @throws BadInput "no-such-record" that says so */
export async function amongRemoved<Found>(look: () => Promise<Found>): Promise<Found> {
  try {
    return await look();
  } catch (error) {
    if (error instanceof BadInput && error.saying.code === "no-such-record") {
      const { kind, id } = error.saying;
      throw new BadInput({ code: "no-such-record", kind, id, isRemoved: true });
    }
    throw error;
  }
}

/** As `withStore`, for work that may begin a store: the first fridge, probe or board of a workshop. */
export async function withNewStore<Result>(
  { store: stated }: StoreOptions,
  work: (store: Store) => Promise<Result>,
): Promise<Result> {
  await using store = await openStore(storeFileOf(stated));
  return await work(store);
}
