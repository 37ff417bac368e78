// Says one thing to the board on a port, and waits until it has repeated it: the board's answer carries a checksum, our
// command does not (firmware-notes/line-format.md).

import { setTimeout as sleep } from "node:timers/promises";
import {
  type BoardCommand,
  BoardLines,
  commandText,
  commandWords,
  type ListenedPort,
  type PortHappening,
} from "../../ingest/index.ts";
import { firstHello } from "./first-hello.ts";

/** What became of a command. */
export type BoardAnswer =
  | { readonly outcome: "heard"; readonly boardId: string }
  | { readonly outcome: "refused"; readonly boardId: string }
  | { readonly outcome: "no-answer"; readonly boardId: string }
  | { readonly outcome: "cannot-open"; readonly why: string }
  | { readonly outcome: "no-board" };

/** Said again when it was not repeated within this, ms; so many times. */
const patienceMs = 3000;
const mostAttempts = 3;

/**
 * Tells the board on a port something.
 *
 * @param port opened for this alone; it is stopped by `stop` before this returns
 * @param options.helloMs how long a board may take to say hello, ms; 15 s unless stated
 */
export async function tellBoard(
  port: ListenedPort,
  command: BoardCommand,
  stop: AbortController,
  { helloMs = 15_000 }: { readonly helloMs?: number } = {},
): Promise<BoardAnswer> {
  let lost: string | null = null;
  const watched = watching(port.happenings, (why) => {
    lost = why;
    stop.abort();
  });
  const tooLate = setTimeout(() => stop.abort(), helloMs);
  try {
    const greeted = await firstHello({ ...port, happenings: watched });
    clearTimeout(tooLate);
    if (greeted === null) return lost === null ? { outcome: "no-board" } : { outcome: "cannot-open", why: lost };
    const { boardId } = greeted.hello;
    return await answerTo(port, greeted.happenings, command, boardId, stop);
  } finally {
    clearTimeout(tooLate);
    stop.abort();
  }
}

async function answerTo(
  port: ListenedPort,
  happenings: AsyncIterable<PortHappening>,
  command: BoardCommand,
  boardId: string,
  stop: AbortController,
): Promise<BoardAnswer> {
  const words = commandWords(command);
  const asking = askAgain(port, command, stop);
  const lines = new BoardLines();
  for await (const happening of happenings) {
    if (happening.kind !== "bytes") continue;
    for (const heard of lines.push(happening.bytes)) {
      if (heard.outcome !== "good" || (heard.line.type !== "heard" && heard.line.type !== "refused")) continue;
      if (heard.line.command !== words) continue;
      stop.abort();
      await asking;
      return { outcome: heard.line.type, boardId };
    }
  }
  await asking;
  return { outcome: "no-answer", boardId };
}

/** Says it up to three times, then gives up listening. */
async function askAgain(port: ListenedPort, command: BoardCommand, stop: AbortController): Promise<void> {
  for (let attempt = 0; attempt < mostAttempts && !stop.signal.aborted; attempt++) {
    port.say(commandText(command));
    await sleep(patienceMs, undefined, { signal: stop.signal }).catch(() => {});
  }
  stop.abort();
}

/** The happenings, telling when the port is gone: whoever asks one question does not wait until it comes back. */
async function* watching(happenings: AsyncIterable<PortHappening>, whenLost: (why: string) => void) {
  for await (const happening of happenings) {
    if (happening.kind === "lost") whenLost(happening.why);
    yield happening;
  }
}
