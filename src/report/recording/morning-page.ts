// The night on one page, as a letter: verdicts, the run as a drawing, what happened when, alarms, what to check next.

import type { Analysis } from "../../science/index.ts";
import { analysisWriter, checks, runFigures, verdicts } from "../analysis/analysis-page.ts";
import type { ReportContext } from "../context.ts";
import { type Html, html, raw } from "../page/html.ts";
import { cautionBox, footer, heading, lettersPage, listed, type PageWriter, section } from "../page/page-parts.ts";
import { type MorningTelling, type Night, tellMorning } from "./morning-telling.ts";

export interface MorningPage {
  readonly analysis: Analysis;
  readonly context: ReportContext;
  readonly night: Night;
}

/** The whole page. */
export const morningPage = ({ analysis, context, night }: MorningPage): string =>
  lettersPage([
    {
      title: tellMorning(analysis, context, night).title,
      language: context.language,
      write: (level, id) => letter(analysis, context, night, level, id),
    },
  ]);

function letter(analysis: Analysis, context: ReportContext, night: Night, level: number, id: string): Html {
  const telling = tellMorning(analysis, context, night);
  const writer = analysisWriter(analysis, context, level, id);
  const { morning, plan, report } = writer.words;
  const unchecked = telling.unchecked.length === 0 ? [plan.noneUnchecked] : telling.unchecked.map(({ text }) => text);
  return html`<article class="morning" aria-labelledby="${id}">
${heading(writer, 0, telling.title, id)}
<p class="when">${telling.analysis.title}${telling.when === "" ? "" : `, ${telling.when}`}</p>
${verdicts(telling.analysis, writer)}
${listed(writer, report.warningsHeading, telling.analysis.warnings)}
${analysis.stretches.length === 0 ? "" : runFigures(analysis, writer)}
${telling.timeline.length === 0 ? "" : section(writer, morning.timelineHeading, html`<ul class="events">${telling.timeline.map((text) => html`<li>${text}</li>\n`)}</ul>`)}
${section(writer, morning.alarmsHeading, alarms(telling, writer))}
${checks(telling.analysis, writer)}
${listed(writer, plan.uncheckedHeading, unchecked)}
<p>${telling.remarks.join(" ")}</p>
${footer(writer, telling.analysis)}
</article>
`;
}

function alarms({ alarms: all, noAlarms }: MorningTelling, { report }: PageWriter): Html {
  if (all.length === 0) return html`<p>${noAlarms}</p>`;
  const items = all.map(({ text, state, caution }) => {
    return html`<li>${text} ${state}${caution === null ? raw("") : cautionBox(caution, report)}</li>\n`;
  });
  return html`<ul class="events">${items}</ul>`;
}
