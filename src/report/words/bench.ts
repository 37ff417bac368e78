// The pages' share of the words, one folder per language, without the thousands that only the server says.

import { bench as germanBench } from "./de/bench.ts";
import * as germanNames from "./de/names.ts";
import { bench } from "./en/bench.ts";
import {
  bareSource,
  baselineNames,
  causeNames,
  eventNames,
  handWords,
  onSource,
  positionNames,
  verdictNames,
} from "./en/names.ts";
import type { Widened } from "./widened.ts";

const english = {
  bench,
  names: { bareSource, baselineNames, causeNames, eventNames, handWords, onSource, positionNames, verdictNames },
};

export type BenchWords = Widened<typeof english>;

const german = { bench: germanBench, names: germanNames };

const languages = { en: english, de: german } as const satisfies { readonly [language: string]: BenchWords };

/** The words of the pages in one language. */
export const benchWords = (language: keyof typeof languages): BenchWords => languages[language];
