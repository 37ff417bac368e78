// What a database must offer to be the store's: a connection for queries that every SQL database understands, and the few
// things that each does its own way. sqlite-engine.ts is the one built in.

import type { Kysely } from "kysely";
import type { Tables } from "./tables.ts";

export interface StoreEngine {
  /** A transaction is durable once committed; one with access mode "read only" sees one state of the store throughout. */
  readonly tables: Kysely<Tables>;
  /** What people call this store: a file's path. */
  readonly name: string;
  /** SQL type of a column of bytes. */
  readonly bytesType: "blob" | "bytea";
  /** Turns what the database threw into BadInput where a person can do something about it; else gives it back. */
  explain(error: unknown): unknown;
  /** Writes a consistent copy into a new file. */
  copyTo(file: string): Promise<void>;
  /** What the database itself finds wrong, a sentence each. */
  faults(): Promise<readonly string[]>;
  /** Gives back the space of what was deleted. */
  shrink(): Promise<void>;
  close(): Promise<void>;
}
