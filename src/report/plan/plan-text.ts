// The plan for a terminal: hour by hour, why so, the cautions in full, and the list to tick.

import type { RunPlan } from "../../science/plan/index.ts";
import type { CheckTelling } from "../advice-telling.ts";
import { hang, padEnd } from "../terminal/text-layout.ts";
import {
  bullets,
  heading,
  margin,
  type Printer,
  printer,
  section,
  type TextOptions,
  textOf,
} from "../terminal/text-parts.ts";
import type { Language } from "../words/index.ts";
import { type ChecklistTelling, type PlanStepTelling, tellPlan } from "./plan-telling.ts";

/** The whole plan as text, ending with a line break. */
export function planText(plan: RunPlan, language: Language, options: TextOptions): string {
  const telling = tellPlan(plan, language);
  const page = printer({ language, utcOffsetMinutes: plan.utcOffsetMinutes }, options);
  const own = page.words.plan;
  return textOf([
    ...heading(telling, page),
    ...section(own.stepsHeading, page),
    ...telling.steps.flatMap((step, i) => [...(i === 0 ? [] : [""]), ...stepLines(step, page)]),
    ...(telling.reasons.length === 0 ? [] : [...section(own.reasonsHeading, page), ...bullets(telling.reasons, page)]),
    ...section(own.care, page),
    ...telling.cautions.subjects.flatMap(({ about, text }) =>
      hang(`${margin}! `, `${page.report.cautionAbout(about)} ${text}`, page.width).map(page.colours.yellow),
    ),
    ...hang(`${margin}  `, telling.cautions.close, page.width).map(page.colours.yellow),
    ...section(own.checklistHeading, page),
    ...telling.checklist.flatMap((item) => itemLines(item, page)),
    "",
    ...hang(margin, telling.checklistNote, page.width).map(page.colours.dim),
    "",
    ...telling.foot.flatMap((line) => hang(margin, line, page.width)).map(page.colours.dim),
  ]);
}

function stepLines({ period, name, marks, proofs, reasons, caution }: PlanStepTelling, page: Printer): string[] {
  const { width, colours } = page;
  const indent = `${margin}   `;
  const whenWidth = Math.max(0, ...proofs.map(({ when }) => when.length));
  const title = [name, ...marks].join(", ");
  return [
    ...hang(margin, `${period}  ${title}`, width).map(colours.bold),
    ...proofs.flatMap(({ when, text }) => hang(`${indent}${padEnd(when, whenWidth)}  `, text, width)),
    ...reasons.flatMap((reason) => hang(`${indent}· `, reason, width)).map(colours.dim),
    ...careLine(caution, indent, page),
  ];
}

function itemLines({ title, text, blank, caution }: ChecklistTelling, page: Printer): string[] {
  const mark = `${margin}${page.words.plan.tickBox} `;
  const sentence = [`${page.colours.bold(title)}${blank === "" ? "" : `: ${blank}`}`, text].filter(
    (part) => part !== "",
  );
  return [
    ...hang(mark, sentence.join(". ").replace(/\.\. /, ". "), page.width),
    ...careLine(caution, `${margin}    `, page),
  ];
}

/** Which of the cautions belong here; they stand in full on the same page. */
function careLine(caution: CheckTelling["caution"], indent: string, { words, width, colours }: Printer): string[] {
  if (caution === null) return [];
  return hang(`${indent}! `, words.plan.careFor(caution.subjects.map(({ about }) => about)), width).map(colours.yellow);
}
