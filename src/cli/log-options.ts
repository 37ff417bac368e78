// How the logs of a command are to be read, where they do not say it themselves: the same options wherever logs are given.

import { type Command, Option } from "commander";
import { words } from "../report/index.ts";
import { elapsedUnits, positions } from "../schema/index.ts";
import {
  columnOf,
  dateOrderOf,
  decimalMarkOf,
  nowOf,
  readOutOf,
  separatorOf,
  sourceWordOf,
  startsAtOf,
  unitOf,
  zoneOf,
} from "./import-options.ts";
import { severalAgreeing, sourceMarkOf } from "./option-values.ts";

const { cli, importWords } = words("en");
const text = importWords.command;

/** What a mapping says once and for all. */
const answeredByMap = ["separator", "dateOrder", "decimal", "unit", "zone", "elapsedUnit", "column", "now", "readOut"];

/** How each cell is to be understood, as `ToldOfLogs` takes it. */
const cellOptions = () => [
  new Option("--separator <name>", text.separator).argParser(separatorOf),
  new Option("--date-order <order>", text.dateOrder).argParser(dateOrderOf),
  new Option("--decimal <mark>", text.decimal).argParser(decimalMarkOf),
  new Option("--unit <unit>", text.unit).argParser(unitOf),
  new Option("--zone <zone>", text.zone).argParser(zoneOf),
  new Option("--starts-at <time>", text.startsAt).argParser(startsAtOf),
  new Option("--elapsed-unit <unit>", text.elapsedUnit).choices(elapsedUnits),
  new Option("--column <column=position>", text.column(positions)).argParser(
    severalAgreeing("--column", columnOf, areOtherwise),
  ),
  new Option("--source-word <word=source>", text.sourceWord).argParser(
    severalAgreeing("--source-word", sourceWordOf, areOtherwise),
  ),
  new Option("--map <file>", text.map).conflicts(answeredByMap),
  new Option("--now <time>", text.now).argParser(nowOf),
];

/** When a log was recorded, and on which energy source, as `ToldOfLogs` takes it. */
const recordedOptions = (sourceAt: string) => [
  new Option("--read-out <time>", text.readOut).argParser(readOutOf),
  new Option("--source-at <time=source>", sourceAt).argParser(
    severalAgreeing(
      "--source-at",
      sourceMarkOf,
      (one, other) => one.unixMs === other.unixMs && one.source !== other.source,
    ),
  ),
];

interface LogOptionsTold {
  /** Help of --source-at. */
  readonly sourceAt?: string;
  /** What is done to each option. */
  readonly each?: (option: Option) => Option;
}

const addAll = (one: Command, options: readonly Option[]): Command => {
  for (const option of options) one.addOption(option);
  return one;
};

/** All that may be told of the logs of a command. */
export const addLogOptions = (
  one: Command,
  { sourceAt = cli.analyse.sourceAt, each = (option) => option }: LogOptionsTold = {},
): Command => addAll(one, [...cellOptions(), ...recordedOptions(sourceAt)].map(each));

/** What may be told of a log of which nobody asks when it was, or on which energy source. */
export const addCellOptions = (one: Command): Command => addAll(one, cellOptions());

/** One name, said to be two things. */
const areOtherwise = ([name, meaning]: readonly [string, string], [other, otherMeaning]: readonly [string, string]) =>
  name === other && meaning !== otherMeaning;
