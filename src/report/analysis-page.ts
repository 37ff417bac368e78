// One self-contained HTML page: a letter about one fridge, or several letters one after the other. It
// fetches nothing and runs no script; every drawing stands beside its words and its readings as a table.

import type { Analysis, StretchFinding } from "../science/index.ts";
import type { ReportContext } from "./context.ts";
import { type Html, html, raw } from "./html.ts";
import { pageStyle } from "./page-style.ts";
import { type RunCurves, runCurves, runDrawing, runInks } from "./run-drawing.ts";
import type { Scene } from "./scene.ts";
import { sceneToSvg } from "./scene-to-svg.ts";
import { type LetteredEvent, linesToDraw, stretchDrawing } from "./stretch-drawing.ts";
import {
  type CheckTelling,
  logsOf,
  type NumberRow,
  type StretchTelling,
  type Teller,
  type Telling,
  tellAnalysis,
} from "./telling.ts";
import { evenly } from "./thin.ts";
import { handOf, words } from "./words/index.ts";

/** One fridge on the page. */
export interface FridgePage {
  readonly title: string;
  readonly analysis: Analysis;
  readonly context: ReportContext;
}

/** The whole page. The first fridge's language is that of the page. @throws RangeError for no fridge at all. */
export function analysisPage(fridges: FridgePage | readonly FridgePage[]): string {
  const all = "analysis" in fridges ? [fridges] : fridges;
  if (all.length === 0) throw new RangeError("a page needs at least one fridge");
  const { language } = all[0].context;
  const { pageTitle } = words(language).report;
  const many = all.length > 1;
  const title = many ? pageTitle : all[0].title;
  const letters = all.map((fridge, index) => letter(fridge, many ? 2 : 1, `f${index + 1}`));
  const body = many ? html`<h1>${pageTitle}</h1>\n${letters}` : letters;
  return html`<!doctype html>
<html lang="${language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${title}</title>
<style>${raw(pageStyle)}</style>
</head>
<body>
<main${many ? raw(' class="many"') : raw("")}>
${body}
</main>
</body>
</html>
`.text;
}

/** What every part of one fridge's letter needs. */
interface Writer extends Teller {
  readonly report: Teller["words"]["report"];
  /** Level of the fridge's own heading. */
  readonly level: number;
  /** Unlike any other fridge's on the page. */
  readonly id: string;
  readonly events: readonly LetteredEvent[];
  readonly utcOffsetMinutes: number;
}

function letter({ title, analysis, context }: FridgePage, level: number, id: string): Html {
  const telling = tellAnalysis(analysis, context);
  const own = words(context.language);
  const writer: Writer = {
    words: own,
    report: own.report,
    hand: handOf(context.language, context.utcOffsetMinutes),
    level,
    id,
    events: analysis.events.map(({ log, startMs, endMs }, index) => ({ letter: letterOf(index), log, startMs, endMs })),
    utcOffsetMinutes: context.utcOffsetMinutes,
  };
  const { report } = writer;
  return html`<article aria-labelledby="${id}">
${heading(writer, 0, title, id)}
<p class="when">${telling.title}${telling.when === "" ? "" : `, ${telling.when}`}</p>
${verdicts(telling, writer)}
${listed(writer, report.warningsHeading, telling.warnings)}
${runFigures(analysis, writer)}
${telling.sources.map(
  (source, index) => html`<section>
${heading(writer, 1, source.heading)}
<p>${source.reasons.join(" ")}</p>
${source.stretches.map((stretch, at) => stretchSection(stretch, writer, `${id}-s${index + 1}-${at + 1}`))}
</section>
`,
)}
${otherStretches(telling, writer)}
${keepsUp(telling, writer)}
${causes(telling, writer)}
${checks(telling, writer)}
${events(telling, writer)}
${listed(writer, report.rejectedHeading, telling.rejected.length === 0 ? [report.noRejected] : [...telling.rejected, report.rejectedNote])}
${telling.knownGoodAdds === null ? "" : section(writer, report.knownGoodHeading, html`<p>${telling.knownGoodAdds}</p>`)}
<footer>
${heading(writer, 1, report.footHeading)}
<p>${telling.foot.join(" ")}</p>
${telling.inputs.length === 0 ? "" : html`<ul>${telling.inputs.map((input) => html`<li><code>${input}</code></li>`)}</ul>`}
</footer>
</article>
`;
}

/** A heading so many steps below the fridge's own; h6 is the lowest there is. */
function heading({ level }: Writer, below: number, text: string, id?: string): Html {
  const tag = raw(`h${Math.min(level + below, 6)}`);
  const name = id === undefined ? raw("") : html` id="${id}"`;
  return html`<${tag}${name}>${text}</${tag}>`;
}

const section = (writer: Writer, title: string, body: Html) => html`<section>
${heading(writer, 1, title)}
${body}
</section>
`;

/** A section that is left out when it has nothing to say; a single sentence needs no list. */
function listed(writer: Writer, title: string, texts: readonly string[]): Html {
  if (texts.length === 0) return raw("");
  if (texts.length === 1) return section(writer, title, html`<p>${texts[0]}</p>`);
  return section(writer, title, html`<ul>${texts.map((text) => html`<li>${text}</li>`)}</ul>`);
}

function verdicts({ headlines }: Telling, { report }: Writer): Html {
  if (headlines.length === 0) return html`<p>${report.noStretch}</p>`;
  return html`<ul class="verdicts">${headlines.map(
    ({ on, verdict, verdictName, detail }) =>
      html`<li>${on}: <span class="verdict ${verdict}">${verdictName}</span>. ${report.sentenceOf(detail)}</li>\n`,
  )}</ul>`;
}

function stretchSection(stretch: StretchTelling, writer: Writer, id: string): Html {
  const verdict = stretch.verdictName === null ? "" : `: ${stretch.verdictName}`;
  return html`<section>
${heading(writer, 2, `${stretch.heading}${verdict}`)}
<p class="particulars">${stretch.particulars}</p>
${stretch.reasons.length === 0 ? "" : html`<p>${stretch.reasons.join(" ")}</p>`}
${stretch.allowances.length === 0 ? "" : html`<p class="note">${stretch.allowances.join(" ")}</p>`}
${stretchFigure(stretch, writer, id)}
${numbersTable(stretch, writer)}
${stretch.facts.length === 0 ? "" : html`<dl>${stretch.facts.map(({ name, text }) => html`<dt>${name}</dt><dd>${text}</dd>`)}</dl>`}
</section>
`;
}

function otherStretches({ otherStretches: others }: Telling, writer: Writer): Html {
  if (others.length === 0) return raw("");
  const sections = others.map((stretch, index) => stretchSection(stretch, writer, `${writer.id}-off${index + 1}`));
  return section(writer, writer.report.otherStretchesHeading, html`${sections}`);
}

function numbersTable({ numbers, numberNotes }: StretchTelling, { report }: Writer): Html {
  const notes = numberNotes.length === 0 ? raw("") : html`<p class="note">${numberNotes.join(" ")}</p>`;
  if (numbers.length === 0) return notes;
  const columnNames = [report.numberColumn, ...numbers[0].cells.map(({ column }) => column)];
  return html`<table class="numbers">
<caption>${report.numbersCaption}</caption>
<thead><tr>${columnNames.map((name) => html`<th scope="col">${name}</th>`)}</tr></thead>
${numbers.map((row) => numberRows(row, report))}</table>
${notes}`;
}

/** The figures, and under them what they show and what not. */
function numberRows({ name, unit, cells, phrase, shows, hides }: NumberRow, report: Writer["report"]): Html {
  const figures = cells.map(({ column, value, interval }) => {
    const under = interval === "" ? raw("") : html` <span class="interval">${interval}</span>`;
    return html`<td data-label="${column}">${value}${under}</td>`;
  });
  const plainly = phrase === "" ? "" : `${report.sentence(phrase)} `;
  return html`<tbody><tr><th scope="row">${name} <span class="unit">${unit}</span></th>${figures}</tr>
<tr class="shows"><td colspan="${cells.length + 1}">${plainly}${report.showsShort(shows, hides)}</td></tr></tbody>
`;
}

function keepsUp(telling: Telling, writer: Writer): Html {
  if (telling.keepsUp.length === 0) return raw("");
  const paragraphs = telling.keepsUp.map(
    ({ sentences, reasons }) => html`<p>${[...sentences, ...reasons].join(" ")}</p>`,
  );
  return section(
    writer,
    writer.report.keepsUpHeading,
    html`${paragraphs}<p class="note">${telling.food.join(" ")}</p>`,
  );
}

function causes({ causes: rows }: Telling, writer: Writer): Html {
  if (rows.length === 0) return raw("");
  const { report } = writer;
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

function checks({ checks: all }: Telling, writer: Writer): Html {
  const { report } = writer;
  if (all.length === 0) return section(writer, report.checksHeading, html`<p>${report.noChecks}</p>`);
  return section(
    writer,
    report.checksHeading,
    html`<ol class="checks">${all.map((check) => checkItem(check, writer))}</ol>`,
  );
}

function checkItem({ title, text, note, caution }: CheckTelling, { report }: Writer): Html {
  const careful =
    caution === null
      ? raw("")
      : html`<div class="caution">${caution.subjects.map(
          (subject) => html`<p><b>${report.cautionAbout(subject.about)}</b> ${subject.text}</p>`,
        )}<p>${caution.close}</p></div>`;
  return html`<li><strong>${title}</strong> ${text} <span class="note">${note}</span>${careful}</li>
`;
}

function events(telling: Telling, writer: Writer): Html {
  const { report } = writer;
  if (telling.events.length === 0) return section(writer, report.eventsHeading, html`<p>${report.noEvents}</p>`);
  const items = telling.events.map(
    (event, index) => html`<li><span class="letter">${letterOf(index)}</span>${event}</li>\n`,
  );
  return section(writer, report.eventsHeading, html`<ul class="events">${items}</ul>`);
}

// Drawings -------------------------------------------------------------------------------------------

/** Wide for paper and screens, narrow for telephones: the style sheet shows one of them. */
const drawingWidths = { wide: 720, narrow: 340 } as const;
const tableRows = 25;

interface Figure {
  readonly id: string;
  readonly title: string;
  readonly description: string;
  readonly caption: string;
  readonly draw: (width: number) => Scene | null;
  readonly table: Html;
}

function figureOf({ id, title, description, caption, draw, table }: Figure, { report, hand }: Writer): Html {
  const wide = draw(drawingWidths.wide);
  const narrow = draw(drawingWidths.narrow);
  if (wide === null || narrow === null) return raw("");
  const summary = report.chart.dataSummary(hand.count(tableRows, report.chart.rows));
  return html`<figure>
${sceneToSvg(wide, { id: `${id}-wide`, title, description, className: "wide" })}
${sceneToSvg(narrow, { id: `${id}-narrow`, title, description, className: "narrow" })}
<figcaption>${caption}</figcaption>
<details><summary>${summary}</summary>
<div class="scroll" tabindex="0" role="group" aria-label="${title}">${table}</div>
</details>
</figure>
`;
}

function stretchFigure({ finding, name }: StretchTelling, writer: Writer, id: string): Html {
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
      description: describe(curves, writer),
      caption: captions.join(" "),
      draw: (width) => stretchDrawing(finding, writer.events, writer, width),
      table: stretchTable(finding, writer),
    },
    writer,
  );
}

function runFigures(analysis: Analysis, writer: Writer): Html {
  const { chart } = writer.report;
  const figures = logsOf(analysis).map((log, index) => {
    const stretches = analysis.stretches.filter((stretch) => stretch.log === log);
    const curves = runCurves(stretches);
    return figureOf(
      {
        id: `${writer.id}-run${index + 1}`,
        title: chart.runTitle(log),
        description: describe(curves, writer),
        caption: `${chart.runCaption} ${chart.caption(runInks(curves).map((ink) => chart.patterns[ink]))}`,
        draw: (width) =>
          runDrawing(
            stretches,
            writer.events.filter((event) => event.log === log),
            writer,
            writer.utcOffsetMinutes,
            width,
          ),
        table: runTable(curves, stretches, writer),
      },
      writer,
    );
  });
  return html`${figures}`;
}

/** The drawing in words, for those who cannot see it. */
function describe(
  curves: Pick<RunCurves, "hours" | "cabinet" | "evaporator" | "ambient"> & { readonly residual?: Float64Array },
  { report: { chart }, hand }: Writer,
): string {
  const lines = (["cabinet", "evaporator", "ambient"] as const).flatMap((name) => {
    const values = curves[name];
    const first = values.find(Number.isFinite);
    const last = values.findLast(Number.isFinite);
    if (first === undefined || last === undefined) return [];
    let coldest = values.findIndex(Number.isFinite);
    values.forEach((value, i) => {
      if (value < values[coldest]) coldest = i;
    });
    const celsius = (value: number) => hand.quantity(value, "Cel", 1);
    const extra = name === "ambient" ? "" : chart.lowest(celsius(values[coldest]), hand.span(curves.hours[coldest]));
    return [chart.goes(chart.lines[name], celsius(first), celsius(last), extra)];
  });
  const residuals = [...(curves.residual ?? [])].filter(Number.isFinite);
  const missed = Math.sqrt(residuals.reduce((sum, value) => sum + value ** 2, 0) / residuals.length);
  const fit = residuals.length === 0 ? [] : [chart.fitsWithin(hand.quantity(missed, "K", 2))];
  return lines.length === 0 ? chart.noReadings : [...lines, ...fit].join(" ");
}

function stretchTable({ curves, startMs }: StretchFinding, { report: { chart }, hand }: Writer): Html {
  const { columns } = chart;
  const figure = (value: number, decimals = 1) =>
    Number.isFinite(value) ? hand.number(value, decimals) : chart.missing;
  const bandOf = (i: number) =>
    Number.isFinite(curves.bandLow[i] + curves.bandHigh[i])
      ? hand.range(figure(curves.bandLow[i]), figure(curves.bandHigh[i]))
      : chart.missing;
  return readingsTable(
    chart.tableCaption,
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
      hand.clock(startMs + curves.hours[i] * 3_600_000),
      figure(curves.hours[i], 2),
      figure(curves.cabinet[i]),
      figure(curves.evaporator[i]),
      figure(curves.ambient[i]),
      figure(curves.fitted[i]),
      bandOf(i),
      figure(curves.residual[i], 2),
    ]),
  );
}

function runTable(curves: RunCurves, stretches: readonly StretchFinding[], writer: Writer): Html {
  const {
    report: { chart },
    hand,
    words: own,
  } = writer;
  const { columns } = chart;
  const figure = (value: number) => (Number.isFinite(value) ? hand.number(value, 1) : chart.missing);
  const present = Array.from(curves.hours.keys()).filter((i) => Number.isFinite(curves.hours[i]));
  return readingsTable(
    chart.runTableCaption,
    [columns.clock, columns.cabinet, columns.evaporator, columns.ambient, columns.stretch],
    evenly(present.length, tableRows).map((row) => {
      const i = present[row];
      const unixMs = curves.startMs + curves.hours[i] * 3_600_000;
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

const readingsTable = (caption: string, head: readonly string[], rows: readonly (readonly string[])[]) =>
  html`<table class="readings"><caption>${caption}</caption>
<thead><tr>${head.map((name) => html`<th scope="col">${name}</th>`)}</tr></thead>
<tbody>${rows.map((cells) => html`<tr>${cells.map((text) => html`<td>${text}</td>`)}</tr>\n`)}</tbody></table>`;

/** A to Z, then AA, AB ... */
function letterOf(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : letterOf(Math.floor(index / 26) - 1) + last;
}
