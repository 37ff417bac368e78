// Boards in the tables, their tokens (only as hashes) and who is recording them.

import { createHash, randomBytes } from "node:crypto";
import { missing } from "../existing-records.ts";
import { fromJsonText, jsonText } from "../json-text.ts";
import type { Board, Claim, Json } from "../records.ts";
import type { Boards } from "../store.ts";
import type { Queries, StoreDatabase } from "../store-database.ts";
import type { BoardRow } from "../tables.ts";

/** A token is 256 random bits, so a plain hash keeps it as well as a slow one would. */
const tokenBytes = 32;

export class KeptBoards implements Boards {
  readonly #database: StoreDatabase;

  constructor(database: StoreDatabase) {
    this.#database = database;
  }

  seen(
    id: string,
    { unixMs, fridgeId, hello }: { readonly unixMs: number; readonly fridgeId?: string; readonly hello?: Json },
  ): Promise<Board> {
    return this.#database.write(async (queries) => {
      const before = await boardRow(queries, id);
      return boardOf(
        await putBoard(queries, {
          ...(before ?? newBoard(id, unixMs)),
          last_seen_ms: Math.max(unixMs, before?.last_seen_ms ?? unixMs),
          ...(fridgeId !== undefined && { fridge_id: fridgeId }),
          ...(hello !== undefined && { hello: jsonText(hello) }),
        }),
      );
    });
  }

  edit(
    id: string,
    { label, fridgeId }: { readonly label?: string | null; readonly fridgeId?: string | null },
  ): Promise<Board> {
    return this.#database.write(async (queries) => {
      const before = (await boardRow(queries, id)) ?? missing("board", id);
      return boardOf(
        await putBoard(queries, {
          ...before,
          ...(label !== undefined && { label }),
          ...(fridgeId !== undefined && { fridge_id: fridgeId }),
        }),
      );
    });
  }

  list(): Promise<readonly Board[]> {
    return this.#database.read(async (queries) =>
      (await queries.selectFrom("boards").selectAll().orderBy("id").execute()).map(boardOf),
    );
  }

  remove(id: string): Promise<void> {
    return this.#database.write(async (queries) => {
      const { numDeletedRows } = await queries.deleteFrom("boards").where("id", "=", id).executeTakeFirst();
      if (numDeletedRows === 0n) missing("board", id);
    });
  }

  issueToken(id: string): Promise<string> {
    const token = randomBytes(tokenBytes).toString("base64url");
    return this.#database.write(async (queries) => {
      const before = (await boardRow(queries, id)) ?? newBoard(id, Date.now());
      await putBoard(queries, { ...before, token_sha256: sha256Of(token) });
      return token;
    });
  }

  withToken(token: string): Promise<Board | null> {
    return this.#database.read(async (queries) => {
      const row = await queries
        .selectFrom("boards")
        .selectAll()
        .where("token_sha256", "=", sha256Of(token))
        .executeTakeFirst();
      return row ? boardOf(row) : null;
    });
  }

  claim(claim: Claim, nowUnixMs: number): Promise<Claim> {
    const { name, holder, untilUnixMs } = claim;
    return this.#database.write(async (queries) => {
      const held = await queries.selectFrom("claims").selectAll().where("name", "=", name).executeTakeFirst();
      if (held && held.holder !== holder && held.until_ms > nowUnixMs) {
        return { name, holder: held.holder, untilUnixMs: held.until_ms };
      }
      await queries
        .insertInto("claims")
        .values({ name, holder, until_ms: untilUnixMs })
        .onConflict((conflict) => conflict.column("name").doUpdateSet({ holder, until_ms: untilUnixMs }))
        .execute();
      return claim;
    });
  }

  claimOf(name: string, nowUnixMs: number): Promise<Claim | null> {
    return this.#database.read(async (queries) => {
      const held = await queries.selectFrom("claims").selectAll().where("name", "=", name).executeTakeFirst();
      if (held === undefined || held.until_ms <= nowUnixMs) return null;
      return { name, holder: held.holder, untilUnixMs: held.until_ms };
    });
  }

  release(name: string, holder: string): Promise<void> {
    return this.#database.write(async (queries) => {
      await queries.deleteFrom("claims").where("name", "=", name).where("holder", "=", holder).execute();
    });
  }
}

const sha256Of = (token: string) => createHash("sha256").update(token).digest("hex");

const boardRow = (queries: Queries, id: string) =>
  queries.selectFrom("boards").selectAll().where("id", "=", id).executeTakeFirst();

const newBoard = (id: string, unixMs: number): BoardRow => ({
  id,
  label: null,
  fridge_id: null,
  hello: null,
  first_seen_ms: unixMs,
  last_seen_ms: unixMs,
  token_sha256: null,
});

async function putBoard(queries: Queries, row: BoardRow): Promise<BoardRow> {
  const { id: _, ...changes } = row;
  await queries
    .insertInto("boards")
    .values(row)
    .onConflict((conflict) => conflict.column("id").doUpdateSet(changes))
    .execute();
  return row;
}

const boardOf = (row: BoardRow): Board => ({
  id: row.id,
  label: row.label,
  fridgeId: row.fridge_id,
  hello: fromJsonText<Json>(row.hello),
  firstSeenUnixMs: row.first_seen_ms,
  lastSeenUnixMs: row.last_seen_ms,
  hasToken: row.token_sha256 !== null,
});
