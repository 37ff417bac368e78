// What the values of the options mean that say how a log is to be read.

import type { Instant } from "../ingest/index.ts";
import {
  type ColumnMeaning,
  type DateOrder,
  type DecimalMark,
  type EnergySource,
  energySources,
  isTimeZone,
  otherColumnMeanings,
  positions,
  type TemperatureUnit,
} from "../schema/index.ts";
import type { Expected } from "./bad-option.ts";
import { badOption, typedInstant } from "./option-values.ts";

/** One of the keys of `meanings`, in either case. @throws BadInput "bad-option" */
const oneOf =
  <Value>(option: string, meanings: { readonly [word: string]: Value }) =>
  (given: string): Value => {
    const word = Object.keys(meanings).find((name) => name.toLowerCase() === given.trim().toLowerCase());
    if (word === undefined) throw badOption(option, given, ({ cli }) => cli.expectedOneOf(Object.keys(meanings)));
    return meanings[word];
  };

/** "dmy", "mdy" or "ymd". */
export const dateOrderOf = oneOf<DateOrder>("--date-order", {
  dmy: "day-month-year",
  mdy: "month-day-year",
  ymd: "year-month-day",
});

/** "C", "F" or "K". */
export const unitOf = oneOf<TemperatureUnit>("--unit", { C: "Cel", F: "[degF]", K: "K" });

/** "comma", "semicolon" or "tab". */
export const separatorOf = oneOf<"," | ";" | "\t">("--separator", { comma: ",", semicolon: ";", tab: "\t" });

/** "comma" or "point". */
export const decimalMarkOf = oneOf<DecimalMark>("--decimal", { comma: ",", point: "." });

/** A zone as `isTimeZone` accepts. @throws BadInput "bad-option" */
export function zoneOf(given: string): string {
  const zone = given.trim();
  if (!isTimeZone(zone)) throw badOption("--zone", given, ({ importWords }) => importWords.command.expectedZone);
  return zone.toUpperCase() === "UTC" ? "Z" : zone;
}

/** All but "none". */
const columnMeanings = [...otherColumnMeanings.filter((name) => name !== "none"), ...positions];

/** COLUMN=POSITION. @throws BadInput "bad-option" */
export function columnOf(given: string): readonly [string, ColumnMeaning] {
  const cut = given.lastIndexOf("=");
  const word = given
    .slice(cut + 1)
    .trim()
    .toLowerCase();
  const meaning = [...otherColumnMeanings, ...positions].find((name) => name.toLowerCase() === word);
  if (cut < 1 || meaning === undefined)
    throw badOption("--column", given, ({ importWords }) => importWords.command.expectedColumn(columnMeanings));
  return [given.slice(0, cut).trim(), meaning];
}

/** WORD=SOURCE. @throws BadInput "bad-option" */
export function sourceWordOf(given: string): readonly [string, EnergySource] {
  const cut = given.lastIndexOf("=");
  const source = energySources.find(
    (name) =>
      name ===
      given
        .slice(cut + 1)
        .trim()
        .toLowerCase(),
  );
  const word = given.slice(0, Math.max(cut, 0)).trim().toLowerCase();
  // Our own names stand for themselves in every log.
  const isOwnName = energySources.some((name) => name === word && name !== source);
  if (cut < 1 || source === undefined || isOwnName)
    throw badOption("--source-word", given, ({ importWords }) => importWords.command.expectedSourceWord);
  return [given.slice(0, cut).trim(), source];
}

/** RFC 3339, as ms since 1970. @throws BadInput "bad-option" */
export function nowOf(given: string): number {
  const { unixMs } = typedInstant(given);
  if (Number.isNaN(unixMs)) throw badOption("--now", given, ({ importWords }) => importWords.command.expectedNow);
  return unixMs;
}

/** RFC 3339, with the zone it was written in. @throws BadInput "bad-option" */
export const readOutOf = (given: string): Instant =>
  instantWithZone("--read-out", given, ({ importWords }) => importWords.command.expectedReadOut);

/** As `readOutOf`. */
export const startsAtOf = (given: string): Instant =>
  instantWithZone("--starts-at", given, ({ importWords }) => importWords.command.expectedStartsAt);

function instantWithZone(option: string, given: string, expected: Expected): Instant {
  const instant = typedInstant(given);
  if (Number.isNaN(instant.unixMs)) throw badOption(option, given, expected);
  return instant;
}
