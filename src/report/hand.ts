// The hand that writes numbers, instants and intervals in a language's own way, in the degrees the reader wants. Sentences
// are in words/; here is only how a value looks: rounded to what its uncertainty supports, a unit that never parts from
// its number (no-break space), a true minus sign.

import type { ResultUnit } from "../schema/index.ts";
import { msPerHour, msPerMinute } from "../schema/index.ts";
import type { Estimate } from "../science/index.ts";

/** The few words that stand between numbers. */
export interface HandWords {
  /** For Intl: decides decimal sign, grouping and names of months. */
  readonly locale: string;
  readonly units: { readonly [U in ResultUnit]: string };
  /** Of the units that read otherwise in degrees Fahrenheit. */
  readonly fahrenheitUnits: { readonly [U in "Cel" | "K" | "K/h"]: string };
  readonly minutes: string;
  readonly range: (low: string, high: string) => string;
  readonly noLess: (low: string) => string;
  readonly noMore: (high: string) => string;
  readonly unbounded: string;
  readonly interval: (range: string) => string;
  readonly readings: { readonly one: string; readonly other: string };
}

/** In which degrees temperatures are told. */
export const degreesKinds = ["C", "F"] as const;
export type Degrees = (typeof degreesKinds)[number];

/** How a unit's values are shown: times `factor`, plus `offset`, under another name. */
export interface Scale {
  readonly factor: number;
  readonly offset: number;
}

const asItIs: Scale = { factor: 1, offset: 0 };

/** Differences and rates have no zero to move. Source: BIPM, SI Brochure, 9th ed. (2019), "degree Celsius"; NIST SP 811 (2008), B.8. */
const fahrenheit: { readonly [U in ResultUnit]?: Scale } = {
  Cel: { factor: 1.8, offset: 32 },
  K: { factor: 1.8, offset: 0 },
  "K/h": { factor: 1.8, offset: 0 },
};

/** Writes values. All methods give text without a closing full stop. */
export interface Hand {
  number(value: number, decimals: number): string;
  /** A value with its unit; a share ("1") as per cent. */
  quantity(value: number, unit: ResultUnit, decimals: number): string;
  /** The same without its unit, for axes and tables. */
  figure(value: number, unit: ResultUnit, decimals: number): string;
  /** What a unit is called: `°C`. */
  unit(unit: ResultUnit): string;
  /** How a unit's values are shown, for axes with round figures. */
  scale(unit: ResultUnit): Scale;
  /** A temperature that somebody laid down, such as a limit of 8 °C: as exact as it was said. */
  degrees(celsius: number): string;
  /** A share as whole per cent. */
  percent(share: number): string;
  /** `0.42 per hour` */
  value(estimate: Estimate): string;
  /** `0.36 to 0.48`, or the one end there is */
  interval(estimate: Estimate): string;
  /** `0.42 per hour (0.36 to 0.48)` */
  brief(estimate: Estimate): string;
  /** The same in parts, for tables: `0.42 ± 0.03`, `0.36 to 0.48`, `per hour`. */
  figures(estimate: Estimate): { readonly value: string; readonly interval: string; readonly unit: string };
  /** `0.42 ± 0.03 per hour, 95 % interval 0.36 to 0.48, 214 readings` */
  full(estimate: Estimate): string;
  /** `0.36 to 0.48`, of figures already written. */
  range(low: string, high: string): string;
  /** `214 readings` */
  count(count: number, noun: { readonly one: string; readonly other: string }): string;
  /** A length of time: `37 min`, `2 h 10 min`. */
  span(hours: number): string;
  /** `07:52` */
  clock(unixMs: number): string;
  /** `4 June 2026` */
  day(unixMs: number): string;
  /** `4 June 07:52` */
  moment(unixMs: number): string;
  /** `4 June 07:15 to 09:30`; the day again where it passes midnight, once where both clocks agree. */
  period(startMs: number, endMs: number, year?: "with year"): string;
  /** `UTC+02:00` */
  offset(): string;
}

/** Makes the hand for one language, one clock and one sort of degrees. */
export function createHand(words: HandWords, utcOffsetMinutes: number, degrees: Degrees = "C"): Hand {
  const numbers = numbersBy(words, degrees);
  return {
    range: words.range,
    ...numbers,
    ...estimatesBy(words, numbers),
    ...instantsBy(words, utcOffsetMinutes),
  };
}

type NumberHand = Pick<
  Hand,
  "number" | "quantity" | "figure" | "unit" | "scale" | "degrees" | "percent" | "count" | "span"
>;

function numbersBy(words: HandWords, degreesKind: Degrees): NumberHand {
  const scale = (unit: ResultUnit) => (degreesKind === "F" ? fahrenheit[unit] : undefined) ?? asItIs;
  const unit = (of: ResultUnit) =>
    degreesKind === "F" && of in fahrenheit ? words.fahrenheitUnits[of as "Cel" | "K" | "K/h"] : words.units[of];
  // Making a format costs a hundred times as much as using it.
  const formats = new Map<number, Intl.NumberFormat>();
  const formatOf = (decimals: number) => {
    const known = formats.get(decimals);
    if (known !== undefined) return known;
    const made = new Intl.NumberFormat(words.locale, {
      minimumFractionDigits: decimals,
      maximumFractionDigits: decimals,
      signDisplay: "negative",
    });
    formats.set(decimals, made);
    return made;
  };
  const number = (value: number, decimals: number) => formatOf(decimals).format(value).replace("-", "\u2212");
  const figure = (value: number, of: ResultUnit, decimals: number) => {
    const { factor, offset } = scale(of);
    return number((of === "1" ? value * 100 : value) * factor + offset, decimals);
  };
  const quantity = (value: number, of: ResultUnit, decimals: number) => withUnit(figure(value, of, decimals), unit(of));
  return {
    number,
    figure,
    quantity,
    unit,
    scale,
    degrees: (celsius) => {
      const { factor, offset } = scale("Cel");
      return quantity(celsius, "Cel", Number.isInteger(Number((celsius * factor + offset).toFixed(6))) ? 0 : 1);
    },
    percent: (share) => quantity(share, "1", 0),
    count: (howMany, noun) => {
      const rule = new Intl.PluralRules(words.locale).select(howMany);
      return withUnit(number(howMany, 0), rule === "one" ? noun.one : noun.other);
    },
    span: (hours) => span(hours, words, number),
  };
}

type EstimateHand = Pick<Hand, "value" | "interval" | "brief" | "figures" | "full">;

function estimatesBy(words: HandWords, { number, unit, scale, count, span }: NumberHand): EstimateHand {
  /** Shares are shown as per cent, short times in minutes. */
  const shownAs = (estimate: Estimate) => {
    if (estimate.unit === "1") return { factor: 100, offset: 0, decimals: 0, unit: words.units["1"] };
    if (estimate.unit === "h" && !isLong(estimate)) return { factor: 60, offset: 0, decimals: 0, unit: words.minutes };
    const { factor, offset } = scale(estimate.unit);
    return { factor, offset, decimals: supportedDecimals(estimate, factor), unit: unit(estimate.unit) };
  };
  /** One end or the value of an estimate in the form that estimate is shown in, without unit. */
  const figureOf = (estimate: Estimate, part: number) => {
    const { factor, offset, decimals } = shownAs(estimate);
    return number(part * factor + offset, decimals);
  };
  /** An error that would read 0 is told to be below the last digit: there is always some, and "± 0.1" would belie the interval. */
  const errorOf = (estimate: Estimate, error: number) => {
    const { factor, decimals } = shownAs(estimate);
    const least = 10 ** -decimals;
    return error * factor < least / 2 ? `<${number(least, decimals)}` : number(error * factor, decimals);
  };
  const ends = ({ low, high }: Estimate, written: (part: number) => string) => {
    if (low !== null && high !== null) return words.range(written(low), written(high));
    if (low !== null) return words.noLess(written(low));
    return high === null ? words.unbounded : words.noMore(written(high));
  };
  const long = (estimate: Estimate) => (part: number) => {
    const step = minuteStep(spreadOf(estimate) * 60);
    return span((Math.round((part * 60) / step) * step) / 60);
  };
  const value = (estimate: Estimate) =>
    isToldInHours(estimate)
      ? long(estimate)(estimate.value)
      : withUnit(figureOf(estimate, estimate.value), shownAs(estimate).unit);
  const interval = (estimate: Estimate) =>
    ends(estimate, isToldInHours(estimate) ? long(estimate) : (part) => figureOf(estimate, part));
  const figures = (estimate: Estimate) => {
    const error = estimate.standardError;
    const plusMinus = error === undefined ? "" : `\u00a0±\u00a0${errorOf(estimate, error)}`;
    const bare = (part: number) => figureOf(estimate, part);
    return { value: bare(estimate.value) + plusMinus, interval: ends(estimate, bare), unit: shownAs(estimate).unit };
  };
  return {
    value,
    interval,
    brief: (estimate) => `${value(estimate)} (${interval(estimate)})`,
    figures,
    full: (estimate) => {
      const shown = figures(estimate);
      const readings = estimate.readings === undefined ? "" : `, ${count(estimate.readings, words.readings)}`;
      return `${withUnit(shown.value, shown.unit)}, ${words.interval(shown.interval)}${readings}`;
    },
  };
}

type InstantHand = Pick<Hand, "clock" | "day" | "moment" | "period" | "offset">;

function instantsBy(words: HandWords, utcOffsetMinutes: number): InstantHand {
  // The log's clock is a fixed offset, so shifting the instant and reading it as UTC is exact.
  const clockFormat = (options: Intl.DateTimeFormatOptions) => {
    const format = new Intl.DateTimeFormat(words.locale, { timeZone: "UTC", hourCycle: "h23", ...options });
    return (unixMs: number) => format.format(unixMs + utcOffsetMinutes * msPerMinute).replaceAll(" ", "\u00a0");
  };
  const clock = clockFormat({ hour: "2-digit", minute: "2-digit" });
  const dayOfMonth = clockFormat({ day: "numeric", month: "long" });
  const day = clockFormat({ day: "numeric", month: "long", year: "numeric" });
  const moment = (unixMs: number) => `${dayOfMonth(unixMs)}\u00a0${clock(unixMs)}`;
  return {
    clock,
    day,
    moment,
    period: (startMs, endMs, year) => {
      const start = year === undefined ? moment(startMs) : `${day(startMs)},\u00a0${clock(startMs)}`;
      if (moment(startMs) === moment(endMs)) return start;
      return words.range(start, day(startMs) === day(endMs) ? clock(endMs) : moment(endMs));
    },
    offset: () => offsetText(utcOffsetMinutes),
  };
}

/** A unit never parts from its number, nor a unit's words from each other. */
const withUnit = (text: string, unit: string) => `${text}\u00a0${unit.replaceAll(" ", "\u00a0")}`;

/** Decimals beyond which a unit's digits say nothing about a fridge. */
const mostDecimals: { readonly [U in ResultUnit]: number } = {
  Cel: 1,
  K: 1,
  "1/h": 3,
  "K/h": 2,
  h: 1,
  V: 1,
  W: 0,
  "1": 0,
};

/**
 * How many decimals an estimate supports: those of its standard error at one significant digit, at two
 * when the first is a 1 (rounding 0.14 to 0.1 would change it by almost a third).
 */
function supportedDecimals(estimate: Estimate, factor: number): number {
  const most = mostDecimals[estimate.unit];
  const error = spreadOf(estimate) * factor;
  if (!(error > 0)) return most;
  const exponent = Math.floor(Math.log10(error));
  const digits = error / 10 ** exponent < 1.95 ? 1 : 0;
  return Math.min(Math.max(digits - exponent, 0), most);
}

/**
 * The standard error, or what the interval (95 %, normal) says it must be when that is wider: an interval may hold
 * more than the scatter of the readings.
 */
function spreadOf({ standardError = 0, value, low, high }: Estimate): number {
  const reach = [low, high].filter((end) => end !== null).map((end) => Math.abs(end - value));
  return Math.max(standardError, ...reach.map((distance) => distance / 1.96));
}

/** Times from an hour and a half up read as hours and minutes, shorter ones as minutes. */
const longFromHours = 1.5;
const isLong = ({ unit, value }: Estimate) => unit === "h" && Math.abs(value) >= longFromHours;
/** In running text "0 min (0 to 334)" is no better than 334 min: a long end has hours even where the value is short. */
const isToldInHours = (estimate: Estimate) =>
  [estimate.value, estimate.low, estimate.high].some((value) => value !== null && isLong({ ...estimate, value }));

/** To how many minutes a time of this standard error is rounded. */
const minuteStep = (error: number) => (error < 5 ? 1 : error < 15 ? 5 : error < 45 ? 10 : 30);

function span(hours: number, words: HandWords, number: (value: number, decimals: number) => string): string {
  const minutes = Math.round(Math.abs(hours) * 60);
  const sign = hours < 0 && minutes > 0 ? "\u2212" : "";
  const wholeHours = Math.floor(minutes / 60);
  const rest = withUnit(number(minutes % 60, 0), words.minutes);
  if (wholeHours === 0) return sign + rest;
  const whole = sign + withUnit(number(wholeHours, 0), words.units.h);
  return minutes % 60 === 0 || wholeHours >= 24 ? whole : `${whole}\u00a0${rest}`;
}

function offsetText(utcOffsetMinutes: number): string {
  const total = Math.abs(utcOffsetMinutes);
  const pad = (value: number) => String(value).padStart(2, "0");
  const sign = utcOffsetMinutes < 0 ? "\u2212" : "+";
  return utcOffsetMinutes === 0 ? "UTC" : `UTC${sign}${pad(Math.floor(total / 60))}:${pad(total % 60)}`;
}

/** Hours between two instants. */
export const hoursBetween = (startMs: number, endMs: number) => (endMs - startMs) / msPerHour;
