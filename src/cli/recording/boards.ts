// `coldfall boards`: ports and boards, tokens, and the two things that a board can be told.

import { findPorts, listenToPort } from "../../ingest/index.ts";
import { handOf, plain, type Words } from "../../report/index.ts";
import { boardList } from "../../workshop/kept-lists.ts";
import { type BoardAnswer, tellBoard } from "../../workshop/recording/index.ts";
import { table } from "../keeping/table.ts";
import { type StoreOptions, withNewStore, withStore } from "../keeping/with-store.ts";
import { type LanguageOptions, wordsFor } from "../language-option.ts";
import { badOption } from "../option-values.ts";
import type { Terminal } from "../terminal.ts";

const textFor = (options: TellOptions) => wordsFor(options).probes.boards;

export const listBoards = (options: StoreOptions, terminal: Terminal) =>
  withStore(options, async (store) => {
    const list = await boardList(store, [...(await findPorts())]);
    if (options.json) return terminal.print(`${JSON.stringify(list, null, 2)}\n`);
    const text = textFor(options);
    const ports = list.ports.map(({ path, description }) => [path, description]);
    const boards = list.boards.map(({ id, label, fridge, lastSeen, hasToken }) => [
      id,
      label ?? "",
      fridge ?? "",
      momentText(Date.parse(lastSeen), options),
      hasToken ? text.yes : text.no,
    ]);
    terminal.print(`${table(text.portHeadings, ports, text.noPort)}\n${table(text.headings, boards, text.none)}`);
  });

export interface TokenOptions extends StoreOptions {
  readonly fridge?: string;
}

/** @throws BadInput "no-such-record" for a fridge that is not there; no token is made then */
export const issueToken = (boardId: string, options: TokenOptions, terminal: Terminal) =>
  withNewStore(options, async (store) => {
    const fridge = options.fridge === undefined ? null : await store.fridges.named(options.fridge);
    const token = await store.boards.issueToken(boardId);
    if (fridge !== null) await store.boards.edit(boardId, { fridgeId: fridge.id });
    const text = textFor(options);
    const board = (await store.boards.list()).find(({ id }) => id === boardId);
    // The token alone on standard output, so that it can go into a file without its explanation.
    terminal.tell(`${text.issued(boardId)}\n`);
    terminal.print(`${token}\n`);
    terminal.tell(`${[text.howToSend(boardId), text.placeProbes(boardId), text.watched].join("\n")}\n`);
    if (board?.fridgeId === null) terminal.tell(`${text.noFridge(boardId)}\n`);
  });

type TellOptions = Pick<LanguageOptions, "language">;

/** What can be told from here. */
type Command = { readonly ask: "light" | "interval"; readonly seconds: number };

/** @throws BadInput "bad-option" for a port without a board that answers */
export async function tellPort(
  path: string,
  command: Command,
  options: TellOptions,
  terminal: Terminal,
): Promise<void> {
  const stop = new AbortController();
  const answer = await tellBoard(await listenToPort(path, { signal: stop.signal }), command, stop);
  terminal.print(`${answerText(path, command, answer, textFor(options))}\n`);
}

function answerText(
  path: string,
  { ask, seconds }: Command,
  answer: BoardAnswer,
  text: Words["probes"]["boards"],
): string {
  switch (answer.outcome) {
    case "heard":
      return ask === "light" ? text.flashes(answer.boardId, seconds) : text.reads(answer.boardId, seconds);
    case "refused":
      return text.refused(answer.boardId);
    case "no-answer":
      throw badOption("PORT", path, text.noAnswer(answer.boardId));
    case "cannot-open":
      throw badOption("PORT", path, text.cannotOpen(answer.why));
    case "no-board":
      throw badOption("PORT", path, text.noBoard);
  }
}

/** On this computer's clock, with its day. */
const momentText = (unixMs: number, { language = "en" }: TellOptions) =>
  plain(handOf(language, -new Date(unixMs).getTimezoneOffset()).moment(unixMs));
