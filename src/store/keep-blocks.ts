// Packed blocks into a run that may hold some of their readings already: what is new goes in, what is there stays.

import { keptParts, undamaged } from "./kept-parts.ts";
import type { ReceivedCount } from "./received.ts";
import { insertBlocks } from "./seal-tail.ts";
import { blockOfPart, chosen, placeOf, type SeriesName } from "./series-part.ts";
import type { Queries } from "./store-database.ts";
import type { BlockRow } from "./tables.ts";

/**
 * Blocks that touch nothing kept go in as they are; of the others only what is new.
 *
 * @param blocks of one series of one run
 * @param store what people call the store, for the message
 * @throws BadInput "store-damaged"
 */
export async function keepBlocks(
  queries: Queries,
  blocks: readonly BlockRow[],
  count: ReceivedCount,
  store: string,
): Promise<void> {
  if (blocks.length === 0) return;
  const [{ run_id: runId, series }] = blocks;
  const taken = await extentsOf(queries, runId, series as SeriesName);
  let free: BlockRow[] = [];
  for (const block of blocks) {
    if (!taken.some((extent) => block.from_ms <= extent.to_ms && block.to_ms >= extent.from_ms)) {
      free.push(block);
      taken.push(block);
      count.store(block.readings);
      continue;
    }
    await insertBlocks(queries, free);
    free = [];
    const fresh = await freshOf(queries, block, count, store);
    if (fresh === null) continue;
    await insertBlocks(queries, [fresh]);
    taken.push(fresh);
    count.store(fresh.readings);
  }
  await insertBlocks(queries, free);
}

/** The block without the readings that are kept already; null when none is left. */
async function freshOf(
  queries: Queries,
  block: BlockRow,
  count: ReceivedCount,
  store: string,
): Promise<BlockRow | null> {
  const part = undamaged(block, store);
  const wanted = { runId: block.run_id, series: part.position, fromUnixMs: block.from_ms, toUnixMs: block.to_ms };
  const kept = await keptParts(queries, wanted, store);
  const fresh: number[] = [];
  for (const [place, unixMs] of part.unixMs.entries()) {
    const twin = kept.find((other) => placeOf(other.unixMs, unixMs) >= 0);
    if (twin === undefined) fresh.push(place);
    else {
      const value = twin.raw[placeOf(twin.unixMs, unixMs)];
      count.meet({ position: part.position, unixMs, kept: value, refused: part.raw[place] }, twin.raw);
    }
  }
  return fresh.length === 0 ? null : blockOfPart(block.run_id, chosen(part, fresh));
}

/** From when to when each block of the series, and its open tail, reaches. */
async function extentsOf(queries: Queries, runId: string, series: SeriesName) {
  const blocks = await queries
    .selectFrom("blocks")
    .select(["from_ms", "to_ms"])
    .where("run_id", "=", runId)
    .where("series", "=", series)
    .execute();
  const open = await queries
    .selectFrom("open_readings")
    .select(({ fn }) => [fn.min("unix_ms").as("from_ms"), fn.max("unix_ms").as("to_ms")])
    .where("run_id", "=", runId)
    .where("series", "=", series)
    .groupBy("run_id")
    .execute();
  return [...blocks, ...open];
}
