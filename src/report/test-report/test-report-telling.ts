// The test report in words and in order, before any layout: the page to print and the PDF lay out this one telling, so
// that neither can leave out what the other says. Its drawings are in test-report-drawings.ts, what people wrote down of the
// runs in test-report-sheet.ts.

import type { ChangeReasonSaying } from "../../science/before-after/index.ts";
import type { Analysis, ReasonSaying, SourceFinding } from "../../science/index.ts";
import { type CheckTelling, repeatsMarked } from "../advice-telling.ts";
import { type Telling, tellAnalysis } from "../analysis/analysis-telling.ts";
import { allowanceCodes } from "../analysis/stretch-telling.ts";
import { type ComparisonTelling, tellComparison } from "../comparison/comparison-telling.ts";
import { letterOf } from "../drawing/drawing-words.ts";
import { type Teller, tellerFor } from "../teller.ts";
import { say } from "../words/index.ts";
import { runDrawings, serviceDrawings } from "./test-report-drawings.ts";
import type { TestReport } from "./test-report-matter.ts";
import type { ReportFact, ReportPart, ReportSection, TestReportTelling } from "./test-report-parts.ts";
import { controlSource, notesOf, sheetParts } from "./test-report-sheet.ts";

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
          section("head", own.afterHeading, afterVerdict(telling, compared, analysis, teller)),
        ]),
    section(
      "head",
      own.curvesHeading,
      compared === null ? runDrawings(report, teller) : serviceDrawings(report, compared, teller),
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

/** Reasons that say how strong a source is and what follows, so that a headline with the number alone would be told twice. */
const sayingTheStrength: ReadonlySet<ReasonSaying["code"]> = new Set([
  "strength-undecided",
  "strength-unbelievable",
  "low-among-sources",
  "not-weak-among-sources",
]);

/** @param isShort what is good needs no reason */
function runVerdict(
  { headlines }: Telling,
  analysis: Analysis,
  teller: Teller,
  { isShort }: { readonly isShort: boolean } = { isShort: false },
): readonly ReportPart[] {
  if (headlines.length === 0) return [{ kind: "text", text: teller.words.report.noStretch }];
  const verdicts = headlines.map(({ on, verdict, verdictName, detail }, index) => {
    const source = analysis.sources[index];
    const withStrength = source.reasons.find(({ code }) => sayingTheStrength.has(code));
    const told =
      withStrength === undefined
        ? teller.words.report.sentenceOf(detail)
        : say(teller.words.reasons, withStrength, teller.hand);
    const why = whyOf(source, analysis, teller).filter((sentence) => sentence !== detail && sentence !== told);
    return {
      on,
      state: verdict,
      stateName: verdictName,
      detail: told,
      why: isShort && verdict === "sound" ? "" : why.join(" "),
    };
  });
  return [{ kind: "verdicts", verdicts }];
}

/** In the order of the changes above it, so that each source stands under its own. */
function afterVerdict(
  telling: Telling,
  { headlines }: ComparisonTelling,
  analysis: Analysis,
  teller: Teller,
): readonly ReportPart[] {
  const placeOf = ({ on }: { readonly on: string }) => {
    const place = headlines.findIndex((headline) => headline.on === on);
    return place < 0 ? headlines.length : place;
  };
  return runVerdict(telling, analysis, teller, { isShort: true }).map((part) =>
    part.kind === "verdicts" ? { ...part, verdicts: part.verdicts.toSorted((a, b) => placeOf(a) - placeOf(b)) } : part,
  );
}

function whyOf(source: SourceFinding, { stretches }: Analysis, { words: own, hand }: Teller): string[] {
  const ofStretches = source.stretches.length === 1 ? stretches[source.stretches[0]].reasons : [];
  const telling = [...source.reasons, ...ofStretches].filter(({ code }) => !leftToTheFullReport.has(code));
  return [...new Set(telling.map((reason) => say(own.reasons, reason, hand)))];
}

function serviceVerdict(
  { sentence, cannotSee, headlines, sources }: ComparisonTelling,
  { words: { comparison, report }, hand }: Teller,
): readonly ReportPart[] {
  const verdicts = headlines.map(({ on, change, changeName, detail }, index) => {
    const telling = sources[index].finding.reasons.filter(({ code }) => !saidElsewhere.has(code));
    const why = telling.map((reason) => say(comparison.reasons, reason, hand)).filter((text) => text !== detail);
    return { on, state: change, stateName: changeName, detail: report.sentenceOf(detail), why: why.join(" ") };
  });
  return [
    { kind: "sentence", text: sentence },
    { kind: "small-print", text: cannotSee },
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
