// How the shelves reach the tables: whole transactions only, so that nobody ever sees half a change.

import type { Transaction } from "kysely";
import type { StoreEngine } from "./engine.ts";
import type { Tables } from "./tables.ts";

/** Queries within one transaction. */
export type Queries = Transaction<Tables>;

/** The one way for shelves to read and to change tables. */
export class StoreDatabase {
  readonly #engine: StoreEngine;

  constructor(engine: StoreEngine) {
    this.#engine = engine;
  }

  /** What people call the store. */
  get name(): string {
    return this.#engine.name;
  }

  /** Changes that happen together or not at all, durable when the promise is kept. */
  write<T>(work: (queries: Queries) => Promise<T>): Promise<T> {
    return this.#explained(this.#engine.tables.transaction().execute(work));
  }

  /** Questions that are all answered from the same state of the store. */
  read<T>(work: (queries: Queries) => Promise<T>): Promise<T> {
    const transaction = this.#engine.tables
      .transaction()
      .setAccessMode("read only")
      .setIsolationLevel("repeatable read");
    return this.#explained(transaction.execute(work));
  }

  async #explained<T>(answer: Promise<T>): Promise<T> {
    try {
      return await answer;
    } catch (error) {
      throw this.#engine.explain(error);
    }
  }
}
