// Many readings at once, from a log: packed into blocks as they come, kept all together in one transaction at the end.

import { positions, sourceUnsaid } from "../schema/index.ts";
import { existingRun } from "./existing-records.ts";
import { ImportBuffer } from "./import-buffer.ts";
import { keepBlocks } from "./keep-blocks.ts";
import { ReceivedCount } from "./received.ts";
import type { ReadingChunk, Received, RunFile } from "./records.ts";
import type { SeriesName } from "./series-part.ts";
import type { ImportOptions, ReadingImport } from "./store.ts";
import type { Queries, StoreDatabase } from "./store-database.ts";

/** One import into one run: `add` as often as there are pieces, then `finish`; until then nothing is in the run. */
export class KeptImport implements ReadingImport {
  readonly #database: StoreDatabase;
  readonly #runId: string;
  readonly #options: ImportOptions;
  readonly #count: ReceivedCount;
  readonly #buffers = new Map<SeriesName, ImportBuffer>();

  constructor(database: StoreDatabase, runId: string, options: ImportOptions) {
    this.#database = database;
    this.#runId = runId;
    this.#options = options;
    this.#count = new ReceivedCount(options.sameWithin);
  }

  add({ unixMs, columns, sourceCodes }: ReadingChunk): void {
    for (const position of positions) {
      const values = columns[position];
      if (values) this.#bufferOf(position, values, unixMs).add(unixMs, values, Number.NaN);
    }
    if (sourceCodes) this.#bufferOf("source", sourceCodes, unixMs).add(unixMs, sourceCodes, sourceUnsaid);
  }

  finish(): Promise<Received> {
    const packed = Array.from(this.#buffers.values(), (buffer) => buffer.finish());
    return this.#database.write(async (queries) => {
      await existingRun(queries, this.#runId);
      for (const blocks of packed) await keepBlocks(queries, blocks, this.#count, this.#database.name);
      if (this.#options.file) await noteFile(queries, this.#runId, this.#options.file);
      return this.#count.result();
    });
  }

  #bufferOf(series: SeriesName, values: Float64Array | Uint8Array, unixMs: Float64Array): ImportBuffer {
    if (values.length !== unixMs.length) {
      throw new RangeError(`${series}: ${values.length} readings for ${unixMs.length} instants`);
    }
    const { probeIds = {}, units = {} } = this.#options;
    const origin =
      series === "source"
        ? { probeId: null, unit: null }
        : { probeId: probeIds[series] ?? null, unit: units[series] ?? null };
    const buffer = this.#buffers.get(series) ?? new ImportBuffer(this.#runId, series, origin, this.#count);
    this.#buffers.set(series, buffer);
    return buffer;
  }
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
