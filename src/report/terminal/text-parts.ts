// The parts that printed reports are made of: the width they keep to, headings, lists, tables of numbers.

import { createColors } from "picocolors";
import { type CautionTelling, type CheckTelling, cautionParts } from "../advice-telling.ts";
import type { Telling } from "../analysis/analysis-telling.ts";
import type { NumberRow } from "../analysis/stretch-telling.ts";
import type { Reader } from "../context.ts";
import { type Teller, tellerFor } from "../teller.ts";
import { columns, hang, plain, visibleLength, wrap } from "./text-layout.ts";

export interface TextOptions {
  readonly colour: boolean;
  /** Characters per line; lines longer than 100 are hard to read, so more is not used. */
  readonly width: number;
}

/** What every part of the layout needs. */
export interface Printer extends Teller {
  readonly report: Teller["words"]["report"];
  readonly width: number;
  readonly colours: ReturnType<typeof createColors>;
}

/** @param context in whose language and degrees and on whose clock to print. */
export function printer(context: Reader, { colour, width }: TextOptions): Printer {
  const teller = tellerFor(context);
  return {
    ...teller,
    report: teller.words.report,
    width: Math.min(Math.max(width, 40), 100),
    colours: createColors(colour),
  };
}

/** Before every line but headings. */
export const margin = "  ";

/** The lines as one text, ending with a line break; no-break spaces have done their work. */
export const textOf = (lines: readonly string[]): string =>
  `${plain(lines.map((line) => line.trimEnd()).join("\n"))}\n`;

/** What the report is of, and when. */
export function heading({ title, when }: Pick<Telling, "title" | "when">, { colours, width }: Printer): string[] {
  return [...wrap(title, width).map(colours.bold), ...(when === "" ? [] : wrap(when, width).map(colours.dim))];
}

export function section(title: string, { colours }: Printer): string[] {
  return ["", colours.bold(title), colours.dim("─".repeat(visibleLength(title)))];
}

/** Each number over its interval, one beside the other, and the notes that belong to them. */
export function numbersTable(
  { numbers, numberNotes }: { readonly numbers: readonly NumberRow[]; readonly numberNotes: readonly string[] },
  page: Printer,
): string[] {
  const { report, width, colours } = page;
  const notes = numberNotes.flatMap((note) => hang(margin, note, width));
  if (numbers.length === 0) return notes.length === 0 ? [] : ["", ...notes];
  const [{ cells: firstCells }] = numbers;
  const gap = width < 64 ? 1 : 2;
  const nameWidth = Math.max(...numbers.map((row) => row.name.length));
  const cellWidth = Math.min(22, Math.floor((width - margin.length - nameWidth) / firstCells.length) - gap);
  const widths = [nameWidth, ...firstCells.map(() => cellWidth)];
  const set = (cells: string[]) => columns(cells, widths, gap).map((line) => margin + line);
  const table = [
    ...set(["", ...firstCells.map(({ column }) => column)]).map(colours.dim),
    ...numbers.flatMap(({ name, unit, cells }) => [
      ...set([name, ...cells.map(({ value }) => value)]),
      ...set([unit, ...cells.map(({ interval }) => interval)])
        .filter((line) => line.trim() !== "")
        .map(colours.dim),
    ]),
  ];
  const phrases = numbers.map((row) => row.phrase).filter((phrase) => phrase !== "");
  const plainly = phrases.length === 0 ? [] : hang(margin, report.sentence(phrases.join("; ")), width);
  return ["", ...table, ...plainly, ...notes];
}

export const bullets = (texts: readonly string[], { width }: Printer) =>
  texts.flatMap((text) => hang(`${margin}· `, text, width));

/** A section that is left out when it has nothing to say. */
export const listed = (title: string, texts: readonly string[], page: Printer) =>
  texts.length === 0 ? [] : [...section(title, page), ...bullets(texts, page)];

/** A numbered piece of advice, its caution right below it. */
export function checkLines({ title, text, note, caution }: CheckTelling, number: number, page: Printer): string[] {
  const { width, colours } = page;
  const indent = `${margin}   `;
  const titleLines = hang(`${margin}${number}. `, title, width).map(colours.bold);
  const lines = [...titleLines, ...hang(indent, `${text} ${note}`.trimEnd(), width)];
  const gap = number === 1 ? [] : [""];
  if (caution === null) return [...gap, ...lines];
  return [...gap, ...lines, ...cautionLines(caution, indent, page)];
}

/** A caution in full; what stands in full further up is only named. */
export function cautionLines(caution: CautionTelling, indent: string, { report, width, colours }: Printer): string[] {
  const { full, again } = cautionParts(caution);
  return [
    ...full.flatMap(({ about, text }) => hang(`${indent}! `, `${report.cautionAbout(about)} ${text}`, width)),
    ...(full.length === 0 ? [] : hang(`${indent}  `, caution.close, width)),
    ...(again.length === 0 ? [] : hang(`${indent}! `, report.cautionAgain(again), width)),
  ].map(colours.yellow);
}

/** Where it all comes from. */
export function foot({ foot: sentences, inputs }: Pick<Telling, "foot" | "inputs">, page: Printer): string[] {
  const { width, colours, report } = page;
  return [
    ...section(report.footHeading, page),
    ...wrap(sentences.join(" "), width - 2).map((line) => margin + colours.dim(line)),
    ...inputs.flatMap((input) => hang(margin, input, width).map(colours.dim)),
  ];
}
