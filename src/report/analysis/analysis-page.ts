// One self-contained HTML page: a letter about one fridge, or several letters one after the other. It
// fetches nothing and runs no script; every drawing stands beside its words and its readings as a table.

import { msPerHour } from "../../schema/index.ts";
import type { Analysis, StretchFinding } from "../../science/index.ts";
import type { ReportContext } from "../context.ts";
import { describeReadings, describeRun, letteredEvents, letterOf } from "../drawing/drawing-words.ts";
import { drawnRun, type RunCurves, runCurves, runDrawing, runPatterns } from "../drawing/run-drawing.ts";
import { type LetteredEvent, linesToDraw, stretchDrawing } from "../drawing/stretch-drawing.ts";
import { evenly } from "../drawing/thin.ts";
import { type Html, html, raw } from "../page/html.ts";
import {
  checkItem,
  figureOf,
  footer,
  heading,
  lettersPage,
  listed,
  numbersTable,
  type PageLetter,
  type PageWriter,
  readingsTable,
  section,
  sentences,
  tableRows,
} from "../page/page-parts.ts";
import { handOf, words } from "../words/index.ts";
import { logsOf, type Telling, tellAnalysis } from "./analysis-telling.ts";
import type { StretchTelling } from "./stretch-telling.ts";

/** One fridge on the page. */
export interface FridgePage {
  readonly title: string;
  readonly analysis: Analysis;
  readonly context: ReportContext;
}

/** The whole page. The first fridge's language is that of the page. @throws RangeError for no fridge at all. */
export const analysisPage = (fridges: FridgePage | readonly FridgePage[]): string =>
  lettersPage(("analysis" in fridges ? [fridges] : fridges).map(analysisLetter));

/** One fridge's letter, to stand on a page with others. */
export const analysisLetter = (fridge: FridgePage): PageLetter => ({
  title: fridge.title,
  language: fridge.context.language,
  write: (level, id) => letter(fridge, level, id),
});

/** What every part of one fridge's letter needs. */
export interface AnalysisWriter extends PageWriter {
  readonly events: readonly LetteredEvent[];
  readonly utcOffsetMinutes: number;
}

/** @param level of the letter's own heading; `id` is unlike any other letter's on the page. */
export function analysisWriter(
  analysis: Analysis,
  { language, utcOffsetMinutes, degrees }: ReportContext,
  level: number,
  id: string,
): AnalysisWriter {
  const own = words(language);
  return {
    words: own,
    report: own.report,
    hand: handOf(language, utcOffsetMinutes, degrees),
    level,
    id,
    events: letteredEvents(analysis),
    utcOffsetMinutes,
  };
}

function letter({ title, analysis, context }: FridgePage, level: number, id: string): Html {
  const telling = tellAnalysis(analysis, context);
  const writer = analysisWriter(analysis, context, level, id);
  const { report } = writer;
  return html`<article aria-labelledby="${id}">
${heading(writer, 0, title, id)}
${particulars([...(title === telling.title ? [] : [telling.title]), ...(telling.when === "" ? [] : [telling.when])])}
${verdicts(telling, writer)}
${listed(writer, report.warningsHeading, telling.warnings)}
${causes(telling, writer)}
${checks(telling, writer)}
${condemning(telling, writer)}
${runFigures(analysis, writer)}
${telling.sources.map(
  (source, index) => html`<section>
${heading(writer, 1, source.heading)}
${sentences(source.reasons)}
${source.stretches.map((stretch, at) => stretchSection(stretch, writer, `${id}-s${index + 1}-${at + 1}`))}
</section>
`,
)}
${otherStretches(telling, writer)}
${keepsUp(telling, writer)}
${events(telling, writer)}
${listed(writer, report.rejectedHeading, telling.rejected.length === 0 ? [report.noRejected] : [...telling.rejected, report.rejectedNote])}
${telling.knownGoodAdds === null ? "" : section(writer, report.knownGoodHeading, html`<p>${telling.knownGoodAdds}</p>`)}
${footer(writer, telling)}
</article>
`;
}

/** What the title does not say yet. */
const particulars = (texts: readonly string[]): Html =>
  texts.length === 0 ? raw("") : html`<p class="when">${texts.join(", ")}</p>`;

/** A source a line: good, weak, no cooling, cannot say yet. */
export function verdicts({ headlines }: Telling, { report }: AnalysisWriter): Html {
  if (headlines.length === 0) return html`<p>${report.noStretch}</p>`;
  return html`<ul class="verdicts">${headlines.map(
    ({ on, verdict, verdictName, detail }) =>
      html`<li>${on}: <span class="verdict ${verdict}">${verdictName}</span>. ${report.sentenceOf(detail)}</li>\n`,
  )}</ul>`;
}

function stretchSection(stretch: StretchTelling, writer: AnalysisWriter, id: string): Html {
  const verdict = stretch.verdictName === null ? "" : `: ${stretch.verdictName}`;
  return html`<section>
${heading(writer, 2, `${stretch.heading}${verdict}`)}
<p class="particulars">${stretch.particulars}</p>
${sentences(stretch.reasons)}
${stretchFigure(stretch, writer, id)}
${stretchNumbers(stretch, writer)}
</section>
`;
}

/** What the evidence was figured from, folded away on a screen; on paper it stands open. */
function stretchNumbers(stretch: StretchTelling, writer: AnalysisWriter): Html {
  const { numbers, numberNotes, facts, allowances } = stretch;
  if (numbers.length + numberNotes.length + facts.length + allowances.length === 0) return raw("");
  const { numbersCaption, numbersSummary } = writer.report;
  return html`<details class="in-print"><summary>${numbersSummary(allowances.length > 0)}</summary>
${numbersTable(numbersCaption(stretch.finding.baselineFit !== null), stretch, writer)}
${facts.length === 0 ? "" : html`<dl>${facts.map(({ name, text }) => html`<dt>${name}</dt><dd>${text}</dd>`)}</dl>`}
<div class="note">${sentences(allowances)}</div>
</details>`;
}

function otherStretches({ otherStretches: others }: Telling, writer: AnalysisWriter): Html {
  if (others.length === 0) return raw("");
  const sections = others.map((stretch, index) => stretchSection(stretch, writer, `${writer.id}-off${index + 1}`));
  return section(writer, writer.report.otherStretchesHeading, html`${sections}`);
}

function keepsUp(telling: Telling, writer: AnalysisWriter): Html {
  if (telling.keepsUp.length === 0) return raw("");
  const paragraphs = telling.keepsUp.map(
    ({ sentences, reasons }) => html`<p>${sentences.join(" ")}</p>
<p class="note">${reasons.join(" ")}</p>
`,
  );
  return section(
    writer,
    writer.report.keepsUpHeading,
    html`${paragraphs}<p class="note">${telling.food.join(" ")}</p>`,
  );
}

function causes({ causes: rows }: Telling, writer: AnalysisWriter): Html {
  const { report } = writer;
  if (rows.length === 0) return section(writer, report.causesHeading, html`<p>${report.noCauses}</p>`);
  return section(
    writer,
    report.causesHeading,
    html`<table class="causes">
<thead><tr><th scope="col">${report.causeColumn}</th><th scope="col">${report.shareColumn}</th></tr></thead>
<tbody>${rows.map(({ share, name }) => html`<tr><th scope="row">${name}</th><td>${share}</td></tr>`)}</tbody>
</table>
<p class="note">${report.causesNote}</p>`,
  );
}

/** What to check next, each with its caution. */
export function checks({ checks: all }: Telling, writer: AnalysisWriter): Html {
  const { report } = writer;
  if (all.length === 0) return section(writer, report.checksHeading, html`<p>${report.noChecks}</p>`);
  return section(
    writer,
    report.checksHeading,
    html`<ol class="checks">${all.map((check) => checkItem(check, writer))}</ol>`,
  );
}

function condemning({ proofs }: Telling, writer: AnalysisWriter): Html {
  if (proofs.length === 0) return raw("");
  const { condemningHeading, condemningNote } = writer.report;
  const items = proofs.map((proof) => checkItem(proof, writer));
  return section(writer, condemningHeading, html`<p>${condemningNote}</p><ol class="checks">${items}</ol>`);
}

function events(telling: Telling, writer: AnalysisWriter): Html {
  const { report } = writer;
  if (telling.events.length === 0) return section(writer, report.eventsHeading, html`<p>${report.noEvents}</p>`);
  const items = telling.events.map(
    (event, index) => html`<li><span class="letter">${letterOf(index)}</span>${event}</li>\n`,
  );
  return section(writer, report.eventsHeading, html`<ul class="events">${items}</ul>`);
}

// Drawings -------------------------------------------------------------------------------------------

function stretchFigure({ finding, name }: StretchTelling, writer: AnalysisWriter, id: string): Html {
  const { chart } = writer.report;
  const { curves } = finding;
  const captions = [
    chart.caption(linesToDraw(finding).map(({ ink }) => chart.patterns[ink])),
    ...(curves.residual.some(Number.isFinite) ? [chart.missesCaption] : []),
  ];
  return figureOf(
    {
      id,
      title: chart.stretchTitle(name),
      description: describeReadings(curves, writer),
      caption: captions.join(" "),
      draw: (width) => stretchDrawing(finding, writer.events, writer, width),
      table: stretchTable(finding, writer),
    },
    writer,
  );
}

/** The whole of every log as a drawing. */
export function runFigures(analysis: Analysis, writer: AnalysisWriter): Html {
  const { chart } = writer.report;
  const figures = logsOf(analysis).map((log, index) => {
    const run = drawnRun(analysis, log, writer.events);
    return figureOf(
      {
        id: `${writer.id}-run${index + 1}`,
        title: chart.runTitle(log),
        description: describeRun(run, writer),
        caption: `${chart.runCaption} ${chart.caption(runPatterns(run).map((ink) => chart.patterns[ink]))}`,
        draw: (width) => runDrawing(run, writer, writer.utcOffsetMinutes, width),
        table: runTable(runCurves(run.stretches), run.stretches, writer),
      },
      writer,
    );
  });
  return html`${figures}`;
}

function stretchTable({ curves, startMs }: StretchFinding, { report: { chart }, hand }: AnalysisWriter): Html {
  const { columns } = chart;
  const figure = (value: number) => (Number.isFinite(value) ? hand.figure(value, "Cel", 1) : chart.missing);
  const bandOf = (i: number) =>
    Number.isFinite(curves.bandLow[i] + curves.bandHigh[i])
      ? hand.range(figure(curves.bandLow[i]), figure(curves.bandHigh[i]))
      : chart.missing;
  return readingsTable(
    chart.tableCaption(hand),
    [
      columns.clock,
      columns.hours,
      columns.cabinet,
      columns.evaporator,
      columns.ambient,
      columns.fitted,
      columns.band,
      columns.residual,
    ],
    evenly(curves.hours.length, tableRows).map((i) => [
      hand.clock(startMs + curves.hours[i] * msPerHour),
      hand.number(curves.hours[i], 2),
      figure(curves.cabinet[i]),
      figure(curves.evaporator[i]),
      figure(curves.ambient[i]),
      figure(curves.fitted[i]),
      bandOf(i),
      Number.isFinite(curves.residual[i]) ? hand.figure(curves.residual[i], "K", 2) : chart.missing,
    ]),
  );
}

function runTable(curves: RunCurves, stretches: readonly StretchFinding[], writer: AnalysisWriter): Html {
  const {
    report: { chart },
    hand,
    words: own,
  } = writer;
  const { columns } = chart;
  const figure = (value: number) => (Number.isFinite(value) ? hand.figure(value, "Cel", 1) : chart.missing);
  const present = Array.from(curves.hours.keys()).filter((i) => Number.isFinite(curves.hours[i]));
  return readingsTable(
    chart.runTableCaption(hand),
    [columns.clock, columns.cabinet, columns.evaporator, columns.ambient, columns.stretch],
    evenly(present.length, tableRows).map((row) => {
      const i = present[row];
      const unixMs = curves.startMs + curves.hours[i] * msPerHour;
      const within = stretches.find((stretch) => unixMs >= stretch.startMs && unixMs <= stretch.endMs);
      return [
        hand.moment(unixMs),
        figure(curves.cabinet[i]),
        figure(curves.evaporator[i]),
        figure(curves.ambient[i]),
        within === undefined ? chart.missing : own.names.onSource(within.source),
      ];
    }),
  );
}
