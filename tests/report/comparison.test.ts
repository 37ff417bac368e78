// Before and after as JSON, text, page and drawings.

import { Ajv2020 } from "ajv/dist/2020.js";
import addFormats from "ajv-formats";
import { describe, expect, test } from "vitest";
import { curvesDrawing, ratiosDrawing } from "../../src/report/comparison/comparison-drawing.ts";
import { tellComparison } from "../../src/report/comparison/comparison-telling.ts";
import { comparisonDocument, comparisonPage, comparisonText } from "../../src/report/comparison/index.ts";
import { type Hand, handOf, type Language, languageCodes, say, words } from "../../src/report/index.ts";
import { comparisonDocumentSchema, jsonSchemaOf } from "../../src/schema/documents/index.ts";
import type { Phrases, SayingOf } from "../../src/schema/index.ts";
import type { RunsCompared } from "../../src/science/before-after/index.ts";
import {
  changeReasonSamples,
  comparisonWarningSamples,
  comparisonContext as context,
  differenceSamples,
  nothing,
  repaired,
  serviced,
  several,
  summarySamples,
} from "./comparison-fixture.ts";
import { expectWordsApart } from "./words-apart.ts";

const comparisons: readonly (readonly [string, RunsCompared])[] = Object.entries({
  serviced,
  repaired,
  several,
  nothing,
});
const plain = (text: string) => text.replaceAll("\u00a0", " ");
const textOf = (compared: RunsCompared, width = 100) => comparisonText(compared, context, { colour: false, width });
const pageOf = (compared: RunsCompared) => comparisonPage({ title: "Larch, serviced", comparison: compared, context });
const teller = { words: words("en"), hand: handOf("en", 120) };

const ajv = addFormats.default(new Ajv2020({ strict: false, allErrors: true }));
const published = ajv.compile(jsonSchemaOf("comparison"));

for (const [name, compared] of comparisons) {
  describe(`of ${name}`, () => {
    test("the JSON fits the schema, and the published JSON Schema", () => {
      const document = JSON.parse(JSON.stringify(comparisonDocument(compared, context)));
      expect(() => comparisonDocumentSchema.parse(document)).not.toThrow();
      expect(published(document), JSON.stringify(published.errors)).toBe(true);
    });

    for (const width of [60, 100]) {
      test(`the text keeps to ${width} characters and holds no number that is none`, () => {
        const text = textOf(compared, width);
        expect(text.split("\n").filter((line) => line.length > width)).toEqual([]);
        expect(text).not.toMatch(/NaN|undefined|null|Infinity|\[object/);
      });
    }

    test("the page fetches nothing, uses each id once, and has its headings in order", () => {
      const page = pageOf(compared);
      expect(page).not.toMatch(/<script|<link|<img|@import|url\((?!#)|https?:|NaN|undefined|Infinity/i);
      const ids = [...page.matchAll(/\bid="([^"]+)"/g)].map(([, id]) => id);
      expect(new Set(ids).size).toBe(ids.length);
      const levels = [...page.matchAll(/<h([1-6])\b/g)].map(([, level]) => Number(level));
      expect(levels.filter((level) => level === 1)).toHaveLength(1);
      levels.slice(1).forEach((level, i) => {
        expect(level).toBeLessThanOrEqual(levels[i] + 1);
      });
    });

    test("text, page and JSON say the same sentence, reasons, differences and warnings", () => {
      const { sentence, differences, warnings, sources } = comparisonDocument(compared, context);
      const said = [sentence, ...differences, ...warnings, ...sources.flatMap(({ reasons }) => reasons)];
      const loose = (text: string) => plain(text).replace(/^ *· /gm, "").replace(/\s+/g, " ");
      const text = loose(textOf(compared));
      const page = loose(
        pageOf(compared)
          .replace(/<[^>]+>/g, "")
          .replaceAll("&#39;", "'"),
      );
      for (const one of said) {
        expect(text).toContain(loose(one));
        expect(page).toContain(loose(one));
      }
    });

    test("every drawing has an alternative text and a table", () => {
      for (const figure of pageOf(compared).match(/<figure>[\s\S]*?<\/figure>/g) ?? []) {
        expect(figure.match(/<svg [^>]*role="img"/g)).toHaveLength(2);
        for (const [, description] of figure.matchAll(/<desc[^>]*>([^<]*)<\/desc>/g))
          expect(plain(description)).toMatch(/K below ambient|\d %/);
        expect(figure).toMatch(/<table class="readings"><caption>/);
      }
    });

    for (const width of [340, 720]) {
      test(`in the drawings at ${width} px all words are inside and none covers another`, () => {
        const { bars } = tellComparison(compared, context);
        const scenes = [
          ratiosDrawing(bars, compared.margin, teller, width),
          ...compared.sources.map((source) => curvesDrawing(source, teller, width)),
        ].filter((scene) => scene !== null);
        expect(scenes.length).toBeGreaterThanOrEqual(compared.sources.length);
        for (const scene of scenes) expectWordsApart(scene);
      });

      test(`no name or figure of a bar at ${width} px is written across what counts as the same`, () => {
        const { bars } = tellComparison(compared, context);
        const scene = ratiosDrawing(bars, compared.margin, teller, width);
        if (scene === null) return expect(bars).toEqual([]);
        const shaded = scene.marks.flatMap((mark) => {
          if (mark.kind !== "path" || mark.ink !== "same") return [];
          const downs = [...mark.d.matchAll(/[ML][\d.-]+ ([\d.-]+)/g)].map(([, down]) => Number(down));
          return [{ top: Math.min(...downs), bottom: Math.max(...downs) }];
        });
        expect(shaded.length).toBeGreaterThan(0);
        for (const mark of scene.marks)
          if (mark.kind === "text")
            for (const { top, bottom } of shaded)
              expect(mark.y <= top || mark.y - mark.size * 0.75 >= bottom, mark.text).toBe(true);
      });
    }
  });
}

test("the sentence comes first: what changed, by how much, and what nobody touched", () => {
  expect(plain(comparisonDocument(serviced, context).sentence)).toMatch(
    /^On gas the fridge cools better, 1\.\d times as strongly as before \(1\.\d to \d\.\d\); on mains, which nobody touched, it cools as well as before\.$/,
  );
  const [heading, first] = textOf(serviced).split("\n\n");
  expect(heading).toMatch(/^Coldfall: may\.csv compared with june\.csv\nbefore: 21 June 2026/);
  expect(first).toMatch(/^On gas the fridge cools better/);
});

test("what the sentence does not say stands right under it, in text and page", () => {
  const { cannotSee } = words("en").comparison;
  expect(textOf(serviced).split("\n\n")[1].replaceAll("\n", " ")).toContain(cannotSee);
  expect(pageOf(serviced)).toMatch(/<p class="in-a-sentence">[^<]*<\/p>\n<p class="note">/);
  expect(pageOf(serviced)).toContain(`<p class="note">${cannotSee}</p>`);
});

test("sources of which the same is to be said share one clause", () => {
  const clause = { change: "undecided", ratio: null, dead: null, isUntouched: false } as const;
  const saying = {
    code: "changes",
    clauses: [
      { source: "gas", ...clause },
      { source: "mains", ...clause },
    ],
  } as const;
  expect(plain(say(teller.words.comparison.summary, saying, teller.hand))).toBe(
    "On gas and on mains these runs do not show whether the fridge cools better or worse than before.",
  );
});

test("a source that cools again is said to, without a ratio", () => {
  expect(plain(comparisonDocument(repaired, context).sentence)).toMatch(
    /^On gas the fridge cools again, which it did not before;/,
  );
  expect(textOf(repaired)).toMatch(/On gas +BETTER +Before, it did not cool at all; now it does\./);
});

test("the chart marks the start of cold and names both lines, told apart by their pattern", () => {
  const text = textOf(serviced);
  expect(text).toMatch(/▲/);
  expect(text).toMatch(/ after$/m);
  expect(text).toMatch(/ before$/m);
  expect(text).toMatch(/⠒⠒⠒⠒ after {2}⠒⠒⠂⠒⠒⠂ before {2}▲ cold began/);
});

test("names from files are written, never run", () => {
  const [first] = serviced.sources;
  const hostile: RunsCompared = {
    ...serviced,
    sources: [
      {
        ...first,
        curves: {
          ...first.curves,
          before: [...first.curves.before, { ...first.curves.before[0], log: "<b>&\"'.csv" }],
        },
      },
    ],
  };
  expect(pageOf(hostile)).not.toContain("<b>");
});

/** Every sentence of a set of phrases, with sample values. */
const sentences = <Values extends object>(phrases: Phrases<Values, Hand>, samples: Values, hand: Hand) =>
  Object.entries(samples).map(([code, values]): [string, string] => [
    code,
    say(phrases, { code, ...(values as object) } as SayingOf<Values>, hand),
  ]);

/**
 * What invites to run the fridge again, how nights and gas are handled then, and what is never said: before stands where
 * a known-good run would, and no sentence may take the one for the other.
 */
const patterns: {
  readonly [L in Language]: { readonly invites: RegExp; readonly habit: RegExp; readonly never: RegExp };
} = {
  en: {
    invites: /another run|repeat the run/i,
    habit: /nights on electricity only, gas attended/,
    never: /(of|in the) known-good (?!runs of this fridge)|\bsafe\b/i,
  },
  de: {
    invites: /weiterer Lauf|wiederholen Sie den Lauf/i,
    habit: /nachts nur auf Strom, Gas nur unter Aufsicht/,
    never: /des Bezugs|Bezugsläufe(?!n? dieses Kühlschranks)|\bsicher\b/i,
  },
};

for (const language of languageCodes) {
  const { invites, habit, never } = patterns[language];
  const { comparison } = words(language);
  const hand = handOf(language, 120);
  const all = [
    ...sentences(comparison.reasons, changeReasonSamples, hand),
    ...sentences(comparison.differences, differenceSamples, hand),
    ...sentences(comparison.summary, summarySamples, hand),
    ...sentences(comparison.warnings, comparisonWarningSamples, hand),
  ];
  describe(`in ${language}`, () => {
    for (const [code, sentence] of all) {
      test(`${code} is a whole sentence without a hole in it`, () => {
        expect(sentence).toMatch(/^[\p{Lu}\d]/u);
        expect(sentence).toMatch(/\.$/);
        expect(sentence).not.toMatch(/undefined|NaN|null|\[object|Infinity/);
        expect(sentence).not.toMatch(never);
      });
    }

    test("whatever invites to run the fridge again says how nights and gas are handled", () => {
      const inviting = all.filter(([, sentence]) => invites.test(sentence));
      expect(inviting.map(([code]) => code)).toEqual(expect.arrayContaining(["withheld", "another-pair-decides"]));
      for (const [, sentence] of inviting) expect(sentence).toMatch(habit);
    });
  });
}
