// The pages' share of the words, one folder per language, without the thousands that only the server says.

import { bench } from "./en/bench.ts";
import { bareSource, eventNames, handWords, onSource, positionNames, verdictNames } from "./en/names.ts";

const english = {
  bench,
  names: { bareSource, eventNames, handWords, onSource, positionNames, verdictNames },
};

export type BenchWords = typeof english;

const languages = { en: english } as const satisfies { readonly [language: string]: BenchWords };

/** The words of the pages in one language. */
export const benchWords = (language: keyof typeof languages): BenchWords => languages[language];
