// The test report in words and in order, before any layout: the page to print and the PDF lay out this one telling, so
// that neither can leave out what the other says.

import { type HeatSource, heatSources, type RunSheet } from "../../schema/index.ts";
import type { ChangeReasonSaying } from "../../science/before-after/index.ts";
import type { Analysis, ReasonSaying, SourceFinding } from "../../science/index.ts";
import { isKnown } from "../../science/index.ts";
import { uncheckedItems } from "../../science/plan/index.ts";
import { type CheckTelling, repeatsMarked } from "../advice-telling.ts";
import { logsOf, type Telling, tellAnalysis } from "../analysis/analysis-telling.ts";
import { allowanceCodes } from "../analysis/stretch-telling.ts";
import { curvesDrawing, ratiosDrawing } from "../comparison/comparison-drawing.ts";
import { type ComparisonTelling, curveLines, tellComparison } from "../comparison/comparison-telling.ts";
import { describeAligned, describeReadings, describeRun, letteredEvents, letterOf } from "../drawing/drawing-words.ts";
import { drawnRun, runDrawing, runPatterns } from "../drawing/run-drawing.ts";
import type { Scene } from "../drawing/scene.ts";
import { linesToDraw, stretchDrawing } from "../drawing/stretch-drawing.ts";
import { type Teller, tellerFor } from "../teller.ts";
import { say } from "../words/index.ts";
import type { ReportedRun, TestReport } from "./test-report-matter.ts";

export interface TestReportTelling {
  /** Of the window or the tab. */
  readonly documentTitle: string;
  readonly letterhead: string | null;
  readonly title: string;
  readonly fridge: string;
  readonly when: string;
  readonly written: string;
  readonly sections: readonly ReportSection[];
}

/** `head` and `foot` go across the page, `column` in columns between them. */
export interface ReportSection {
  readonly place: "head" | "column" | "foot";
  readonly heading: string | null;
  readonly parts: readonly ReportPart[];
}

export type ReportPart =
  | { readonly kind: "facts"; readonly facts: readonly ReportFact[] }
  | { readonly kind: "sentence"; readonly text: string }
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "small-print"; readonly text: string }
  | { readonly kind: "list"; readonly items: readonly { readonly mark: string | null; readonly text: string }[] }
  | { readonly kind: "verdicts"; readonly verdicts: readonly ReportVerdict[] }
  | {
      readonly kind: "drawings";
      readonly drawings: readonly ReportDrawing[];
      /** Of those that are shown. */
      readonly captionOf: (shown: readonly ReportDrawing[]) => string;
    }
  | { readonly kind: "advice"; readonly advice: readonly CheckTelling[] }
  | { readonly kind: "signatures"; readonly names: readonly string[] };

export interface ReportFact {
  readonly name: string;
  readonly text: string;
}

export interface ReportVerdict {
  readonly on: string;
  /** A verdict or a change, by its code. */
  readonly state: string;
  readonly stateName: string;
  readonly detail: string;
  /** Why, in a few sentences. */
  readonly why: string;
}

export interface ReportDrawing {
  readonly id: string;
  readonly title: string;
  readonly description: string;
  /** The more, the sooner it gives way where the paper is full; 0 stays. */
  readonly givesWay: number;
  /** What tells its lines apart. */
  readonly patterns: readonly string[];
  /** @returns null when there is nothing to draw. */
  readonly draw: (width: number) => Scene | null;
}

/** Tells a test report on the clock of its (newest) runs. */
export function tellTestReport(report: TestReport): TestReportTelling {
  const { analysis, context, service, fridge } = report;
  const teller = tellerFor(context);
  const { testReport: own, report: ofReport } = teller.words;
  const telling = tellAnalysis(analysis, context);
  const compared = service === null ? null : tellComparison(service.comparison, service.context);
  const title = compared === null ? own.title : own.serviceTitle;
  const advice = adviceOf(telling, analysis);
  const events = telling.events.map((text, index) => ({ mark: letterOf(index), text }));
  const warnings = [...new Set([...(compared?.warnings ?? []), ...telling.warnings])];
  const sections: readonly (ReportSection | null)[] = [
    section("head", null, [{ kind: "facts", facts: identity(report, teller) }]),
    ...(service === null || compared === null
      ? [section("head", own.verdictHeading, runVerdict(telling, analysis, teller))]
      : [
          section("head", own.verdictHeading, serviceVerdict(compared, teller)),
          section("head", own.afterHeading, runVerdict(telling, analysis, teller, { isShort: true })),
        ]),
    section(
      "head",
      own.curvesHeading,
      compared === null ? runCurvesPart(report, teller) : serviceCurves(report, compared, teller),
    ),
    section("column", own.doneHeading, listPart(notesOf(report, teller), own.nothingNoted)),
    service === null ? null : section("column", own.controlHeading, controlSource(report, teller)),
    section("column", ofReport.causesHeading, causes(telling, teller)),
    section(
      "column",
      ofReport.checksHeading,
      advice.checks.length === 0
        ? [{ kind: "text", text: ofReport.noChecks }]
        : [{ kind: "advice", advice: advice.checks }],
    ),
    section("column", own.scrapHeading, scrapping(advice.proofs, teller)),
    section("column", ofReport.keepsUpHeading, keepsUp(telling)),
    section("column", ofReport.warningsHeading, listPart(warnings, null)),
    section("column", own.sheetHeading, sheetParts(report, teller)),
    section("column", teller.words.comparison.differencesHeading, listPart(compared?.differences ?? [], null)),
    section("column", ofReport.eventsHeading, events.length === 0 ? [] : [{ kind: "list", items: events }]),
    section("foot", null, [{ kind: "signatures", names: own.signatures }]),
    section("foot", null, [
      {
        kind: "small-print",
        text: [...new Set([...telling.foot, ...(compared?.foot ?? [])]), inputsOf(report, teller).join("; ")].join(" "),
      },
    ]),
  ];
  return {
    documentTitle: own.documentTitle(title, fridge?.name ?? null),
    letterhead: report.letterhead,
    title,
    fridge: fridge?.name ?? own.noName,
    when: compared === null ? telling.when : "",
    written: own.written(teller.hand.period(report.madeMs, report.madeMs, "with year")),
    sections: sections.filter((one) => one !== null && one.parts.length > 0) as readonly ReportSection[],
  };
}

const section = (
  place: ReportSection["place"],
  heading: string | null,
  parts: readonly ReportPart[],
): ReportSection => ({ place, heading, parts });

/** @param nothing what to say when there is none; null: nothing at all. */
function listPart(texts: readonly string[], nothing: string | null): readonly ReportPart[] {
  if (texts.length > 1) return [{ kind: "list", items: texts.map((text) => ({ mark: null, text })) }];
  const text = texts[0] ?? nothing;
  return text === null ? [] : [{ kind: "text", text }];
}

// Whose it is ------------------------------------------------------------------------------------------

function identity({ fridge, runs }: TestReport, { words: { testReport: own }, hand }: Teller): ReportFact[] {
  const rated = fridge?.ratedWatts && own.bySource(fridge.ratedWatts, "W", hand);
  const known: readonly (readonly [string, string | null | undefined])[] = [
    [own.kind, fridge?.kind],
    [own.cabinet, fridge?.cabinetLitres === undefined ? null : own.litres(fridge.cabinetLitres, hand)],
    [own.ratedHeat, rated],
    [own.aboutFridge, fridge?.notes],
    // The one run's period stands under the title.
    ...runs.map(({ when, name, id, startMs, endMs }) => {
      const period = when === "run" ? null : hand.period(startMs, endMs, "with year");
      return [own.whens[when], own.runOf(name, id, period)] as const;
    }),
  ];
  return known.flatMap(([name, text]) => (text ? [{ name, text }] : []));
}

// Verdict ----------------------------------------------------------------------------------------------

/** Reasons that say how the comparison was made, or what the headline and the drawings show already. */
const leftToTheFullReport: ReadonlySet<ReasonSaying["code"]> = new Set([
  "strength-sound",
  "strength-weak",
  "weak-among-sources",
  "cold-began",
  "onset-as-usual",
  "rate-constants",
  "rate-constant-alone-misleads",
  "witnesses-agree",
  "fins-alone",
  "slope-alone",
  "offered-as-baseline",
  "stretches-combined",
  "gas-referred",
  ...allowanceCodes,
]);

/** @param isShort what is good needs no reason */
function runVerdict(
  { headlines }: Telling,
  analysis: Analysis,
  teller: Teller,
  { isShort }: { readonly isShort: boolean } = { isShort: false },
): readonly ReportPart[] {
  if (headlines.length === 0) return [{ kind: "text", text: teller.words.report.noStretch }];
  const verdicts = headlines.map(({ on, verdict, verdictName, detail }, index) => ({
    on,
    state: verdict,
    stateName: verdictName,
    detail: teller.words.report.sentenceOf(detail),
    why:
      isShort && verdict === "sound"
        ? ""
        : whyOf(analysis.sources[index], analysis, teller)
            .filter((sentence) => sentence !== detail)
            .join(" "),
  }));
  return [{ kind: "verdicts", verdicts }];
}

function whyOf(source: SourceFinding, { stretches }: Analysis, { words: own, hand }: Teller): string[] {
  const ofStretches = source.stretches.length === 1 ? stretches[source.stretches[0]].reasons : [];
  const telling = [...source.reasons, ...ofStretches].filter(({ code }) => !leftToTheFullReport.has(code));
  return [...new Set(telling.map((reason) => say(own.reasons, reason, hand)))];
}

function serviceVerdict(
  { sentence, headlines, sources }: ComparisonTelling,
  { words: { comparison, report }, hand }: Teller,
): readonly ReportPart[] {
  const verdicts = headlines.map(({ on, change, changeName, detail }, index) => {
    const telling = sources[index].finding.reasons.filter(({ code }) => !saidElsewhere.has(code));
    const why = telling.map((reason) => say(comparison.reasons, reason, hand)).filter((text) => text !== detail);
    return { on, state: change, stateName: changeName, detail: report.sentenceOf(detail), why: why.join(" ") };
  });
  return [
    { kind: "sentence", text: sentence },
    { kind: "verdicts", verdicts },
  ];
}

/** Reasons of a change that its headline or the control source's section gives. */
const saidElsewhere: ReadonlySet<ChangeReasonSaying["code"]> = new Set([
  "witnesses-agree",
  "fins-alone",
  "slope-alone",
  "ratio-better",
  "ratio-same",
  "ratio-worse",
  "is-control",
  "over-control",
  "runs-combined",
]);

// Curves -----------------------------------------------------------------------------------------------

function runCurvesPart({ analysis, context }: TestReport, teller: Teller): readonly ReportPart[] {
  const { chart, stretchHeading } = teller.words.report;
  const events = letteredEvents(analysis);
  const ofRuns = logsOf(analysis).map((log, index): ReportDrawing => {
    const run = drawnRun(analysis, log, events);
    return {
      id: `run${index + 1}`,
      title: chart.runTitle(log),
      description: describeRun(run, teller),
      givesWay: index,
      patterns: runPatterns(run).map((ink) => chart.patterns[ink]),
      draw: (width) => runDrawing(run, teller, context.utcOffsetMinutes, width),
    };
  });
  // What is good gives way first: its drawing has the least to show.
  const ranked = [...analysis.sources].sort((a, b) => Number(a.verdict === "sound") - Number(b.verdict === "sound"));
  const ofStretches = analysis.sources.map((source, index): ReportDrawing => {
    const stretch = longest(source, analysis);
    const period = teller.hand.period(stretch.startMs, stretch.endMs);
    return {
      id: `stretch${index + 1}`,
      title: stretchHeading(teller.words.names.onSource(stretch.source), period),
      description: describeReadings(stretch.curves, teller),
      givesWay: 1 + ranked.indexOf(source),
      patterns: linesToDraw(stretch).map(({ ink }) => chart.patterns[ink]),
      draw: (width) => stretchDrawing(stretch, events, teller, width),
    };
  });
  return drawingsPart([...ofRuns, ...ofStretches], (patterns) => chart.caption(patterns));
}

const longest = ({ stretches: own }: SourceFinding, { stretches }: Analysis) =>
  own
    .map((index) => stretches[index])
    .reduce((best, one) => (one.endMs - one.startMs > best.endMs - best.startMs ? one : best));

function serviceCurves(
  { service }: TestReport,
  { bars, sources }: ComparisonTelling,
  teller: Teller,
): readonly ReportPart[] {
  if (service === null) return [];
  const { margin } = service.comparison;
  const { comparison } = teller.words;
  const ratios: ReportDrawing = {
    id: "ratios",
    title: comparison.ratiosTitle,
    description: bars.map(({ name, ratio }) => comparison.barIs(name, ratio, teller.hand)).join(" "),
    givesWay: 0,
    patterns: [],
    draw: (width) => ratiosDrawing(bars, margin, teller, width),
  };
  const curves = sources.map(({ finding }, index): ReportDrawing => {
    const lines = curveLines(finding, teller).filter(({ curve }) => curve.belowAmbient.some(Number.isFinite));
    const drawn = (["before", "after"] as const).filter((when) => lines.some((line) => line.when === when));
    return {
      id: `source${index + 1}`,
      title: comparison.curvesTitle(finding.source),
      description: lines.map((line) => describeAligned(line, teller)).join(" "),
      givesWay: index,
      patterns: drawn.map((when) => comparison.patterns[when]),
      draw: (width) => curvesDrawing(finding, teller, width),
    };
  });
  return drawingsPart([ratios, ...curves], (patterns) =>
    [
      ...(bars.length === 0 ? [] : [comparison.ratiosCaption(margin, teller.hand)]),
      ...(patterns.length === 0 ? [] : [comparison.curvesCaption(patterns)]),
    ].join(" "),
  );
}

function drawingsPart(
  all: readonly ReportDrawing[],
  caption: (patterns: readonly string[]) => string,
): readonly ReportPart[] {
  const drawings = all
    .map((drawing) => ({ ...drawing, draw: keptByWidth(drawing.draw) }))
    .filter(({ draw }) => draw(narrowestDrawing) !== null);
  const captionOf = (shown: readonly ReportDrawing[]) =>
    caption([...new Set(shown.flatMap(({ patterns }) => patterns))]);
  return drawings.length === 0 ? [] : [{ kind: "drawings", drawings, captionOf }];
}

const narrowestDrawing = 340;

/** A layout may try several sizes of type; it need not draw anew for each. */
function keptByWidth(draw: ReportDrawing["draw"]): ReportDrawing["draw"] {
  const scenes = new Map<number, Scene | null>();
  return (width) => {
    if (!scenes.has(width)) scenes.set(width, draw(width));
    return scenes.get(width) ?? null;
  };
}

// What was done, and how the run was run ---------------------------------------------------------------

function notesOf({ runs }: TestReport, { words: { testReport: own }, hand }: Teller): string[] {
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

function sheetParts({ runs, analysis, service }: TestReport, teller: Teller): readonly ReportPart[] {
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

function controlSource({ runs, service }: TestReport, { words: own, hand }: Teller): readonly ReportPart[] {
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

// What may be behind it, and whether it keeps up -------------------------------------------------------

function causes({ causes: rows }: Telling, { words: { report, testReport } }: Teller): readonly ReportPart[] {
  if (rows.length === 0) return [{ kind: "text", text: report.noCauses }];
  const further = rows.slice(mostCauses).map(({ share, name }) => `${name} ${share}`);
  return [
    {
      kind: "list",
      items: [
        ...rows.slice(0, mostCauses).map(({ share, name }) => ({ mark: share, text: name })),
        ...(further.length === 0 ? [] : [{ mark: null, text: testReport.lessLikely(further) }]),
      ],
    },
    { kind: "small-print", text: report.causesNote },
  ];
}

/** So many stand in lines of their own. */
const mostCauses = 4;

/** With the limits of food and the caution that belongs to them. */
const keepsUp = ({ keepsUp: findings, food }: Telling): readonly ReportPart[] =>
  findings.length === 0
    ? []
    : [
        ...findings.map(({ sentences }): ReportPart => ({ kind: "text", text: sentences.join(" ") })),
        { kind: "small-print", text: food.join(" ") },
      ];

const scrapping = (proofs: readonly CheckTelling[], { words: { testReport } }: Teller): readonly ReportPart[] =>
  proofs.length === 0
    ? []
    : [
        { kind: "text", text: testReport.scrapNote },
        { kind: "advice", advice: proofs },
      ];

/** The beginning of a hash tells files apart; the whole of it stands in the JSON. */
const inputsOf = ({ context, service }: TestReport, { words: { report, comparison } }: Teller): readonly string[] =>
  (service?.context ?? context).inputs.map(({ role, name, sha256 }) => {
    const named = role === "before" || role === "after" ? comparison.roles[role] : report.roles[role];
    return report.input(named, name, `${sha256.slice(0, 12)}…`);
  });

// Advice -----------------------------------------------------------------------------------------------

/** Checks, then proofs (the open ones first), in the order of the paper. */
function adviceOf({ checks, proofs }: Telling, { beforeCondemning }: Analysis) {
  const isShown = (_: CheckTelling, index: number) => beforeCondemning[index].state === "shown";
  const openFirst = [...proofs.filter((proof, index) => !isShown(proof, index)), ...proofs.filter(isShown)];
  const advice = repeatsMarked([...checks, ...openFirst]);
  return { checks: advice.slice(0, checks.length), proofs: advice.slice(checks.length) };
}
