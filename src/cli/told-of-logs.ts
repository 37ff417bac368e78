// What may be told of how a log is to be read, where it does not say it itself: as hints to read it by, and refused where it
// would change nothing. The options stand in log-options.ts.

import {
  type ImportHints,
  type Instant,
  isElapsed,
  type LogFile,
  type ReadLogFileOptions,
  readLogFile,
  readWholeFile,
} from "../ingest/index.ts";
import {
  BadInput,
  type BadInputSaying,
  type ColumnMeaning,
  type DateOrder,
  type DecimalMark,
  type ElapsedUnit,
  type EnergySource,
  energySources,
  type LogMapping,
  type LogUnderstanding,
  type Recording,
  type SourceMark,
  sourceUnsaid,
  type TemperatureUnit,
} from "../schema/index.ts";
import { type LanguageOptions, wordsFor } from "./language-option.ts";
import { zoneHere } from "./zone-here.ts";

export interface ToldOfLogs {
  readonly separator?: NonNullable<LogMapping["separator"]>;
  readonly decimal?: DecimalMark;
  readonly dateOrder?: DateOrder;
  readonly unit?: TemperatureUnit;
  readonly zone?: string;
  /** When elapsed time was 0. */
  readonly startsAt?: Instant;
  readonly elapsedUnit?: ElapsedUnit;
  readonly column?: readonly (readonly [string, ColumnMeaning])[];
  /** What words for energy sources in the files mean. */
  readonly sourceWord?: readonly (readonly [string, EnergySource])[];
  readonly map?: string;
  /** ms since 1970. */
  readonly now?: number;
  /** When the last line of a board's own file was read. */
  readonly readOut?: Instant;
  /** Energy sources told by hand. */
  readonly sourceAt?: readonly SourceMark[];
}

/** How each is typed. */
const optionNames: { readonly [Told in keyof ToldOfLogs]-?: string } = {
  separator: "--separator",
  decimal: "--decimal",
  dateOrder: "--date-order",
  unit: "--unit",
  zone: "--zone",
  startsAt: "--starts-at",
  elapsedUnit: "--elapsed-unit",
  column: "--column",
  sourceWord: "--source-word",
  map: "--map",
  now: "--now",
  readOut: "--read-out",
  sourceAt: "--source-at",
};

/** Told of the logs that are judged alone, and not of what they are compared with. */
export const ofJudgedLogs = ["readOut", "sourceAt"] as const;
export const ofEveryLog = (Object.keys(optionNames) as (keyof ToldOfLogs)[]).filter(
  (name) => !(ofJudgedLogs as readonly string[]).includes(name),
);

/** Those of `asked` that are told, as they are typed. */
export const toldOptions = (told: ToldOfLogs, asked: readonly (keyof ToldOfLogs)[]): readonly string[] =>
  asked.filter((name) => told[name] !== undefined).map((name) => optionNames[name]);

/** Runs of the store keep what was said of them. @throws BadInput "option-unfit" */
export function refuseForRuns([option]: readonly string[], areFiles: readonly boolean[]): void {
  if (option !== undefined && !areFiles.includes(true))
    throw new BadInput({ code: "option-unfit", option, needs: "file" });
}

/** What is told, but for the mapping and the energy sources, as hints. */
export function hintsOf(told: ToldOfLogs): ImportHints {
  const { separator, decimal, dateOrder, unit, zone, startsAt, elapsedUnit, column, sourceWord, now, readOut } = told;
  return {
    here: zoneHere,
    ...(separator === undefined ? {} : { separator }),
    ...(decimal === undefined ? {} : { decimal }),
    ...(startsAt === undefined ? {} : { startsAt }),
    ...(elapsedUnit === undefined ? {} : { elapsedUnit }),
    ...(dateOrder === undefined ? {} : { dateOrder }),
    ...(unit === undefined ? {} : { unit }),
    ...(zone === undefined ? {} : { zone }),
    ...(column === undefined ? {} : { columns: new Map(column) }),
    ...(sourceWord === undefined ? {} : { sourceWords: new Map(sourceWord) }),
    ...(now === undefined ? {} : { nowUnixMs: now }),
    ...(readOut === undefined ? {} : { readOut }),
  };
}

/** The mapping that is told; what checks it is loaded where there is one. @throws BadInput as `readLogMapping` does */
export async function toldMapping({ map }: ToldOfLogs): Promise<LogMapping | undefined> {
  if (map === undefined) return undefined;
  const { readLogMapping } = await import("../ingest/json-files/index.ts");
  return readLogMapping(readWholeFile(map), map);
}

/**
 * Reads one log as told.
 *
 * @throws BadInput as `readLogFile` and `refuseUnfit` do
 */
export async function readToldLog(file: string, told: ToldOfLogs): Promise<LogFile> {
  const mapping = await toldMapping(told);
  const options: ReadLogFileOptions = { ...hintsOf(told), sourceMarks: told.sourceAt ?? [] };
  const read = await readLogFile(file, { ...options, ...(mapping === undefined ? {} : { mapping }) });
  refuseUnfit(told, [{ file, mapping, understanding: read.understanding, takesSources: !saysSources(read.recording) }]);
  return read;
}

/** Whether a column of the log says an energy source anywhere. */
export const saysSources = ({ sourceCodes }: Pick<Recording, "sourceCodes">) =>
  sourceCodes?.some((code) => code !== sourceUnsaid && code <= energySources.length) ?? false;

/** How a log was read in the end. */
export interface LogAsRead {
  /** As the user typed it. */
  readonly file: string;
  /** As a mapping says. */
  readonly mapping: LogMapping | undefined;
  /** Null for our own format and for a mapping that was stated. */
  readonly understanding: LogUnderstanding | null;
  /** Whether what is told of the source by hand is of use; not, where a column says it. */
  readonly takesSources?: boolean;
}

type OptionNeed = Extract<BadInputSaying, { code: "option-unfit" }>["needs"];

/** What is told of another kind of log would change nothing, and nobody would see it. @throws BadInput "option-unfit", "unit-stated" */
export function refuseUnfit(told: ToldOfLogs, logs: readonly LogAsRead[]): void {
  const { startsAt, elapsedUnit, now, readOut, zone, dateOrder, separator, decimal, unit, sourceAt } = told;
  const refuse = (name: keyof ToldOfLogs, needs: OptionNeed): never => {
    throw new BadInput({ code: "option-unfit", option: optionNames[name], needs });
  };
  const isAny = (holds: (log: LogAsRead) => boolean) => logs.some(holds);
  if (startsAt !== undefined && !isAny(isCounted)) refuse("startsAt", "counted-times");
  if (elapsedUnit !== undefined && !isAny(isCounted)) refuse("elapsedUnit", "counted-times");
  if (now !== undefined && !isAny(isSenml)) refuse("now", "relative-senml");
  if (readOut !== undefined && !isAny(isOfBoard)) refuse("readOut", "board-file");
  if (separator !== undefined && !isAny(isOfAnother)) refuse("separator", "other-logger");
  if (decimal !== undefined && !isAny(isOfAnother)) refuse("decimal", "other-logger");
  if (dateOrder !== undefined && !isAny((log) => isFound(log, "date-order"))) refuse("dateOrder", "day-and-month");
  if (zone !== undefined && !isAny(isZoneless)) refuse("zone", "zoneless-times");
  if (sourceAt !== undefined && !isAny(({ takesSources }) => takesSources === true))
    refuse("sourceAt", "untold-sources");
  if (unit !== undefined) refuseUnfitUnit(unit, logs);
}

function refuseUnfitUnit(unit: TemperatureUnit, logs: readonly LogAsRead[]): void {
  const stated = logs.map((log) => ({ ...log, units: unitsOf(log) }));
  const [first] = stated.filter(({ units }) => units.length > 0);
  if (first === undefined) {
    if (unit === "Cel") return;
    throw new BadInput({ code: "option-unfit", option: optionNames.unit, needs: "other-logger" });
  }
  if (stated.some(({ units }) => units.includes(unit))) return;
  throw new BadInput({ code: "unit-stated", file: first.file, told: unit, stated: [...new Set(first.units)] });
}

const findings = ({ understanding }: LogAsRead) => understanding?.sure ?? [];
const isFound = (log: LogAsRead, code: LogUnderstanding["sure"][number]["code"]) =>
  findings(log).some((found) => found.code === code);

const isOfBoard = (log: LogAsRead) => isFound(log, "board-file");
const isSenml = (log: LogAsRead) => isFound(log, "senml");
const isCounted = (log: LogAsRead) => isFound(log, "starts-at") || isElapsed(log.mapping?.timeForm);
const isOfAnother = ({ understanding }: LogAsRead) => understanding !== null && understanding.mapping !== null;
/** Letters such as CET say the zone, but in summer the same logger writes others that can mean several. */
const isZoneless = (log: LogAsRead) =>
  findings(log).some((found) => found.code === "zone-letters" || (found.code === "zone" && found.from === "told"));
const unitsOf = (log: LogAsRead) => findings(log).flatMap((found) => (found.code === "unit-of" ? [found.unit] : []));

/** What is told of one moment, with the logs that it can be told of. */
const ofOneMoment = [
  ["readOut", isOfBoard],
  ["startsAt", isCounted],
  ["now", isSenml],
] as const;

/** Two files hardly began, or were read out, at one moment: it would lay one of them where it never was. @throws BadInput "bad-option" */
export function refuseOneMoment(told: ToldOfLogs, logs: readonly LogAsRead[], options: LanguageOptions): void {
  for (const [name, isMeant] of ofOneMoment) {
    const moment = told[name];
    const meant = logs.filter(isMeant);
    if (moment === undefined || meant.length < 2) continue;
    const option = optionNames[name] as "--read-out" | "--starts-at" | "--now";
    const expected = wordsFor(options).importWords.ofOneLog(
      option,
      meant.map(({ file }) => file),
    );
    const unixMs = typeof moment === "number" ? moment : moment.unixMs;
    throw new BadInput({ code: "bad-option", option, value: new Date(unixMs).toISOString(), expected });
  }
}
