// Time goes on while nothing arrives: a quiet moment now and then, so that silence is noticed.

import type { Arrival } from "./arrival.ts";

/**
 * The arrivals, with a quiet one whenever nothing came for so long.
 *
 * @param everyMs of the host's clock
 * @param now the instant, ms since 1970
 */
export async function* ticking(
  arrivals: AsyncIterable<Arrival>,
  everyMs: number,
  now: () => number,
): AsyncGenerator<Arrival, void> {
  const iterator = arrivals[Symbol.asyncIterator]();
  let next = iterator.next();
  for (;;) {
    let timer: NodeJS.Timeout | undefined;
    const tick = new Promise<null>((resolve) => {
      timer = setTimeout(() => resolve(null), everyMs);
    });
    const first = await Promise.race([next, tick]);
    clearTimeout(timer);
    if (first === null) {
      yield { kind: "quiet", unixMs: now() };
      continue;
    }
    if (first.done) return;
    yield first.value;
    next = iterator.next();
  }
}
