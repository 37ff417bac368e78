// Where the command line prints: results on one stream, messages on the other. Tests hand in their own.

import { handOf, say, words } from "../report/index.ts";
import { languageIn } from "./language-option.ts";

export interface Terminal {
  /** A result, on standard output. */
  print(text: string): void;
  /** A message, on standard error. */
  tell(text: string): void;
  /** Whether results may be coloured. */
  readonly hasColour: boolean;
  /** Characters per line of results. */
  readonly width: number;
  /** Whether someone watches the messages, so that progress may be shown and wiped again. */
  readonly isWatched: boolean;
  /** A clock for progress alone, ms since the program began: it never jumps. */
  now(): number;
  /** The present instant. */
  nowUnixMs(): number;
}

/** The terminal, pipe or file that this process was started with. */
export function processTerminal(): Terminal {
  const { stdout, stderr, env } = process;
  stdout.on("error", ({ code = "" }: NodeJS.ErrnoException) => {
    // A reader that has seen enough, such as `head`, closes the pipe: no fault of ours.
    if (code === "EPIPE") return;
    const language = languageIn(process.argv.slice(2));
    const lost = { code: "cannot-write", file: "stdout", errorCode: code } as const;
    stderr.write(`${say(words(language).badInput, lost, handOf(language, 0))}\n`);
    // Last of all, whatever the command found.
    process.once("exit", () => {
      process.exitCode = 2;
    });
  });
  // Where nobody can be told anything, nobody is.
  stderr.on("error", () => {});
  return {
    print: (text) => stdout.write(text),
    tell: (text) => stderr.write(text),
    // NO_COLOR: any value but an empty one (no-color.org, an informal standard).
    hasColour: stdout.isTTY === true && !env.NO_COLOR && env.TERM !== "dumb",
    width: stdout.columns ?? widthOfPaper,
    isWatched: stderr.isTTY === true,
    now: () => performance.now(),
    nowUnixMs: () => Date.now(),
  };
}

/** Characters per line where there is no terminal to ask. */
const widthOfPaper = 100;

/** The same terminal, its messages as JSON, one object a line with the instant: for a log that programs read. */
export const structuredTerminal = (terminal: Terminal): Terminal => ({
  ...terminal,
  isWatched: false,
  tell: (text) => {
    const time = new Date(terminal.nowUnixMs()).toISOString();
    for (const message of text.trimEnd().split("\n")) terminal.tell(`${JSON.stringify({ time, message })}\n`);
  },
});
