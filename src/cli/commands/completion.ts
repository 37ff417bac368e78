// `coldfall completion`: what teaches a shell our words.

import { Argument, type Command } from "commander";
import { words } from "../../report/index.ts";
import { command } from "../command.ts";
import { completionScript, type Shell, shells } from "../completion.ts";
import type { Terminal } from "../terminal.ts";

const { cli } = words("en");

/** `coldfall completion`: what teaches a shell our words. */
export function addCompletion(program: Command, terminal: Terminal): void {
  const text = cli.completion;
  command(program, "completion", text)
    .addArgument(new Argument("<shell>", text.shell).choices(shells))
    .action((shell: Shell) => terminal.print(completionScript(program, shell)));
}
