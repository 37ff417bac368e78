// The live side of recording: what a terminal shows meanwhile, and where alarms go.

import { statfsSync } from "node:fs";
import { dirname } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { handOf, plain } from "../../report/index.ts";
import { alarmText, type LiveContext, liveLine, liveText } from "../../report/recording/index.ts";
import { type Alarm, type AlarmLimits, type LiveEstimate, usualAlarmLimits } from "../../science/live/index.ts";
import type { DayHours } from "../../science/plan/index.ts";
import type { Fridge, Run, Store } from "../../store/index.ts";
import { fridgeBaseline } from "../../workshop/fridge-baseline.ts";
import { type Arrival, enqueue, NightWatch, sendDue, type Webhook } from "../../workshop/recording/index.ts";
import { type LanguageOptions, tellingOf, wordsFor } from "../language-option.ts";
import { storeFileOf } from "../store-option.ts";
import type { Terminal } from "../terminal.ts";

/** What the person who starts recording may say about alarms. */
export interface NightOptions extends LanguageOptions {
  readonly store?: string;
  /** °C and hours: the cabinet above this for longer than that is an alarm. */
  readonly tooWarm?: { readonly celsius: number; readonly hours: number };
  /** The board that is listened to; none for a replay. */
  readonly boardId?: string;
  /** Hours of the day between which alarms are held back. */
  readonly quiet?: DayHours;
  readonly webhook?: string;
}

/** A picture is redrawn at most so often, ms; a line is written at most every so many ms of the run's own time. */
const redrawMs = 1000;
const lineEveryMs = 10 * 60_000;
/** Messages are looked after this often, ms. */
const sendEveryMs = 2000;

/** Watches a run for a terminal. */
export class Night {
  readonly #watch: NightWatch;
  readonly #terminal: Terminal;
  readonly #context: LiveContext;
  readonly #hook: Webhook | null;
  readonly #store: Store;
  readonly #over = new AbortController();
  #drawnAtMs = Number.NEGATIVE_INFINITY;
  #linedMs = Number.NEGATIVE_INFINITY;
  #lined: LiveEstimate | null = null;
  /** What is said of a board that was pulled out, until it is back. */
  #gone: string | null = null;
  /** What is said of alarms that could not be sent, until they are. */
  #unsent: string | null = null;

  private constructor(watch: NightWatch, context: LiveContext, store: Store, hook: Webhook | null, terminal: Terminal) {
    this.#watch = watch;
    this.#terminal = terminal;
    this.#store = store;
    this.#hook = hook;
    this.#context = context;
    void this.#sendOn();
  }

  /** @param cameToMs the run's own now */
  static async begin(
    store: Store,
    run: Run,
    fridge: Fridge,
    cameToMs: number,
    options: NightOptions,
    terminal: Terminal,
  ): Promise<Night> {
    const { utcOffsetMinutes } = run;
    const reader = { ...tellingOf(options), utcOffsetMinutes };
    const hook = webhookOf(options, terminal);
    const watch = await NightWatch.begin(store, run, {
      limits: limitsOf(options),
      baseline: await fridgeBaseline(store, run.fridgeId, [run.id]),
      cameToMs,
      ...(options.boardId === undefined ? {} : { boardId: options.boardId }),
      // A replay runs through hours in seconds: looking every minute would be all it does.
      lookEveryMs: run.origin === "replay" ? 5 * 60_000 : 60_000,
      freeMegabytes: () => freeMegabytes(dirname(storeFileOf(options.store))),
      whenRaised: async (alarm) => {
        const text = alarmText(alarm, reader);
        terminal.tell(`${text}\n`);
        if (hook !== null) await enqueue(store.outbox, hook, messageOf(alarm, text, run, fridge), terminal.nowUnixMs());
      },
    });
    return new Night(watch, { ...reader, fridge: fridge.name }, store, hook, terminal);
  }

  /** Takes what has become durable, and shows it. */
  async see(arrival: Arrival): Promise<void> {
    await this.#watch.see(arrival);
    this.#followBoard(arrival);
    if (arrival.kind !== "readings" && arrival.kind !== "quiet") return;
    if (this.#terminal.isWatched) this.#redraw();
    else this.#writeLine();
  }

  /** Somebody may be beside it: the alarm of a silent board comes minutes later. */
  #followBoard(arrival: Arrival): void {
    const { record } = wordsFor(this.#context).recording;
    const told = (unixMs: number) => handOf(this.#context.language, this.#context.utcOffsetMinutes).moment(unixMs);
    if (arrival.kind === "happened" && arrival.event.kind === "board-unplugged") {
      this.#gone = plain(record.unplugged(told(arrival.event.fromUnixMs)));
      if (!this.#terminal.isWatched) this.#terminal.tell(`${this.#gone}\n`);
    }
    if (arrival.kind === "readings" && this.#gone !== null) {
      this.#gone = null;
      const [{ unixMs }] = arrival.readings.slice(-1);
      if (!this.#terminal.isWatched) this.#terminal.tell(`${plain(record.backAgain(told(unixMs)))}\n`);
    }
  }

  /** Shows how it ended, and lets go of the timers. What was not sent stays for the next recorder. */
  async end(): Promise<void> {
    this.#over.abort();
    await this.#send().catch(() => undefined);
    // Held back for the night, and nobody would tell it in the morning: who ends the recording is there now.
    const unsaid = this.#watch.alarms.filter(({ isHeldBack }) => isHeldBack);
    for (const alarm of unsaid) this.#terminal.tell(`${alarmText(alarm, this.#context)}\n`);
    if (Number.isFinite(this.#watch.nowMs) && this.#terminal.isWatched) this.#draw();
  }

  /** A store that is busy, or a full disk, is no reason to stop recording: what is due is sent at the next look. */
  async #sendOn(): Promise<void> {
    const { signal } = this.#over;
    while (!signal.aborted) {
      await sleep(sendEveryMs, undefined, { signal }).catch(() => undefined);
      if (!signal.aborted) await this.#send().catch(() => undefined);
    }
  }

  /** A mistyped address must not look like a quiet night. The host alone is told: what follows it may be a secret. */
  async #send(): Promise<void> {
    if (this.#hook === null) return;
    const { sent, why } = await sendDue(this.#store.outbox, this.#hook, this.#terminal.nowUnixMs());
    const { record } = wordsFor(this.#context).recording;
    if (why !== null && this.#unsent === null) {
      this.#unsent = record.unsent(new URL(this.#hook.url).host, why);
      if (!this.#terminal.isWatched) this.#terminal.tell(`${this.#unsent}\n`);
    }
    if (why === null && sent > 0 && this.#unsent !== null) {
      this.#unsent = null;
      if (!this.#terminal.isWatched) this.#terminal.tell(`${record.sentAfterAll}\n`);
    }
  }

  #redraw(): void {
    if (this.#terminal.now() - this.#drawnAtMs < redrawMs) return;
    this.#drawnAtMs = this.#terminal.now();
    this.#draw();
  }

  #draw(): void {
    const { hasColour: colour, width } = this.#terminal;
    const live = liveText(this.#watch.tell(), this.#context, this.#watch.alarms, { colour, width });
    const notices = [this.#gone, this.#unsent].filter((notice) => notice !== null);
    const picture = [...notices, live].join("\n\n");
    // Home, then each line cleared to its end, then whatever stood below: no flicker, and nothing left behind.
    this.#terminal.tell(`\u001b[H${picture.replaceAll("\n", "\u001b[K\n")}\u001b[J`);
  }

  #writeLine(): void {
    const nowMs = this.#watch.nowMs;
    if (nowMs - this.#linedMs < lineEveryMs) return;
    const estimate = this.#watch.tell();
    const isNews = estimate.head.saying.code !== this.#lined?.head.saying.code;
    // Every ten minutes while something changes; every hour while nothing does.
    if (!isNews && nowMs - this.#linedMs < 6 * lineEveryMs) return;
    this.#terminal.tell(liveLine(estimate, this.#context, this.#lined));
    this.#lined = estimate;
    this.#linedMs = nowMs;
  }
}

const limitsOf = ({ tooWarm, quiet }: NightOptions): AlarmLimits => ({
  ...usualAlarmLimits,
  ...(tooWarm === undefined ? {} : { cabinetCelsius: tooWarm.celsius, cabinetMinutes: tooWarm.hours * 60 }),
  ...(quiet === undefined ? {} : { heldBack: quiet }),
});

/** The secret comes from the environment: on a command line every process of the machine could read it. */
function webhookOf({ webhook, language }: NightOptions, terminal: Terminal): Webhook | null {
  if (webhook === undefined) return null;
  const secret = process.env.COLDFALL_WEBHOOK_SECRET ?? "";
  if (secret === "") terminal.tell(`${wordsFor({ language }).recording.record.noSecret}\n`);
  return { url: webhook, secret };
}

const messageOf = (alarm: Alarm, text: string, run: Run, fridge: Fridge) => ({
  format: "coldfall-alarm-1",
  fridge: fridge.name,
  run: run.id,
  kind: alarm.kind,
  subject: alarm.subject,
  raised: new Date(alarm.raisedMs).toISOString(),
  text,
});

function freeMegabytes(folder: string): number | null {
  try {
    const { bavail, bsize } = statfsSync(folder);
    return (bavail * bsize) / 1e6;
  } catch {
    return null;
  }
}
