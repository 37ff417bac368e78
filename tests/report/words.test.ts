import { describe, expect, test } from "vitest";
import type { Hand, Language } from "../../src/report/index.ts";
import { handOf, languageCodes, say, words } from "../../src/report/index.ts";
import { benchWords } from "../../src/report/words/bench.ts";
import type { Phrases, SayingOf } from "../../src/schema/index.ts";
import { eventSamples, reasonSamples, unitProofSamples, unknownSamples, warningSamples } from "./samples.ts";

/** Every sentence of a set of phrases, with sample values. */
function sentences<Values extends object>(
  phrases: Phrases<Values, Hand>,
  samples: Values,
  hand: Hand,
): [string, string][] {
  return Object.entries(samples).map(([code, values]) => [
    code,
    say(phrases, { code, ...(values as object) } as SayingOf<Values>, hand),
  ]);
}

/** What invites to run the fridge again, how nights and gas are handled then, and the word that is never said. */
const patterns: {
  readonly [L in Language]: { readonly invites: RegExp; readonly habit: RegExp; readonly never: RegExp };
} = {
  en: {
    invites: /another (run|night)|No verdict before|narrow the interval/i,
    habit: /nights on electricity only, gas attended/,
    never: /\bsafe\b/i,
  },
  de: {
    invites: /weiterer Lauf|Kein Urteil vor|Intervall verkleinern/i,
    habit: /nachts nur auf Strom, Gas nur unter Aufsicht/,
    never: /\bsicher(e|es|er|en|em)?\b|unbedenklich|gefahrlos/i,
  },
};

for (const language of languageCodes) {
  const { invites, habit, never } = patterns[language];
  const own = words(language);
  const hand = handOf(language, 120);
  const all = [
    ...sentences(own.unknowns, unknownSamples, hand),
    ...sentences(own.reasons, reasonSamples, hand),
    ...sentences(own.events, eventSamples, hand),
    ...sentences(own.warnings, warningSamples, hand),
    ...sentences(own.condemning.proofs, unitProofSamples, hand),
  ];

  describe(`in ${language}`, () => {
    for (const [code, sentence] of all) {
      test(`${code} is a whole sentence without a hole in it`, () => {
        expect(sentence).toMatch(/^[\p{Lu}\d]/u);
        expect(sentence).toMatch(/\.$/);
        expect(sentence).not.toMatch(/undefined|NaN|null|\[object|Infinity/);
      });
    }

    test("every sentence that invites to run the fridge again says how nights and gas are handled", () => {
      const inviting = all.filter(([, sentence]) => invites.test(sentence));
      expect(inviting.map(([code]) => code)).toEqual(expect.arrayContaining(["another-night-decides", "wait-until"]));
      for (const [, sentence] of inviting) expect(sentence).toMatch(habit);
    });

    test("nothing is ever called safe but what must be safe to do", () => {
      const texts = [
        ...all.map(([, sentence]) => sentence),
        own.report.foodLimits(hand),
        own.cautions.food.text,
        own.report.limits,
      ];
      for (const text of texts) expect(text).not.toMatch(never);
    });
  });
}

test("the plain phrases of the project's word table are used", () => {
  const hand = handOf("en", 120);
  const { reasons, report, names } = words("en");
  const plain = (text: string) => text.replaceAll("\u00a0", " ");
  expect(plain(say(reasons, { code: "cold-began", ...reasonSamples["cold-began"] }, hand))).toBe(
    "Cold began 07:52, 37 min after lighting.",
  );
  expect(plain(report.pullDownNumbers.rateConstant.phrase(reasonSamples["rate-constants"].rate, hand))).toBe(
    "halves the remaining gap every 2.8 h",
  );
  expect(plain(report.strength(reasonSamples["strength-weak"].estimate, "own", hand))).toBe(
    "cooling strength 72 % of known-good (66 to 79)",
  );
  expect(plain(names.onSource("dc12"))).toBe("on 12 V");
  expect(names.verdictNames).toEqual({
    sound: "good",
    weak: "weak",
    "not-cooling": "no cooling",
    undecided: "cannot say yet",
  });
});

test("what a run's numbers are held against is named as what it is", () => {
  const { bench, names } = benchWords("en");
  expect(bench.run.numbersCaption([names.baselineNames.own])).toBe(
    "Strength held against known-good runs of this fridge, and what it stands on",
  );
  expect(bench.run.numbersCaption([names.baselineNames["other-sources"]])).toBe(
    "Strength held against the other sources of the same run, and what it stands on",
  );
});

test("the link to bring in a log and what follows it make one sentence", () => {
  const sentence = (language: "en" | "de") => {
    const { bringIn, bringInIs } = benchWords(language).bench.fridge;
    return bringIn + bringInIs;
  };
  expect(sentence("en")).toBe("Bring in a log that another logger wrote.");
  expect(sentence("de")).toBe("Ein Protokoll hereinholen, das ein anderer Logger geschrieben hat.");
});

test("a start above ambient is told as that, not as so many kelvin below less than nothing", () => {
  const reason = { code: "start-referred", belowAmbient: -3.5, baselineBelowAmbient: 0.2, factor: 1.04 } as const;
  const told = {
    en: /3\.5\sK above ambient, .* 0\.2\sK below ambient/,
    de: /3,5\sK über der Umgebung, .* 0,2\sK unter der Umgebung/,
  };
  for (const language of languageCodes)
    expect(say(words(language).reasons, reason, handOf(language, 0))).toMatch(told[language]);
});
