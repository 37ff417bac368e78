// What the values of options mean.

import { decimalOf, type Instant, instantOf } from "../ingest/index.ts";
import { energySources, type Position, positions, type SourceMark } from "../schema/index.ts";
import type { Load } from "../science/hot-days/index.ts";
import type { DayHours } from "../science/plan/index.ts";
import { BadOption, type Expected } from "./bad-option.ts";

/** @throws BadInput "bad-option" */
export function marginOf(text: string): number {
  const margin = decimalOf(text.trim());
  if (!(margin > 0 && margin < 1)) throw badNumber("--margin", text, ({ cli }) => cli.expectedMargin);
  return margin;
}

/** TIME=SOURCE. @throws BadInput "bad-option" */
export function sourceMarkOf(text: string): SourceMark {
  const cut = text.lastIndexOf("=");
  const { unixMs } = typedInstant(text.slice(0, Math.max(cut, 0)));
  const source = energySources.find((name) => name === text.slice(cut + 1).trim());
  if (Number.isNaN(unixMs) || source === undefined)
    throw badOption("--source-at", text, ({ cli }) => cli.expectedSourceAt);
  return { unixMs, source };
}

/**
 * A number between two ends, both allowed.
 *
 * @throws BadInput "bad-option"
 */
export const numberBetween =
  (option: string, least: number, most: number, expected: Expected) =>
  (text: string): number => {
    const value = decimalOf(text.trim());
    if (!(value >= least && value <= most)) throw badNumber(option, text, expected);
    return value;
  };

/** RFC 3339, but that a person who types it may leave the seconds out; NaN where it is no time. */
export const typedInstant = (text: string): Instant =>
  instantOf(text.trim().replace(/([T ]\d\d:\d\d)(?=[Zz+-])/, "$1:00"));

/** What a fridge is called: something, not only blanks. @throws BadInput "bad-option" */
export const fridgeNameOf =
  (option: string) =>
  (text: string): string => {
    const name = text.trim();
    if (name === "") throw badOption(option, text, ({ keeping }) => keeping.fridges.expectedName);
    return name;
  };

/** A day, YYYY-MM-DD, as the beginning of it in the local zone. @throws BadInput "bad-option" */
export const dayOf =
  (option: string) =>
  (text: string): number => {
    const day = text.trim();
    const unixMs = /^\d{4}-\d\d-\d\d$/.test(day) ? new Date(`${day}T00:00:00`).getTime() : Number.NaN;
    if (Number.isNaN(unixMs)) throw badOption(option, text, ({ keeping }) => keeping.store.expectedDay);
    return unixMs;
  };

/** RFC 3339, with the zone it was written in. @throws BadInput "bad-option" */
export function atOption(text: string): Instant {
  const instant = typedInstant(text);
  if (Number.isNaN(instant.unixMs)) throw badOption("--at", text, ({ recording }) => recording.source.expectedAt);
  return instant;
}

/** POSITION=VALUE besides those given before; of two for one position nobody knows which is meant. @throws BadInput "bad-option" */
export function withPositionValue(
  before: ReadonlyMap<Position, number> = new Map(),
  text: string,
): ReadonlyMap<Position, number> {
  const [name, value] = nameAndNumber(text);
  const position = positions.find((known) => known === name);
  if (position === undefined || !Number.isFinite(value) || before.has(position)) {
    throw badNumber("POSITION=VALUE", text, ({ recording }) => recording.noteReading.expected(positions));
  }
  return new Map([...before, [position, value]]);
}

/** C=HOURS. @throws BadInput "bad-option" */
export function tooWarmOf(text: string): { readonly celsius: number; readonly hours: number } {
  const [warm, hours] = nameAndNumber(text);
  const celsius = decimalOf(warm);
  if (!(celsius >= -30 && celsius <= 60 && hours > 0 && hours <= 48)) {
    throw badNumber("--too-warm", text, ({ recording }) => recording.record.expectedTooWarm);
  }
  return { celsius, hours };
}

/** HOUR-HOUR. @throws BadInput "bad-option" */
export function quietOf(text: string): DayHours {
  const [from, to] = (/^(\d{1,2})-(\d{1,2})$/.exec(text.trim()) ?? []).slice(1).map(Number);
  if (!(from <= 24 && to <= 24 && from !== to))
    throw badOption("--quiet", text, ({ recording }) => recording.record.expectedQuiet);
  return { fromHour: from, toHour: to };
}

/** An http or https address. @throws BadInput "bad-option" */
export function webhookOf(text: string): string {
  const protocol = URL.parse(text)?.protocol;
  if (protocol !== "http:" && protocol !== "https:") {
    throw badOption("--webhook", text, ({ recording }) => recording.record.expectedWebhook);
  }
  return text;
}

/** KG=C. @throws BadInput "bad-option" */
export function loadOf(text: string): Load {
  const [kilograms, celsius] = nameAndNumber(text);
  const mass = decimalOf(kilograms);
  if (!(mass > 0 && mass <= 200 && celsius >= -30 && celsius <= 60)) {
    throw badNumber("--load", text, ({ cli }) => cli.hotDay.expectedLoad);
  }
  return { kilograms: mass, celsius };
}

/** HOURS=SECONDS or HOURS=HOURS: when, and how long. @throws BadInput "bad-option" */
export const whenAndHowLong = (option: string, expected: Expected) => (text: string) => {
  const [when, howLong] = nameAndNumber(text);
  const atHours = decimalOf(when);
  if (!(atHours >= 0 && howLong > 0)) throw badNumber(option, text, expected);
  return { atHours, howLong };
};

/** NAME=NUMBER; NaN where it is none. */
export function nameAndNumber(text: string): readonly [string, number] {
  const cut = text.indexOf("=");
  return [text.slice(0, Math.max(cut, 0)).trim(), decimalOf(text.slice(cut + 1).trim())];
}

/** For options that may be given several times: their values in a list, each understood by `of`. */
export const several =
  <Value>(of: (text: string) => Value) =>
  (text: string, before: readonly Value[] = []): readonly Value[] => [...before, of(text)];

/** As `several`, of values two of which must not contradict each other: nobody knows which is meant. @throws BadInput "bad-option" */
export const severalAgreeing =
  <Value>(option: string, of: (text: string) => Value, contradict: (one: Value, other: Value) => boolean) =>
  (text: string, before: readonly Value[] = []): readonly Value[] => {
    const value = of(text);
    if (before.some((other) => contradict(value, other))) throw badOption(option, text, ({ cli }) => cli.expectedOnce);
    return [...before, value];
  };

/** As `badOption`, of a number: with a comma in it that was meant for a point, it is shown how it is to be typed. */
export function badNumber(option: string, value: string, expected: Expected): BadOption {
  const meant = value.replaceAll(/(?<![\d,])(\d+),(\d+)(?![\d,])/g, "$1.$2");
  if (meant === value) return badOption(option, value, expected);
  return badOption(option, value, (words) =>
    words.cli.decimalPoint(typeof expected === "string" ? expected : expected(words), meant.trim()),
  );
}

export const badOption = (option: string, value: string, expected: Expected) => new BadOption(option, value, expected);
