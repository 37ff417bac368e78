// Before and after as a letter of an HTML page: the sentence first, then the ratios against the margin, what else
// differed, and each source with both its curves.

import type { RunsCompared } from "../../science/before-after/index.ts";
import { describeAligned } from "../drawing/drawing-words.ts";
import { type Html, html, raw } from "../page/html.ts";
import {
  figureOf,
  footer,
  heading,
  lettersPage,
  listed,
  numbersTable,
  type PageLetter,
  type PageWriter,
  readingsTable,
  tableRows,
} from "../page/page-parts.ts";
import { handOf, words } from "../words/index.ts";
import type { ComparisonContext } from "./comparison-context.ts";
import { curvesDrawing, ratiosDrawing } from "./comparison-drawing.ts";
import { type ChangeTelling, type ComparisonTelling, curveLines, tellComparison } from "./comparison-telling.ts";

/** One comparison on the page. */
export interface ComparisonPage {
  readonly title: string;
  readonly comparison: RunsCompared;
  readonly context: ComparisonContext;
}

/** The whole page of one comparison. */
export const comparisonPage = (page: ComparisonPage): string => lettersPage([comparisonLetter(page)]);

/** The comparison as a letter, to stand on a page with others. */
export const comparisonLetter = (page: ComparisonPage): PageLetter => ({
  title: page.title,
  language: page.context.language,
  write: (level, id) => letter(page, level, id),
});

function letter({ title, comparison: compared, context }: ComparisonPage, level: number, id: string): Html {
  const telling = tellComparison(compared, context);
  const own = words(context.language);
  const writer: PageWriter = {
    words: own,
    report: own.report,
    hand: handOf(context.language, context.utcOffsetMinutes, context.degrees),
    level,
    id,
  };
  const { comparison, report } = own;
  const hasSheets = !compared.warnings.some(({ code }) => code === "no-run-sheet");
  const differences = telling.differences.length === 0 && hasSheets ? [comparison.noDifferences] : telling.differences;
  return html`<article aria-labelledby="${id}">
${heading(writer, 0, title, id)}
<p class="when">${telling.title}${telling.when === "" ? "" : `, ${telling.when}`}</p>
<p class="in-a-sentence">${telling.sentence}</p>
<p class="note">${telling.cannotSee}</p>
${changes(telling, writer)}
${ratiosFigure(telling, compared.margin, writer)}
${listed(writer, comparison.differencesHeading, differences)}
${listed(writer, report.warningsHeading, telling.warnings)}
${telling.sources.map((source, index) => sourceSection(source, writer, `${id}-c${index + 1}`))}
${footer(writer, telling)}
</article>
`;
}

function changes({ headlines }: ComparisonTelling, { report }: PageWriter): Html {
  if (headlines.length === 0) return raw("");
  return html`<ul class="verdicts">${headlines.map(
    ({ on, change, changeName, detail }) =>
      html`<li>${on}: <span class="verdict ${change}">${changeName}</span>. ${report.sentenceOf(detail)}</li>\n`,
  )}</ul>`;
}

function ratiosFigure({ bars }: ComparisonTelling, margin: number, writer: PageWriter): Html {
  const { words: own, hand } = writer;
  const { comparison } = own;
  const { ratiosColumns: columns } = comparison;
  return figureOf(
    {
      id: `${writer.id}-ratios`,
      title: comparison.ratiosTitle,
      description: bars.map(({ name, ratio }) => comparison.barIs(name, ratio, hand)).join(" "),
      caption: comparison.ratiosCaption(margin, hand),
      draw: (width) => ratiosDrawing(bars, margin, writer, width),
      table: readingsTable(
        comparison.ratiosTitle,
        [columns.source, columns.ratio, columns.interval, columns.change],
        bars.map(({ name, ratio, change, isOverControl }) => [
          name,
          hand.value(ratio),
          hand.interval(ratio),
          isOverControl ? "" : comparison.changeNames[change],
        ]),
      ),
      summary: comparison.ratiosTable,
    },
    writer,
  );
}

function sourceSection(telling: ChangeTelling, writer: PageWriter, id: string): Html {
  return html`<section>
${heading(writer, 1, telling.heading)}
<p>${telling.reasons.join(" ")}</p>
${curvesFigure(telling, writer, id)}
${numbersTable(writer.words.comparison.numbersCaption, telling, writer)}
</section>
`;
}

function curvesFigure({ finding }: ChangeTelling, writer: PageWriter, id: string): Html {
  const { comparison } = writer.words;
  const lines = curveLines(finding, writer).filter(({ curve }) => curve.belowAmbient.some(Number.isFinite));
  const drawn = (["before", "after"] as const).filter((when) => lines.some((line) => line.when === when));
  const isAligned = lines.every(({ curve }) => curve.isFromOnset);
  return figureOf(
    {
      id,
      title: comparison.curvesTitle(finding.source),
      description: lines.map((line) => describeAligned(line, writer)).join(" "),
      caption: comparison.curvesCaption([
        ...drawn.map((when) => comparison.patterns[when]),
        ...(isAligned ? [] : [comparison.fromSwitchOn]),
      ]),
      draw: (width) => curvesDrawing(finding, writer, width),
      table: curvesTable(lines, writer),
    },
    writer,
  );
}

type CurveLine = ReturnType<typeof curveLines>[number];

/** All lines at the same hours, as each was read next to them. */
function curvesTable(lines: readonly CurveLine[], { words: { comparison, report }, hand }: PageWriter): Html {
  const first = Math.min(...lines.map(({ curve }) => curve.hours[0]));
  const last = Math.max(...lines.map(({ curve }) => curve.hours.at(-1) ?? first));
  const hours = Array.from({ length: tableRows }, (_, row) => first + ((last - first) * row) / (tableRows - 1));
  return readingsTable(
    comparison.curvesTable,
    [comparison.curvesColumns.hours, ...lines.map(({ name }) => name)],
    hours.map((hour) => [
      hand.number(hour, 2),
      ...lines.map(({ curve }) => {
        const row = curve.hours.findIndex((at) => at >= hour - 1e-9);
        const value = row < 0 ? Number.NaN : curve.belowAmbient[row];
        return Number.isFinite(value) ? hand.figure(value, "K", 1) : report.chart.missing;
      }),
    ]),
  );
}
