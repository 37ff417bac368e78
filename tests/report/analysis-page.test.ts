import { describe, expect, test } from "vitest";
import { analysisPage } from "../../src/report/analysis/analysis-page.ts";
import { context, nothingHeated, weakOnGas, withoutKnownGood } from "./fixture.ts";

const one = analysisPage({ title: "Larch, before service", analysis: weakOnGas, context });
const several = analysisPage([
  { title: "Larch, before service", analysis: weakOnGas, context },
  { title: "Rowan", analysis: withoutKnownGood, context },
  { title: "Alder", analysis: nothingHeated, context },
]);

for (const [name, page] of [
  ["of one fridge", one],
  ["of several fridges", several],
] as const) {
  describe(`the page ${name}`, () => {
    test("fetches nothing and runs nothing", () => {
      expect(page).not.toMatch(/<script|<link|<img|<iframe|@import|url\((?!#)|https?:/i);
      expect(page).toContain("default-src 'none'; style-src 'unsafe-inline'");
    });

    test("has its headings in order, one of them the first", () => {
      const levels = [...page.matchAll(/<h([1-6])\b/g)].map(([, level]) => Number(level));
      expect(levels[0]).toBe(1);
      expect(levels.filter((level) => level === 1)).toHaveLength(1);
      levels.slice(1).forEach((level, i) => {
        expect(level).toBeLessThanOrEqual(levels[i] + 1);
      });
    });

    test("uses each id once, and names only ids that exist", () => {
      const ids = [...page.matchAll(/\bid="([^"]+)"/g)].map(([, id]) => id);
      expect(new Set(ids).size).toBe(ids.length);
      const named = [...page.matchAll(/aria-labelledby="([^"]+)"|url\(#([^)]+)\)/g)].flatMap(([, labels, clip]) =>
        (labels ?? clip).split(" "),
      );
      expect(named.length).toBeGreaterThan(10);
      for (const id of named) expect(ids).toContain(id);
    });

    test("gives every drawing an alternative text and its readings as a table", () => {
      const figures = page.match(/<figure>[\s\S]*?<\/figure>/g) ?? [];
      expect(figures.length).toBeGreaterThanOrEqual(5);
      for (const figure of figures) {
        expect(figure.match(/<svg [^>]*role="img"/g)).toHaveLength(2);
        for (const [, description] of figure.matchAll(/<desc[^>]*>([^<]*)<\/desc>/g))
          expect(description).toMatch(/Cabinet from .*\s°C to .*\s°C/);
        expect(figure).toMatch(/<details><summary>[^<]+<\/summary>[\s\S]*<table class="readings"><caption>/);
        const rows = figure.match(/<tr><td>/g)?.length ?? 0;
        expect(rows).toBeGreaterThan(10);
        expect(rows).toBeLessThanOrEqual(25);
      }
    });

    test("holds no number that is none", () => {
      expect(page).not.toMatch(/NaN|undefined|Infinity|\[object/);
    });
  });
}

test("verdict, causes and what to check come before the curves, and the evidence after them", () => {
  const places = [
    'class="verdicts"',
    "Likely causes</h2>",
    "What to check next</h2>",
    "<figure>",
    "On gas: weak</h2>",
    "What happened during the run</h2>",
  ].map((piece) => one.indexOf(piece));
  for (const place of places) expect(place).toBeGreaterThan(0);
  expect(places).toEqual(places.toSorted((a, b) => a - b));
});

test("a title that names the logs is not said again under it", () => {
  const whenOf = (page: string) => /<p class="when">([^<]*)<\/p>/.exec(page)?.[1] ?? "";
  const title = whenOf(one).split(", ")[0];
  expect(title).toMatch(/^Coldfall on /);
  const same = analysisPage({ title, analysis: weakOnGas, context });
  expect(whenOf(same)).not.toContain(title);
  expect(whenOf(one)).toBe(`${title}, ${whenOf(same)}`);
});

test("evidence is a list, a reason an item, and its numbers are folded away", () => {
  const [section] = one.match(/<section>\s*<h3>4.June[\s\S]*?<\/section>/) ?? [""];
  const folded = section.indexOf('<details class="in-print">');
  expect((section.slice(0, folded).match(/<li>/g) ?? []).length).toBeGreaterThan(3);
  expect(section.indexOf('<table class="numbers">')).toBeGreaterThan(folded);
  expect(section.indexOf("<dl>")).toBeGreaterThan(folded);
});

test("a table of numbers names known-good only where there is one beside it", () => {
  expect(one).toContain("<caption>The fitted pull-down beside known-good</caption>");
  const alone = analysisPage({ title: "Rowan", analysis: withoutKnownGood, context });
  expect(alone).toContain("<caption>The fitted pull-down</caption>");
  expect(alone).not.toContain("beside known-good</caption>");
});

test("several fridges each have their own letter under their own title", () => {
  expect([...several.matchAll(/<article /g)]).toHaveLength(3);
  for (const title of ["Larch, before service", "Rowan", "Alder"])
    expect(several).toMatch(new RegExp(`<h2[^>]*>${title}</h2>`));
});

test("names from files are written, never run", () => {
  const hostile = {
    ...weakOnGas,
    stretches: weakOnGas.stretches.map((stretch) => ({ ...stretch, log: "<b>&\"'.csv" })),
  };
  const page = analysisPage({ title: "<script>alert(1)</script>", analysis: hostile, context });
  expect(page).not.toContain("<script>");
  expect(page).not.toContain('<b>&"');
  expect(page).toContain("&lt;script&gt;");
});

test("a page of no fridge is refused", () => {
  expect(() => analysisPage([])).toThrow(RangeError);
});
