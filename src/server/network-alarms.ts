// Alarms of boards that send over the network: the service watches their runs while it runs, tells the person who started it,
// and sends them on.

import { setTimeout as sleep } from "node:timers/promises";
import type { Logger } from "pino";
import { type Reader, words } from "../report/index.ts";
import { alarmText } from "../report/recording/index.ts";
import type { Alarm } from "../science/live/index.ts";
import type { Run, Store } from "../store/index.ts";
import {
  type AlarmOrders,
  alarmMessage,
  enqueue,
  freeMegabytesBeside,
  MessageSender,
  NetworkWatch,
  usualPace,
  type WatchPace,
  type Webhook,
} from "../workshop/recording/index.ts";

/** What is said of alarms when the service is started. */
export interface AlarmOptions {
  readonly orders?: AlarmOrders;
  /** Nowhere unless stated. */
  readonly hook?: Webhook | null;
  /** In which language and degrees alarms are told. */
  readonly reader?: Pick<Reader, "language" | "degrees">;
  readonly pace?: Partial<WatchPace>;
  /** Free space where the store lies, MB; null where it cannot be told. Asked of the system unless stated. */
  freeMegabytes?(): number | null;
  /** Told of alarms, and of what became of messages, a line each. */
  tell?(line: string): void;
}

/** What it needs of the service's options. */
interface ServiceAround {
  readonly store: Store;
  readonly storeFile: string;
  readonly alarms?: AlarmOptions;
}

/** The watch over all network boards, and where its alarms go. */
export class NetworkAlarms {
  readonly watch: NetworkWatch;
  readonly #around: ServiceAround;
  readonly #now: () => number;
  #sender: MessageSender | null = null;

  constructor(around: ServiceAround, now: () => number, logger: Logger) {
    this.#around = around;
    this.#now = now;
    const { orders = {}, pace } = around.alarms ?? {};
    this.watch = new NetworkWatch(around.store, {
      orders,
      pace: { ...usualPace, ...pace },
      now,
      freeMegabytes: around.alarms?.freeMegabytes ?? (() => freeMegabytesBeside(around.storeFile)),
      whenRaised: (alarm, run) => this.#raise(alarm, run),
      whenElsewhere: (holder) => this.#tell(this.#words.server.watchedElsewhere(holder)),
      whenFailed: (error) => logger.error({ err: error, event: "network-watch-failed" }),
    });
  }

  start(): void {
    const { store, alarms } = this.#around;
    this.watch.start();
    const { record } = this.#words.recording;
    if (alarms?.hook == null) return;
    this.#sender = new MessageSender(store, alarms.hook, this.#now, {
      unsent: (host, why) => this.#tell(record.unsent(host, why)),
      sentAfterAll: () => this.#tell(record.sentAfterAll),
    });
  }

  /** A receiver that does not answer holds up nobody: what was not sent stays for the next start. */
  async stop(): Promise<void> {
    await this.watch.stop();
    await Promise.race([this.#sender?.end(), sleep(longestGoodbyeMs, undefined, { ref: false })]);
  }

  get #words() {
    return words(this.#around.alarms?.reader?.language ?? "en");
  }

  #tell(line: string): void {
    this.#around.alarms?.tell?.(line);
  }

  async #raise(alarm: Alarm, run: Run): Promise<void> {
    const { store, alarms } = this.#around;
    const reader = { language: "en", ...alarms?.reader, utcOffsetMinutes: run.utcOffsetMinutes } as const;
    const text = alarmText(alarm, reader);
    const fridge = await store.fridges.get(run.fridgeId);
    this.#tell(`${fridge.name}: ${text}`);
    if (alarms?.hook == null) return;
    await enqueue(store.outbox, alarms.hook, alarmMessage(alarm, text, run, fridge), this.#now());
  }
}

const longestGoodbyeMs = 1000;
