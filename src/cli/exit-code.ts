// What the process ends with, and what is said when some work throws.

import { CommanderError } from "commander";
import { handOf, type Language, say, words } from "../report/index.ts";
import { BadInput } from "../schema/index.ts";
import { BadOption } from "./bad-option.ts";
import type { Terminal } from "./terminal.ts";

/** 0: it ran; 2: input that cannot be used; 3: a fault of ours. */
export type ExitCode = 0 | 2 | 3;

/**
 * Does some work, says what went wrong if it throws, and tells what the process should end with.
 *
 * @param language in which it is said; English unless stated
 */
export async function withExitCode(
  terminal: Terminal,
  work: () => unknown,
  language: Language = "en",
): Promise<ExitCode> {
  try {
    await work();
    return 0;
  } catch (thrown) {
    const error = thrownFirst(thrown);
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    const { badInput, cli } = words(language);
    if (error instanceof BadInput) {
      const saying = error instanceof BadOption ? error.sayingIn(language) : error.saying;
      terminal.tell(`${say(badInput, saying, handOf(language, 0))}\n`);
      return 2;
    }
    terminal.tell(`${cli.internalFault(error instanceof Error ? (error.stack ?? error.message) : String(error))}\n`);
    return 3;
  }
}

/** A full disk fails the work, and then whatever would tidy up after it: what failed the work is what a person has to know. */
const thrownFirst = (error: unknown): unknown =>
  error instanceof SuppressedError ? thrownFirst(error.suppressed) : error;
