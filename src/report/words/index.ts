// All words a person reads, one folder per language. Another language is another folder of the same
// shape: the type is that of the English one.

import type { Phrases, SayingOf } from "../../schema/index.ts";
import type { Degrees, Hand } from "../hand.ts";
import { createHand } from "../hand.ts";
import { german } from "./de/index.ts";
import { english } from "./en/index.ts";
import type { Widened } from "./widened.ts";

export type Words = Widened<typeof english>;

export const languageCodes = ["en", "de"] as const;
export type Language = (typeof languageCodes)[number];

const languages: { readonly [L in Language]: Words } = { en: english, de: german };

/** All words of one language. */
export const words = (language: Language): Words => languages[language];

/** The hand that writes numbers and instants in this language, on a clock so far ahead of UTC; °C unless stated. */
export function handOf(language: Language, utcOffsetMinutes: number, degrees: Degrees = "C"): Hand {
  const key = `${language} ${utcOffsetMinutes} ${degrees}`;
  const known = hands.get(key);
  if (known !== undefined) return known;
  const made = createHand(words(language).names.handWords, utcOffsetMinutes, degrees);
  hands.set(key, made);
  return made;
}

/** Hands are costly to make and there are few clocks. */
const hands = new Map<string, Hand>();

/** Puts a saying into words. */
export function say<Values>(phrases: Phrases<Values, Hand>, saying: SayingOf<Values>, hand: Hand): string {
  // One code picks the phrase that takes exactly this saying's values; TypeScript cannot follow that.
  const phrase = phrases[saying.code] as (values: SayingOf<Values>, hand: Hand) => string;
  return phrase(saying, hand);
}
