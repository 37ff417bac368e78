// The live side of recording: what a terminal shows meanwhile, and where alarms go.

import { handOf, plain } from "../../report/index.ts";
import { alarmText, type LiveContext, liveLine, liveText } from "../../report/recording/index.ts";
import type { LiveEstimate } from "../../science/live/index.ts";
import type { Fridge, Run, Store } from "../../store/index.ts";
import { fridgeBaseline } from "../../workshop/fridge-baseline.ts";
import {
  type AlarmOrders,
  type Arrival,
  alarmLimitsFor,
  alarmMessage,
  enqueue,
  freeMegabytesBeside,
  MessageSender,
  NightWatch,
} from "../../workshop/recording/index.ts";
import { type LanguageOptions, tellingOf, wordsFor } from "../language-option.ts";
import { storeFileOf } from "../store-option.ts";
import type { Terminal } from "../terminal.ts";
import { webhookWithSecret } from "../webhook-secret.ts";

/** What the person who starts recording may say about alarms. */
export interface NightOptions extends LanguageOptions, AlarmOrders {
  readonly store?: string;
  /** The board that is listened to; none for a replay. */
  readonly boardId?: string;
  readonly webhook?: string;
}

/** A picture is redrawn at most so often, ms; a line is written at most every so many ms of the run's own time. */
const redrawMs = 1000;
const lineEveryMs = 10 * 60_000;

/** Watches a run for a terminal. */
export class Night {
  readonly #watch: NightWatch;
  readonly #terminal: Terminal;
  readonly #context: LiveContext;
  #sender: MessageSender | null = null;
  #drawnAtMs = Number.NEGATIVE_INFINITY;
  #linedMs = Number.NEGATIVE_INFINITY;
  #lined: LiveEstimate | null = null;
  /** What is said of a board that was pulled out, until it is back. */
  #gone: string | null = null;
  /** What is said of alarms that could not be sent, until they are. */
  #unsent: string | null = null;

  private constructor(watch: NightWatch, context: LiveContext, terminal: Terminal) {
    this.#watch = watch;
    this.#terminal = terminal;
    this.#context = context;
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
    const hook = webhookWithSecret(options, terminal);
    const watch = await NightWatch.begin(store, run, {
      limits: alarmLimitsFor(options),
      baseline: await fridgeBaseline(store, run.fridgeId, [run.id]),
      cameToMs,
      ...(options.boardId === undefined ? {} : { boardId: options.boardId }),
      // A replay runs through hours in seconds: looking every minute would be all it does.
      lookEveryMs: run.origin === "replay" ? 5 * 60_000 : 60_000,
      freeMegabytes: () => freeMegabytesBeside(storeFileOf(options.store)),
      whenRaised: async (alarm) => {
        const text = alarmText(alarm, reader);
        terminal.tell(`${text}\n`);
        if (hook === null) return;
        await enqueue(store.outbox, hook, alarmMessage(alarm, text, run, fridge), terminal.nowUnixMs());
      },
    });
    const night = new Night(watch, { ...reader, fridge: fridge.name }, terminal);
    if (hook !== null) night.#sender = new MessageSender(store, hook, () => terminal.nowUnixMs(), night.#senderWords());
    return night;
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
    await this.#sender?.end();
    // Held back for the night, and nobody would tell it in the morning: who ends the recording is there now.
    const unsaid = this.#watch.alarms.filter(({ isHeldBack }) => isHeldBack);
    for (const alarm of unsaid) this.#terminal.tell(`${alarmText(alarm, this.#context)}\n`);
    if (Number.isFinite(this.#watch.nowMs) && this.#terminal.isWatched) this.#draw();
  }

  /** On a picture it stands until it is over; else it is a line. */
  #senderWords() {
    const { record } = wordsFor(this.#context).recording;
    const tellLine = (line: string) => {
      if (!this.#terminal.isWatched) this.#terminal.tell(`${line}\n`);
    };
    return {
      unsent: (host: string, why: string) => {
        this.#unsent = record.unsent(host, why);
        tellLine(this.#unsent);
      },
      sentAfterAll: () => {
        this.#unsent = null;
        tellLine(record.sentAfterAll);
      },
    };
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
