// The database that is built in: SQLite as it comes with Node, one file. Everything that only SQLite understands stands here.
//
// Write-ahead log and synchronous FULL: a commit is on the disk when it returns, readers do not wait for writers, and what a
// killed process left half-written is dropped at the next opening.

import { existsSync, mkdirSync, renameSync, rmSync, statSync } from "node:fs";
import { dirname } from "node:path";
import { backup, DatabaseSync, type SQLInputValue, type StatementSync } from "node:sqlite";
import {
  CompiledQuery,
  type DatabaseConnection,
  type Dialect,
  Kysely,
  SqliteAdapter,
  type SqliteDatabase,
  SqliteDriver,
  SqliteIntrospector,
  SqliteQueryCompiler,
  type TransactionSettings,
} from "kysely";
import { BadInput } from "../schema/index.ts";
import type { StoreEngine } from "./engine.ts";
import type { Tables } from "./tables.ts";
import { turnToWrite } from "./turn-to-write.ts";

/** "CFST": marks the file as a store of ours for programs that tell files apart. */
const applicationId = 0x43465354;
/** How long one process waits for another's commit, ms. The longest is that of a big import. */
const busyMs = 10_000;
/** So much of the write-ahead log stays on the disk once it has been emptied into the store, bytes. */
const keptLogBytes = 16 * 1024 * 1024;

/**
 * Opens the file, making it and its folders when there are none.
 *
 * @param options.committed is called after each durable commit, so that a test can count them
 * @throws BadInput "not-a-store", "store-busy", "store-disk-full", "store-unusable"
 */
export function openSqlite(file: string, options: { readonly committed?: () => void } = {}): StoreEngine {
  const database = explained(file, () => openFile(file));
  const tables = new Kysely<Tables>({ dialect: dialectOver(database, file, options.committed) });
  const firstColumn = (sql: string) =>
    database
      .prepare(sql)
      .all()
      .map((row) => String(Object.values(row)[0]));
  return {
    tables,
    name: file,
    bytesType: "blob",
    explain: (error) => explain(file, error),
    copyTo: (copy) => copyInto(copy, file),
    faults: async () => [
      ...firstColumn("pragma integrity_check").filter((line) => line !== "ok"),
      ...firstColumn("pragma foreign_key_check").map((table) => `a row of ${table} belongs to nothing`),
    ],
    shrink: async () => {
      database.exec("vacuum");
      database.exec("pragma wal_checkpoint(truncate)");
    },
    close: () => tables.destroy(),
  };
}

function openFile(file: string): DatabaseSync {
  mkdirSync(dirname(file), { recursive: true });
  const database = new DatabaseSync(file, { timeout: busyMs });
  try {
    claimFile(database, file);
    database.exec("pragma journal_mode = wal");
    database.exec("pragma synchronous = full");
    database.exec(`pragma journal_size_limit = ${keptLogBytes}`);
  } catch (error) {
    database.close();
    throw error;
  }
  return database;
}

/**
 * Marks a database without tables as ours, whether it is new, an empty file, or one that a power cut left at its beginning; one
 * that has tables but not our mark is left alone.
 */
function claimFile(database: DatabaseSync, file: string): void {
  // Tables first: another process that makes the store just now sets the mark before them.
  const tables = database.prepare("select count(*) as count from sqlite_master").get()?.count;
  if (database.prepare("pragma application_id").get()?.application_id === applicationId) return;
  if (tables !== 0) throw new BadInput({ code: "not-a-store", file });
  database.exec(`pragma application_id = ${applicationId}`);
}

function dialectOver(database: DatabaseSync, file: string, committed?: () => void): Dialect {
  return {
    createDriver: () => new ImmediateDriver(database, file, committed),
    createAdapter: () => new SqliteAdapter(),
    createQueryCompiler: () => new SqliteQueryCompiler(),
    createIntrospector: (tables) => new SqliteIntrospector(tables),
  };
}

/**
 * Takes the right to write at the beginning of a transaction. Taken at its first write, it would be refused without waiting when
 * another process had written in between.
 */
class ImmediateDriver extends SqliteDriver {
  readonly #database: DatabaseSync;
  readonly #file: string;
  readonly #committed: (() => void) | undefined;
  /** Hands the turn on; null outside a transaction that writes. */
  #endTurn: (() => void) | null = null;

  constructor(database: DatabaseSync, file: string, committed?: () => void) {
    super({ database: kyselyDatabase(database) });
    this.#database = database;
    this.#file = file;
    this.#committed = committed;
  }

  override async beginTransaction(connection: DatabaseConnection, settings: TransactionSettings = {}): Promise<void> {
    if (settings.accessMode === "read only") {
      await connection.executeQuery(CompiledQuery.raw("begin"));
      return;
    }
    const endTurn = await turnToWrite(this.#file);
    try {
      await connection.executeQuery(CompiledQuery.raw("begin immediate"));
      this.#endTurn = endTurn;
    } catch (error) {
      endTurn();
      throw error;
    }
  }

  override async commitTransaction(connection: DatabaseConnection): Promise<void> {
    await super.commitTransaction(connection);
    if (this.#endTurn !== null) this.#committed?.();
    this.#handOn();
  }

  override async rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    try {
      // A full disk has SQLite roll back by itself; a second rollback would fail and hide why.
      if (this.#database.isTransaction) await super.rollbackTransaction(connection);
    } finally {
      this.#handOn();
    }
  }

  #handOn(): void {
    this.#endTurn?.();
    this.#endTurn = null;
  }
}

/** Statements kept ready. Those with a row count in them come in many shapes, so the oldest make room. */
const mostStatements = 200;

/** Node's SQLite as Kysely's dialect wants it. */
function kyselyDatabase(database: DatabaseSync): SqliteDatabase {
  const ready = new Map<string, StatementSync>();
  const prepared = (sql: string) => {
    const known = ready.get(sql);
    if (known) return known;
    const statement = database.prepare(sql);
    const [oldest] = ready.keys();
    if (ready.size >= mostStatements) ready.delete(oldest);
    ready.set(sql, statement);
    return statement;
  };
  return {
    close: () => database.close(),
    prepare: (sql) => {
      const statement = prepared(sql);
      return {
        reader: statement.columns().length > 0,
        all: (parameters) => statement.all(...(parameters as SQLInputValue[])),
        run: (parameters) => statement.run(...(parameters as SQLInputValue[])),
        iterate: (parameters) => statement.iterate(...(parameters as SQLInputValue[])),
      };
    },
  };
}

/**
 * Copies through a connection of its own, which sees one state of the store from beginning to end; all pages in one step, off
 * the main thread, since a copy in steps would begin anew after each commit.
 */
async function copyInto(copy: string, file: string): Promise<void> {
  if (existsSync(copy))
    throw new BadInput({ code: "cannot-write", file: copy, errorCode: isFolder(copy) ? "EISDIR" : "EEXIST" });
  const unfinished = `${copy}.unfinished`;
  using source = new DatabaseSync(file, { readOnly: true, timeout: busyMs });
  try {
    await backup(source, unfinished, { rate: 0x7fff_ffff });
    renameSync(unfinished, copy);
  } catch (error) {
    rmSync(unfinished, { force: true });
    throw explain(copy, error);
  }
}

function explained<T>(file: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw explain(file, error);
  }
}

/** SQLite's primary result codes that a person can do something about. Source: sqlite.org, "Result and Error Codes". */
const primaryCodes: ReadonlyMap<number, "store-busy" | "store-disk-full" | "not-a-store"> = new Map([
  [5, "store-busy"],
  [6, "store-busy"],
  [13, "store-disk-full"],
  [26, "not-a-store"],
]);

const isFolder = (file: string) => statSync(file, { throwIfNoEntry: false })?.isDirectory() === true;

function explain(file: string, error: unknown): unknown {
  if (!(error instanceof Error) || error instanceof BadInput) return error;
  const { errcode, code } = error as Error & { readonly errcode?: number; readonly code?: string };
  if (errcode !== undefined) {
    const primary = errcode & 0xff;
    const known = primaryCodes.get(primary);
    if (known) return new BadInput({ code: known, file });
    if (primary === 14 && isFolder(file)) return new BadInput({ code: "unreadable-file", file, errorCode: "EISDIR" });
    // 8 read-only, 10 input or output failed, 11 damaged, 14 cannot be opened.
    return [8, 10, 11, 14].includes(primary)
      ? new BadInput({ code: "store-unusable", file, reason: error.message })
      : error;
  }
  if (code === "ENOSPC") return new BadInput({ code: "store-disk-full", file });
  return code?.startsWith("E") && !code.startsWith("ERR_")
    ? new BadInput({ code: "cannot-write", file, errorCode: code })
    : error;
}
