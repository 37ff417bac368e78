// The plan as a page to print: one sheet of A4 with clock times, cautions, and the list to tick with a pen.

import type { RunPlan } from "../../science/plan/index.ts";
import type { CheckTelling } from "../advice-telling.ts";
import { type Html, html, raw } from "../page/html.ts";
import { heading, lettersPage, listed, type PageWriter, section } from "../page/page-parts.ts";
import type { Language } from "../words/index.ts";
import { type ChecklistTelling, type PlanStepTelling, tellerOf, tellPlan } from "./plan-telling.ts";

/** The whole page. */
export const planPage = (plan: RunPlan, language: Language): string =>
  lettersPage([
    { title: tellPlan(plan, language).title, language, write: (level, id) => letter(plan, language, level, id) },
  ]);

function letter(plan: RunPlan, language: Language, level: number, id: string): Html {
  const telling = tellPlan(plan, language);
  const teller = tellerOf(plan, language);
  const writer: PageWriter = { ...teller, report: teller.words.report, level, id };
  const own = teller.words.plan;
  return html`<article class="plan" aria-labelledby="${id}">
${heading(writer, 0, telling.title, id)}
<p class="when">${telling.when}</p>
${section(writer, own.stepsHeading, html`<ol class="steps">${telling.steps.map((step) => stepItem(step, writer))}</ol>`)}
${listed(writer, own.reasonsHeading, telling.reasons)}
${section(writer, own.care, cautions(telling.cautions, writer))}
${section(writer, own.checklistHeading, html`<ul class="ticks">${telling.checklist.map((item) => tickItem(item, writer))}</ul><p class="note">${telling.checklistNote}</p>`)}
<footer><p>${telling.foot.join(" ")}</p></footer>
</article>
`;
}

function stepItem({ period, name, marks, proofs, reasons, caution }: PlanStepTelling, writer: PageWriter): Html {
  const shown =
    proofs.length === 0
      ? raw("")
      : html`<dl>${proofs.map(({ when, text }) => html`<dt>${when}</dt><dd>${text}</dd>`)}</dl>`;
  return html`<li><strong>${period}</strong> ${[name, ...marks].join(", ")}. <span class="note">${reasons.join(" ")}</span>${shown}${care(caution, writer)}</li>
`;
}

function tickItem({ title, text, blank, caution }: ChecklistTelling, writer: PageWriter): Html {
  return html`<li><span class="box" aria-hidden="true"></span><strong>${title}</strong>${blank === "" ? "" : `: ${blank}`}. ${text}${care(caution, writer)}</li>
`;
}

/** Which of the cautions belong here; they stand in full on the same page. */
function care(caution: CheckTelling["caution"], { words }: PageWriter): Html {
  if (caution === null) return raw("");
  return html` <span class="care">${words.plan.careFor(caution.subjects.map(({ about }) => about))}</span>`;
}

const cautions = ({ subjects, close }: NonNullable<CheckTelling["caution"]>, { report }: PageWriter): Html =>
  html`<div class="caution">${subjects.map(({ about, text }) => html`<p><b>${report.cautionAbout(about)}</b> ${text}</p>`)}<p>${close}</p></div>`;
