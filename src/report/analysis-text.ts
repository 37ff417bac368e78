// The printed verdict: the telling laid out for a terminal. Verdicts first, then the evidence, then what
// to do about it. Colour is never the only sign: every verdict is a word.

import { createColors } from "picocolors";
import type { Verdict } from "../schema/index.ts";
import type { Analysis } from "../science/index.ts";
import type { ReportContext } from "./context.ts";
import { type CheckTelling, type StretchTelling, type Teller, type Telling, tellAnalysis } from "./telling.ts";
import { type Paint, terminalChart } from "./terminal-chart.ts";
import { columns, hang, padEnd, visibleLength, wrap } from "./text-layout.ts";
import { handOf, words } from "./words/index.ts";

export interface TextOptions {
  readonly colour: boolean;
  /** Characters per line; lines longer than 100 are hard to read, so more is not used. */
  readonly width: number;
}

/** The whole report as text, ending with a line break. */
export function analysisText(analysis: Analysis, context: ReportContext, options: TextOptions): string {
  const telling = tellAnalysis(analysis, context);
  const page = printer(context, options);
  const lines = [
    ...heading(telling, page),
    ...verdicts(telling, page),
    ...listed(page.report.warningsHeading, telling.warnings, page),
    ...evidence(telling, page),
    ...keepsUp(telling, page),
    ...causes(telling, page),
    ...nextChecks(telling, page),
    ...section(page.report.eventsHeading, page),
    ...bullets(telling.events.length === 0 ? [page.report.noEvents] : telling.events, page),
    ...section(page.report.rejectedHeading, page),
    ...bullets(
      telling.rejected.length === 0 ? [page.report.noRejected] : [...telling.rejected, page.report.rejectedNote],
      page,
    ),
    ...listed(page.report.knownGoodHeading, telling.knownGoodAdds === null ? [] : [telling.knownGoodAdds], page),
    ...foot(telling, page),
  ];
  return `${lines
    .map((line) => line.trimEnd())
    .join("\n")
    .replaceAll("\u00a0", " ")}\n`;
}

/** What every part of the layout needs. */
interface Printer extends Teller {
  readonly report: Teller["words"]["report"];
  readonly width: number;
  readonly colours: ReturnType<typeof createColors>;
}

function printer(context: ReportContext, { colour, width }: TextOptions): Printer {
  const own = words(context.language);
  return {
    words: own,
    report: own.report,
    hand: handOf(context.language, context.utcOffsetMinutes),
    width: Math.min(Math.max(width, 40), 100),
    colours: createColors(colour),
  };
}

const margin = "  ";

function heading({ title, when }: Telling, { colours, width }: Printer): string[] {
  return [...wrap(title, width).map(colours.bold), ...(when === "" ? [] : wrap(when, width).map(colours.dim))];
}

function section(title: string, { colours }: Printer): string[] {
  return ["", colours.bold(title), colours.dim("─".repeat(visibleLength(title)))];
}

function verdicts(telling: Telling, page: Printer): string[] {
  const { report, width, colours } = page;
  if (telling.headlines.length === 0) return ["", ...wrap(report.noStretch, width)];
  const onWidth = Math.max(...telling.headlines.map((headline) => headline.on.length));
  const verdictWidth = Math.max(...telling.headlines.map((headline) => headline.verdictName.length));
  const lines = telling.headlines.flatMap(({ on, verdict, verdictName, detail }) =>
    hang(
      `${margin}${padEnd(on, onWidth)}  ${padEnd(colours.bold(ofVerdict(verdict, page)(verdictName.toUpperCase())), verdictWidth)}  `,
      detail,
      width,
    ),
  );
  return ["", ...lines];
}

const ofVerdict = (verdict: Verdict | null, { colours }: Printer) =>
  verdict === "sound"
    ? colours.green
    : verdict === "weak"
      ? colours.yellow
      : verdict === "not-cooling"
        ? colours.red
        : colours.cyan;

function evidence(telling: Telling, page: Printer): string[] {
  return [
    ...telling.sources.flatMap((source) => [
      ...section(source.heading, page),
      ...bullets(source.reasons, page),
      ...source.stretches.flatMap((stretch) => stretchLines(stretch, page)),
    ]),
    ...telling.otherStretches.flatMap((stretch, index) => [
      ...(index === 0 ? section(page.report.otherStretchesHeading, page) : []),
      ...stretchLines(stretch, page),
    ]),
    ...listed(page.report.showsHeading, telling.showing, page),
  ];
}

function stretchLines(stretch: StretchTelling, page: Printer): string[] {
  const { colours, width } = page;
  const chart = terminalChart(stretch.finding, page, width - margin.length, paintOf(page));
  const verdict = stretch.verdictName === null ? "" : `: ${stretch.verdictName}`;
  return [
    "",
    ...wrap(`${stretch.heading}${verdict}`, width - 2).map((line) => margin + colours.underline(line)),
    ...hang(margin, stretch.particulars, width).map(colours.dim),
    ...(chart.length === 0 ? [] : ["", ...chart.map((line) => margin + line)]),
    ...(stretch.reasons.length === 0 ? [] : ["", ...bullets(stretch.reasons, page)]),
    ...stretch.allowances.flatMap((allowance) => hang(`${margin}· `, allowance, width)).map(colours.dim),
    ...numbersTable(stretch, page),
    ...facts(stretch, page),
  ];
}

const paintOf =
  ({ colours }: Printer): Paint =>
  (text, ink) =>
    ({ cabinet: colours.bold, evaporator: colours.cyan, ambient: colours.yellow, fitted: colours.magenta })[ink](text);

/** Each number over its interval, this stretch beside known-good. */
function numbersTable({ numbers, numberNotes }: StretchTelling, page: Printer): string[] {
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
  return ["", ...table, ...hang(margin, report.sentence(phrases.join("; ")), width), ...notes];
}

function facts({ facts }: StretchTelling, { width }: Printer): string[] {
  if (facts.length === 0) return [];
  const nameWidth = Math.min(Math.max(...facts.map((fact) => fact.name.length)), 14);
  const lines = facts.flatMap(({ name, text }) =>
    columns([name, text], [nameWidth, width - nameWidth - margin.length - 2]).map((line) => margin + line),
  );
  return ["", ...lines];
}

function keepsUp(telling: Telling, page: Printer): string[] {
  if (telling.keepsUp.length === 0) return [];
  const lines = telling.keepsUp.map(({ sentences, reasons }) => [...sentences, ...reasons].join(" "));
  return [...section(page.report.keepsUpHeading, page), ...bullets([...lines, ...telling.food], page)];
}

function causes({ causes }: Telling, page: Printer): string[] {
  const { report, width, colours } = page;
  if (causes.length === 0) return [];
  const lines = causes.flatMap(({ share, name }) => hang(`${margin}${share.padStart(5)}  `, name, width));
  return [...section(report.causesHeading, page), ...lines, ...hang(margin, report.causesNote, width).map(colours.dim)];
}

function nextChecks({ checks }: Telling, page: Printer): string[] {
  const { report, width } = page;
  if (checks.length === 0) return [...section(report.checksHeading, page), ...hang(margin, report.noChecks, width)];
  return [
    ...section(report.checksHeading, page),
    ...checks.flatMap((check, index) => checkLines(check, index + 1, page)),
  ];
}

function checkLines({ title, text, note, caution }: CheckTelling, number: number, page: Printer): string[] {
  const { report, width, colours } = page;
  const indent = `${margin}   `;
  const titleLines = hang(`${margin}${number}. `, title, width).map(colours.bold);
  const lines = [...titleLines, ...hang(indent, `${text} ${note}`, width)];
  const gap = number === 1 ? [] : [""];
  if (caution === null) return [...gap, ...lines];
  const careful = caution.subjects.flatMap(({ about, text: care }) =>
    hang(`${indent}! `, `${report.cautionAbout(about)} ${care}`, width),
  );
  return [...gap, ...lines, ...[...careful, ...hang(`${indent}  `, caution.close, width)].map(colours.yellow)];
}

function foot({ foot: sentences, inputs }: Telling, page: Printer): string[] {
  const { width, colours, report } = page;
  return [
    ...section(report.footHeading, page),
    ...wrap(sentences.join(" "), width - 2).map((line) => margin + colours.dim(line)),
    ...inputs.flatMap((input) => hang(margin, input, width).map(colours.dim)),
  ];
}

const bullets = (texts: readonly string[], { width }: Printer) =>
  texts.flatMap((text) => hang(`${margin}· `, text, width));

/** A section that is left out when it has nothing to say. */
const listed = (title: string, texts: readonly string[], page: Printer) =>
  texts.length === 0 ? [] : [...section(title, page), ...bullets(texts, page)];
