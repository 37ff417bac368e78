// The test report: told once, laid out twice. What the telling says stands on the paper and on the page; cautions stand with
// their advice; the PDF holds its own fonts and is the same for equal input.

import { inflateSync } from "node:zlib";
import { describe, expect, test } from "vitest";
import { benchWords } from "../../src/report/for-pages.ts";
import { handOf, languageCodes, words } from "../../src/report/index.ts";
import { type TestReport, testReportPage, testReportPdf } from "../../src/report/test-report/index.ts";
import { a4, linesOf } from "../../src/report/test-report/paper.ts";
import { drawSheets, margins } from "../../src/report/test-report/sheets.ts";
import { layOut } from "../../src/report/test-report/test-report-layout.ts";
import type { ReportDrawing, ReportPart } from "../../src/report/test-report/test-report-parts.ts";
import { tellTestReport } from "../../src/report/test-report/test-report-telling.ts";
import type { RunSheet } from "../../src/schema/index.ts";
import type { UnitProof } from "../../src/science/index.ts";
import { comparisonContext, serviced } from "./comparison-fixture.ts";
import { context, nothingHeated, weakOnGas, withoutKnownGood } from "./fixture.ts";
import { type Notebook, notebook } from "./notebook.ts";

const hour = 3_600_000;
const madeMs = Date.UTC(2026, 5, 6, 8);

const proofs: readonly UnitProof[] = [
  {
    proof: "tilt-measured",
    state: "shown",
    seen: { code: "stood-level", sideways: 0.5, lengthways: 1 },
    cautions: ["no-cold"],
  },
  { proof: "heat-in-watts", state: "not-shown", seen: { code: "watts-not-measured" }, cautions: ["mains", "dc12"] },
  { proof: "boiler-hot", state: "not-shown", seen: { code: "boiler-not-seen" }, cautions: ["gas", "cooling-unit"] },
];

const ofRun: TestReport = {
  madeMs,
  letterhead: "Bench two, refrigeration corner",
  fridge: {
    name: "Larch",
    kind: "90 litre",
    ratedWatts: { gas: 170, mains: 125 },
    cabinetLitres: 90,
    notes: "came in tilted",
  },
  runs: [
    {
      when: "run",
      id: "2026-06-04-k7qx3m",
      name: "june-service",
      startMs: madeMs - 30 * hour,
      endMs: madeMs - 5 * hour,
      sheet: {
        setting: "bench",
        vents: "open",
        dial: "coldest",
        checkedBy: "Kim",
        gasKind: "propane",
        notes: "flue looked sooty",
      },
      notes: "loud fan next door",
      remarks: [{ unixMs: madeMs - 20 * hour, text: "bottle changed" }],
    },
  ],
  analysis: { ...weakOnGas, beforeCondemning: proofs },
  context,
  service: null,
};

const ofService: TestReport = {
  ...ofRun,
  letterhead: null,
  runs: (["before", "after"] as const).map((when) => ({
    ...ofRun.runs[0],
    when,
    name: `${when}.csv`,
    id: null,
    sheet: { untouchedSources: ["mains"], load: when === "before" ? "part" : "empty", notes: `noted ${when}` },
    remarks: [],
  })),
  service: { comparison: serviced, context: comparisonContext },
};

const reports: readonly (readonly [string, TestReport])[] = [
  ["a run", ofRun],
  ["a run without known-good", { ...ofRun, analysis: withoutKnownGood, fridge: null, letterhead: null }],
  [
    "a run in which nothing was heated",
    { ...ofRun, analysis: nothingHeated, runs: [{ ...ofRun.runs[0], sheet: null }] },
  ],
  ["before and after a service", ofService],
];

/** The report drawn into a notebook. */
function noted(report: TestReport): Notebook {
  const book = notebook();
  const own = words(report.context.language);
  drawSheets(book.paper, layOut(tellTestReport(report), own, book.paper), (page) => `page ${page}`);
  return book;
}

const close = (text: string) => text.replaceAll(/\s/g, "");

/** Every text that a telling holds, captions and drawings aside. */
function textsOf(report: TestReport): readonly string[] {
  const { letterhead, title, fridge, when, written, sections } = tellTestReport(report);
  const ofPart = (part: ReportPart): readonly string[] => {
    switch (part.kind) {
      case "facts":
        return part.facts.flatMap(({ name, text }) => [name, text]);
      case "list":
        return part.items.flatMap(({ mark, text }) => [mark ?? "", text]);
      case "verdicts":
        return part.verdicts.flatMap(({ on, stateName, detail, why }) => [on, stateName, detail, why]);
      case "advice":
        return part.advice.flatMap(({ title: named, text, note, caution }) => [
          named,
          text,
          note,
          ...(caution?.subjects ?? []).flatMap(({ about, text: care }) => [about, care]),
        ]);
      case "signatures":
        return part.names;
      case "drawings":
        return [];
      default:
        return [part.text];
    }
  };
  const all = sections.flatMap(({ heading, parts }) => [heading ?? "", ...parts.flatMap(ofPart)]);
  return [letterhead ?? "", title, fridge, when, written, ...all].filter((text) => text !== "");
}

const drawingsOf = (report: TestReport): readonly ReportDrawing[] =>
  tellTestReport(report).sections.flatMap(({ parts }) =>
    parts.flatMap((part) => (part.kind === "drawings" ? part.drawings : [])),
  );

describe.each(reports)("the test report of %s", (_, report) => {
  const book = noted(report);

  test("says on paper everything that is told", () => {
    const written = close(book.parts.map(({ texts }) => texts.join("")).join(""));
    const missing = textsOf(report).filter((text) => !written.toLowerCase().includes(close(text).toLowerCase()));
    expect(missing).toEqual([]);
    expect(textsOf(report).length).toBeGreaterThan(20);
  });

  test("says on the page everything that is told", () => {
    const page = testReportPage(report);
    const shown = close(
      page
        .replaceAll(/<[^>]*>/g, "")
        .replaceAll("&#39;", "'")
        .replaceAll("&quot;", '"')
        .replaceAll("&amp;", "&"),
    ).toLowerCase();
    expect(textsOf(report).filter((text) => !shown.includes(close(text).toLowerCase()))).toEqual([]);
    expect(page).not.toMatch(/<script|<link|<img|src=|url\((?!#)|https?:/);
  });

  test("takes one or two pages and stays inside their margins", () => {
    expect(book.pages()).toBeGreaterThanOrEqual(1);
    expect(book.pages()).toBeLessThanOrEqual(2);
    for (const { text, right, y } of book.corners.filter(({ text: one }) => !/^page \d$/.test(one))) {
      expect(right, text).toBeLessThanOrEqual(a4.width - margins.right + 0.5);
      expect(y, text).toBeLessThanOrEqual(a4.height - margins.bottom + 0.5);
    }
  });

  test("draws every mark of the scenes that the page draws, and describes each drawing", () => {
    const figures = book.parts.filter(({ role }) => role === "Figure");
    const drawings = drawingsOf(report);
    expect(figures.length).toBeGreaterThanOrEqual(Math.min(drawings.length, 1));
    for (const { alternative, texts, lines, areas } of figures) {
      const drawing = drawings.find(({ title, description }) => alternative === `${title}. ${description}`);
      const sizes = [434, 900].flatMap((width) => [[width, "usual"] as const, [width, "low"] as const]);
      const counts = sizes.map(([width, tallness]) => {
        const marks = drawing?.draw(width, tallness)?.marks ?? [];
        const paths = marks.filter((mark) => mark.kind === "path");
        return [
          marks.length - paths.length,
          paths.filter(({ filled }) => !filled).length,
          paths.filter(({ filled }) => filled).length,
        ];
      });
      expect(counts).toContainEqual([texts.length, lines, areas]);
    }
  });

  test("gives no advice without its caution right under it, in full or pointing to the full one further up", () => {
    const said = new Set<string>();
    for (const { parts } of tellTestReport(report).sections) {
      for (const part of parts) {
        if (part.kind !== "advice") continue;
        for (const { title, text, caution } of part.advice) {
          const at = book.parts.findIndex(({ texts }) => close(texts.join("")).includes(close(title + text)));
          expect(at, title).toBeGreaterThanOrEqual(0);
          if (caution === null) continue;
          const under = close(book.parts[at + 1].texts.join("")).toLowerCase();
          expect(book.parts[at + 1].page).toBe(book.parts[at].page);
          for (const subject of caution.subjects) {
            expect(under, title).toContain(close(subject.about).toLowerCase());
            if (!said.has(subject.about)) expect(under, title).toContain(close(subject.text).toLowerCase());
            said.add(subject.about);
          }
        }
      }
    }
  });

  test("becomes a tagged PDF of one or two pages of A4 that holds its own fonts and nothing to fetch", async () => {
    const bytes = Buffer.from(await testReportPdf(report));
    const text = bytes.toString("latin1");
    expect(text.startsWith("%PDF-1.7")).toBe(true);
    expect(text.match(/\/Type \/Page\b/g)?.length).toBeOneOf([1, 2]);
    expect(text).toMatch(/\/MediaBox \[0 0 595\.28 841\.89\]/);
    expect(text).toMatch(/\/Lang \(en\)/);
    expect(text).toMatch(/\/Marked true/);
    expect(text).toMatch(/\/S \/H1/);
    const fonts = text.match(/\/BaseFont \/\S+/g) ?? [];
    expect(fonts.length).toBeGreaterThan(0);
    for (const font of fonts) expect(font).toMatch(/\/[A-Z]{6}\+DejaVu/);
    expect(text.match(/\/FontFile2/g)?.length).toBe(new Set(fonts).size);
    expect(text).not.toMatch(/\/URI|\/JavaScript|\/Launch|\/GoToR/);
    const figures = text.match(/\/S \/Figure/g)?.length ?? 0;
    expect(figures > 0).toBe(drawingsOf(report).length > 0);
    expect(text.match(/\/Alt /g)?.length ?? 0).toBe(figures);
    // The standard fonts cannot write a true minus sign, nor anything that comes after it.
    if (figures > 0) expect(unicodesIn(bytes)).toContain("2212");
  });
});

/** All that the fonts' maps to Unicode name, in hex. */
function unicodesIn(pdf: Buffer): string {
  const maps: string[] = [];
  let from = pdf.indexOf("stream\n");
  while (from >= 0) {
    const end = pdf.indexOf("\nendstream", from);
    const raw = pdf.subarray(from + 7, end);
    const text = raw[0] === 0x78 ? inflateSync(raw).toString("latin1") : "";
    if (text.includes("beginbfrange") || text.includes("beginbfchar")) maps.push(text.toLowerCase());
    from = pdf.indexOf("stream\n", end + 10);
  }
  return maps.join("\n");
}

test("equal reports give equal bytes, and another day another file", async () => {
  const [one, two, later] = await Promise.all(
    [ofRun, { ...ofRun }, { ...ofRun, madeMs: madeMs + 24 * hour }].map((report) => testReportPdf(report)),
  );
  expect(Buffer.from(one).equals(two)).toBe(true);
  expect(Buffer.from(one).equals(later)).toBe(false);
});

test.each(languageCodes)("in %s, with all proofs open, it is told whole on two pages", (language) => {
  const all = { ...ofRun, context: { ...context, language } };
  const book = noted(all);
  const written = close(book.parts.map(({ texts }) => texts.join("")).join("")).toLowerCase();
  expect(textsOf(all).filter((text) => !written.includes(close(text).toLowerCase()))).toEqual([]);
  expect(book.pages()).toBe(2);
});

describe.each(languageCodes)("in %s", (language) => {
  const inLanguage = (report: TestReport): TestReport => ({
    ...report,
    context: { ...report.context, language },
    service: report.service && { ...report.service, context: { ...report.service.context, language } },
  });
  const drawnOf = (report: TestReport) => {
    const book = noted(report);
    return { figures: book.parts.filter(({ role }) => role === "Figure").length, book };
  };

  test.each(reports)("drawings that %s has no room for are counted on paper", (_, report) => {
    const told = inLanguage(report);
    const { figures, book } = drawnOf(told);
    const missing = drawingsOf(told).length - figures;
    const written = close(book.parts.map(({ texts }) => texts.join("")).join(""));
    const counts = [1, 2, 3, 4].filter((n) => written.includes(close(words(language).testReport.noRoomFor(n))));
    expect(counts).toEqual(missing === 0 ? [] : [missing]);
  });

  test("drawings whose place is on the first page stand on the second where the first is full", () => {
    const told = inLanguage({
      ...ofRun,
      analysis: { ...weakOnGas, beforeCondemning: [], causes: [], nextChecks: [], events: [] },
    });
    const { figures, book } = drawnOf(told);
    expect(figures).toBe(drawingsOf(told).length);
    expect(new Set(book.parts.filter(({ role }) => role === "Figure").map(({ page }) => page)).size).toBe(2);
    expect(book.pages()).toBe(2);
  });
});

test("what is not yet proven comes before what is shown, and a caution is printed once in full", () => {
  const { sections } = tellTestReport(ofRun);
  const scrap = sections.find(({ heading }) => heading === "Not yet proven before anything is scrapped");
  const advice = scrap?.parts.find((part) => part.kind === "advice")?.advice ?? [];
  expect(advice.map(({ title }) => title)).toEqual([
    "One electric source takes its rated watts: not shown yet",
    "The boiler gets hot and stays hot: not shown yet",
    "It stands level, measured both ways: shown",
  ]);
  const gas = words("en").cautions.gas.text;
  const paper = close(
    noted(ofRun)
      .parts.map(({ texts }) => texts.join(""))
      .join(""),
  );
  expect(paper.split(close(gas)).length - 1).toBe(1);
});

test("the run sheet stands beside what nobody checked, and notes from every place are kept", () => {
  const all = textsOf(ofRun).join("\n");
  expect(all).toMatch(/dial\ncoldest/);
  expect(all).toMatch(/Not checked: Tilt; .*Flue cap; /);
  for (const note of ["flue looked sooty", "loud fan next door", "5 June 14:00: bottle changed", "came in tilted"])
    expect(all.replaceAll("\u00a0", " ")).toContain(note);
});

/** A value for every field; the types demand that none is left out. */
const fullSheet: Required<RunSheet> = {
  format: "coldfall-run-sheet-1",
  fridge: "Larch",
  setting: "bench",
  tiltSidewaysDegrees: 0,
  tiltLengthwaysDegrees: 1,
  dial: "coldest",
  load: "empty",
  vents: "open",
  fanInside: false,
  fanAtRear: false,
  gasKind: "propane",
  gasPressureMbar: 30,
  altitudeMetres: 0,
  ratedWatts: { gas: 170 },
  supplyVolts: { mains: 231.5 },
  measuredWatts: { mains: 121 },
  ratedVolts: { dc12: 12 },
  untouchedSources: ["mains"],
  uprightSince: "2026-06-03T08:00",
  sourceChosenByHand: false,
  ventCovers: "off",
  flueCap: "clear",
  fins: "clear",
  sealPaperTest: "drags",
  lampGoesOut: true,
  gasChecked: true,
  checkedBy: "Kim",
  notes: "all in order",
};

// The fridge's name heads the report, notes and untouched sources have sections of their own.
const toldElsewhere: readonly string[] = ["format", "fridge", "notes", "untouchedSources"];

test.each(languageCodes)("in %s every field of a run sheet is told, also where it says no or 0", (language) => {
  const { conditions } = words(language).testReport;
  const hand = handOf(language, 120);
  const untold = Object.entries(fullSheet)
    .filter(([field]) => !toldElsewhere.includes(field))
    .filter(([field, value]) => !conditions.some((one) => one.value({ [field]: value }, hand)));
  expect(untold).toEqual([]);
});

test.each(languageCodes)("in %s a page reads out every field of a run sheet", (language) => {
  const { lines } = benchWords(language).bench.sheet;
  const untold = Object.entries(fullSheet)
    .filter(([field]) => field !== "format")
    .filter(([field, value]) => !lines.some((one) => one.value({ [field]: value }, handOf(language, 120))));
  expect(untold).toEqual([]);
});

test("since when a fridge stood upright is told on the clock of the run, which is meant where none is named", () => {
  const { conditions } = words("en").testReport;
  const told = (uprightSince: string) =>
    conditions
      .flatMap(({ value }) => value({ uprightSince }, handOf("en", 120)) ?? [])
      .map((text) => text.replaceAll("\u00a0", " "));
  expect(told("2026-06-03T05:00:00Z")).toEqual(["3 June 2026, 07:00"]);
  expect(told("2026-06-03T08:00:00")).toEqual(["2026-06-03 08:00"]);
});

test("a service is told in a sentence, with its control source and both sides of what differs", () => {
  const all = textsOf(ofService).join("\n").replaceAll("\u00a0", " ");
  expect(all).toMatch(/The service did not touch mains; .*On gas held against mains: \d+ % \(\d+ to \d+\) of before\./);
  expect(all).toMatch(/load\npartly full before, empty after/);
  expect(all).toContain("Before: noted before");
  const alone = { ...ofService, runs: ofService.runs.map((run) => ({ ...run, sheet: null })) };
  expect(textsOf(alone).join("\n")).toMatch(/No run sheet names a source that the service did not touch/);
});

test("each source after the service stands under its own change", () => {
  const sources = ofService.analysis.sources.toReversed();
  const { sections } = tellTestReport({ ...ofService, analysis: { ...ofService.analysis, sources } });
  const rows = sections.flatMap(({ parts }) =>
    parts.flatMap((part) => (part.kind === "verdicts" ? [part.verdicts.map(({ on }) => on)] : [])),
  );
  expect(rows).toHaveLength(2);
  const [changes, after] = rows;
  expect(changes.length).toBeGreaterThan(1);
  expect(after.filter((on) => changes.includes(on))).toEqual(changes.filter((on) => after.includes(on)));
  expect(after.filter((on) => changes.includes(on)).length).toBeGreaterThan(1);
});

test("notes that go on for pages are printed whole, on more pages rather than smaller than can be read", () => {
  const long = Array.from({ length: 3000 }, (_, i) => `word${i}`).join(" ");
  const book = noted({ ...ofRun, runs: [{ ...ofRun.runs[0], notes: long }] });
  expect(close(book.parts.map(({ texts }) => texts.join("")).join(""))).toContain(close(long));
  expect(book.pages()).toBeGreaterThan(2);
});

test("a word wider than its column is broken, not lost", () => {
  const { paper } = notebook();
  const lines = linesOf(`a ${"x".repeat(50)} b`, 100, "text", 10, paper);
  expect(lines.join("").replaceAll(" ", "")).toBe(`a${"x".repeat(50)}b`);
  for (const line of lines) expect(paper.widthOf(line, "text", 10)).toBeLessThanOrEqual(100);
});
