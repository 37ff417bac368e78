// Runs that boards over the network feed, watched for alarms as a recorder watches its own. Packs are told of once they are
// durable, and wait here: every few seconds each run takes what came for it, and time goes on for those that say nothing.

import { setTimeout as sleep } from "node:timers/promises";
import { BadInput, msPerMinute } from "../../schema/index.ts";
import type { Alarm } from "../../science/live/index.ts";
import type { NewReading, Run, Store } from "../../store/index.ts";
import { everyRun } from "../every-run.ts";
import { type AlarmOrders, alarmLimitsFor } from "./alarm-orders.ts";
import { boardClaimName, claimed } from "./claim.ts";
import { keptWatch, NightWatch, type WatchShelves } from "./night-watch.ts";
import { longestPauseMs } from "./run-to-record.ts";

/** The part of a store that this watch needs. */
export type NetworkShelves = WatchShelves & Pick<Store, "runs" | "boards" | "events">;

/** A pack that is durable. */
export interface KeptPack {
  readonly runId: string;
  readonly boardId: string;
  readonly readings: readonly NewReading[];
  /** How many of them were not there before. */
  readonly stored: number;
  /** When it came, by the host's clock. */
  readonly unixMs: number;
}

/** How often it looks, and what that may cost. */
export interface WatchPace {
  /** Between two looks at what came, ms. */
  readonly everyMs: number;
  /** Between two looks at whether a run still cools, ms of its own time: as for a recorder. */
  readonly lookEveryMs: number;
  /** Of one core, at most. With hundreds of boards looks then come further apart: packs go first. */
  readonly share: number;
  /** The clock went on by more than this while nobody looked, ms: the machine slept, and heard nobody. */
  readonly sleptMs: number;
}

export interface NetworkWatchOptions {
  readonly orders: AlarmOrders;
  readonly pace: WatchPace;
  /** The host's clock, ms since 1970. */
  now(): number;
  /** Free space where the store lies, MB; null where it cannot be told. */
  freeMegabytes(): number | null;
  /** Told of alarms that have to be told now. */
  whenRaised(alarm: Alarm, run: Run): void | Promise<void>;
  /** Told, once, when another service of the same store watches; this one takes over when that one is gone. */
  whenElsewhere(holder: string): void;
  /** Told when a run, or all, could not be watched; a later look tries again. */
  whenFailed(error: unknown): void;
}

export const usualPace: WatchPace = {
  everyMs: 5000,
  lookEveryMs: msPerMinute,
  share: 0.1,
  sleptMs: 2 * msPerMinute,
};

/** A run that packs come for. What waits is bounded, whatever a board sends. */
interface Watched {
  readonly runId: string;
  night: NightWatch | null;
  waiting: NewReading[];
  /** More came than may wait: the store has it. */
  isCut: boolean;
  /** A recorder listens to it. */
  isRecorded: boolean;
  /** Boards that spoke without saying anything new, and when. */
  readonly heard: Map<string, number>;
  readonly boards: Set<string>;
  /** Boards that feed another run by now. */
  readonly left: Set<string>;
  /** The newest pack, or the newest reading of a run that was found open. */
  lastMs: number;
  checkedMs: number;
  tickedMs: number;
}

/** Readings of a run that wait for the next look; of more the newest are kept, and the store has them all. */
const mostWaiting = 2000;
/** Whether a run goes on, and who else listens, is asked this often, ms; time goes on for a run this often. */
const checkEveryMs = msPerMinute;
const tickEveryMs = 15_000;
/** Of the machine's rest between two runs, ms, at most. */
const longestRestMs = 10_000;
/** A device that has sent one pack may send every quarter of an hour. */
const firstPauseMinutes = 30;
/** One service for a store: two that watch the same run would each hear half of it. */
const claimName = "watch over network boards";

/** Watches them all. Alarms come only while it runs. */
export class NetworkWatch {
  readonly #store: NetworkShelves;
  readonly #options: NetworkWatchOptions;
  readonly #runs = new Map<string, Watched>();
  /** The run that each board feeds. */
  readonly #fed = new Map<string, string>();
  readonly #over = new AbortController();
  #timer: NodeJS.Timeout | undefined;
  #looking: Promise<void> | null = null;
  #claim: AsyncDisposable | null = null;
  #foundMs = Number.NEGATIVE_INFINITY;
  #refusedMs = Number.NEGATIVE_INFINITY;
  #elsewhere: string | null = null;
  #awakeMs: number | null = null;
  #probes = { text: "", askedMs: Number.NEGATIVE_INFINITY };

  constructor(store: NetworkShelves, options: NetworkWatchOptions) {
    this.#store = store;
    this.#options = options;
  }

  /** Begins to look: at once at the runs that were open before. */
  start(): void {
    this.#timer = setInterval(() => void this.look(), this.#options.pace.everyMs);
    this.#timer.unref();
    void this.look();
  }

  /** Tells of a pack. Returns at once. */
  took({ runId, boardId, readings, stored, unixMs }: KeptPack): void {
    const one = this.#watched(runId, unixMs);
    one.lastMs = Math.max(one.lastMs, unixMs);
    one.boards.add(boardId);
    if (this.#fed.get(boardId) !== runId) this.#leaveOthers(boardId, runId);
    if (stored === 0) one.heard.set(boardId, unixMs);
    else one.waiting.push(...readings);
    if (one.waiting.length <= 2 * mostWaiting) return;
    one.waiting = inOrder(one.waiting).slice(-mostWaiting);
    one.isCut = true;
  }

  /** Something was changed here, such as a run closed: it is asked again at the next look. */
  lookAgain(): void {
    for (const one of this.#runs.values()) one.checkedMs = Number.NEGATIVE_INFINITY;
  }

  /** One look at all runs; the timer's work. */
  look(): Promise<void> {
    this.#looking ??= this.#lookAtAll()
      .catch((error: unknown) => this.#options.whenFailed(error))
      .finally(() => {
        this.#looking = null;
      });
    return this.#looking;
  }

  /** Takes what waits, and keeps what it knows for the next start. */
  async stop(): Promise<void> {
    clearInterval(this.#timer);
    this.#over.abort();
    await this.#looking;
    await this.#wakeUp().catch((error: unknown) => this.#options.whenFailed(error));
    for (const one of this.#runs.values()) {
      try {
        if (one.night !== null) await this.#take(one, one.night);
        await this.#letGo(one);
      } catch (error) {
        this.#options.whenFailed(error);
      }
    }
    await this.#release();
  }

  /** A board that was put on another fridge is not silent on the one before. */
  #leaveOthers(boardId: string, runId: string): void {
    this.#fed.set(boardId, runId);
    for (const other of this.#runs.values()) {
      if (other.runId === runId) {
        other.left.delete(boardId);
        continue;
      }
      other.left.add(boardId);
      other.boards.delete(boardId);
    }
  }

  #watched(runId: string, lastMs: number): Watched {
    const known = this.#runs.get(runId);
    if (known !== undefined) return known;
    const one: Watched = {
      runId,
      night: null,
      waiting: [],
      isCut: false,
      isRecorded: false,
      heard: new Map(),
      boards: new Set(),
      left: new Set(),
      lastMs,
      checkedMs: Number.NEGATIVE_INFINITY,
      tickedMs: Number.NEGATIVE_INFINITY,
    };
    this.#runs.set(runId, one);
    return one;
  }

  async #lookAtAll(): Promise<void> {
    await this.#wakeUp();
    if (!(await this.#isOurs())) {
      this.#runs.clear();
      this.#fed.clear();
      return;
    }
    await this.#followProbes();
    for (const one of [...this.#runs.values()]) {
      if (this.#over.signal.aborted) return;
      if (!this.#isDue(one)) continue;
      const began = performance.now();
      try {
        await this.#lookAt(one);
      } catch (error) {
        // What was kept last is where it goes on: an alarm that could not be told is raised again.
        one.night = null;
        this.#options.whenFailed(error);
      }
      this.#awakeMs = this.#options.now();
      await this.#rest(performance.now() - began);
    }
    if (this.#runs.size === 0) await this.#release();
  }

  /** A machine that slept heard nobody: each run is begun anew, and so gives its boards their time. So after a clock was set. */
  async #wakeUp(): Promise<void> {
    const nowMs = this.#options.now();
    const awakeMs = this.#awakeMs ?? nowMs;
    this.#awakeMs = nowMs;
    if (Math.abs(nowMs - awakeMs) > this.#options.pace.sleptMs) await this.#beginAnew();
  }

  async #beginAnew(): Promise<void> {
    for (const one of this.#runs.values()) await this.#letGo(one);
  }

  /** What is known of a run is kept, and forgotten here. */
  async #letGo(one: Watched): Promise<void> {
    const { night } = one;
    one.night = null;
    one.checkedMs = Number.NEGATIVE_INFINITY;
    await night?.rest();
  }

  /** Whether this service watches, and no other one of the store. Nothing is claimed while there is nothing to watch. */
  async #isOurs(): Promise<boolean> {
    if (this.#claim !== null) return true;
    const { now, whenElsewhere } = this.#options;
    const nowMs = now();
    if (nowMs - this.#foundMs >= checkEveryMs) {
      this.#foundMs = nowMs;
      await this.#findOpen(nowMs);
    }
    if (this.#runs.size === 0 || nowMs - this.#refusedMs < checkEveryMs) return false;
    try {
      this.#claim = await claimed(this.#store.boards, claimName, now);
      this.#elsewhere = null;
      return true;
    } catch (error) {
      if (!(error instanceof BadInput && error.saying.code === "already-recorded")) throw error;
      this.#refusedMs = nowMs;
      const { holder } = error.saying;
      if (this.#elsewhere !== holder) whenElsewhere(holder);
      this.#elsewhere = holder;
      return false;
    }
  }

  async #release(): Promise<void> {
    const claim = this.#claim;
    this.#claim = null;
    await claim?.[Symbol.asyncDispose]();
  }

  /** Runs that were fed before this service began. */
  async #findOpen(nowMs: number): Promise<void> {
    const open: Run[] = [];
    for await (const run of everyRun(this.#store, { isOpen: true })) {
      if (run.origin === "network" && !this.#runs.has(run.id)) open.push(run);
    }
    // The oldest first, as they came.
    for (const run of open.toReversed()) {
      const lasts = (await this.#store.runs.extents(run.id)).map(({ lastUnixMs }) => lastUnixMs);
      const lastMs = Math.max(run.startedUnixMs, ...lasts);
      if (nowMs - lastMs < longestPauseMs) this.#watched(run.id, lastMs);
    }
  }

  /** Curves and calibrations say what readings mean: where they were changed, all is read anew. */
  async #followProbes(): Promise<void> {
    const nowMs = this.#options.now();
    if (nowMs - this.#probes.askedMs < checkEveryMs) return;
    const { probes } = this.#store;
    const text = JSON.stringify([await probes.list(), await probes.calibrations()]);
    const isChanged = this.#probes.text !== text;
    this.#probes = { text, askedMs: nowMs };
    if (isChanged) await this.#beginAnew();
  }

  #isDue({ night, waiting, heard, checkedMs, tickedMs }: Watched): boolean {
    const nowMs = this.#options.now();
    if (nowMs - checkedMs >= checkEveryMs) return true;
    return night !== null && (waiting.length > 0 || heard.size > 0 || nowMs - tickedMs >= tickEveryMs);
  }

  async #lookAt(one: Watched): Promise<void> {
    if (one.isCut) await this.#letGo(one);
    one.isCut = false;
    const nowMs = this.#options.now();
    if (nowMs - one.checkedMs >= checkEveryMs) {
      one.checkedMs = nowMs;
      const run = await this.#store.runs.find(one.runId);
      const isOver = run === null || run.endedUnixMs !== null || run.deletedUnixMs !== null;
      if (isOver || this.#isForgotten(one, nowMs)) {
        await this.#letGo(one);
        this.#runs.delete(one.runId);
        return;
      }
      if (await this.#hasRecorder(one, run, nowMs)) return;
      one.night ??= await this.#begin(one, run, nowMs);
    }
    if (one.night !== null) await this.#take(one, one.night);
  }

  /** Nothing has come for so long that the next pack opens another run; and nothing is left to be told. */
  #isForgotten({ lastMs, night }: Watched, nowMs: number): boolean {
    return nowMs - lastMs >= longestPauseMs && !night?.alarms.some(({ isHeldBack }) => isHeldBack);
  }

  /** A board that a recorder hears as well is the recorder's, and so is the run: two would tell each alarm twice. */
  async #hasRecorder(one: Watched, run: Run, nowMs: number): Promise<boolean> {
    const { boards = [] } = (await keptWatch(this.#store.settings, run)) ?? {};
    for (const board of new Set([...boards, ...one.boards])) {
      if ((await this.#store.boards.claimOf(boardClaimName(board), nowMs)) === null) continue;
      await this.#letGo(one);
      one.checkedMs = nowMs;
      one.waiting = [];
      one.heard.clear();
      one.isRecorded = true;
      return true;
    }
    return false;
  }

  async #begin(one: Watched, run: Run, nowMs: number): Promise<NightWatch> {
    const { orders, pace, freeMegabytes, whenRaised } = this.#options;
    const { toMs = nowMs } = (await keptWatch(this.#store.settings, run)) ?? {};
    const night = await NightWatch.begin(this.#store, run, {
      limits: { ...alarmLimitsFor(orders), firstPauseMinutes },
      // That cooling has stopped is seen without a comparison, and known-good nights of every fridge would fill the memory.
      baseline: { knownGood: [], baselineKind: "own" },
      lookEveryMs: pace.lookEveryMs,
      cameToMs: nowMs + mostAheadMs,
      time: "arrivals",
      freeMegabytes: () => (this.#isLongestWatched(one) ? freeMegabytes() : Number.POSITIVE_INFINITY),
      whenRaised: (alarm) => whenRaised(alarm, run),
    });
    if (nowMs - toMs > pace.sleptMs && !one.isRecorded) {
      await this.#store.events.add(run.id, { kind: "unwatched", fromUnixMs: toMs, toUnixMs: nowMs });
    }
    one.isRecorded = false;
    return night;
  }

  /** There is one disk: told of each run, it would be thirty alarms to be seen. */
  #isLongestWatched({ runId }: Watched): boolean {
    const [first] = this.#runs.keys();
    return first === runId;
  }

  async #take(one: Watched, night: NightWatch): Promise<void> {
    const readings = inOrder(one.waiting);
    const [heard, left] = [[...one.heard], [...one.left]];
    one.waiting = [];
    one.heard.clear();
    one.left.clear();
    if (readings.length > 0) await night.see({ kind: "readings", readings });
    for (const [boardId, unixMs] of heard) await night.see({ kind: "heard", unixMs, boardId });
    const nowMs = this.#options.now();
    one.tickedMs = nowMs;
    for (const boardId of left) await night.see({ kind: "left", unixMs: nowMs, boardId });
    await night.see({ kind: "quiet", unixMs: nowMs });
  }

  /** Requests come in between two runs; and all in all this takes no more than its share. */
  async #rest(workedMs: number): Promise<void> {
    const { signal } = this.#over;
    const restMs = Math.min(longestRestMs, workedMs * (1 / this.#options.pace.share - 1));
    await sleep(restMs, undefined, { signal }).catch(() => undefined);
  }
}

/** A board's clock may be so far ahead, ms; readings further ahead are refused. */
const mostAheadMs = 5 * msPerMinute;

const inOrder = (readings: readonly NewReading[]): NewReading[] =>
  readings.toSorted((one, other) => one.unixMs - other.unixMs);
