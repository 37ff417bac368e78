// Blocks sealed every ten minutes become few large ones once their run is over: they then take less room and are read faster.

import { insertBlocks } from "./seal-tail.ts";
import { blockOfPart, cut, isAscending, joined, mostInBlock, originKey, partOfBlock } from "./series-part.ts";
import type { Queries } from "./store-database.ts";
import type { BlockRow } from "./tables.ts";

/** Joins the small blocks of closed runs. A damaged block, and those around it, are left as they are. */
export async function joinSmallBlocks(queries: Queries): Promise<void> {
  const runs = await queries.selectFrom("runs").select("id").where("ended_ms", "is not", null).execute();
  for (const { id } of runs) {
    const blocks = await queries
      .selectFrom("blocks")
      .selectAll()
      .where("run_id", "=", id)
      .where("readings", "<", mostInBlock)
      .orderBy("series")
      .orderBy("from_ms")
      .execute();
    const alike = Map.groupBy(blocks, originKey);
    for (const group of alike.values()) if (group.length > 1) await joinGroup(queries, group);
  }
}

async function joinGroup(queries: Queries, blocks: readonly BlockRow[]): Promise<void> {
  const parts = blocks.map((block) => partOfBlock(block)).filter((part) => part !== null);
  if (parts.length < blocks.length) return;
  const whole = joined(parts);
  if (!isAscending(whole.unixMs)) return;
  const pieces = [...cut(whole)].map((piece) => blockOfPart(blocks[0].run_id, piece));
  if (pieces.length >= blocks.length) return;
  for (const { run_id, series, from_ms } of blocks) {
    await queries
      .deleteFrom("blocks")
      .where("run_id", "=", run_id)
      .where("series", "=", series)
      .where("from_ms", "=", from_ms)
      .execute();
  }
  await insertBlocks(queries, pieces);
}
