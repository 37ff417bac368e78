// Options that say something about another one: given without it they would change nothing, and nobody would see it. And
// commands that do nothing without one of their options. What the parser knows itself is the opposite, options that exclude
// each other.

import type { Command, Option } from "commander";
import { BadInput } from "../schema/index.ts";

const others = new WeakMap<Option, readonly string[]>();

/** The option, which means something only where one of these is given too: "--pdf". */
export function onlyWith(option: Option, ...needed: readonly string[]): Option {
  others.set(option, needed);
  return option;
}

const neededBy = new WeakMap<Command, readonly string[]>();

/** The command, which does nothing without one of these: "--name". */
export function withOneOf(command: Command, ...options: readonly string[]): Command {
  neededBy.set(command, options);
  return command;
}

/** @throws BadInput "option-alone", "nothing-said" */
export function refuseIdle(command: Command): void {
  const isGiven = (option: Option | undefined) =>
    option !== undefined && command.getOptionValueSource(option.attributeName()) === "cli";
  const isOneGiven = (options: readonly string[]) =>
    command.options.some((option) => options.includes(option.long ?? "") && isGiven(option));
  const wanted = neededBy.get(command);
  if (wanted !== undefined && !isOneGiven(wanted)) throw new BadInput({ code: "nothing-said", options: wanted });
  for (const option of command.options.filter(isGiven)) {
    const needed = others.get(option);
    if (needed === undefined) continue;
    if (!isOneGiven(needed)) throw new BadInput({ code: "option-alone", option: option.long ?? option.flags, needed });
  }
}
