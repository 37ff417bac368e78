// Who is on the port: a board says hello when asked.

import { BoardLines, commandText, type ListenedPort, type PortHappening, type ProbeLine } from "../../ingest/index.ts";

/** A board's hello. */
export type Hello = Extract<ProbeLine, { readonly type: "hello" }>;

/** A board that said hello, and everything the port did and does, from its beginning. */
export interface Greeted {
  readonly hello: Hello;
  readonly happenings: AsyncIterable<PortHappening>;
}

/** A board that just started may not hear the first question. */
const askAgainMs = 2000;

/**
 * Waits until a board says hello.
 *
 * @param whenLost is told why the port cannot be listened to; the wait goes on, as it may be plugged in yet
 * @returns null when listening ended before
 */
export async function firstHello(
  port: ListenedPort,
  whenLost: (why: string) => void = () => {},
): Promise<Greeted | null> {
  const lines = new BoardLines();
  const before: PortHappening[] = [];
  const rest = port.happenings[Symbol.asyncIterator]();
  const ask = () => port.say(commandText({ ask: "identify" }));
  const asking = setInterval(ask, askAgainMs);
  try {
    for (;;) {
      const { done, value: happening } = await rest.next();
      if (done) return null;
      before.push(happening);
      if (happening.kind === "opened") ask();
      if (happening.kind === "lost") whenLost(happening.why);
      if (happening.kind !== "bytes") continue;
      const hello = lines
        .push(happening.bytes)
        .flatMap((heard) => (heard.outcome === "good" && heard.line.type === "hello" ? [heard.line] : []))[0];
      if (hello !== undefined) return { hello, happenings: chained(before, rest) };
    }
  } finally {
    clearInterval(asking);
  }
}

async function* chained(before: readonly PortHappening[], rest: AsyncIterator<PortHappening>) {
  yield* before;
  for (;;) {
    const { done, value } = await rest.next();
    if (done) return;
    yield value;
  }
}
