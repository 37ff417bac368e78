// The night on one page, for a terminal: verdicts, what happened when, alarms, what to check next.

import type { Analysis } from "../../science/index.ts";
import { nextChecks, verdicts } from "../analysis/analysis-text.ts";
import type { ReportContext } from "../context.ts";
import { hang } from "../terminal/text-layout.ts";
import {
  bullets,
  cautionLines,
  foot,
  heading,
  listed,
  margin,
  type Printer,
  printer,
  section,
  type TextOptions,
  textOf,
} from "../terminal/text-parts.ts";
import { type MorningTelling, type Night, tellMorning } from "./morning-telling.ts";

/** The whole night as text, ending with a line break. */
export function morningText(analysis: Analysis, context: ReportContext, night: Night, options: TextOptions): string {
  const telling = tellMorning(analysis, context, night);
  const page = printer(context, options);
  const { morning, report } = page.words;
  return textOf([
    ...heading(telling, page),
    ...verdicts(telling.analysis, page),
    ...listed(report.warningsHeading, telling.analysis.warnings, page),
    ...listed(morning.timelineHeading, telling.timeline, page),
    ...alarmLines(telling, page),
    ...nextChecks(telling.analysis, page),
    ...uncheckedLines(telling, page),
    "",
    ...telling.remarks.flatMap((remark) => hang(margin, remark, page.width)),
    ...foot(telling.analysis, page),
  ]);
}

function alarmLines({ alarms, noAlarms }: MorningTelling, page: Printer): string[] {
  const { morning } = page.words;
  if (alarms.length === 0) return listed(morning.alarmsHeading, [noAlarms], page);
  return [
    ...section(morning.alarmsHeading, page),
    ...alarms.flatMap(({ text, state, caution }) => [
      ...hang(`${margin}! `, `${text} ${state}`, page.width),
      ...(caution === null ? [] : cautionLines(caution, `${margin}  `, page)),
    ]),
  ];
}

/** What was not ticked is told without its cautions: nobody is sent to the fridge for it now; the plan of the next run has them. */
function uncheckedLines({ unchecked }: MorningTelling, page: Printer): string[] {
  const { plan } = page.words;
  const texts = unchecked.length === 0 ? [plan.noneUnchecked] : unchecked.map(({ text }) => text);
  return [...section(plan.uncheckedHeading, page), ...bullets(texts, page)];
}
