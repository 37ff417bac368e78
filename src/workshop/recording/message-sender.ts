// Looks after messages that wait to leave the house, every few seconds, and says when they cannot.

import { setTimeout as sleep } from "node:timers/promises";
import { type MessageShelves, sendDue, type Webhook } from "./webhook.ts";

/** What is said of messages; once until it changes. */
export interface SenderWords {
  /** @param host of the address: what follows it may be a secret */
  unsent(host: string, why: string): void;
  sentAfterAll(): void;
}

/** Messages are looked after this often, ms. */
const sendEveryMs = 2000;

/** Sends to one receiver until it is ended. What was not sent stays for the next one. */
export class MessageSender {
  readonly #store: MessageShelves;
  readonly #hook: Webhook;
  readonly #now: () => number;
  readonly #words: SenderWords;
  readonly #over = new AbortController();
  readonly #sending: Promise<void>;
  #isUnsent = false;

  /** @param now the clock, ms since 1970 */
  constructor(store: MessageShelves, hook: Webhook, now: () => number, words: SenderWords) {
    this.#store = store;
    this.#hook = hook;
    this.#now = now;
    this.#words = words;
    this.#sending = this.#sendOn();
  }

  /** Tries once more, and stops. */
  async end(): Promise<void> {
    this.#over.abort();
    // Two at once would send each message twice.
    await this.#sending;
    await this.#send().catch(() => undefined);
  }

  /** A store that is busy, or a full disk, is no reason to stop: what is due is sent at the next look. */
  async #sendOn(): Promise<void> {
    const { signal } = this.#over;
    while (!signal.aborted) {
      await sleep(sendEveryMs, undefined, { signal }).catch(() => undefined);
      if (!signal.aborted) await this.#send().catch(() => undefined);
    }
  }

  /** A mistyped address must not look like a quiet night. */
  async #send(): Promise<void> {
    const { sent, why } = await sendDue(this.#store, this.#hook, this.#now());
    if (why !== null && !this.#isUnsent) {
      this.#isUnsent = true;
      this.#words.unsent(new URL(this.#hook.url).host, why);
    }
    if (why === null && sent > 0 && this.#isUnsent) {
      this.#isUnsent = false;
      this.#words.sentAfterAll();
    }
  }
}
