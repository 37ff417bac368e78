// What is known of a run while it goes on, and the alarms it raises: the science's live side joined with the store.

import {
  type Alarm,
  type AlarmInput,
  type AlarmLimits,
  type AlarmState,
  type LiveEstimate,
  type LiveRun,
  noAlarms,
  watch,
} from "../../science/live/index.ts";
import {
  alarmSubject,
  type Correction,
  correctionsFor,
  type Json,
  type RawOrigin,
  type Run,
  type Store,
} from "../../store/index.ts";
import type { LogsRead } from "../logs-read.ts";
import type { Arrival } from "./arrival.ts";
import { liveRunOf } from "./live-run-of.ts";

/** The part of a store that a watch needs. */
export type WatchShelves = Pick<Store, "readings" | "edits" | "alarms" | "settings" | "probes">;

export interface WatchOptions {
  readonly limits: AlarmLimits;
  /** What the run is compared with. */
  readonly baseline: Pick<LogsRead, "knownGood" | "baselineKind">;
  /**
   * Between two looks at whether it still cools, ms of the run's own time. Each costs some hundredths of a second; a dead
   * flame is seen that much later.
   */
  readonly lookEveryMs: number;
  /** Free space where the store lies, MB; null where it cannot be told. */
  freeMegabytes(): number | null;
  /** Told of alarms that have to be told now. */
  whenRaised(alarm: Alarm): void | Promise<void>;
}

/** Between two looks at the disk and at what was acknowledged elsewhere, ms of the run's own time. */
const tidyEveryMs = 60_000;

/** Watches one run. */
export class NightWatch {
  readonly #store: WatchShelves;
  readonly #run: Run;
  readonly #options: WatchOptions;
  readonly #live: LiveRun;
  readonly #correctionOf: (origin: RawOrigin) => Correction | null;
  #alarms: AlarmState;
  #lookedMs = Number.NEGATIVE_INFINITY;
  #tidiedMs = Number.NEGATIVE_INFINITY;
  #nowMs = Number.NEGATIVE_INFINITY;

  private constructor(
    store: WatchShelves,
    run: Run,
    options: WatchOptions,
    live: LiveRun,
    alarms: AlarmState,
    correctionOf: (origin: RawOrigin) => Correction | null,
  ) {
    this.#store = store;
    this.#run = run;
    this.#options = options;
    this.#alarms = alarms;
    this.#correctionOf = correctionOf;
    this.#live = live;
  }

  /** Begins to watch, from what the run holds already and the alarms it had. */
  static async begin(store: WatchShelves, run: Run, options: WatchOptions): Promise<NightWatch> {
    const kept = await store.settings.get(settingName(run));
    const { probes } = store;
    const correctionOf = correctionsFor(run.startedUnixMs, await probes.list(), await probes.calibrations());
    const { live, newestUnixMs } = await liveRunOf(store, run, options.baseline);
    const night = new NightWatch(store, run, options, live, (kept as AlarmState | undefined) ?? noAlarms, correctionOf);
    if (newestUnixMs !== null) night.#nowMs = newestUnixMs;
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
        for (const { position, unixMs, raw, unit = null, probeId = null, boardId } of arrival.readings) {
          const correction = this.#correctionOf({ probeId, unit });
          const value = correction === null ? raw : correction(raw);
          // Kept all the same: it is a temperature as soon as the probe's curve is told.
          if (Number.isNaN(value)) continue;
          this.#live.add({ unixMs, position, value });
          const board = boardId === undefined ? {} : { board: boardId };
          await this.#step({ kind: "reading", unixMs, position, value, ...board });
          this.#nowMs = Math.max(this.#nowMs, unixMs);
          await this.#lookAround();
        }
        break;
      case "source":
        this.#live.switchTo(arrival.source, arrival.unixMs);
        await this.#step({ kind: "source", unixMs: arrival.unixMs, source: arrival.source });
        break;
      case "quiet":
        this.#nowMs = Math.max(this.#nowMs, arrival.unixMs);
        await this.#step({ kind: "tick", unixMs: this.#nowMs });
        await this.#lookAround();
        break;
      case "happened":
        break;
    }
  }

  async #lookAround(): Promise<void> {
    if (this.#nowMs - this.#tidiedMs >= tidyEveryMs) {
      this.#tidiedMs = this.#nowMs;
      await this.#takeAcknowledged();
      const freeMegabytes = this.#options.freeMegabytes();
      if (freeMegabytes !== null) await this.#step({ kind: "disk", unixMs: this.#nowMs, freeMegabytes });
    }
    if (this.#nowMs - this.#lookedMs >= this.#options.lookEveryMs) {
      this.#lookedMs = this.#nowMs;
      const { stopped } = this.tell();
      await this.#step({ kind: "cooling", unixMs: this.#nowMs, stoppedSinceMs: stopped?.startMs ?? null });
      await this.#store.settings.set(settingName(this.#run), this.#alarms as unknown as Json);
    }
  }

  async #step(input: AlarmInput): Promise<void> {
    const { state, raised, cleared } = watch(this.#alarms, input, this.#options.limits);
    this.#alarms = state;
    for (const alarm of raised) {
      const position = "position" in alarm.reason ? { position: alarm.reason.position } : {};
      await this.#store.alarms.raise({
        runId: this.#run.id,
        kind: alarm.kind,
        ...position,
        raisedUnixMs: alarm.raisedMs,
        reason: { ...alarm.reason, subject: alarm.subject, cautions: [...alarm.cautions] },
      });
      await this.#options.whenRaised(alarm);
    }
    for (const alarm of cleared) {
      const kept = await this.#keptAlarm(alarm);
      if (kept !== undefined) await this.#store.alarms.clear(kept.id, alarm.clearedMs ?? this.#nowMs);
    }
    if (raised.length + cleared.length > 0) {
      await this.#store.settings.set(settingName(this.#run), this.#alarms as unknown as Json);
    }
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
      const by = kept.acknowledgedBy === null ? {} : { by: kept.acknowledgedBy };
      await this.#step({ kind: "acknowledged", unixMs: this.#nowMs, alarm, ...by });
    }
  }
}

const settingName = (run: Run) => `alarm state ${run.id}`;
