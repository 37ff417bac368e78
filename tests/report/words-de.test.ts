// The second language of the program is as whole as the first: nothing missing, nothing left in English, and numbers
// the German way.

import { readdirSync, readFileSync } from "node:fs";
import ts from "typescript";
import { describe, expect, test } from "vitest";
import { analysisPage } from "../../src/report/analysis/analysis-page.ts";
import { analysisDocument, analysisText } from "../../src/report/analysis/index.ts";
import { comparisonText } from "../../src/report/comparison/index.ts";
import { benchWords } from "../../src/report/for-pages.ts";
import { hotDayText } from "../../src/report/hot-day/index.ts";
import { type Hand, handOf, say, words } from "../../src/report/index.ts";
import { planText } from "../../src/report/plan/index.ts";
import type { Phrases, SayingOf } from "../../src/schema/index.ts";
import { planRun } from "../../src/science/plan/index.ts";
import { comparisonContext, repaired, serviced, several } from "./comparison-fixture.ts";
import { context, weakOnGas, withoutKnownGood } from "./fixture.ts";
import { predictions } from "./hot-day-fixture.ts";
import { eventSamples, reasonSamples, unitProofSamples, unknownSamples, warningSamples } from "./samples.ts";

/** A word, or a function that makes a sentence, with the way to it. */
type Leaf = readonly [path: string, leaf: unknown];

const isFolder = (value: unknown): value is object => typeof value === "object" && value !== null;
const leavesOf = (value: unknown, path = ""): readonly Leaf[] =>
  isFolder(value)
    ? Object.entries(value).flatMap(([name, inner]) => leavesOf(inner, path === "" ? name : `${path}.${name}`))
    : [[path, value]];

/** What is to be typed is the same in every language, but for names that a workshop chooses. */
const isTyped = (path: string) => /\.examples\.\d+$/.test(path);
const english = leavesOf({ ...words("en"), bench: benchWords("en").bench }).filter(([path]) => !isTyped(path));
const german = new Map(leavesOf({ ...words("de"), bench: benchWords("de").bench }).filter(([path]) => !isTyped(path)));

/** Words that are the same in both languages; a language is offered by its own name. */
const shared = new Set(["Celsius", "Fahrenheit", "Alarm.", "Name", "UTC", "English", "Deutsch"]);
/** Nothing but units, signs and blanks: both languages share these. */
const isNoWord = (text: string) => !/\p{L}/u.test(text.replace(/\b(?:min|[A-Zh])\b/g, ""));

test("every English word has a German one of the same kind, and none is left over", () => {
  expect([...german.keys()].sort()).toEqual(english.map(([path]) => path).sort());
  for (const [path, leaf] of english) expect(typeof german.get(path), path).toBe(typeof leaf);
});

test("no German text is its English one, but for units, signs and words that both share", () => {
  const same = english.filter(([path, leaf]) => typeof leaf === "string" && leaf === german.get(path));
  expect(same.filter(([, leaf]) => !isNoWord(String(leaf)) && !shared.has(String(leaf)))).toEqual([]);
});

/** Little words that no German sentence holds. */
const englishWords =
  /(?<![-\p{L}\d])(the|and|of|is|are|were|been|not|with|from|that|this|these|which|does|has|have|by|or|but|only|when|where|below|above|it|its|on|for|be|at|to|as|nothing|cannot|than|after|before)(?![-\p{L}\d])/iu;

const folder = new URL("../../src/report/words/de/", import.meta.url);

/** Literal text of a file that a person may read: no imports, types, keys, nor what code is compared with. */
function textsOf(file: string): readonly string[] {
  const source = ts.createSourceFile(file, readFileSync(new URL(file, folder), "utf8"), ts.ScriptTarget.Latest, true);
  const texts: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) || ts.isTypeNode(node)) return;
    if (ts.isStringLiteralLike(node) || ts.isTemplateHead(node) || ts.isTemplateMiddleOrTemplateTail(node)) {
      const { parent } = node;
      const isKey = ts.isPropertyAssignment(parent) && parent.name === node;
      const isCode = ts.isCaseClause(parent) || ts.isElementAccessExpression(parent) || isComparison(parent);
      if (!isKey && !isCode) texts.push(node.text);
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return texts;
}

const isComparison = (node: ts.Node) =>
  ts.isBinaryExpression(node) && node.operatorToken.kind === ts.SyntaxKind.EqualsEqualsEqualsToken;

/** Law and things to be typed keep their English. */
const quoted =
  /Food Safety and Hygiene \(England\) Regulations 2013|"Authorization: Bearer TOKEN"|^coldfall .*|--[a-z-]+/g;

for (const file of readdirSync(folder).filter((name) => name.endsWith(".ts"))) {
  test(`${file} holds no English`, () => {
    const texts = textsOf(file).map((text) => text.replace(quoted, ""));
    expect(texts.filter((text) => englishWords.test(text))).toEqual([]);
  });
}

test("the search for English finds it", () => {
  expect("The cabinet is warm").toMatch(englishWords);
  expect("Der Kühlraum ist warm, also am Abend so wie in der Nacht").not.toMatch(englishWords);
  expect(textsOf("index.ts")).toEqual([]);
  expect(textsOf("report.ts").length).toBeGreaterThan(150);
});

/** Every sentence of a set of phrases, with sample values. */
const sentences = <Values extends object>(phrases: Phrases<Values, Hand>, samples: Values, hand: Hand): string[] =>
  Object.entries(samples).map(([code, values]) =>
    say(phrases, { code, ...(values as object) } as SayingOf<Values>, hand),
  );

const allSentences = (language: "en" | "de") => {
  const own = words(language);
  const hand = handOf(language, 120);
  return [
    ...sentences(own.unknowns, unknownSamples, hand),
    ...sentences(own.reasons, reasonSamples, hand),
    ...sentences(own.events, eventSamples, hand),
    ...sentences(own.warnings, warningSamples, hand),
    ...sentences(own.condemning.proofs, unitProofSamples, hand),
  ];
};

describe("German sentences", () => {
  const all = allSentences("de");

  test("differ from the English ones, each", () => {
    const inEnglish = allSentences("en");
    expect(all).toHaveLength(inEnglish.length);
    all.forEach((sentence, index) => {
      expect(sentence).not.toBe(inEnglish[index]);
    });
  });

  test("have a decimal comma, and a number never parts from its unit", () => {
    for (const sentence of all) {
      expect(sentence).not.toMatch(/\d\.\d/);
      expect(sentence).not.toMatch(/\d%|\d (%|°C|K|V|W|h|min)(?![\p{L}\d])/u);
    }
    expect(all.join(" ")).toMatch(/\d,\d/);
  });

  test("name days and clocks the German way", () => {
    const hand = handOf("de", 120);
    const at = Date.UTC(2026, 5, 4, 5, 15);
    const plain = (text: string) => text.replaceAll("\u00a0", " ");
    expect(plain(hand.moment(at))).toBe("4. Juni 07:15");
    expect(plain(hand.period(at, at + 3_600_000, "with year"))).toBe("4. Juni 2026, 07:15 bis 08:15");
    expect(hand.quantity(-0.25, "K", 2)).toBe("\u22120,25\u00a0K");
    expect(hand.percent(0.853)).toBe("85\u00a0%");
    expect(hand.number(12345.5, 1)).toBe("12.345,5");
  });
});

const options = { colour: false, width: 100 };
const inGerman = { ...context, language: "de" } as const;
const plan = planRun({
  startMs: Date.parse("2026-06-04T11:00:00Z"),
  sources: ["mains", "gas", "dc12"],
  utcOffsetMinutes: 120,
});

/** Whole texts, as they are printed. */
const printed: readonly (readonly [name: string, print: () => string])[] = [
  ["an analysis", () => analysisText(weakOnGas, inGerman, options)],
  ["an analysis without known-good runs", () => analysisText(withoutKnownGood, inGerman, options)],
  ...Object.entries({ serviced, repaired, several }).map(
    ([name, compared]) =>
      [
        `a comparison, ${name}`,
        () => comparisonText(compared, { ...comparisonContext, language: "de" }, options),
      ] as const,
  ),
  ...Object.entries(predictions).map(
    ([name, { prediction, context: asked }]) =>
      [`a prediction ${name}`, () => hotDayText(prediction, { ...asked, language: "de" }, options)] as const,
  ),
  ["a plan", () => (plan.outcome === "planned" ? planText(plan.plan, "de", options) : "")],
];

for (const [name, print] of printed) {
  test(`${name}, printed in German, holds no English and no decimal point`, () => {
    const text = print();
    expect(text.length).toBeGreaterThan(1000);
    for (const line of text
      .replace(quoted, "")
      .replace(/Coldfall \d+\.\d+\.\d+/, "")
      .split("\n")) {
      expect(line).not.toMatch(englishWords);
      expect(line).not.toMatch(/\d\.\d(?!\d\d)/);
    }
  });
}

describe("an analysis in German", () => {
  test("says the verdicts in the trade's plain words", () => {
    const text = analysisText(weakOnGas, inGerman, options);
    expect(text).toMatch(/Auf Gas\s+SCHWACH\s+Kühlleistung 62 % des Bezugs/);
    expect(text).toMatch(/Auf 230 V\s+GUT/);
    expect(text).toMatch(/Auf 12 V\s+NOCH NICHT ZU SAGEN/);
  });

  test("has its page marked as German, and its JSON in German sentences under the same names", () => {
    expect(analysisPage({ title: "x", analysis: weakOnGas, context: inGerman })).toContain('<html lang="de">');
    const [document, inEnglish] = [analysisDocument(weakOnGas, inGerman), analysisDocument(weakOnGas, context)];
    expect(Object.keys(document)).toEqual(Object.keys(inEnglish));
    expect(document.sources.map(({ verdict }) => verdict)).toEqual(inEnglish.sources.map(({ verdict }) => verdict));
    expect(document.sources[0].reasons.join(" ")).toMatch(/Kühlleistung/);
  });
});
