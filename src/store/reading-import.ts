// Many readings at once, from a log: packed into blocks as they come, kept all together in one transaction at the end.

import { type Position, positions, sourceUnsaid } from "../schema/index.ts";
import { existingRun } from "./existing-records.ts";
import { ImportBuffer } from "./import-buffer.ts";
import { keptParts, undamaged } from "./kept-parts.ts";
import { ReceivedCount } from "./received.ts";
import type { ReadingChunk, Received, RunFile } from "./records.ts";
import { insertBlocks } from "./seal-tail.ts";
import { blockOfPart, chosen, placeOf, type SeriesName } from "./series-part.ts";
import type { ReadingImport } from "./store.ts";
import type { Queries, StoreDatabase } from "./store-database.ts";
import type { BlockRow } from "./tables.ts";

/** What goes with an import; see `Readings.import`. */
export interface ImportOptions {
  readonly file?: RunFile;
  readonly probeIds?: { readonly [P in Position]?: string };
}

export class KeptImport implements ReadingImport {
  readonly #database: StoreDatabase;
  readonly #runId: string;
  readonly #options: ImportOptions;
  readonly #count = new ReceivedCount();
  readonly #buffers = new Map<SeriesName, ImportBuffer>();

  constructor(database: StoreDatabase, runId: string, options: ImportOptions) {
    this.#database = database;
    this.#runId = runId;
    this.#options = options;
  }

  add({ unixMs, columns, sourceCodes }: ReadingChunk): void {
    for (const position of positions) {
      const values = columns[position];
      if (values) this.#bufferOf(position, values, unixMs).add(unixMs, values, Number.NaN);
    }
    if (sourceCodes) this.#bufferOf("source", sourceCodes, unixMs).add(unixMs, sourceCodes, sourceUnsaid);
  }

  finish(): Promise<Received> {
    const packed = Array.from(this.#buffers, ([series, buffer]) => ({ series, blocks: buffer.finish() }));
    return this.#database.write(async (queries) => {
      await existingRun(queries, this.#runId);
      for (const { series, blocks } of packed) await this.#keep(queries, series, blocks);
      if (this.#options.file) await noteFile(queries, this.#runId, this.#options.file);
      return this.#count.result();
    });
  }

  #bufferOf(series: SeriesName, values: Float64Array | Uint8Array, unixMs: Float64Array): ImportBuffer {
    if (values.length !== unixMs.length) {
      throw new RangeError(`${series}: ${values.length} readings for ${unixMs.length} instants`);
    }
    const probeId = series === "source" ? null : (this.#options.probeIds?.[series] ?? null);
    const buffer = this.#buffers.get(series) ?? new ImportBuffer(this.#runId, series, probeId, this.#count);
    this.#buffers.set(series, buffer);
    return buffer;
  }

  /** Blocks that touch nothing kept go in as they are; of the others only what is new. */
  async #keep(queries: Queries, series: SeriesName, blocks: readonly BlockRow[]): Promise<void> {
    const taken = await extentsOf(queries, this.#runId, series);
    let free: BlockRow[] = [];
    for (const block of blocks) {
      if (!taken.some((extent) => block.from_ms <= extent.to_ms && block.to_ms >= extent.from_ms)) {
        free.push(block);
        taken.push(block);
        this.#count.store(block.readings);
        continue;
      }
      await insertBlocks(queries, free);
      free = [];
      const fresh = await this.#freshOf(queries, block);
      if (fresh === null) continue;
      await insertBlocks(queries, [fresh]);
      taken.push(fresh);
      this.#count.store(fresh.readings);
    }
    await insertBlocks(queries, free);
  }

  /** The block without the readings that are kept already; null when none is left. */
  async #freshOf(queries: Queries, block: BlockRow): Promise<BlockRow | null> {
    const store = this.#database.name;
    const part = undamaged(block, store);
    const wanted = { runId: this.#runId, series: part.position, fromUnixMs: block.from_ms, toUnixMs: block.to_ms };
    const kept = await keptParts(queries, wanted, store);
    const fresh: number[] = [];
    for (const [place, unixMs] of part.unixMs.entries()) {
      const twin = kept.find((other) => placeOf(other.unixMs, unixMs) >= 0);
      if (twin === undefined) fresh.push(place);
      else {
        const value = twin.raw[placeOf(twin.unixMs, unixMs)];
        this.#count.meet({ position: part.position, unixMs, kept: value, refused: part.raw[place] });
      }
    }
    return fresh.length === 0 ? null : blockOfPart(this.#runId, chosen(part, fresh));
  }
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

async function noteFile(queries: Queries, runId: string, { name, sha256 }: RunFile): Promise<void> {
  const { files } = await queries
    .selectFrom("run_files")
    .select(({ fn }) => fn.countAll<number>().as("files"))
    .where("run_id", "=", runId)
    .executeTakeFirstOrThrow();
  await queries
    .insertInto("run_files")
    .values({ run_id: runId, place: Number(files), sha256, name })
    .onConflict((conflict) => conflict.doNothing())
    .execute();
}
