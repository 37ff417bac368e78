// `coldfall boards keep`, `read-out` and `erase`: what a board records alone.

import { listenToPort, refuseToReplace, writeWholeFile } from "../../ingest/index.ts";
import { handOf } from "../../report/index.ts";
import { type MemoryAnswer, type MemoryCommand, tellMemory } from "../../workshop/recording/index.ts";
import { type LanguageOptions, wordsFor } from "../language-option.ts";
import { badOption } from "../option-values.ts";
import type { Terminal } from "../terminal.ts";

type TellOptions = Pick<LanguageOptions, "language">;
const textFor = (options: TellOptions) => wordsFor(options).probes.boards.memory;

/** @throws BadInput "bad-option" for a port without a board that keeps lines */
export async function keepAlone(path: string, isOn: boolean, options: TellOptions, terminal: Terminal): Promise<void> {
  const text = textFor(options);
  const { boardId, memory } = await told(path, { ask: "keep", isOn });
  const share = handOf(options.language ?? "en", 0).percent(memory.usedBytes / memory.sizeBytes);
  terminal.print(`${memory.state === "full" ? text.full(boardId) : text.keeps(boardId, isOn, share)}\n`);
  if (isOn) terminal.print(`${text.aloneCaution}\n`);
}

/** @throws BadInput as above, and where the file cannot be written */
export async function readOut(path: string, file: string, options: TellOptions, terminal: Terminal): Promise<void> {
  const text = textFor(options);
  refuseToReplace({ readings: file });
  terminal.tell(`${text.readingOut}\n`);
  const { boardId, text: lines } = await told(path, { ask: "read-out" });
  const readOutAt = new Date(terminal.nowUnixMs()).toISOString();
  writeWholeFile(file, lines, "readings");
  terminal.print(`${text.isOut(boardId, lines.split("\n").length - 1, file, readOutAt)}\n`);
}

/** @throws BadInput as above */
export async function erase(path: string, options: TellOptions, terminal: Terminal): Promise<void> {
  const text = textFor(options);
  terminal.tell(`${text.erasing}\n`);
  const { boardId } = await told(path, { ask: "erase" });
  terminal.print(`${text.isEmpty(boardId)}\n`);
}

async function told(path: string, command: MemoryCommand): Promise<Extract<MemoryAnswer, { outcome: "heard" }>> {
  const stop = new AbortController();
  const answer = await tellMemory(await listenToPort(path, { signal: stop.signal }), command, stop);
  switch (answer.outcome) {
    case "heard":
      return answer;
    case "refused":
      throw badOption("PORT", path, ({ probes }) => probes.boards.memory.noMemory(answer.boardId));
    case "no-answer":
      throw badOption("PORT", path, ({ probes }) => probes.boards.memory.notDone(answer.boardId));
    case "cannot-open":
      throw badOption("PORT", path, ({ probes }) => probes.boards.cannotOpen(answer.why));
    case "no-board":
      throw badOption("PORT", path, ({ probes }) => probes.boards.noBoard);
  }
}
