// Options that say something about another one: given without it they would change nothing, and nobody would see it. What the
// parser knows itself is the opposite, options that exclude each other.

import type { Command, Option } from "commander";
import { BadInput } from "../schema/index.ts";

const others = new WeakMap<Option, readonly string[]>();

/** The option, which means something only where one of these is given too: "--pdf". */
export function onlyWith(option: Option, ...needed: readonly string[]): Option {
  others.set(option, needed);
  return option;
}

/** @throws BadInput "option-alone" */
export function refuseAlone(command: Command): void {
  const isGiven = (option: Option | undefined) =>
    option !== undefined && command.getOptionValueSource(option.attributeName()) === "cli";
  for (const option of command.options.filter(isGiven)) {
    const needed = others.get(option);
    if (needed === undefined) continue;
    if (!command.options.some((other) => needed.includes(other.long ?? "") && isGiven(other)))
      throw new BadInput({ code: "option-alone", option: option.long ?? option.flags, needed });
  }
}
