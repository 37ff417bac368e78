// What people wrote down of the runs in a test report: notes, the run sheet's conditions, and the source that nobody touched.

import { type HeatSource, heatSources, type RunSheet } from "../../schema/index.ts";
import type { Analysis } from "../../science/index.ts";
import { isKnown } from "../../science/index.ts";
import { uncheckedItems } from "../../science/plan/index.ts";
import type { Teller } from "../teller.ts";
import { say } from "../words/index.ts";
import type { ReportedRun, TestReport } from "./test-report-matter.ts";
import type { ReportFact, ReportPart } from "./test-report-parts.ts";

/** Notes on the sheets and remarks made during the runs, each once. */
export function notesOf({ runs }: TestReport, { words: { testReport: own }, hand }: Teller): string[] {
  const several = runs.length > 1;
  return [
    ...new Set(
      runs.flatMap(({ when, sheet, notes, remarks }) =>
        [
          ...(sheet?.notes ? [sheet.notes] : []),
          ...(notes ? [notes] : []),
          ...remarks.map(({ unixMs, text }) => own.noteAt(hand.moment(unixMs), text)),
        ].map((text) => own.note(several ? own.whens[when] : null, text)),
      ),
    ),
  ];
}

/** The conditions as all runs or either side state them, what was left unchecked, and runs without a sheet. */
export function sheetParts({ runs, analysis, service }: TestReport, teller: Teller): readonly ReportPart[] {
  const { testReport: own } = teller.words;
  const facts = own.conditions.flatMap(({ name, value }): ReportFact[] => {
    const told = runs.map(({ sheet }) => (sheet === null ? null : value(sheet, teller.hand) || null));
    if (told.every((text) => text === null)) return [];
    return [{ name, text: sidesOf(told, runs, teller) }];
  });
  const sources = sourcesRun(analysis, service?.comparison.sources.map(({ source }) => source) ?? []);
  const open = runs.map(({ sheet }) =>
    uncheckedItems(sheet, sources).map(({ item }) => teller.words.plan.checklist[item].title),
  );
  const sameOpen = open.every((items) => items.join() === open[0].join());
  const unchecked = (sameOpen ? open.slice(0, 1) : open).map((items, index) => {
    if (items.length === 0) return own.allChecked;
    return own.notChecked(sameOpen ? null : own.whens[runs[index].when], items.join("; "));
  });
  const missing = runs.filter(({ sheet }) => sheet === null);
  const sheetless = missing.map(({ when }) => (runs.length === 1 ? own.noSheet : own.noSheetOf(own.whens[when])));
  return [
    ...(facts.length === 0 ? [] : [{ kind: "facts", facts } as const]),
    ...[...new Set([...sheetless, ...unchecked])].map((text) => ({ kind: "text", text }) as const),
  ];
}

/** One text where all runs say the same, else both sides. */
function sidesOf(
  told: readonly (string | null)[],
  runs: readonly ReportedRun[],
  { words: { testReport: own, report } }: Teller,
): string {
  const of = (when: ReportedRun["when"]) =>
    report.list([
      ...new Set(told.flatMap((text, index) => (runs[index].when === when ? [text ?? own.notStated] : []))),
    ]);
  if (runs[0].when === "run") return of("run");
  return of("before") === of("after") ? of("after") : own.differs(of("before"), of("after"));
}

function sourcesRun({ stretches }: Analysis, compared: readonly HeatSource[]): readonly HeatSource[] {
  const ran = heatSources.filter(
    (source) => compared.includes(source) || stretches.some((stretch) => stretch.source === source),
  );
  return ran.length === 0 ? heatSources : ran;
}

/** Which sources no service touched, and what they say of the others. */
export function controlSource({ runs, service }: TestReport, { words: own, hand }: Teller): readonly ReportPart[] {
  const untouched = (sheet: RunSheet | null) => sheet?.untouchedSources ?? [];
  const controls = heatSources.filter((source) => runs.some(({ sheet }) => untouched(sheet).includes(source)));
  if (controls.length === 0 || service === null) return [{ kind: "text", text: own.testReport.noControl }];
  const held = service.comparison.sources.flatMap(({ source, control, overControl }) => {
    if (control === null) return [];
    return isKnown(overControl)
      ? [own.testReport.overControl(source, control, overControl, hand)]
      : [own.testReport.controlCannotTell(source, control, say(own.unknowns, overControl.why, hand))];
  });
  return [{ kind: "text", text: [own.testReport.untouched(controls), ...held].join(" ") }];
}
