// The test report laid out on A4: what goes across the page first, the rest in two columns, signatures at the end. The type
// is as large as two pages allow; where the head would not fit on the first, drawings that can go stand at the end, then all
// become low, and where two pages do not hold them even so, some give way, never words. How blocks fill the pages is in
// sheets.ts.

import { type CautionTelling, type CheckTelling, cautionParts } from "../advice-telling.ts";
import { tones } from "../drawing/inks.ts";
import { boxPath, type Scene, type Tallness } from "../drawing/scene.ts";
import type { Words } from "../words/index.ts";
import { heightOf, type Lines, rule, stackLines, writeLines } from "./lines-on-paper.ts";
import { linesOf, type Paper, type Role, type Ruler, type TextStyle } from "./paper.ts";
import { sceneToPaper } from "./scene-to-pdf.ts";
import {
  across,
  type Block,
  column,
  type Filled,
  fillSheets,
  gutter,
  type Sheet,
  sideBySide,
  stayingWithNext,
} from "./sheets.ts";
import type {
  ReportDrawing,
  ReportFact,
  ReportPart,
  ReportSection,
  ReportVerdict,
  TestReportTelling,
} from "./test-report-parts.ts";

/** How wide drawings are drawn, px: letters come out at the same size in both. */
const drawn = { wide: 900, narrow: Math.round((900 * column) / across) } as const;

/** How a report is tried: so many drawings give way in the head, to the end or altogether. */
interface Attempt {
  readonly size: number;
  readonly without: number;
  readonly atTheEnd: boolean;
  readonly tallness: Tallness;
}

const attemptsWith = (
  without: number,
  atTheEnd: boolean,
  tallness: Tallness,
  sizes: readonly number[],
): readonly Attempt[] => sizes.map((size) => ({ size, without, atTheEnd, tallness }));

/** In this order, until two pages hold everything. */
const attempts = [
  ...attemptsWith(0, true, "usual", [9.6, 9.2, 8.8, 8.4, 8, 7.6]),
  ...[1, 2, Number.POSITIVE_INFINITY].flatMap((without) =>
    attemptsWith(without, true, "usual", [9.2, 8.8, 8.4, 8, 7.6]),
  ),
  ...[0, 1, 2, Number.POSITIVE_INFINITY].flatMap((without) =>
    attemptsWith(without, true, "low", [9.2, 8.8, 8.4, 8, 7.6]),
  ),
  ...[1, 2].flatMap((without) => attemptsWith(without, false, "low", [8.4, 8, 7.6])),
  ...attemptsWith(Number.POSITIVE_INFINITY, false, "low", [8.4, 8, 7.6, 7.2, 6.8]),
];
const mostSheets = 2;

/** @returns one or two pages; more only where notes are too long for any type that can be read. */
export function layOut(telling: TestReportTelling, words: Words, ruler: Ruler): readonly Sheet[] {
  const short: Filled[] = [];
  // Best is what has verdict and curves on the first page, else what is short enough, else what comes last.
  let last: Filled | undefined;
  for (const attempt of attempts) {
    const filled = new Setter(telling, words, ruler, attempt).filled();
    if (filled.sheets.length <= mostSheets && filled.headSheets === 1) return filled.sheets;
    if (filled.sheets.length <= mostSheets) short.push(filled);
    last = filled;
  }
  return (short[0] ?? last)?.sheets ?? [];
}

/** Sets one report in one size of type. */
class Setter {
  readonly #telling: TestReportTelling;
  readonly #words: Words;
  readonly #ruler: Ruler;
  readonly #size: number;
  readonly #without: number;
  readonly #atTheEnd: boolean;
  readonly #tallness: Tallness;

  constructor(telling: TestReportTelling, words: Words, ruler: Ruler, { size, without, atTheEnd, tallness }: Attempt) {
    this.#telling = telling;
    this.#words = words;
    this.#ruler = ruler;
    this.#size = size;
    this.#without = without;
    this.#atTheEnd = atTheEnd;
    this.#tallness = tallness;
  }

  filled(): Filled {
    const of = (place: ReportSection["place"], width: number) =>
      this.#telling.sections.filter((one) => one.place === place).flatMap((one) => this.#section(one, width));
    const further = this.#atTheEnd ? this.#furtherDrawings() : [];
    const columns = [...of("column", column), ...further];
    return fillSheets([...this.#title(), ...of("head", across)], columns, of("foot", across));
  }

  #section({ heading, parts }: ReportSection, width: number): Block[] {
    const blocks = parts.flatMap((part, index) => {
      const own = this.#part(part, width);
      // Small print does not begin a column without what it belongs to.
      return parts[index + 1]?.kind === "small-print"
        ? [...own.slice(0, -1), ...own.slice(-1).map(stayingWithNext)]
        : own;
    });
    return heading === null ? blocks : [this.#heading(heading, width), ...blocks];
  }

  #part(part: ReportPart, width: number): Block[] {
    switch (part.kind) {
      case "facts":
        return [this.#facts(part.facts, width)];
      case "sentence":
        return this.#paragraph(part.text, width, { face: "title", size: this.#size * 1.3 });
      case "text":
        return this.#paragraph(part.text, width);
      case "small-print":
        return this.#paragraph(part.text, width, { size: this.#size * 0.84, colour: tones.quiet.light });
      case "list":
        return this.#list(part.items, width);
      case "verdicts":
        return this.#verdicts(part.verdicts, width);
      case "drawings":
        return this.#drawings(part, width);
      case "advice":
        return part.advice.map((advice, index) => this.#advice(advice, index + 1, width));
      case "signatures":
        return [this.#signatures(part.names)];
    }
  }

  // Text

  #lines(text: string, width: number, style: Partial<TextStyle> = {}): Lines {
    const whole: TextStyle = { face: "text", size: this.#size, colour: tones.text.light, ...style };
    const leading = whole.size * (whole.face === "title" ? 1.28 : 1.34);
    const lines = linesOf(text, width, whole.face, whole.size, this.#ruler);
    return { lines, style: whole, leading, height: lines.length * leading };
  }

  #paragraph(text: string, width: number, style: Partial<TextStyle> = {}): Block[] {
    const all = this.#lines(text, width, style);
    // A long one may go on in the next column, a short one stays together.
    const most = all.lines.length > longParagraph ? longPiece : all.lines.length;
    const pieces = Math.ceil(all.lines.length / most);
    return Array.from({ length: pieces }, (_, index) => {
      const lines = { ...all, lines: all.lines.slice(index * most, (index + 1) * most) };
      return {
        height: lines.lines.length * all.leading,
        gap: index === 0 ? this.#size * 0.35 : 0,
        staysWithNext: false,
        draw: (paper, left, top) => paper.part("P", () => writeLines(paper, lines, left, top)),
      };
    });
  }

  #heading(text: string, width: number): Block {
    const lines = this.#lines(text, width, { face: "title", size: this.#size * 1.16 });
    return {
      height: lines.height + this.#size * 0.1,
      gap: this.#size * 1.05,
      staysWithNext: true,
      draw: (paper, left, top) => {
        paper.entry(text);
        paper.part("H2", () => writeLines(paper, lines, left, top));
      },
    };
  }

  #list(items: Extract<ReportPart, { kind: "list" }>["items"], width: number): Block[] {
    const quiet = { colour: tones.quiet.light };
    const marks = items.map(({ mark }) => this.#lines(mark ?? "–", width, quiet));
    const widest = Math.max(...marks.map(({ lines: [mark] }) => this.#ruler.widthOf(mark, "text", this.#size)));
    const indent = widest + this.#size * 0.7;
    const texts = items.map(({ text }) => this.#lines(text, width - indent));
    const staysTogether = texts.reduce((sum, { lines }) => sum + lines.length, 0) <= longParagraph;
    return texts.map((lines, index) => {
      return {
        height: lines.height,
        gap: this.#size * 0.22,
        staysWithNext: staysTogether && index < items.length - 1,
        draw: (paper, left, top) =>
          paper.part("P", () => {
            writeLines(paper, marks[index], left, top);
            writeLines(paper, lines, left + indent, top);
          }),
      };
    });
  }

  // The head

  #title(): Block[] {
    const { letterhead, title, fridge, when, written } = this.#telling;
    const side = across * 0.38;
    const own = across - side - gutter;
    const quiet = { colour: tones.quiet.light };
    const parts: readonly [Lines, Role][] = [
      [this.#lines(title, own, { ...quiet, size: 9.5 }), "P"],
      [this.#lines(fridge, own, { face: "title", size: 21 }), "H1"],
      ...(when === "" ? [] : [[this.#lines(when, own, { ...quiet, size: 9 }), "P"] as [Lines, Role]]),
    ];
    const beside: readonly [Lines, Role][] = [
      ...(letterhead === null
        ? []
        : [[this.#lines(letterhead, side, { face: "bold", size: 9.5 }), "P"] as [Lines, Role]]),
      [this.#lines(written, side, { ...quiet, size: 9 }), "P"],
    ];
    const linesOfAll = (all: readonly [Lines, Role][]) => all.map(([lines]) => lines);
    const height = Math.max(heightOf(linesOfAll(parts)), heightOf(linesOfAll(beside))) + 8;
    const stack = (paper: Paper, all: readonly [Lines, Role][], left: number, from: number) => {
      let top = from;
      for (const [lines, role] of all) {
        paper.part(role, () => writeLines(paper, lines, left, top));
        top += lines.height;
      }
    };
    return [
      {
        height,
        gap: 0,
        staysWithNext: false,
        draw: (paper, left, top) => {
          stack(paper, parts, left, top);
          stack(paper, beside, left + own + gutter, top);
          rule(paper, left, top + height, across);
        },
      },
    ];
  }

  /** Across the page in two columns, read down. */
  #facts(facts: readonly ReportFact[], width: number): Block {
    // Names in the head are short, those of the run sheet whole questions.
    const told = facts.map((fact) => this.#fact(fact, column, width === across ? 0.25 : 0.36));
    if (width !== across) return sideBySide([told], column, this.#size * 0.3);
    const half = Math.ceil(told.length / 2);
    return sideBySide([told.slice(0, half), told.slice(half)], column, this.#size * 0.7);
  }

  /** @param share how much of the width is the name's */
  #fact({ name, text }: ReportFact, width: number, share: number): Block {
    const named = width * share;
    const names = this.#lines(name, named - 6, { colour: tones.quiet.light });
    const lines = this.#lines(text, width - named);
    return {
      height: Math.max(names.height, lines.height),
      gap: this.#size * 0.14,
      staysWithNext: false,
      draw: (paper, left, top) =>
        paper.part("P", () => {
          writeLines(paper, names, left, top);
          writeLines(paper, lines, left + named, top);
        }),
    };
  }

  #verdicts(verdicts: readonly ReportVerdict[], width: number): Block[] {
    if (verdicts.length === 0) return [];
    const each = (width - gutter * (verdicts.length - 1)) / verdicts.length;
    const told = verdicts.map(({ on, stateName, detail, why }) => {
      const inset = each - 9;
      const title = this.#lines(`${on}: ${stateName}`, inset, { face: "title", size: this.#size * 1.42 });
      const strength = this.#lines(detail, inset, { face: "bold" });
      const reasons = why === "" ? null : this.#lines(why, inset);
      const height = title.height + strength.height + (reasons === null ? 0 : reasons.height + this.#size * 0.25);
      return [
        {
          height,
          gap: 0,
          staysWithNext: false,
          draw: (paper: Paper, left: number, top: number) => {
            paper.ornament(() =>
              paper.area(boxPath({ left, top: top + 2, width: 2.2, height: height - 2 }), tones.text.light),
            );
            paper.part("P", () => {
              writeLines(paper, title, left + 9, top);
              writeLines(paper, strength, left + 9, top + title.height);
              if (reasons !== null)
                writeLines(paper, reasons, left + 9, top + title.height + strength.height + this.#size * 0.25);
            });
          },
        },
      ];
    });
    return [sideBySide(told, each, this.#size * 0.35)];
  }

  // Drawings

  #drawings(part: DrawingsPart, width: number): Block[] {
    const gone = this.#givingWay(part);
    const kept = part.drawings.filter((drawing) => !gone.includes(drawing));
    // An odd one goes across the page, the others stand in pairs; letters have the same size in both.
    const wide = kept.length % 2 === 1 ? kept.slice(0, 1) : [];
    const narrow = kept.slice(wide.length);
    const rows: Block[] = wide.flatMap((one) => this.#drawing(one, width, drawn.wide) ?? []);
    for (let index = 0; index < narrow.length; index += 2) {
      const pair = narrow.slice(index, index + 2).map((one) => this.#drawing(one, column, drawn.narrow));
      rows.push(sideBySide(pair, column, this.#size * 0.6));
    }
    const missing = this.#atTheEnd ? 0 : gone.length;
    return [...this.#caption(part, kept, missing, width), ...rows];
  }

  /** Those that gave way in the head, in a column. */
  #furtherDrawings(): Block[] {
    const parts = this.#telling.sections.flatMap((one) => one.parts.filter((part) => part.kind === "drawings"));
    return parts.flatMap((part) => {
      const gone = this.#givingWay(part);
      if (gone.length === 0) return [];
      const own = gone.flatMap((one) => this.#drawing(one, column, drawn.narrow));
      return [this.#heading(part.furtherHeading, column), ...this.#caption(part, gone, 0, column), ...own];
    });
  }

  #givingWay({ drawings }: DrawingsPart): readonly ReportDrawing[] {
    const goFirst = drawings.filter(({ givesWay }) => givesWay > 0).sort((a, b) => b.givesWay - a.givesWay);
    const gone = goFirst.slice(0, this.#without);
    return drawings.filter((drawing) => gone.includes(drawing));
  }

  /** @param missing so many are on no page, which is said */
  #caption({ captionOf }: DrawingsPart, shown: readonly ReportDrawing[], missing: number, width: number): Block[] {
    const small = { size: this.#size * 0.84, colour: tones.quiet.light };
    const notDrawn = missing === 0 ? "" : ` ${this.#words.testReport.noRoomFor(missing)}`;
    return this.#paragraph(captionOf(shown) + notDrawn, width, small).map(stayingWithNext);
  }

  #drawing({ title, description, draw }: ReportDrawing, width: number, drawnWidth: number): Block[] {
    const scene: Scene | null = draw(drawnWidth, this.#tallness);
    if (scene === null) return [];
    const name = this.#lines(title, width, { face: "bold", size: this.#size * 0.95 });
    return [
      {
        height: name.height + 2 + (scene.height * width) / scene.width,
        gap: this.#size * 0.6,
        staysWithNext: false,
        draw: (paper, left, top) => {
          paper.part("P", () => writeLines(paper, name, left, top));
          paper.part(
            "Figure",
            () => sceneToPaper(scene, paper, left, top + name.height + 2, width),
            `${title}. ${description}`,
          );
        },
      },
    ];
  }

  // Advice

  /** With its caution: never one without the other. */
  #advice({ title, text, note, caution }: CheckTelling, number: number, width: number): Block {
    const indent = this.#size * 1.5;
    const inner = width - indent;
    const mark = this.#lines(`${number}`, indent, { face: "bold" });
    const small = { size: this.#size * 0.9 };
    const told = [
      this.#lines(title, inner, { face: "bold" }),
      this.#lines(text, inner),
      ...(note === "" ? [] : [this.#lines(note, inner, { ...small, colour: tones.quiet.light })]),
    ];
    const care = caution === null ? [] : this.#caution(caution, inner - 12, small);
    const toldHeight = heightOf(told);
    const careHeight = care.length === 0 ? 0 : heightOf(care) + 6;
    return {
      height: toldHeight + (careHeight === 0 ? 0 : careHeight + 3),
      gap: this.#size * 0.6,
      staysWithNext: false,
      draw: (paper, left, top) => {
        paper.part("P", () => {
          writeLines(paper, mark, left, top);
          stackLines(paper, told, left + indent, top);
        });
        if (careHeight === 0) return;
        const from = top + toldHeight + 3;
        paper.ornament(() => {
          paper.area(
            boxPath({ left: left + indent, top: from, width: inner, height: careHeight }),
            tones["care-paper"].light,
          );
          paper.area(boxPath({ left: left + indent, top: from, width: 2.5, height: careHeight }), tones.care.light);
        });
        paper.part("P", () => stackLines(paper, care, left + indent + 8, from + 3));
      },
    };
  }

  #caution(caution: CautionTelling, width: number, small: { size: number }): Lines[] {
    const { report } = this.#words;
    const care = { ...small, face: "bold", colour: tones.care.light } as const;
    const { full, again } = cautionParts(caution);
    return [
      ...full.flatMap(({ about, text }, index) => [
        { ...this.#lines(report.cautionAbout(about), width, care), above: index === 0 ? 0 : this.#size * 0.3 },
        this.#lines(text, width, small),
      ]),
      ...(full.length === 0 ? [] : [this.#lines(caution.close, width, small)]),
      ...(again.length === 0 ? [] : [this.#lines(report.cautionAgain(again), width, care)]),
    ];
  }

  // The foot

  #signatures(names: readonly string[]): Block {
    const each = (across - gutter * (names.length - 1)) / names.length;
    const lines = names.map((name) => this.#lines(name, each, { size: this.#size * 0.9, colour: tones.quiet.light }));
    const room = 30;
    return {
      height: room + Math.max(...lines.map(({ height }) => height)),
      gap: 10,
      staysWithNext: true,
      draw: (paper, left, top) =>
        lines.forEach((name, index) => {
          const from = left + index * (each + gutter);
          rule(paper, from, top + room - 3, each, tones.text.light);
          paper.part("P", () => writeLines(paper, name, from, top + room));
        }),
    };
  }
}

type DrawingsPart = Extract<ReportPart, { kind: "drawings" }>;

/** A paragraph or list of more lines than this may be parted, a paragraph into pieces of so many. */
const longParagraph = 14;
const longPiece = 7;
