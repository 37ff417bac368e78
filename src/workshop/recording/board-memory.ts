// The memory that a board keeps its own lines in: told to keep, read out into a file, emptied.

import type { BoardCommand, ListenedPort, ProbeLine } from "../../ingest/index.ts";
import { type BoardAnswer, type TellOptions, tellBoard } from "./tell-board.ts";

/** What can be asked of it. */
export type MemoryCommand = Extract<BoardCommand, { readonly ask: "keep" | "read-out" | "erase" }>;

/** What became of it: how the memory stands, and after a read-out its lines. */
export type MemoryAnswer =
  | {
      readonly outcome: "heard";
      readonly boardId: string;
      readonly memory: Extract<ProbeLine, { type: "memory" }>;
      /** What the memory held and what the board said meanwhile, as it came; the line that ends it is the last. */
      readonly text: string;
    }
  | Exclude<BoardAnswer, { outcome: "heard" }>;

/**
 * Asks it, and waits until it is done: sixteen megabytes take three quarters of an hour to read out.
 *
 * @param port opened for this alone; it is stopped by `stop` before this returns
 */
export async function tellMemory(
  port: ListenedPort,
  command: MemoryCommand,
  stop: AbortController,
  options: Pick<TellOptions, "helloMs" | "silenceMs"> = {},
): Promise<MemoryAnswer> {
  const answer = await tellBoard(port, command, stop, { ...options, until: (line) => isDone(line, command) });
  if (answer.outcome !== "heard") return answer;
  const { boardId, ended, bytes } = answer;
  if (ended?.type !== "memory") return { outcome: "no-answer", boardId };
  return { outcome: "heard", boardId, memory: ended, text: command.ask === "read-out" ? readOutOf(bytes) : "" };
}

/** The line that says so. */
function isDone(line: ProbeLine, command: MemoryCommand): boolean {
  if (line.type !== "memory") return false;
  if (command.ask === "keep") return line.state === (command.isOn ? "keeping" : "resting") || line.state === "full";
  return line.state === (command.ask === "read-out" ? "sent" : "erased");
}

/** Whole lines, from where the board has heard the question up to where it says that it is done. */
function readOutOf(bytes: Uint8Array): string {
  const lines = new TextDecoder("latin1").decode(bytes).split(/\r?\n/);
  const first = lines.findIndex((line) => /^heard .* read-out [0-9A-F]{4}$/.test(line));
  const last = lines.findLastIndex((line) => /^memory .* sent \d+ \d+ [0-9A-F]{4}$/.test(line));
  return lines
    .slice(first, last + 1)
    .filter((line) => line !== "")
    .map((line) => `${line}\n`)
    .join("");
}
