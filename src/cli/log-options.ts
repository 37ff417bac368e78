// How the logs of a command are to be read, where they do not say it themselves: the same options wherever logs are given.

import { type Command, Option } from "commander";
import { words } from "../report/index.ts";
import { readOutOf, sourceWordOf } from "./import-options.ts";
import { severalAgreeing, sourceMarkOf } from "./option-values.ts";

const { cli, importWords } = words("en");

/** --map, --source-word, --source-at and --read-out, as `GivenLogs` takes them. */
export const addLogOptions = (one: Command): Command =>
  one
    .addOption(new Option("--map <file>", cli.analyse.map))
    .addOption(sourceWordOption())
    .addOption(sourceAtOption(cli.analyse.sourceAt))
    .addOption(new Option("--read-out <time>", importWords.command.readOut).argParser(readOutOf));

export const sourceWordOption = () =>
  new Option("--source-word <word=source>", importWords.command.sourceWord).argParser(
    severalAgreeing("--source-word", sourceWordOf, areOtherwise),
  );

export const sourceAtOption = (help: string) =>
  new Option("--source-at <time=source>", help).argParser(
    severalAgreeing(
      "--source-at",
      sourceMarkOf,
      (one, other) => one.unixMs === other.unixMs && one.source !== other.source,
    ),
  );

/** One name, said to be two things. */
export const areOtherwise = (
  [name, meaning]: readonly [string, string],
  [other, otherMeaning]: readonly [string, string],
) => name === other && meaning !== otherMeaning;
