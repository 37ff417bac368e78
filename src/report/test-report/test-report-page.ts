// The test report as a page to print on A4: the same telling as the PDF's (test-report-pdf.ts), in a browser's hands.

import type { Tallness } from "../drawing/scene.ts";
import { sceneToSvg } from "../drawing/scene-to-svg.ts";
import { type Html, html, raw } from "../page/html.ts";
import { checkItem, heading, lettersPage, type PageWriter } from "../page/page-parts.ts";
import { handOf, words } from "../words/index.ts";
import type { TestReport } from "./test-report-matter.ts";
import type { ReportDrawing, ReportPart, ReportSection, TestReportTelling } from "./test-report-parts.ts";
import { tellTestReport } from "./test-report-telling.ts";

/** The whole page; it fetches nothing and runs no script. */
export function testReportPage(report: TestReport): string {
  const { language, utcOffsetMinutes, degrees } = report.context;
  const telling = tellTestReport(report);
  const own = words(language);
  const hand = handOf(language, utcOffsetMinutes, degrees);
  return lettersPage([
    {
      title: telling.documentTitle,
      language,
      write: (level, id) => letter(telling, { words: own, report: own.report, hand, level, id }),
    },
  ]);
}

function letter(telling: TestReportTelling, writer: PageWriter): Html {
  const of = (place: ReportSection["place"]) =>
    telling.sections.filter((one) => one.place === place).map((one) => section(one, writer));
  const { letterhead, title, fridge, when, written } = telling;
  return html`<article class="test-report" aria-labelledby="${writer.id}">
<header>
<div><p class="when">${title}</p>
${heading(writer, 0, fridge, writer.id)}
${when === "" ? "" : html`<p class="when">${when}</p>`}</div>
<div>${letterhead === null ? "" : html`<p><strong>${letterhead}</strong></p>`}<p class="when">${written}</p></div>
</header>
${of("head")}
<div class="columns">
${of("column")}
</div>
<footer>
${of("foot")}
</footer>
</article>
`;
}

function section({ heading: title, parts }: ReportSection, writer: PageWriter): Html {
  const written = parts.map((one) => part(one, writer));
  return title === null
    ? html`${written}`
    : html`<section>
${heading(writer, 1, title)}
${written}
</section>
`;
}

function part(one: ReportPart, writer: PageWriter): Html {
  switch (one.kind) {
    case "facts":
      return html`<dl>${one.facts.map(({ name, text }) => html`<dt>${name}</dt><dd>${text}</dd>`)}</dl>`;
    case "sentence":
      return html`<p class="in-a-sentence">${one.text}</p>`;
    case "text":
      return html`<p>${one.text}</p>`;
    case "small-print":
      return html`<p class="note">${one.text}</p>`;
    case "list":
      return one.items.every(({ mark }) => mark === null)
        ? html`<ul>${one.items.map(({ text }) => html`<li>${text}</li>`)}</ul>`
        : html`<ul class="events">${one.items.map(
            ({ mark, text }) => html`<li><span class="mark">${mark ?? "–"}</span> ${text}</li>`,
          )}</ul>`;
    case "verdicts":
      return html`<ul class="verdicts">${one.verdicts.map(
        ({ on, state, stateName, detail, why }) =>
          html`<li>${on}: <span class="verdict ${state}">${stateName}</span>. <strong>${detail}</strong> <span class="why">${why}</span></li>`,
      )}</ul>`;
    case "drawings":
      return html`<p class="note">${one.captionOf(one.drawings)}${noRoomInPrint(one.drawings, writer)}</p>
<div class="drawings">${figures(one.drawings, writer)}</div>`;
    case "advice":
      return html`<ol class="checks">${one.advice.map((advice) => checkItem(advice, writer))}</ol>`;
    case "signatures":
      return html`<ul class="signatures">${one.names.map((name) => html`<li>${name}</li>`)}</ul>`;
  }
}

/** An odd one goes across the page, the others stand in pairs. Many are low; on paper some give way where even those are too many. */
const figures = (drawings: readonly ReportDrawing[], writer: PageWriter): readonly Html[] =>
  drawings.map((drawing, index) => {
    const isAcross = drawings.length % 2 === 1 && index === 0;
    const isSpare = sparesOf(drawings).includes(drawing);
    const classNames = [...(isAcross ? ["across"] : []), ...(isSpare ? ["spare"] : [])];
    return figure(drawing, classNames.join(" "), drawings.length > mostDrawings ? "low" : "usual", writer);
  });

function noRoomInPrint(drawings: readonly ReportDrawing[], { words: { testReport } }: PageWriter): Html | string {
  const { length } = sparesOf(drawings);
  return length === 0 ? "" : html`<span class="in-print-only"> ${testReport.noRoomFor(length)}</span>`;
}

const sparesOf = (drawings: readonly ReportDrawing[]) =>
  drawings.length > mostLowDrawings ? drawings.filter(({ givesWay }) => givesWay > 1) : [];

/** More do not fit on the first page in print, and of low ones more than these. */
const mostDrawings = 2;
const mostLowDrawings = 5;

function figure(
  { id, title, description, draw }: ReportDrawing,
  className: string,
  tallness: Tallness,
  { id: letterId }: PageWriter,
): Html {
  const widths = className.includes("across") ? ({ wide: 900, narrow: 340 } as const) : ({ pair: 434 } as const);
  const drawings = Object.entries(widths).map(([name, width]) => {
    const scene = draw(width, tallness);
    if (scene === null) return raw("");
    return sceneToSvg(scene, { id: `${letterId}-${id}-${name}`, title, description, className: name });
  });
  return html`<figure class="${className}"><figcaption>${title}</figcaption>
${drawings}</figure>
`;
}
