// Whoever tells a report: the words of the reader's language, and the hand that writes numbers and instants as the reader does.

import type { Reader } from "./context.ts";
import type { Hand } from "./hand.ts";
import { handOf, type Words, words } from "./words/index.ts";

/** The words and the hand of one report. */
export interface Teller {
  readonly words: Words;
  readonly hand: Hand;
}

/** Tells in a reader's language and degrees, on his clock. */
export const tellerFor = ({ language, utcOffsetMinutes, degrees }: Reader): Teller => ({
  words: words(language),
  hand: handOf(language, utcOffsetMinutes, degrees),
});
