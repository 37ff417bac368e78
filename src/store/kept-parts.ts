// Readings of a run out of the tables: sealed blocks and the open tail together.

import { BadInput } from "../schema/index.ts";
import type { SeriesPart } from "./records.ts";
import { partOfBlock, partsOfRows, type SeriesName } from "./series-part.ts";
import type { Queries } from "./store-database.ts";
import type { BlockRow } from "./tables.ts";

/** Which readings are wanted; all of the run unless narrowed. Both instants included. */
export interface Wanted {
  readonly runId: string;
  readonly series?: SeriesName;
  readonly fromUnixMs?: number;
  readonly toUnixMs?: number;
  /** False leaves out sequence and clocks, which few need. */
  readonly areLinesWanted?: boolean;
}

/**
 * Every part that holds wanted readings; blocks are whole, so it may hold others too.
 *
 * @param store what people call the store, for the message
 * @throws BadInput "store-damaged"
 */
export async function keptParts(queries: Queries, wanted: Wanted, store: string): Promise<SeriesPart[]> {
  const blocks = await blocksFor(queries, wanted);
  const parts = blocks.map((block) => undamaged(block, store, wanted.areLinesWanted));
  parts.push(...partsOfRows(await openReadingsFor(queries, wanted)));
  return parts;
}

/** The block's readings. @throws BadInput "store-damaged" */
export function undamaged(block: BlockRow, store: string, areLinesWanted = true): SeriesPart {
  const part = partOfBlock(block, areLinesWanted);
  if (part) return part;
  const { run_id: run, series: position } = block;
  const [from, to] = [block.from_ms, block.to_ms].map((unixMs) => new Date(unixMs).toISOString());
  throw new BadInput({ code: "store-damaged", file: store, run, position, from, to });
}

function blocksFor(queries: Queries, { runId, series, fromUnixMs, toUnixMs }: Wanted): Promise<BlockRow[]> {
  let query = queries.selectFrom("blocks").selectAll().where("run_id", "=", runId);
  if (series !== undefined) query = query.where("series", "=", series);
  if (fromUnixMs !== undefined) query = query.where("to_ms", ">=", fromUnixMs);
  if (toUnixMs !== undefined) query = query.where("from_ms", "<=", toUnixMs);
  return query.orderBy("series").orderBy("from_ms").execute();
}

function openReadingsFor(queries: Queries, { runId, series, fromUnixMs, toUnixMs }: Wanted) {
  let query = queries.selectFrom("open_readings").selectAll().where("run_id", "=", runId);
  if (series !== undefined) query = query.where("series", "=", series);
  if (fromUnixMs !== undefined) query = query.where("unix_ms", ">=", fromUnixMs);
  if (toUnixMs !== undefined) query = query.where("unix_ms", "<=", toUnixMs);
  return query.orderBy("series").orderBy("unix_ms").execute();
}
