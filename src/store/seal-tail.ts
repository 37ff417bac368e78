// Turns the open tail of a run into sealed blocks, one per position (and probe, and start of the board). Where readings come in is
// live-readings.ts.

import { blockOfPart, cut, partsOfRows } from "./series-part.ts";
import type { Queries } from "./store-database.ts";
import type { BlockRow } from "./tables.ts";

/** Seals all open readings of the run. */
export async function sealTail(queries: Queries, runId: string): Promise<void> {
  const rows = await queries
    .selectFrom("open_readings")
    .selectAll()
    .where("run_id", "=", runId)
    .orderBy("series")
    .orderBy("unix_ms")
    .execute();
  if (rows.length === 0) return;
  const pieces = partsOfRows(rows).flatMap((part) => [...cut(part)]);
  await insertBlocks(
    queries,
    pieces.map((piece) => blockOfPart(runId, piece)),
  );
  await queries.deleteFrom("open_readings").where("run_id", "=", runId).execute();
}

/** Rows in one statement; their columns have to stay below the number of values that a statement may have. */
const rowsAtOnce = 100;

/** Adds blocks, a hundred to a statement. */
export async function insertBlocks(queries: Queries, blocks: readonly BlockRow[]): Promise<void> {
  for (let from = 0; from < blocks.length; from += rowsAtOnce) {
    await queries
      .insertInto("blocks")
      .values(blocks.slice(from, from + rowsAtOnce))
      .execute();
  }
}
