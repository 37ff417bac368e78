// The words of the pages, and the hand that writes their numbers.

import { benchWords, createHand } from "../src/report/for-pages.ts";
import { degrees, language } from "./settings.ts";

export const { bench, names } = benchWords(language);

/** Writes values on a clock so far ahead of UTC. */
export const handFor = (utcOffsetMinutes: number) => createHand(names.handWords, utcOffsetMinutes);

/** How far this browser's clock is ahead of UTC at an instant, minutes. */
export const localOffset = (unixMs: number) => -new Date(unixMs).getTimezoneOffset();

/** A temperature as the reader wants it. */
export const shownCelsius = (celsius: number) => (degrees.get() === "F" ? celsius * 1.8 + 32 : celsius);
export const degreeSign = () => `°${degrees.get()}`;

/** "5.2 °C" or "41.4 °F" */
export const temperature = (celsius: number, decimals = 1) =>
  `${handFor(0).number(shownCelsius(celsius), decimals)}\u00a0${degreeSign()}`;

/** What was typed as a temperature, °C; null when it is none. */
export function typedCelsius(text: string): number | null {
  const typed = Number(text.replace(",", ".").replace("\u2212", "-"));
  if (text.trim() === "" || !Number.isFinite(typed)) return null;
  return degrees.get() === "F" ? (typed - 32) / 1.8 : typed;
}
