// How every command is made: where it writes, how it ends, how its help reads.

import { Command } from "commander";
import { type Language, words } from "../report/index.ts";
import { refuseIdle } from "./only-with.ts";
import { parserRefusal } from "./parser-refusal.ts";
import type { Terminal } from "./terminal.ts";

const { cli } = words("en");

/**
 * A command without anything yet, that throws where commander would end the process.
 *
 * @param language of what it refuses
 * @param help what a refusal says to run
 */
export const newCommand = (
  name: string,
  terminal: Terminal,
  language: Language = "en",
  help = () => `${name} --help`,
) =>
  new Command(name)
    .exitOverride()
    .hook("preAction", (_, asked) => refuseIdle(asked))
    .configureOutput({
      writeOut: terminal.print,
      writeErr: terminal.tell,
      getOutHelpWidth: () => terminal.width,
      getErrHelpWidth: () => terminal.width,
      outputError: (message, write) => {
        const { parser, wrongCommand } = words(language).cli;
        write(`${wrongCommand(parserRefusal(message, parser), help())}\n`);
      },
    })
    // Sixty columns leave as many to say what an option with a long name does.
    .configureHelp({ minWidthToWrap: 24 })
    .helpOption("--help", cli.program.help);

/** A command of `parent` with its summary and examples. It inherits how the program ends and where it writes. */
export const command = (
  parent: Command,
  name: string,
  text: { readonly summary: string; readonly examples: readonly string[] },
) =>
  parent
    .command(name)
    .summary(text.summary)
    .description(sentence(text.summary))
    .addHelpText("after", `\n${examples(text.examples)}`);

/** A part of a command, such as `add` of `coldfall fridges add`. */
export const part = (parent: Command, usage: string, summary: string, { isDefault = false } = {}) =>
  parent.command(usage, { isDefault }).summary(summary).description(sentence(summary));

/** Examples as they stand under a help text. */
export const examples = (lines: readonly string[]) =>
  [cli.usageHeading, ...lines.map((line) => `  ${line}`)].join("\n");

const sentence = (summary: string) => `${summary.charAt(0).toUpperCase()}${summary.slice(1)}.`;
