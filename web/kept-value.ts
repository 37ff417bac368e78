// A value that several parts of a page look at, and that tells them when it changes.

import { useEffect, useState } from "preact/hooks";

export interface KeptValue<T> {
  get(): T;
  set(value: T): void;
  /** @returns how to stop */
  watch(tell: () => void): () => void;
}

export function keptValue<T>(first: T): KeptValue<T> {
  let value = first;
  const watchers = new Set<() => void>();
  return {
    get: () => value,
    set: (next) => {
      if (Object.is(next, value)) return;
      value = next;
      for (const tell of watchers) tell();
    },
    watch: (tell) => {
      watchers.add(tell);
      return () => watchers.delete(tell);
    },
  };
}

/** The value now; the part is drawn anew when it changes. */
export function useKept<T>(kept: KeptValue<T>): T {
  const [, redraw] = useState(0);
  useEffect(() => kept.watch(() => redraw((times) => times + 1)), [kept]);
  return kept.get();
}
