// Keeping the store whole: check, copy, compact, retire.

import type { StoreEngine } from "../engine.ts";
import { joinSmallBlocks } from "../join-blocks.ts";
import { fromJson } from "../json-text.ts";
import type { Compaction, NewBaseline, StoreCheck, StoreDamage } from "../records.ts";
import { isAscending, partOfBlock } from "../series-part.ts";
import type { Care } from "../store.ts";
import type { Queries, StoreDatabase } from "../store-database.ts";
import type { BlockRow } from "../tables.ts";

/** The care of one store. */
export class StoreCare implements Care {
  readonly #database: StoreDatabase;
  readonly #engine: StoreEngine;

  constructor(database: StoreDatabase, engine: StoreEngine) {
    this.#database = database;
    this.#engine = engine;
  }

  async check(): Promise<StoreCheck> {
    const damage: StoreDamage[] = (await this.#engine.faults()).map((message) => ({ kind: "database", message }));
    return this.#database.read(async (queries) => {
      let blocks = 0;
      let readings = await openReadings(queries);
      const runs = await queries.selectFrom("runs").select("id").execute();
      for (const { id } of runs) {
        for (const block of await queries.selectFrom("blocks").selectAll().where("run_id", "=", id).execute()) {
          blocks++;
          readings += block.readings;
          if (isDamaged(block)) damage.push(damageOf(block));
        }
      }
      return { runs: runs.length, blocks, readings, damage };
    });
  }

  backup(file: string): Promise<void> {
    return this.#engine.copyTo(file);
  }

  async compact(): Promise<Compaction> {
    const compaction = await this.#database.write(async (queries) => {
      const blocksBefore = await countBlocks(queries);
      const { deletedRuns, removedFridges } = await deleteForGood(queries);
      await joinSmallBlocks(queries);
      return { deletedRuns, removedFridges, blocksBefore, blocksAfter: await countBlocks(queries) };
    });
    await this.#engine.shrink();
    return compaction;
  }

  retire(endedBeforeUnixMs: number, { knownGoodToo = false }: { readonly knownGoodToo?: boolean } = {}) {
    return this.#database.write(async (queries) => {
      const old = await queries
        .selectFrom("runs")
        .select(["id", "purpose"])
        .where("deleted_ms", "is", null)
        .where("ended_ms", "<", endedBeforeUnixMs)
        .execute();
      const needed = knownGoodToo ? new Set<string>() : await baselineRuns(queries);
      const retired = old.filter(({ id, purpose }) => knownGoodToo || (purpose !== "known-good" && !needed.has(id)));
      const ids = retired.map(({ id }) => id);
      const now = Date.now();
      for (const id of ids) await queries.updateTable("runs").set({ deleted_ms: now }).where("id", "=", id).execute();
      return ids;
    });
  }
}

/** Unreadable bytes are damage too, whatever the reader of them throws. */
function isDamaged(block: BlockRow): boolean {
  try {
    const part = partOfBlock(block);
    return part === null || !isAscending(part.unixMs);
  } catch {
    return true;
  }
}

const damageOf = (block: BlockRow): StoreDamage => ({
  kind: "block",
  runId: block.run_id,
  position: block.series,
  fromUnixMs: block.from_ms,
  toUnixMs: block.to_ms,
  readings: block.readings,
});

async function openReadings(queries: Queries): Promise<number> {
  const { count } = await queries
    .selectFrom("open_readings")
    .select(({ fn }) => fn.countAll<number>().as("count"))
    .executeTakeFirstOrThrow();
  return Number(count);
}

async function countBlocks(queries: Queries): Promise<number> {
  const { count } = await queries
    .selectFrom("blocks")
    .select(({ fn }) => fn.countAll<number>().as("count"))
    .executeTakeFirstOrThrow();
  return Number(count);
}

/** What belongs to a run or fridge goes with it by the tables' own rules; results that rest on a run that went, by ours. */
async function deleteForGood(queries: Queries) {
  const gone = queries.selectFrom("runs").select("id").where("deleted_ms", "is not", null);
  await queries
    .deleteFrom("results")
    .where("id", "in", (from) => from.selectFrom("result_runs").select("result_id").where("run_id", "in", gone))
    .execute();
  const runs = await queries.deleteFrom("runs").where("deleted_ms", "is not", null).executeTakeFirst();
  const fridges = await queries.deleteFrom("fridges").where("removed_ms", "is not", null).returning("id").execute();
  for (const { id } of fridges) await queries.deleteFrom("settings").where("owner", "=", id).execute();
  return { deletedRuns: Number(runs.numDeletedRows), removedFridges: fridges.length };
}

/** Runs that some fridge's baseline is made of. */
async function baselineRuns(queries: Queries): Promise<ReadonlySet<string>> {
  const rows = await queries.selectFrom("baselines").select("details").execute();
  const baselines = rows.map(({ details }) => fromJson<NewBaseline>(details));
  return new Set(baselines.flatMap((baseline) => ("runIds" in baseline ? baseline.runIds : [])));
}
