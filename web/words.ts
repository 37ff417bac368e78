// The words of the pages, and the hand that writes their numbers.

import { benchWords, createHand } from "../src/report/for-pages.ts";
import { degrees, language } from "./settings.ts";
import { typedNumber } from "./typed-number.ts";

export const { bench, names } = benchWords(language);

/** Writes values in the reader's degrees, on a clock so far ahead of UTC. */
export function handFor(utcOffsetMinutes: number): ReturnType<typeof createHand> {
  const key = `${utcOffsetMinutes} ${degrees.get()}`;
  const known = hands.get(key);
  if (known !== undefined) return known;
  const made = createHand(names.handWords, utcOffsetMinutes, degrees.get());
  hands.set(key, made);
  return made;
}

/** Hands are costly to make, and a curve asks for one at every point. */
const hands = new Map<string, ReturnType<typeof createHand>>();

/** How far this browser's clock is ahead of UTC at an instant, minutes. */
export const localOffset = (unixMs: number) => -new Date(unixMs).getTimezoneOffset();

/** A temperature as the reader wants it. */
export function shownCelsius(celsius: number): number {
  const { factor, offset } = handFor(0).scale("Cel");
  return celsius * factor + offset;
}
export const degreeSign = () => handFor(0).unit("Cel");

/** "5.2 °C" or "41.4 °F" */
export const temperature = (celsius: number, decimals = 1) => handFor(0).quantity(celsius, "Cel", decimals);

/** What was typed as a temperature, °C; null when it is none. */
export function typedCelsius(text: string): number | null {
  const typed = typedNumber(text);
  if (typed === null || Number.isNaN(typed)) return null;
  const { factor, offset } = handFor(0).scale("Cel");
  return (typed - offset) / factor;
}
