// A terminal that keeps what was printed, for tests of commands without a process of their own.

import { runCommandLine } from "../../src/cli/command-line.ts";
import type { Terminal } from "../../src/cli/terminal.ts";

export interface RecordedTerminal extends Terminal {
  printed: string;
  told: string;
}

export function recordedTerminal(options: Partial<Terminal> = {}): RecordedTerminal {
  const terminal: RecordedTerminal = {
    printed: "",
    told: "",
    print: (text) => {
      terminal.printed += text;
    },
    tell: (text) => {
      terminal.told += text;
    },
    hasColour: false,
    width: 100,
    isWatched: false,
    now: () => 0,
    nowUnixMs: () => Date.UTC(2026, 5, 20, 12),
    ...options,
  };
  return terminal;
}

export interface Run {
  readonly exitCode: number;
  readonly printed: string;
  readonly told: string;
}

/** Runs a command line in this process. */
export async function coldfall(args: readonly string[], options: Partial<Terminal> = {}): Promise<Run> {
  const terminal = recordedTerminal(options);
  const exitCode = await runCommandLine(args, terminal);
  return { exitCode, printed: terminal.printed, told: terminal.told };
}
