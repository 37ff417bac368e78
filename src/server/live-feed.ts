// The live stream's memory: events in order, the last few thousand of them kept, so that a viewer whose phone slept gets
// what it missed. Where that is gone, it is told so.

import { randomBytes } from "node:crypto";
import type { LiveEvent } from "../schema/api/index.ts";

/** An event as it goes out. */
export interface SentEvent {
  readonly id: string;
  /** As the stream writes it (HTML Standard, "Server-sent events"). */
  readonly text: string;
}

/** Publishes events to viewers, and keeps the last of them. */
export class LiveFeed {
  /** Tells this start of the service from every other, so that no old id is taken for a new one. */
  readonly #start = randomBytes(6).toString("base64url");
  readonly #kept: SentEvent[] = [];
  readonly #most: number;
  readonly #viewers = new Set<(event: SentEvent) => void>();
  #next = 1;

  /** @param most so many events are kept */
  constructor(most: number) {
    this.#most = most;
  }

  get viewers(): number {
    return this.#viewers.size;
  }

  publish(event: LiveEvent): void {
    const sent = this.#sent(event, this.#next++);
    this.#kept.push(sent);
    // Cut in large steps: shift() of a long array once an event would cost more than the event.
    if (this.#kept.length >= 2 * this.#most) this.#kept.splice(0, this.#kept.length - this.#most);
    for (const viewer of this.#viewers) viewer(sent);
  }

  /**
   * What came after an event, then everything to come.
   *
   * @param after the id of the last event received; null: only what comes from now on
   * @returns what was missed, and how to stop
   */
  view(
    after: string | null,
    viewer: (event: SentEvent) => void,
  ): { readonly missed: readonly SentEvent[]; stop(): void } {
    this.#viewers.add(viewer);
    return { missed: this.#after(after), stop: () => this.#viewers.delete(viewer) };
  }

  #after(after: string | null): readonly SentEvent[] {
    if (after === null) return [];
    const [start, number] = after.split(".");
    const seen = Number(number);
    const newest = this.#next - 1;
    if (start !== this.#start || !(seen >= 0 && seen <= newest)) return [this.#gap("service-restarted")];
    const wanted = newest - seen;
    const kept = Math.min(this.#kept.length, this.#most);
    return wanted > kept ? [this.#gap("too-long-ago")] : this.#kept.slice(this.#kept.length - wanted);
  }

  /** Carries the newest id, so that the next resume begins after it. */
  #gap(reason: "too-long-ago" | "service-restarted"): SentEvent {
    return this.#sent({ kind: "missed", data: { reason } }, this.#next - 1);
  }

  #sent({ kind, data }: LiveEvent, number: number): SentEvent {
    const id = `${this.#start}.${number}`;
    return { id, text: `id: ${id}\nevent: ${kind}\ndata: ${JSON.stringify(data)}\n\n` };
  }
}
