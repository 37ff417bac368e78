// Recording: whatever arrives goes into the store, and only what is durable is told on.

import type { Received, Store } from "../../store/index.ts";
import type { Arrival } from "./arrival.ts";

/** The part of a store that recording needs. */
export type RecordingShelves = Pick<Store, "readings" | "edits" | "events">;

/** What a recording has kept. */
export interface RecordingCounts {
  readonly stored: number;
  /** There already, word for word. */
  readonly repeated: number;
  /** Not taken, since something else is kept of the same instant. */
  readonly contradicted: number;
}

/** So many batches may be on their way to the disk at once: they share commits, and none is told on before it is there. */
const mostOnTheWay = 8;

/**
 * Records until nothing arrives any more.
 *
 * @param whenKept told of each arrival in order, once it is durable
 * @throws BadInput "store-disk-full"; what was told on before is kept
 */
export async function recordRun(
  arrivals: AsyncIterable<Arrival>,
  store: RecordingShelves,
  runId: string,
  whenKept: (arrival: Arrival) => void | Promise<void>,
): Promise<RecordingCounts> {
  const counts = { stored: 0, repeated: 0, contradicted: 0 };
  const onTheWay: Promise<void>[] = [];
  let told = Promise.resolve();
  let isRefused = false;
  for await (const arrival of arrivals) {
    // Nothing is kept behind what was not: the next recording goes on from the last that is there.
    if (isRefused) break;
    const kept = keep(store, runId, arrival);
    kept.catch(() => {
      isRefused = true;
    });
    const before = told;
    told = (async () => {
      const [received] = await Promise.all([kept, before]);
      counts.stored += received?.stored ?? 0;
      counts.repeated += received?.repeated ?? 0;
      counts.contradicted += received?.contradicted ?? 0;
      await whenKept(arrival);
    })();
    // A failure is met where it is awaited, at the latest in the end, not as an unhandled one before.
    told.catch(() => {});
    onTheWay.push(told);
    if (onTheWay.length >= mostOnTheWay) await onTheWay.shift();
  }
  await told;
  return counts;
}

async function keep(store: RecordingShelves, runId: string, arrival: Arrival): Promise<Received | null> {
  switch (arrival.kind) {
    case "readings":
      return store.readings.append(runId, arrival.readings);
    case "source":
      await store.edits.make(runId, { kind: "source", unixMs: arrival.unixMs, source: arrival.source, how: "told" });
      return null;
    case "happened":
      await store.events.add(runId, arrival.event);
      return null;
    case "heard":
    case "left":
    case "quiet":
      return null;
  }
}
