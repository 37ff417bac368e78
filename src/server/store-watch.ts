// Finds out what is new in the store and tells the live feed. Recording may go on in another process, so the store itself is
// asked, once a second while somebody looks on; what this service writes itself makes it ask at once.

import type { Position } from "../schema/index.ts";
import type { Run, SeriesExtent, Store } from "../store/index.ts";
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

export class StoreWatch {
  readonly #store: WatchedShelves;
  readonly #feed: LiveFeed;
  readonly #tell: (error: unknown) => void;
  readonly #runs = new Map<string, SeenRun>();
  readonly #alarms = new Map<string, string>();
  #timer: NodeJS.Timeout | undefined;
  #looking: Promise<void> | undefined;
  #isAskedAgain = false;
  #hasLooked = false;

  /** @param tell is told when the store could not be asked; the next look tries again */
  constructor(store: WatchedShelves, feed: LiveFeed, tell: (error: unknown) => void) {
    this.#store = store;
    this.#feed = feed;
    this.#tell = tell;
  }

  /** Begins to look, if it did not yet. What is there already is not told. */
  async start(everyMs: number): Promise<void> {
    if (this.#timer !== undefined) return;
    this.#timer = setInterval(() => void this.look(), everyMs);
    this.#timer.unref();
    await this.look();
  }

  /** Looks now; does nothing before `start`, when nobody would hear of it. */
  look(): Promise<void> {
    if (this.#timer === undefined) return Promise.resolve();
    if (this.#looking !== undefined) {
      this.#isAskedAgain = true;
      return this.#looking;
    }
    this.#looking = this.#lookUntilQuiet().finally(() => {
      this.#looking = undefined;
    });
    return this.#looking;
  }

  async stop(): Promise<void> {
    clearInterval(this.#timer);
    this.#timer = undefined;
    await this.#looking;
  }

  async #lookUntilQuiet(): Promise<void> {
    do {
      this.#isAskedAgain = false;
      try {
        await this.#look();
      } catch (error) {
        this.#tell(error);
      }
    } while (this.#isAskedAgain);
  }

  async #look(): Promise<void> {
    const { runs } = await this.#store.runs.list({ isOpen: true, limit: mostRuns });
    const open = new Set(runs.map(({ id }) => id));
    for (const run of runs) await this.#lookAtRun(run);
    for (const id of [...this.#runs.keys()].filter((id) => !open.has(id))) {
      const run = await this.#store.runs.get(id).catch(() => null);
      if (run !== null) {
        await this.#lookAtRun(run);
        if (run.endedUnixMs === null) this.#feed.publish({ kind: "run-reread", data: { runId: id } });
      }
      this.#runs.delete(id);
    }
    await this.#lookAtAlarms();
    this.#hasLooked = true;
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
      const fromUnixMs = earlier === undefined ? undefined : nextUp(earlier.lastUnixMs);
      const fresh = await this.#store.readings.series(run.id, position, { fromUnixMs, values: "corrected" });
      if (fresh.unixMs.length > mostAtOnce || readings - (earlier?.readings ?? 0) > fresh.unixMs.length)
        isReread = true;
      const from = Math.max(0, fresh.unixMs.length - mostAtOnce);
      const unixMs = [...fresh.unixMs.subarray(from)];
      if (unixMs.length > 0)
        feed.publish({
          kind: "readings",
          data: { runId: run.id, position, unixMs, values: [...fresh.values.subarray(from)] },
        });
    }
    if (isReread) feed.publish({ kind: "run-reread", data: { runId: run.id } });
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

/** Open runs watched at the same time. */
const mostRuns = 500;
/** More new readings than a stream should carry are fetched by the page instead. */
const mostAtOnce = 2000;

/** The next instant after one; instants are far apart against the spacing of numbers of their size. */
const nextUp = (unixMs: number) => unixMs + 0.001;
