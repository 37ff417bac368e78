// Readings as they arrive: each becomes a row of the open tail, unless it is there already. Every ten minutes the tail is sealed.

import { BadInput, msPerMinute } from "../schema/index.ts";
import type { Outcome } from "./group-commit.ts";
import { undamaged } from "./kept-parts.ts";
import { ReceivedCount } from "./received.ts";
import type { NewReading, Received, SeriesPart } from "./records.ts";
import { sealTail } from "./seal-tail.ts";
import { placeOf } from "./series-part.ts";
import type { Queries } from "./store-database.ts";
import type { BlockRow, OpenReadingRow } from "./tables.ts";

/** A tail as long as this is sealed … */
const sealAfterMs = 10 * msPerMinute;
/** … if it holds as many readings: slow loggers and late lines would else make blocks of a few readings. */
const fewestToSeal = 64;

/**
 * What this process knows of a run's tail, so that it need not be counted at each reading. It may be too much (lines sent twice,
 * a transaction that failed, a tail that another process sealed): the tail is then sealed a little early.
 */
interface Tail {
  readonly fromMs: number;
  readonly toMs: number;
  readonly readings: number;
}

/** Readings that came together, for one run. */
export interface Batch {
  readonly runId: string;
  readonly readings: readonly NewReading[];
}

/** A reading, its run, and the count of the batch that it came in. */
interface Arrival {
  readonly runId: string;
  readonly reading: NewReading;
  readonly count: ReceivedCount;
}

export class LiveReadings {
  readonly #store: string;
  readonly #tails = new Map<string, Tail>();

  /** @param store what people call the store, for messages */
  constructor(store: string) {
    this.#store = store;
  }

  /**
   * Takes batches in, within a transaction. What they have in common is asked and written once for all their runs: with
   * hundreds of boards the statements cost more than the disk.
   *
   * @returns what became of each; BadInput "no-such-record" of those whose run is not there
   * @throws BadInput "store-damaged"
   */
  async take(queries: Queries, batches: readonly Batch[]): Promise<readonly Outcome<Received>[]> {
    const runs = await runsThere(
      queries,
      batches.map(({ runId }) => runId),
    );
    const counts = batches.map(() => new ReceivedCount());
    const arrivals = batches.flatMap(({ runId, readings }, i) =>
      runs.has(runId) ? readings.map((reading) => ({ runId, reading, count: counts[i] })) : [],
    );
    if (arrivals.length > 0) {
      const unsealed = await this.#notSealed(queries, arrivals);
      for (const { runId, reading, count } of await refusedByTail(queries, unsealed)) {
        count.meet(await openTwin(queries, runId, reading));
      }
      for (const [runId, own] of Map.groupBy(arrivals, (arrival) => arrival.runId)) {
        await this.#sealWhenDue(queries, runId, own);
      }
    }
    return batches.map(({ runId: id }, i) =>
      runs.has(id)
        ? { answer: counts[i].result() }
        : { error: new BadInput({ code: "no-such-record", kind: "run", id }) },
    );
  }

  /** Those not in a sealed block; the others are counted. */
  async #notSealed(queries: Queries, arrivals: readonly Arrival[]): Promise<readonly Arrival[]> {
    const parts = new Map<string, readonly SeriesPart[]>();
    for (const [runId, own] of await nearBlocks(queries, arrivals)) {
      const blocks = await blocksAround(queries, runId, own);
      parts.set(
        runId,
        blocks.map((block) => undamaged(block, this.#store)),
      );
    }
    if (parts.size === 0) return arrivals;
    return arrivals.filter(({ runId, reading, count }) => {
      const kept = sealedTwin(parts.get(runId) ?? [], reading);
      if (kept !== null) count.meet({ position: reading.position, unixMs: reading.unixMs, kept, refused: reading.raw });
      return kept === null;
    });
  }

  async #sealWhenDue(queries: Queries, runId: string, arrivals: readonly Arrival[]): Promise<void> {
    const known = this.#tails.get(runId);
    const tail = known === undefined ? await tailOf(queries, runId) : longerBy(known, arrivals);
    const isDue = tail.toMs - tail.fromMs >= sealAfterMs && tail.readings >= fewestToSeal;
    if (isDue) await sealTail(queries, runId);
    if (isDue) this.#tails.delete(runId);
    else this.#tails.set(runId, tail);
  }
}

async function tailOf(queries: Queries, runId: string): Promise<Tail> {
  const { from, to, readings } = await queries
    .selectFrom("open_readings")
    .select(({ fn }) => [
      fn.min("unix_ms").as("from"),
      fn.max("unix_ms").as("to"),
      fn.countAll<number>().as("readings"),
    ])
    .where("run_id", "=", runId)
    .executeTakeFirstOrThrow();
  // No readings: both are null, whatever their type says.
  return { fromMs: from ?? Number.POSITIVE_INFINITY, toMs: to ?? Number.NEGATIVE_INFINITY, readings: Number(readings) };
}

function longerBy(tail: Tail, arrivals: readonly Arrival[]): Tail {
  const { fromMs, toMs } = extentOf(arrivals);
  return {
    fromMs: Math.min(tail.fromMs, fromMs),
    toMs: Math.max(tail.toMs, toMs),
    readings: tail.readings + arrivals.length,
  };
}

function extentOf(arrivals: readonly Arrival[]) {
  let [fromMs, toMs] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { reading } of arrivals) {
    fromMs = Math.min(fromMs, reading.unixMs);
    toMs = Math.max(toMs, reading.unixMs);
  }
  return { fromMs, toMs };
}

/** Rows of one question; each value has to stay below the number of values that a statement may have. */
const runsAtOnce = 500;

/** Those of the runs that are there and not deleted. */
async function runsThere(queries: Queries, runIds: readonly string[]): Promise<ReadonlySet<string>> {
  const ids = [...new Set(runIds)];
  const there = new Set<string>();
  for (let from = 0; from < ids.length; from += runsAtOnce) {
    const rows = await queries
      .selectFrom("runs")
      .select("id")
      .where("id", "in", ids.slice(from, from + runsAtOnce))
      .where("deleted_ms", "is", null)
      .execute();
    for (const { id } of rows) there.add(id);
  }
  return there;
}

/**
 * The arrivals of runs that may have sealed blocks around them, run by run. Live readings come after everything that is
 * sealed, so that hardly ever one is left; lines of a board are asked for by their numbers, too, since they may come again later.
 */
async function nearBlocks(
  queries: Queries,
  arrivals: readonly Arrival[],
): Promise<ReadonlyMap<string, readonly Arrival[]>> {
  const perRun = Map.groupBy(arrivals, ({ runId }) => runId);
  const near = new Set(arrivals.flatMap(({ runId, reading }) => (reading.sequence === undefined ? [] : [runId])));
  const { fromMs, toMs } = extentOf(arrivals);
  const others = [...perRun.keys()].filter((runId) => !near.has(runId));
  for (let from = 0; from < others.length; from += runsAtOnce) {
    const rows = await queries
      .selectFrom("blocks")
      .select("run_id")
      .distinct()
      .where("run_id", "in", others.slice(from, from + runsAtOnce))
      .where("to_ms", ">=", fromMs)
      .where("from_ms", "<=", toMs)
      .execute();
    for (const { run_id } of rows) near.add(run_id);
  }
  return new Map([...perRun].filter(([runId]) => near.has(runId)));
}

/** Sealed blocks that could hold one of these readings: by instant, or by the board's number for the line. Usually none. */
async function blocksAround(queries: Queries, runId: string, arrivals: readonly Arrival[]): Promise<BlockRow[]> {
  const { fromMs, toMs } = extentOf(arrivals);
  const series = [...new Set(arrivals.map(({ reading }) => reading.position))];
  const byTime = await queries
    .selectFrom("blocks")
    .selectAll()
    .where("run_id", "=", runId)
    .where("series", "in", series)
    .where("to_ms", ">=", fromMs)
    .where("from_ms", "<=", toMs)
    .execute();
  const found = new Map(byTime.map((block) => [`${block.series} ${block.from_ms}`, block]));
  for (const { boardId, boot, first, last } of lineRanges(arrivals)) {
    const byLine = await queries
      .selectFrom("blocks")
      .selectAll()
      .where("run_id", "=", runId)
      .where("board_id", "=", boardId)
      .where("boot", "=", boot)
      .where("last_sequence", ">=", first)
      .where("first_sequence", "<=", last)
      .execute();
    for (const block of byLine) found.set(`${block.series} ${block.from_ms}`, block);
  }
  return [...found.values()];
}

interface LineRange {
  readonly boardId: string;
  readonly boot: number;
  readonly first: number;
  readonly last: number;
}

/** The lines' numbers, per start of a board. */
function lineRanges(arrivals: readonly Arrival[]): readonly LineRange[] {
  const ranges = new Map<string, LineRange>();
  for (const { reading } of arrivals) {
    const { boardId, boot = 0, sequence } = reading;
    if (boardId === undefined || sequence === undefined) continue;
    const key = `${boot} ${boardId}`;
    const { first, last } = ranges.get(key) ?? { first: sequence, last: sequence };
    ranges.set(key, { boardId, boot, first: Math.min(first, sequence), last: Math.max(last, sequence) });
  }
  return [...ranges.values()];
}

/** The raw value sealed for the same line or instant; null when there is none. */
function sealedTwin(parts: readonly SeriesPart[], reading: NewReading): number | null {
  const { position, unixMs, boardId, boot = 0, sequence } = reading;
  for (const part of parts) {
    if (part.position !== position) continue;
    const isSameStart = sequence !== undefined && part.boardId === boardId && part.boot === boot;
    const byLine = isSameStart ? (part.sequence?.indexOf(sequence) ?? -1) : -1;
    const place = byLine >= 0 ? byLine : placeOf(part.unixMs, unixMs);
    if (place >= 0) return part.raw[place];
  }
  return null;
}

/** Rows in one statement; eleven values each have to stay below the number of values that a statement may have. */
const rowsAtOnce = 500;

/** Adds the readings to the tail. @returns those that the tail has already */
async function refusedByTail(queries: Queries, arrivals: readonly Arrival[]): Promise<readonly Arrival[]> {
  const refused: Arrival[] = [];
  for (let from = 0; from < arrivals.length; from += rowsAtOnce) {
    const some = arrivals.slice(from, from + rowsAtOnce);
    const inserted = await queries
      .insertInto("open_readings")
      .values(some.map(({ runId, reading }) => openRow(runId, reading)))
      .onConflict((conflict) => conflict.doNothing())
      .returning(["run_id", "series", "unix_ms"])
      .execute();
    // Of two alike the first went in: each key returned stands for one reading only.
    const keys = new Set(inserted.map((row) => `${row.run_id} ${row.series} ${row.unix_ms}`));
    for (const arrival of some) {
      const { runId, reading, count } = arrival;
      if (keys.delete(`${runId} ${reading.position} ${reading.unixMs}`)) count.store();
      else refused.push(arrival);
    }
  }
  return refused;
}

const openRow = (runId: string, reading: NewReading): OpenReadingRow => ({
  run_id: runId,
  series: reading.position,
  unix_ms: reading.unixMs,
  raw: reading.raw,
  unit: reading.unit ?? null,
  probe_id: reading.probeId ?? null,
  board_id: reading.boardId ?? null,
  boot: reading.boot ?? 0,
  sequence: reading.sequence ?? null,
  uptime_ms: reading.uptimeMs ?? null,
  host_ms: reading.hostUnixMs ?? null,
});

/** What the tail holds in place of a reading that it refused. */
async function openTwin(queries: Queries, runId: string, reading: NewReading) {
  const { position, unixMs, boardId = null, boot = 0, sequence = null } = reading;
  const twins = await queries
    .selectFrom("open_readings")
    .select(["raw", "sequence"])
    .where("run_id", "=", runId)
    .where("series", "=", position)
    .where(({ or, and, eb }) =>
      or([
        eb("unix_ms", "=", unixMs),
        and([eb("board_id", "=", boardId), eb("boot", "=", boot), eb("sequence", "=", sequence)]),
      ]),
    )
    .execute();
  // The line itself, when its instant is also another's.
  const twin = twins.find((row) => sequence !== null && row.sequence === sequence) ?? twins[0];
  return { position, unixMs, kept: twin.raw, refused: reading.raw };
}
