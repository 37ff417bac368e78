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
  type ProbeLine,
} from "../../ingest/index.ts";
import { msPerMinute } from "../../schema/index.ts";
import { firstHello } from "./first-hello.ts";

/** What became of a command. */
export type BoardAnswer =
  /** `ended`: the line that `until` waited for. `bytes`: all that the board sent, from before the command on. */
  | {
      readonly outcome: "heard";
      readonly boardId: string;
      readonly ended: ProbeLine | null;
      readonly bytes: Uint8Array;
    }
  | { readonly outcome: "refused"; readonly boardId: string }
  | { readonly outcome: "no-answer"; readonly boardId: string }
  | { readonly outcome: "cannot-open"; readonly why: string }
  | { readonly outcome: "no-board" };

export interface TellOptions {
  /** How long a board may take to say hello, ms; 15 s unless stated. */
  readonly helloMs?: number;
  /** What the board does takes its time: the line that says it is done. Done when heard unless stated. */
  readonly until?: (line: ProbeLine) => boolean;
  /** How long a board that has heard may say nothing at all before it is given up, ms; a minute unless stated. */
  readonly silenceMs?: number;
}

/** Said again when it was not repeated within this, ms; so many times. */
const patienceMs = 3000;
const mostAttempts = 3;

/**
 * Tells the board on a port something.
 *
 * @param port opened for this alone; it is stopped by `stop` before this returns
 */
export async function tellBoard(
  port: ListenedPort,
  command: BoardCommand,
  stop: AbortController,
  options: TellOptions = {},
): Promise<BoardAnswer> {
  let lost: string | null = null;
  const watched = watching(port.happenings, (why) => {
    lost = why;
    stop.abort();
  });
  const tooLate = setTimeout(() => stop.abort(), options.helloMs ?? 15_000);
  try {
    const greeted = await firstHello({ ...port, happenings: watched });
    clearTimeout(tooLate);
    if (greeted === null) return lost === null ? { outcome: "no-board" } : { outcome: "cannot-open", why: lost };
    const { boardId } = greeted.hello;
    return await answerTo(port, greeted.happenings, command, boardId, stop, options);
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
  { until, silenceMs = msPerMinute }: TellOptions,
): Promise<BoardAnswer> {
  const words = commandWords(command);
  const isHeard = new AbortController();
  const asking = askAgain(port, command, isHeard.signal, stop);
  const lines = new BoardLines();
  const pieces: Uint8Array[] = [];
  let silence: NodeJS.Timeout | undefined;
  const done = async (answer: BoardAnswer) => {
    clearTimeout(silence);
    isHeard.abort();
    stop.abort();
    await asking;
    return answer;
  };
  for await (const happening of happenings) {
    if (happening.kind !== "bytes") continue;
    pieces.push(happening.bytes);
    if (isHeard.signal.aborted) {
      clearTimeout(silence);
      silence = setTimeout(() => stop.abort(), silenceMs);
    }
    for (const heard of lines.push(happening.bytes)) {
      if (heard.outcome !== "good") continue;
      const { line } = heard;
      if (line.type === "refused" && line.command === words) return done({ outcome: "refused", boardId });
      if (line.type === "heard" && line.command === words) isHeard.abort();
      if (!isHeard.signal.aborted || !(until?.(line) ?? true)) continue;
      return done({
        outcome: "heard",
        boardId,
        ended: until === undefined ? null : line,
        bytes: Buffer.concat(pieces),
      });
    }
  }
  return done({ outcome: "no-answer", boardId });
}

/** Says it up to three times, then gives up listening; nothing more once it was heard. */
async function askAgain(
  port: ListenedPort,
  command: BoardCommand,
  heard: AbortSignal,
  stop: AbortController,
): Promise<void> {
  const signal = AbortSignal.any([heard, stop.signal]);
  for (let attempt = 0; attempt < mostAttempts && !signal.aborted; attempt++) {
    port.say(commandText(command));
    await sleep(patienceMs, undefined, { signal }).catch(() => {});
  }
  if (!heard.aborted) stop.abort();
}

/** The happenings, telling when the port is gone: whoever asks one question does not wait until it comes back. */
async function* watching(happenings: AsyncIterable<PortHappening>, whenLost: (why: string) => void) {
  for await (const happening of happenings) {
    if (happening.kind === "lost") whenLost(happening.why);
    yield happening;
  }
}
