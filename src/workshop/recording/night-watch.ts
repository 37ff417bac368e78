// What is known of a run while it goes on, and the alarms it raises: the science's live side joined with the store.

import { msPerMinute, type Position } from "../../schema/index.ts";
import {
  type Alarm,
  type AlarmInput,
  type AlarmLimits,
  type AlarmState,
  type LiveEstimate,
  LiveRun,
  noAlarms,
  watch,
} from "../../science/live/index.ts";
import {
  alarmSubject,
  type Correction,
  correctionsFor,
  type Json,
  type NewReading,
  type RawOrigin,
  type Run,
  type Store,
} from "../../store/index.ts";
import type { LogsRead } from "../logs-read.ts";
import type { Arrival } from "./arrival.ts";
import { liveRunOf, marksUpTo } from "./live-run-of.ts";
import { type NightClock, nightClock } from "./night-clock.ts";

/** The part of a store that a watch needs. */
export type WatchShelves = Pick<Store, "readings" | "edits" | "alarms" | "settings" | "probes">;

export interface WatchOptions {
  /** The clock of `heldBack` is the run's own, whatever stands here. */
  readonly limits: AlarmLimits;
  /** What the run is compared with. */
  readonly baseline: Pick<LogsRead, "knownGood" | "baselineKind">;
  /**
   * Between two looks at whether it still cools, ms of the run's own time. Each costs a few thousandths of a second; a dead
   * flame is seen that much later.
   */
  readonly lookEveryMs: number;
  /** What the run holds of later instants, such as a hand reading of tomorrow, does not count as come; all counts unless stated. */
  readonly cameToMs?: number;
  /** The board that is listened to; none for a replay, nor where all boards of the run are heard. */
  readonly boardId?: string;
  /** The time zone by whose clock alarms are held back, see `nightClock`; this computer's unless stated. */
  readonly zone?: string;
  /**
   * Whose time the alarms go by: the readings' own, which a recorder has put in order; or that of their arrival, where boards
   * have clocks of their own and send late, or twice. "readings" unless stated.
   */
  readonly time?: "readings" | "arrivals";
  /** Free space where the store lies, MB; null where it cannot be told. */
  freeMegabytes(): number | null;
  /** Told of alarms that have to be told now. */
  whenRaised(alarm: Alarm): void | Promise<void>;
}

/** Between two looks at the disk and at what was acknowledged or told elsewhere, ms of the run's own time. */
const tidyEveryMs = msPerMinute;

/** Watches one run. */
export class NightWatch {
  readonly #store: WatchShelves;
  readonly #run: Run;
  readonly #options: WatchOptions;
  readonly #clock: NightClock;
  #live = new LiveRun();
  /** The source marks that the live run was filled with, as text. */
  #marks = "";
  readonly #correctionOf: (origin: RawOrigin) => Correction | null;
  #alarms: AlarmState;
  #lookedMs = Number.NEGATIVE_INFINITY;
  #tidiedMs = Number.NEGATIVE_INFINITY;
  #askedMs = Number.NEGATIVE_INFINITY;
  #nowMs = Number.NEGATIVE_INFINITY;
  #arrivedMs = Number.NEGATIVE_INFINITY;
  #newestAt = new Map<Position, number>();
  /** Readings were kept that the live run has not seen. */
  #isStale = false;
  /** Anything has come since this watch began: from then on silence counts. */
  #isListening = false;

  private constructor(
    store: WatchShelves,
    run: Run,
    options: WatchOptions,
    alarms: AlarmState,
    correctionOf: (origin: RawOrigin) => Correction | null,
  ) {
    this.#store = store;
    this.#run = run;
    this.#options = options;
    this.#clock = nightClock(run, options.zone);
    this.#alarms = alarms;
    this.#correctionOf = correctionOf;
  }

  /** Begins to watch, from what the run holds already and the alarms it had. */
  static async begin(store: WatchShelves, run: Run, options: WatchOptions): Promise<NightWatch> {
    const kept = await store.settings.get(settingName(run, options));
    const { probes } = store;
    const correctionOf = correctionsFor(run.startedUnixMs, await probes.list(), await probes.calibrations());
    const night = new NightWatch(store, run, options, (kept as AlarmState | undefined) ?? noAlarms, correctionOf);
    const { cameToMs = Number.POSITIVE_INFINITY } = options;
    await store.settings.set(watchedName(run), true);
    await night.#fill({ readingMs: cameToMs, markMs: cameToMs });
    return night;
  }

  /** The latched alarms, the oldest first. */
  get alarms(): readonly Alarm[] {
    return this.#alarms.alarms;
  }

  /** The newest instant of the run, ms; -Infinity before the first reading. */
  get nowMs(): number {
    return this.#nowMs;
  }

  /** What is known by now. */
  tell(): LiveEstimate {
    return this.#live.tell(this.#nowMs);
  }

  /** Takes what has become durable. */
  async see(arrival: Arrival): Promise<void> {
    switch (arrival.kind) {
      case "readings":
        for (const reading of arrival.readings) await this.#takeReading(reading);
        break;
      case "heard":
        await this.#step({ kind: "heard", unixMs: this.#alarmMs(arrival.unixMs), board: arrival.boardId });
        await this.#lookAround();
        break;
      case "left":
        await this.#step({ kind: "dismissed", unixMs: this.#alarmMs(arrival.unixMs), board: arrival.boardId });
        break;
      case "source":
        await this.#takeSource(arrival.unixMs);
        break;
      case "quiet":
        this.#nowMs = Math.max(this.#nowMs, arrival.unixMs);
        await this.#askSource(this.#alarmMs(this.#nowMs, arrival.unixMs));
        await this.#step({ kind: "tick", unixMs: this.#alarmMs(this.#nowMs, arrival.unixMs) });
        await this.#lookAround();
        break;
      case "happened":
        return;
    }
    this.#isListening ||= arrival.kind !== "source";
  }

  /** Keeps what it knows, for who goes on. */
  rest(): Promise<void> {
    return this.#keepState();
  }

  async #takeReading(reading: NewReading): Promise<void> {
    const { position, unixMs, raw, unit = null, probeId = null, boardId, hostUnixMs } = reading;
    const alarmMs = this.#alarmMs(unixMs, hostUnixMs);
    await this.#askSource(alarmMs);
    const correction = this.#correctionOf({ probeId, unit });
    const value = correction === null ? raw : correction(raw);
    const newestMs = this.#goesByArrival ? (this.#newestAt.get(position) ?? -Infinity) : -Infinity;
    // What comes late may be there already, and what is newer has been seen: the store tells it at the next look.
    if (unixMs < newestMs) this.#isStale = true;
    else this.#newestAt.set(position, unixMs);
    if (unixMs < newestMs || Number.isNaN(value)) {
      // Kept all the same: it is a temperature as soon as the probe's curve is told.
      if (this.#goesByArrival && boardId !== undefined)
        await this.#step({ kind: "heard", unixMs: alarmMs, board: boardId });
      return;
    }
    if (unixMs > newestMs) this.#live.add({ unixMs, position, value });
    const board = boardId === undefined ? {} : { board: boardId };
    await this.#step({ kind: "reading", unixMs: alarmMs, position, value, ...board });
    this.#nowMs = Math.max(this.#nowMs, unixMs);
    await this.#lookAround();
  }

  get #goesByArrival(): boolean {
    return this.#options.time === "arrivals";
  }

  /** The alarms' instant of what came. Arrivals never go back: a board's clock that is wrong moves nothing else. */
  #alarmMs(unixMs: number, arrivedMs = unixMs): number {
    if (!this.#goesByArrival) return unixMs;
    this.#arrivedMs = Math.max(this.#arrivedMs, arrivedMs);
    return this.#arrivedMs;
  }

  /** By which looks are due. */
  get #clockMs(): number {
    return this.#goesByArrival ? this.#arrivedMs : this.#nowMs;
  }

  /** What is told, changed or taken back on another terminal or page; asked only between two instants. */
  async #askSource(unixMs: number): Promise<void> {
    if (unixMs - this.#askedMs < tidyEveryMs) return;
    this.#askedMs = unixMs;
    await this.#takeSource(unixMs);
  }

  async #takeSource(unixMs: number): Promise<void> {
    const marks = await marksUpTo(this.#store, this.#run, unixMs);
    if (JSON.stringify(marks) !== this.#marks) await this.#fill({ readingMs: this.#nowMs, markMs: unixMs });
  }

  /**
   * The live run anew from the store, since its readings stay with what was told as they came; and the alarms follow to
   * what it runs on.
   */
  async #fill(upTo: { readonly readingMs: number; readonly markMs: number }): Promise<void> {
    const kept = await liveRunOf(this.#store, this.#run, this.#options.baseline, upTo);
    const { live, newestUnixMs, newestAt, sourceMarks } = kept;
    this.#live = live;
    this.#newestAt = new Map(newestAt);
    this.#isStale = false;
    this.#marks = JSON.stringify(sourceMarks);
    this.#nowMs = Math.max(this.#nowMs, newestUnixMs ?? Number.NEGATIVE_INFINITY);
    this.#lookedMs = Number.NEGATIVE_INFINITY;
    const { source = null, unixMs: saidMs = 0 } = sourceMarks.at(-1) ?? {};
    if (source === this.#alarms.source) return;
    await this.#step({ kind: "source", unixMs: Math.max(this.#clockMs, this.#alarms.nowMs, saidMs), source });
  }

  async #lookAround(): Promise<void> {
    const unixMs = this.#clockMs;
    if (unixMs - this.#tidiedMs >= tidyEveryMs) {
      this.#tidiedMs = unixMs;
      await this.#takeAcknowledged();
      const freeMegabytes = this.#options.freeMegabytes();
      if (freeMegabytes !== null) await this.#step({ kind: "disk", unixMs, freeMegabytes });
    }
    if (unixMs - this.#lookedMs >= this.#options.lookEveryMs) {
      if (this.#isStale) await this.#fill({ readingMs: this.#nowMs, markMs: unixMs });
      this.#lookedMs = unixMs;
      const stopped = this.#live.stopped();
      await this.#step({
        kind: "cooling",
        unixMs,
        stoppedSinceMs: stopped?.startMs ?? null,
        doubt: stopped?.doubt ?? null,
      });
      await this.#keepState();
    }
  }

  async #keepState(): Promise<void> {
    await this.#store.settings.set(settingName(this.#run, this.#options), this.#alarms as unknown as Json);
  }

  async #step(input: AlarmInput): Promise<void> {
    // Whoever did not listen cannot say that nobody spoke.
    if (!this.#isListening && input.kind !== "listening") await this.#step({ kind: "listening", unixMs: input.unixMs });
    const { state, raised, anew, resumed, cleared } = watch(this.#alarms, input, {
      ...this.#options.limits,
      utcOffsetMinutes: this.#clock(input.unixMs),
    });
    const before = this.#alarms.alarms;
    const latched = state.alarms.filter(
      (alarm) => !before.some((one) => isSameAlarm(one, alarm) && one.raisedMs === alarm.raisedMs),
    );
    this.#alarms = state;
    for (const alarm of resumed) await this.#keep(alarm);
    // Also one that is held back: whoever looks at the pages by night, or ends the recording before six, finds it there.
    for (const alarm of latched) await this.#keep(alarm, anew.includes(alarm));
    for (const alarm of raised) await this.#options.whenRaised(alarm);
    for (const alarm of cleared) {
      const kept = await this.#keptAlarm(alarm);
      if (kept !== undefined) await this.#store.alarms.clear(kept.id, alarm.clearedMs ?? this.#nowMs);
    }
    if (latched.length + raised.length + resumed.length + cleared.length > 0) await this.#keepState();
  }

  async #keep(alarm: Alarm, isAnother = false): Promise<void> {
    const position = "position" in alarm.reason ? { position: alarm.reason.position } : {};
    const { alarm: kept } = await this.#store.alarms.raise({
      runId: this.#run.id,
      kind: alarm.kind,
      ...position,
      raisedUnixMs: alarm.raisedMs,
      reason: { ...alarm.reason, subject: alarm.subject, cautions: [...alarm.cautions] },
      isAnother,
    });
    // The recorder of another board may have raised it before: it is acknowledged as what is kept.
    if (kept.raisedUnixMs !== alarm.raisedMs) this.#callRaised(alarm, kept.raisedUnixMs);
  }

  #callRaised(alarm: Alarm, raisedMs: number): void {
    const alarms = this.#alarms.alarms.map((one) => (isSameAlarm(one, alarm) ? { ...one, raisedMs } : one));
    this.#alarms = { ...this.#alarms, alarms };
  }

  async #keptAlarm({ kind, subject }: Alarm) {
    const kept = await this.#store.alarms.list({ runId: this.#run.id });
    return kept.find(
      (each) => each.kind === kind && alarmSubject(each.reason) === subject && each.clearedUnixMs === null,
    );
  }

  /** Alarms that somebody acknowledged on another terminal or page. */
  async #takeAcknowledged(): Promise<void> {
    if (this.#alarms.alarms.every(({ acknowledgedMs }) => acknowledgedMs !== null)) return;
    for (const kept of await this.#store.alarms.list({ runId: this.#run.id, isAcknowledged: true })) {
      const alarm = { kind: kept.kind as Alarm["kind"], subject: alarmSubject(kept.reason) };
      // An older one of its kind that was seen long ago says nothing of the one that waits now.
      if (!this.#alarms.alarms.some((one) => isSameAlarm(one, alarm) && one.raisedMs === kept.raisedUnixMs)) continue;
      const by = kept.acknowledgedBy === null ? {} : { by: kept.acknowledgedBy };
      await this.#step({ kind: "acknowledged", unixMs: this.#clockMs, alarm, ...by });
    }
  }
}

const isSameAlarm = (a: Pick<Alarm, "kind" | "subject">, b: Pick<Alarm, "kind" | "subject">) =>
  a.kind === b.kind && a.subject === b.subject;

/** Whether anyone ever watched this run for alarms. Those of earlier versions left the state of their alarms alone. */
export async function wasWatched(settings: Pick<Store["settings"], "get">, run: Run): Promise<boolean> {
  return (
    (await settings.get(watchedName(run))) !== undefined || (await settings.get(settingName(run, {}))) !== undefined
  );
}

/** What was kept of a watch over all boards of a run: which boards it heard, and how far it came; null of none. */
export async function keptWatch(
  settings: Pick<Store["settings"], "get">,
  run: Run,
): Promise<{ readonly boards: readonly string[]; readonly toMs: number } | null> {
  const state = (await settings.get(settingName(run, {}))) as AlarmState | undefined;
  return state == null ? null : { boards: Object.keys(state.boards), toMs: state.nowMs };
}

const watchedName = (run: Run) => `watched ${run.id}`;

/** Two boards of one run have a recorder each, which hears its own board alone: neither may take the other's for silent. */
const settingName = (run: Run, { boardId }: Pick<WatchOptions, "boardId">) =>
  `alarm state ${run.id}${boardId === undefined ? "" : ` ${boardId}`}`;
