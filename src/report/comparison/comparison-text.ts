// Before and after for the terminal: the sentence first, then the ratios against the margin, then source by source.

import type { Change } from "../../schema/documents/index.ts";
import type { RunsCompared, SourceChange } from "../../science/before-after/index.ts";
import { plotWidth, terminalPlot } from "../terminal/terminal-plot.ts";
import { hang, padEnd, wrap } from "../terminal/text-layout.ts";
import {
  bullets,
  foot,
  heading,
  margin as indent,
  listed,
  numbersTable,
  type Printer,
  printer,
  section,
  type TextOptions,
  textOf,
} from "../terminal/text-parts.ts";
import type { ComparisonContext } from "./comparison-context.ts";
import { curveAxes, ratioAxis, ratioLimits } from "./comparison-drawing.ts";
import {
  type ChangeTelling,
  type ComparisonTelling,
  curveLines,
  type RatioBar,
  tellComparison,
} from "./comparison-telling.ts";

/** The whole comparison as text, ending with a line break. */
export function comparisonText(compared: RunsCompared, context: ComparisonContext, options: TextOptions): string {
  const telling = tellComparison(compared, context);
  const page = printer(context, options);
  const { comparison, report } = page.words;
  const hasSheets = !compared.warnings.some(({ code }) => code === "no-run-sheet");
  const differences = telling.differences.length === 0 && hasSheets ? [comparison.noDifferences] : telling.differences;
  return textOf([
    ...heading(telling, page),
    "",
    ...wrap(telling.sentence, page.width).map(page.colours.bold),
    ...wrap(telling.cannotSee, page.width),
    ...headlines(telling, page),
    ...ratioBars(telling.bars, compared.margin, page),
    ...listed(comparison.differencesHeading, differences, page),
    ...listed(report.warningsHeading, telling.warnings, page),
    ...telling.sources.flatMap((source) => sourceLines(source, page)),
    ...foot(telling, page),
  ]);
}

function headlines({ headlines: all }: ComparisonTelling, page: Printer): string[] {
  if (all.length === 0) return [];
  const { width, colours } = page;
  const onWidth = Math.max(...all.map(({ on }) => on.length));
  const changeWidth = Math.max(...all.map(({ changeName }) => changeName.length));
  const lines = all.flatMap(({ on, change, changeName, detail }) =>
    hang(
      `${indent}${padEnd(on, onWidth)}  ${padEnd(colours.bold(ofChange(change, page)(changeName.toUpperCase())), changeWidth)}  `,
      detail,
      width,
    ),
  );
  return ["", ...lines];
}

const ofChange = (change: Change, { colours }: Printer) =>
  ({ better: colours.green, same: colours.green, worse: colours.yellow, undecided: colours.cyan })[change];

/** Intervals as lines over the range that counts as the same. */
function ratioBars(bars: readonly RatioBar[], margin: number, page: Printer): string[] {
  if (bars.length === 0) return [];
  const { comparison } = page.words;
  const labelWidth = Math.max(...bars.map(({ short }) => short.length));
  const wide = page.width - indent.length - labelWidth - 2;
  const axis = ratioAxis(bars, margin, Math.floor(wide / 9));
  const columnOf = (percent: number) => Math.min(wide - 1, Math.max(0, Math.round(axis.share(percent) * (wide - 1))));
  const { same, changed } = ratioLimits(margin);
  const ground: string[] = Array.from({ length: wide }, (_, column) =>
    column >= columnOf(same[0]) && column <= columnOf(same[1]) ? "░" : " ",
  );
  for (const limit of changed) ground[columnOf(limit)] = "┊";
  ground[columnOf(100)] = "│";
  const before = " ".repeat(indent.length + labelWidth + 2);
  const rows = bars.map(({ short, ratio }) => {
    const cells = [...ground];
    const [low, high] = [columnOf(100 * (ratio.low ?? 0)), ratio.high === null ? wide - 1 : columnOf(100 * ratio.high)];
    cells.fill("─", low, high + 1);
    if (ratio.low !== null) cells[low] = "├";
    if (ratio.high !== null) cells[high] = "┤";
    cells[columnOf(100 * ratio.value)] = "◆";
    return `${indent}${padEnd(short, labelWidth)}  ${cells.join("")}`;
  });
  const figures = new Array<string>(wide + 4).fill(" ");
  for (const tick of axis.ticks) {
    const text = page.hand.number(tick, axis.decimals);
    const from = Math.max(0, Math.min(wide - text.length, columnOf(tick) - Math.floor(text.length / 2)));
    [...text].forEach((character, i) => {
      figures[from + i] = character;
    });
  }
  return [
    ...section(comparison.ratiosTitle, page),
    before + ground.join(""),
    ...rows,
    before + figures.join("").trimEnd(),
    ...hang(indent, comparison.barsLegend(margin, page.hand), page.width).map(page.colours.dim),
  ];
}

function sourceLines(telling: ChangeTelling, page: Printer): string[] {
  const chart = curvesChart(telling.finding, page, page.width - indent.length);
  return [
    ...section(telling.heading, page),
    ...(chart.length === 0 ? [] : [...chart.map((line) => indent + line), ""]),
    ...bullets(telling.reasons, page),
    ...numbersTable(telling, page),
  ];
}

const samples = { before: "⠒⠒⠂⠒⠒⠂", after: "⠒⠒⠒⠒" } as const;
const patterns = { before: (column: number) => column % 8 < 5, after: () => true } as const;

function curvesChart(change: SourceChange, page: Printer, width: number): string[] {
  const { comparison, report } = page.words;
  const axes = curveAxes(change, page, { x: Math.floor(plotWidth(width) / 7), y: 6 });
  if (axes === null) return [];
  const lines = curveLines(change, page);
  const plotted = terminalPlot<"before" | "after">(
    {
      ...axes,
      title: comparison.curvesAxis(page.hand),
      hoursTitle: comparison.curvesHours,
      lines: lines.map(({ when, curve }) => ({
        ink: when,
        name: comparison.lines[when],
        sample: samples[when],
        pattern: patterns[when],
        hours: curve.hours,
        values: curve.belowAmbient,
      })),
      onset: lines.some(({ curve }) => curve.isFromOnset) ? { hours: 0, name: report.chart.coldBegan } : null,
    },
    page.hand,
    width,
    (text, ink) => ({ before: page.colours.yellow, after: page.colours.bold })[ink](text),
  );
  const isAligned = lines.every(({ curve }) => curve.isFromOnset);
  return isAligned ? plotted : [...plotted, ...wrap(report.sentence(comparison.fromSwitchOn), width)];
}
