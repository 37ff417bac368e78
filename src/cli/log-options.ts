// How the logs of a command are to be read, where they do not say it themselves: the same options wherever logs are given.

import { type Command, Option } from "commander";
import { words } from "../report/index.ts";
import { readOutOf, sourceWordOf } from "./import-options.ts";
import { several, sourceMarkOf } from "./option-values.ts";

const { cli, importWords } = words("en");

/** --map, --source-word, --source-at and --read-out, as `GivenLogs` takes them. */
export const addLogOptions = (one: Command): Command =>
  one
    .addOption(new Option("--map <file>", cli.analyse.map))
    .addOption(sourceWordOption())
    .addOption(new Option("--source-at <time=source>", cli.analyse.sourceAt).argParser(several(sourceMarkOf)))
    .addOption(new Option("--read-out <time>", importWords.command.readOut).argParser(readOutOf));

export const sourceWordOption = () =>
  new Option("--source-word <word=source>", importWords.command.sourceWord).argParser(several(sourceWordOf));
