// Readings in and out: live ones through group commits, logs through imports, and back as series or as one recording.

import { type Position, positions, type Recording, type RunSheet } from "../../schema/index.ts";
import { correctionsFor } from "../corrections.ts";
import { currentEdits } from "../current-edits.ts";
import { existingFridge, existingRun } from "../existing-records.ts";
import { GroupCommit, type Outcome } from "../group-commit.ts";
import { fromJson, fromJsonText } from "../json-text.ts";
import { keptParts } from "../kept-parts.ts";
import { type Batch, LiveReadings } from "../live-readings.ts";
import { KeptImport } from "../reading-import.ts";
import type { FridgeDetails, NewReading, Received, RunFile, Series, SeriesPart } from "../records.ts";
import { between, exclusionsOf, joinedSeries, recordingRows } from "../run-recording.ts";
import type { SeriesName } from "../series-part.ts";
import type { ImportOptions, ReadingImport, Readings, ReadOptions } from "../store.ts";
import type { Queries, StoreDatabase } from "../store-database.ts";
import type { FridgeRow, RunRow } from "../tables.ts";
import { editEntries } from "./kept-edits.ts";
import { calibrationsOf, probesOf } from "./kept-probes.ts";

export class KeptReadings implements Readings {
  readonly #database: StoreDatabase;
  readonly #live: LiveReadings;
  readonly #groups: GroupCommit<Batch, Received>;

  /** @param groupWaitMs see GroupCommit */
  constructor(database: StoreDatabase, groupWaitMs: number) {
    this.#database = database;
    this.#live = new LiveReadings(database.name);
    this.#groups = new GroupCommit((batches) => this.#commit(batches), groupWaitMs);
  }

  async append(runId: string, batch: readonly NewReading[]): Promise<Received> {
    const odd = batch.find(({ unixMs, raw }) => !Number.isFinite(unixMs) || !Number.isFinite(raw));
    if (odd) throw new RangeError(`${odd.position}: ${odd.raw} at ${odd.unixMs} is no reading`);
    return this.#groups.add({ runId, readings: batch });
  }

  import(runId: string, options: ImportOptions = {}): ReadingImport {
    return new KeptImport(this.#database, runId, options);
  }

  recording(runId: string, options: ReadOptions = {}): Promise<Recording> {
    return this.#database.read(async (queries) => {
      const run = await existingRun(queries, runId);
      const kept = await keptParts(queries, { runId, areLinesWanted: false }, this.#database.name);
      const manner = await this.#manner(queries, run, kept, options);
      const parts = Map.groupBy(kept, ({ position }) => position);
      const series = new Map(Array.from(parts, ([position, own]) => [position, manner.read(position, own)]));
      const { sheet, files } = await companions(queries, run);
      return {
        name: run.name,
        ...(run.origin === "file" && files.length === 1 && { sha256: files[0].sha256 }),
        utcOffsetMinutes: run.utc_offset_minutes,
        ...recordingRows(series, manner.marks, options.sources === "in-rows"),
        sheet,
        unreadable: [],
      };
    });
  }

  series(
    runId: string,
    position: Position,
    options: ReadOptions & { readonly fromUnixMs?: number; readonly toUnixMs?: number } = {},
  ): Promise<Series> {
    const { fromUnixMs, toUnixMs } = options;
    return this.#database.read(async (queries) => {
      const run = await existingRun(queries, runId);
      const wanted = { runId, series: position, fromUnixMs, toUnixMs, areLinesWanted: false };
      const kept = await keptParts(queries, wanted, this.#database.name);
      const whole = (await this.#manner(queries, run, kept, options)).read(position, kept);
      return between(whole, fromUnixMs ?? Number.NEGATIVE_INFINITY, toUnixMs ?? Number.POSITIVE_INFINITY);
    });
  }

  async *parts(runId: string): AsyncGenerator<SeriesPart> {
    for (const series of [...positions, "source"] as const) {
      yield* await this.#database.read((queries) => keptParts(queries, { runId, series }, this.#database.name));
    }
  }

  /** Waits for batches under way. */
  drained(): Promise<void> {
    return this.#groups.drained();
  }

  #commit(batches: readonly Batch[]): Promise<readonly Outcome<Received>[]> {
    return this.#database.write((queries) => this.#live.take(queries, batches));
  }

  /** How this run's series are to be read: corrected or uncalibrated, with exclusions or without. */
  async #manner(queries: Queries, run: RunRow, kept: readonly SeriesPart[], { values, exclusions }: ReadOptions) {
    // A workshop has hundreds of probes, a run a handful.
    const ids = [...new Set(kept.flatMap(({ probeId }) => probeId ?? []))];
    const calibrations = values === "raw" ? [] : await calibrationsOf(queries, ids);
    const inForce = correctionsFor(run.started_ms, await probesOf(queries, ids), calibrations);
    const edits = currentEdits(await editEntries(queries, run.id));
    const leftOut = exclusions === "kept" ? [] : edits.exclusions;
    return {
      marks: edits.sourceMarks.map(({ unixMs, source }) => ({ unixMs, source })),
      read: (series: SeriesName, parts: readonly SeriesPart[]) =>
        joinedSeries(parts, inForce, exclusionsOf(leftOut, series)),
    };
  }
}

async function companions(queries: Queries, run: RunRow) {
  const files: readonly RunFile[] = await queries
    .selectFrom("run_files")
    .select(["name", "sha256"])
    .where("run_id", "=", run.id)
    .execute();
  return { files, sheet: sheetOf(run, await existingFridge(queries, run.fridge_id)) };
}

/** The run's sheet; what it leaves open about the fridge is filled in from the fridge's own record. */
function sheetOf(run: RunRow, fridge: FridgeRow): RunSheet {
  const { ratedWatts } = fromJson<FridgeDetails>(fridge.details);
  return { fridge: fridge.name, ...(ratedWatts && { ratedWatts }), ...fromJsonText<RunSheet>(run.sheet) };
}
