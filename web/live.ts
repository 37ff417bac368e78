// The live stream: one for the whole page, opened when somebody listens. The browser comes back by itself with the id of
// the last event it got.

import { useEffect, useRef } from "preact/hooks";
import type { LiveEvent } from "../src/schema/api/index.ts";
import { outOfReach } from "./ask.ts";

type Kind = LiveEvent["kind"];
const kinds = ["readings", "run", "run-reread", "source", "alarm", "job", "missed"] as const satisfies readonly Kind[];

const listeners = new Set<(event: LiveEvent) => void>();
let stream: EventSource | null = null;

/** Hears every event while the part is on the page. */
export function useLive(hear: (event: LiveEvent) => void): void {
  const newest = useRef(hear);
  newest.current = hear;
  useEffect(() => {
    const listener = (event: LiveEvent) => newest.current(event);
    listeners.add(listener);
    stream ??= opened();
    return () => {
      listeners.delete(listener);
      if (listeners.size > 0) return;
      stream?.close();
      stream = null;
    };
  }, []);
}

function opened(): EventSource {
  const source = new EventSource("/api/live");
  let isLost = false;
  for (const kind of kinds) {
    source.addEventListener(kind, ({ data }) => {
      // The service checked its shape before it sent it.
      const event = { kind, data: JSON.parse(data) } as LiveEvent;
      for (const listener of listeners) listener(event);
    });
  }
  source.addEventListener("error", () => {
    isLost = true;
    if (outOfReach.get() === null) outOfReach.set(Date.now());
  });
  source.addEventListener("open", () => {
    outOfReach.set(null);
    if (!isLost) return;
    isLost = false;
    // What was shown may have been a kept answer: let every part look again.
    for (const listener of listeners) listener({ kind: "missed", data: { reason: "service-restarted" } });
  });
  return source;
}
