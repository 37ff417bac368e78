// Finds out what is new in the store and tells the live feed. Recording may go on in another process, so the store itself is
// asked, once a second while somebody looks on; what this service writes itself makes it ask at once. With hundreds of boards
// it may not ask about every run for every pack: of a run that boards of this service feed it reads what came, and only now
// and then whether something else changed it.

import { msPerMinute, type Position } from "../schema/index.ts";
import type { Run, Series, SeriesExtent, Store } from "../store/index.ts";
import type { LiveFeed } from "./live-feed.ts";

/** The part of the store that is watched. */
export type WatchedShelves = Pick<Store, "runs" | "readings" | "alarms" | "edits">;

interface SeenRun {
  readonly run: string;
  readonly edits: string;
  readonly marks: readonly string[];
  readonly extents: ReadonlyMap<Position, SeriesExtent>;
}

const nothingSeen: SeenRun = { run: "", edits: "", marks: [], extents: new Map() };

/** Looks at the store and publishes what is new. */
export class StoreWatch {
  readonly #store: WatchedShelves;
  readonly #feed: LiveFeed;
  readonly #tell: (error: unknown) => void;
  readonly #runs = new Map<string, SeenRun>();
  readonly #alarms = new Map<string, string>();
  /** When this service put readings into a run last, by run, on the monotonic clock. */
  readonly #fedHere = new Map<string, number>();
  readonly #grown = new Set<string>();
  #timer: NodeJS.Timeout | undefined;
  #gathering: NodeJS.Timeout | undefined;
  /** What is under way and what waits for it: each look begins where the one before ended. */
  #turn: Promise<void> = Promise.resolve();
  #waiting: { whole: Promise<void> | null; regular: Promise<void> | null } = { whole: null, regular: null };
  #looks = 0;
  #lookedOnMs = 0;
  #hasRested = false;
  #hasLooked = false;

  /** @param tell is told when the store could not be asked; the next look tries again */
  constructor(store: WatchedShelves, feed: LiveFeed, tell: (error: unknown) => void) {
    this.#store = store;
    this.#feed = feed;
    this.#tell = tell;
  }

  /** Begins to look, if it did not yet. What is there already is not told. */
  async start(everyMs: number): Promise<void> {
    this.#lookedOnMs = performance.now();
    if (this.#timer !== undefined) return;
    this.#timer = setInterval(() => void this.#lookAround(), everyMs);
    this.#timer.unref();
    await this.look();
    // Who comes back to go on where he was missed what nobody looked at.
    if (this.#hasRested) this.#feed.publish({ kind: "missed", data: { reason: "too-long-ago" } });
  }

  /** Looks at everything now; does nothing before `start`, when nobody would hear of it. */
  look(): Promise<void> {
    if (this.#timer === undefined) return Promise.resolve();
    this.#waiting.whole ??= this.#inTurn(() => {
      this.#waiting.whole = null;
      return this.#look(() => true);
    });
    return this.#waiting.whole;
  }

  /** Readings came to a run through this service. They are told within a quarter of a second, with those of other runs. */
  grew(runId: string): void {
    if (this.#timer === undefined) return;
    this.#fedHere.set(runId, performance.now());
    this.#grown.add(runId);
    this.#gathering ??= setTimeout(() => {
      this.#gathering = undefined;
      void this.#inTurn(() => this.#lookAtGrown());
    }, gatherMs);
  }

  async stop(): Promise<void> {
    clearInterval(this.#timer);
    clearTimeout(this.#gathering);
    this.#timer = undefined;
    this.#gathering = undefined;
    await this.#turn;
  }

  #inTurn(work: () => Promise<void>): Promise<void> {
    this.#turn = this.#turn.then(work).catch((error: unknown) => this.#tell(error));
    return this.#turn;
  }

  /** The regular look: at runs that others may feed, and in turn at those fed here. */
  #lookAround(): Promise<void> {
    if (this.#feed.viewers > 0) this.#lookedOnMs = performance.now();
    else if (performance.now() - this.#lookedOnMs > restMs) return this.#rest();
    this.#waiting.regular ??= this.#inTurn(() => {
      this.#waiting.regular = null;
      const turn = this.#looks++ % looksForAll;
      return this.#look((id, place) => place % looksForAll === turn || !this.#isFedHere(id));
    });
    return this.#waiting.regular;
  }

  /** Nobody looks on any more: what is forgotten here, the next viewer's page asks for itself. */
  #rest(): Promise<void> {
    clearInterval(this.#timer);
    this.#timer = undefined;
    return this.#inTurn(async () => {
      for (const kept of [this.#runs, this.#alarms, this.#fedHere, this.#grown]) kept.clear();
      this.#hasLooked = false;
      this.#hasRested = true;
    });
  }

  #isFedHere(runId: string): boolean {
    return performance.now() - (this.#fedHere.get(runId) ?? Number.NEGATIVE_INFINITY) < fedHereMs;
  }

  /** @param isDue whether an open run is looked into, by its id and its place among all */
  async #look(isDue: (id: string, place: number) => boolean): Promise<void> {
    const { runs } = await this.#store.runs.list({ isOpen: true, limit: mostRuns });
    const open = new Set(runs.map(({ id }) => id));
    for (const [place, run] of runs.entries()) {
      const isChanged = this.#runs.get(run.id)?.run !== JSON.stringify(run);
      if (isChanged || isDue(run.id, place)) await this.#lookAtRun(run);
    }
    for (const id of [...this.#runs.keys()].filter((id) => !open.has(id))) {
      const run = await this.#store.runs.find(id);
      if (run !== null) {
        await this.#lookAtRun(run);
        if (run.endedUnixMs === null) this.#feed.publish({ kind: "run-reread", data: { runId: id } });
      }
      this.#runs.delete(id);
      this.#fedHere.delete(id);
    }
    await this.#lookAtAlarms();
    this.#hasLooked = true;
  }

  /** Reads what came since. A reading of an earlier instant, or of a position not seen yet, is found by the next whole look. */
  async #lookAtGrown(): Promise<void> {
    const grown = [...this.#grown];
    this.#grown.clear();
    for (const runId of grown) {
      const seen = this.#runs.get(runId);
      if (seen === undefined || seen.extents.size === 0) {
        const run = await this.#store.runs.find(runId);
        if (run !== null) await this.#lookAtRun(run);
        continue;
      }
      const extents = new Map(seen.extents);
      for (const [position, extent] of seen.extents) {
        const fresh = await this.#freshReadings(runId, position, extent.lastUnixMs);
        this.#tellReadings(runId, position, fresh);
        const lastUnixMs = fresh.unixMs.at(-1) ?? extent.lastUnixMs;
        extents.set(position, { ...extent, readings: extent.readings + fresh.unixMs.length, lastUnixMs });
      }
      this.#runs.set(runId, { ...seen, extents });
    }
  }

  async #lookAtRun(run: Run): Promise<void> {
    const seen = this.#runs.get(run.id);
    const current = await this.#store.edits.current(run.id);
    const now: SeenRun = {
      run: JSON.stringify(run),
      edits: JSON.stringify(current),
      marks: current.sourceMarks.map(({ unixMs, source }) => `${unixMs} ${source}`),
      extents: new Map((await this.#store.runs.extents(run.id)).map((extent) => [extent.position, extent])),
    };
    this.#runs.set(run.id, now);
    // A run met at the first look is known to whoever has just come; one met later is new to all.
    if (seen === undefined && !this.#hasLooked) return;
    await this.#tellOf(run, seen ?? nothingSeen, now, current.sourceMarks);
  }

  async #tellOf(
    run: Run,
    before: SeenRun,
    now: SeenRun,
    marks: Awaited<ReturnType<Store["edits"]["current"]>>["sourceMarks"],
  ): Promise<void> {
    const feed = this.#feed;
    if (before.run !== now.run) feed.publish({ kind: "run", data: { run } });
    let isReread = before !== nothingSeen && before.edits !== now.edits;
    for (const { unixMs, source } of marks) {
      if (!before.marks.includes(`${unixMs} ${source}`))
        feed.publish({ kind: "source", data: { runId: run.id, unixMs, source } });
    }
    for (const [position, { readings, lastUnixMs }] of now.extents) {
      const earlier = before.extents.get(position);
      if (earlier !== undefined && earlier.readings === readings && earlier.lastUnixMs === lastUnixMs) continue;
      const fresh = await this.#freshReadings(run.id, position, earlier?.lastUnixMs);
      if (fresh.unixMs.length > mostAtOnce || readings - (earlier?.readings ?? 0) > fresh.unixMs.length)
        isReread = true;
      this.#tellReadings(run.id, position, fresh);
    }
    if (isReread) feed.publish({ kind: "run-reread", data: { runId: run.id } });
  }

  /** @param afterUnixMs of the last one seen */
  #freshReadings(runId: string, position: Position, afterUnixMs: number | undefined): Promise<Series> {
    const fromUnixMs = afterUnixMs === undefined ? undefined : nextUp(afterUnixMs);
    return this.#store.readings.series(runId, position, { fromUnixMs, values: "corrected" });
  }

  #tellReadings(runId: string, position: Position, fresh: Series): void {
    if (fresh.unixMs.length === 0) return;
    const from = Math.max(0, fresh.unixMs.length - mostAtOnce);
    const [unixMs, values] = [[...fresh.unixMs.subarray(from)], [...fresh.values.subarray(from)]];
    this.#feed.publish({ kind: "readings", data: { runId, position, unixMs, values } });
  }

  async #lookAtAlarms(): Promise<void> {
    const waiting = await this.#store.alarms.list({ isAcknowledged: false });
    const seen = new Set<string>();
    for (const alarm of waiting) {
      seen.add(alarm.id);
      const text = JSON.stringify(alarm);
      if (this.#alarms.get(alarm.id) === text) continue;
      this.#alarms.set(alarm.id, text);
      if (this.#hasLooked) this.#feed.publish({ kind: "alarm", data: { alarm } });
    }
    for (const id of [...this.#alarms.keys()].filter((id) => !seen.has(id))) {
      this.#alarms.delete(id);
      const alarm = (await this.#store.alarms.list()).find((acknowledged) => acknowledged.id === id);
      if (alarm !== undefined) this.#feed.publish({ kind: "alarm", data: { alarm } });
    }
  }
}

/** Readings of all boards that come within this are told together, ms. */
const gatherMs = 250;
/** So many regular looks go round all runs that are fed here. */
const looksForAll = 10;
/** So long after the last viewer left it is still looked on for him: a phone may only sleep, ms. */
const restMs = 5 * msPerMinute;
/** A run is fed here for so long after readings came through this service, ms. */
const fedHereMs = 10_000;
/** Open runs watched at the same time. */
const mostRuns = 500;
/** More new readings than a stream should carry are fetched by the page instead. */
const mostAtOnce = 2000;

/** The next instant after one; instants are far apart against the spacing of numbers of their size. */
const nextUp = (unixMs: number) => unixMs + 0.001;
