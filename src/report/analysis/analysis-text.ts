// The printed verdict: the telling laid out for a terminal. Verdicts first, then the evidence, then what
// to do about it. Colour is never the only sign: every verdict is a word.

import type { Verdict } from "../../schema/documents/index.ts";
import type { Analysis } from "../../science/index.ts";
import type { ReportContext } from "../context.ts";
import { type Paint, terminalChart } from "../terminal/terminal-chart.ts";
import { columns, hang, padEnd, wrap } from "../terminal/text-layout.ts";
import {
  bullets,
  checkLines,
  foot,
  heading,
  listed,
  margin,
  numbersTable,
  type Printer,
  printer,
  section,
  type TextOptions,
  textOf,
} from "../terminal/text-parts.ts";
import { type Telling, tellAnalysis } from "./analysis-telling.ts";
import type { StretchTelling } from "./stretch-telling.ts";

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
    ...condemning(telling, page),
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
  return textOf(lines);
}

/** So many reasons of a stretch carry its verdict; the rest stand in the whole report. */
const reasonsInBrief = 5;

/**
 * The verdicts with a drawing and the weightiest reasons of each source's newest stretch, and the likely causes: for reading
 * several fridges one after the other. What to check next, with its cautions, is left to the whole report.
 */
export function analysisBrief(analysis: Analysis, context: ReportContext, options: TextOptions): string {
  const telling = tellAnalysis(analysis, context);
  const page = printer(context, options);
  const newest = telling.sources.flatMap(({ heading, stretches }) => {
    const stretch = stretches.at(-1);
    if (stretch === undefined) return [];
    const chart = terminalChart(stretch.finding, page, page.width - margin.length, paintOf(page));
    return [
      ...section(heading, page),
      ...chart.map((line) => margin + line),
      "",
      ...bullets(stretch.reasons.slice(0, reasonsInBrief), page),
    ];
  });
  return textOf([...heading(telling, page), ...verdicts(telling, page), ...newest, ...causes(telling, page)]);
}

/** A source a line: good, weak, no cooling, cannot say yet. */
export function verdicts(telling: Telling, page: Printer): string[] {
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
  // The answer, and under it what it rests on: nobody reads eight sentences to find the first two.
  const lines = telling.keepsUp.flatMap(({ sentences, reasons }) => [
    ...bullets([sentences.join(" ")], page),
    ...hang(`${margin}  `, reasons.join(" "), page.width).map(page.colours.dim),
  ]);
  return [...section(page.report.keepsUpHeading, page), ...lines, ...bullets(telling.food, page)];
}

function causes({ causes }: Telling, page: Printer): string[] {
  const { report, width, colours } = page;
  if (causes.length === 0) return [...section(report.causesHeading, page), ...hang(margin, report.noCauses, width)];
  const lines = causes.flatMap(({ share, name }) => hang(`${margin}${share.padStart(5)}  `, name, width));
  return [...section(report.causesHeading, page), ...lines, ...hang(margin, report.causesNote, width).map(colours.dim)];
}

/** What to check next, each with its caution. */
export function nextChecks({ checks }: Telling, page: Printer): string[] {
  const { report, width } = page;
  if (checks.length === 0) return [...section(report.checksHeading, page), ...hang(margin, report.noChecks, width)];
  return [
    ...section(report.checksHeading, page),
    ...checks.flatMap((check, index) => checkLines(check, index + 1, page)),
  ];
}

function condemning({ proofs }: Telling, page: Printer): string[] {
  if (proofs.length === 0) return [];
  return [
    ...section(page.report.condemningHeading, page),
    ...hang(margin, page.report.condemningNote, page.width),
    "",
    ...proofs.flatMap((proof, index) => checkLines(proof, index + 1, page)),
  ];
}
