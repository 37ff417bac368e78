// The whole report in words and in order, before any layout: text, page and PDF all lay out this one telling, so that none
// can leave out what another says. Its stretches are told in stretch-telling.ts, its advice in ../advice-telling.ts.

import type { Verdict } from "../../schema/documents/index.ts";
import type { EnergySource } from "../../schema/index.ts";
import type { Analysis, KeepsUpFinding, SourceFinding, StretchFinding } from "../../science/index.ts";
import { isKnown } from "../../science/index.ts";
import { type CheckTelling, repeatsMarked, tellCheck, tellProof } from "../advice-telling.ts";
import { sideOf8 } from "../against-8.ts";
import type { ReportContext } from "../context.ts";
import { program } from "../program.ts";
import { tellRejected } from "../rejected-telling.ts";
import { type Teller, tellerFor } from "../teller.ts";
import { say } from "../words/index.ts";
import {
  lacksKnownGood,
  pullDownNumberNames,
  type StretchTelling,
  tellReasons,
  tellStretch,
} from "./stretch-telling.ts";

export interface Telling {
  readonly title: string;
  /** Day, period and clock of the logs; empty when there is no stretch. */
  readonly when: string;
  readonly headlines: readonly Headline[];
  readonly warnings: readonly string[];
  readonly sources: readonly SourceTelling[];
  /** The stretches on no energy source, in which the fridge warms back: they have numbers and no verdict. */
  readonly otherStretches: readonly StretchTelling[];
  /** What the numbers of the stretches show, and what not; empty when no stretch has any. */
  readonly showing: readonly string[];
  /** For each source: whether the fridge keeps up, here and in heat, and the reasons. */
  readonly keepsUp: readonly { readonly sentences: readonly string[]; readonly reasons: readonly string[] }[];
  /** The limits that a cabinet's temperature is compared with, with their sources, and then the caution about food. */
  readonly food: readonly string[];
  readonly causes: readonly { readonly share: string; readonly name: string }[];
  readonly checks: readonly CheckTelling[];
  /** What must be proven before a cooling unit is condemned; empty where it is not among the causes. */
  readonly proofs: readonly CheckTelling[];
  readonly events: readonly string[];
  readonly rejected: readonly string[];
  /** null when every source had its known-good runs. */
  readonly knownGoodAdds: string | null;
  readonly foot: readonly string[];
  readonly inputs: readonly string[];
}

export interface Headline {
  readonly on: string;
  readonly verdict: Verdict;
  readonly verdictName: string;
  readonly detail: string;
}

export interface SourceTelling {
  readonly heading: string;
  readonly verdict: Verdict;
  readonly reasons: readonly string[];
  readonly stretches: readonly StretchTelling[];
}

/** Tells an analysis in the context's language, on the log's own clock. */
export function tellAnalysis(analysis: Analysis, context: ReportContext): Telling {
  const teller = tellerFor(context);
  const { report } = teller.words;
  const sources = analysis.sources.map((source) => tellSource(source, analysis.stretches, teller));
  const checks = analysis.nextChecks.map((check) => tellCheck(check, teller));
  const proofs = analysis.beforeCondemning.map((proof) => tellProof(proof, teller));
  const advice = repeatsMarked([...checks, ...proofs]);
  const judged = new Set(analysis.sources.flatMap((source) => source.stretches));
  return {
    title: report.reportOn(report.list(logsOf(analysis))),
    when: tellWhen(analysis, teller),
    headlines: analysis.sources.map((source) => tellHeadline(source, teller)),
    warnings: analysis.warnings.map((warning) => say(teller.words.warnings, warning, teller.hand)),
    sources,
    otherStretches: analysis.stretches
      .filter((_, index) => !judged.has(index))
      .map((stretch) => tellStretch(stretch, { said: new Set(), isOnly: false }, teller)),
    showing: sources.some(({ stretches }) => stretches.some(({ numbers }) => numbers.length > 0))
      ? pullDownNumberNames.map((name) => report.shows(report.pullDownNumbers[name]))
      : [],
    keepsUp: analysis.keepsUp.map((finding) => tellKeepsUp(finding, teller)),
    food: [report.foodLimits(teller.hand), teller.words.cautions.food.text],
    causes: [...analysis.causes]
      .filter((cause) => cause.probability >= leastShownShare)
      .sort((a, b) => b.probability - a.probability)
      .map(({ cause, source, probability }) => ({
        share: teller.hand.percent(probability),
        name:
          cause === "none" && analysis.events.some(({ kind }) => kind === "cooling-stopped")
            ? report.nothingElseUnusual
            : report.cause(teller.words.names.causeNames[cause], source),
      })),
    checks: advice.slice(0, checks.length),
    proofs: advice.slice(checks.length),
    events: analysis.events.map((event) => tellEvent(event, teller)),
    rejected: analysis.rejected.map((rejection) => tellRejected(rejection, teller)),
    knownGoodAdds: tellKnownGoodAdds(analysis, teller),
    foot: tellFoot(analysis, context, teller),
    inputs: context.inputs.map((input) => report.input(report.roles[input.role], input.name, input.sha256)),
  };
}

/** A cause less likely than this would show as 0 %. */
const leastShownShare = 0.005;

/** The logs' names, in order of first appearance. */
export const logsOf = (analysis: Analysis) => [...new Set(analysis.stretches.map((stretch) => stretch.log))];

function tellWhen({ stretches }: Analysis, { words: { report }, hand }: Teller): string {
  if (stretches.length === 0) return "";
  const start = Math.min(...stretches.map((stretch) => stretch.startMs));
  const end = Math.max(...stretches.map((stretch) => stretch.endMs));
  return report.when(hand.period(start, end, "with year"), hand.offset());
}

function tellHeadline(source: SourceFinding, { words: { report, names, unknowns }, hand }: Teller): Headline {
  const { coolingStrength: strength, baseline, reasons } = source;
  const hasStopped = reasons.some(({ code }) => code === "stopped-for-good");
  const asTold = isKnown(strength) ? report.strength(strength, baseline, hand) : say(unknowns, strength.why, hand);
  return {
    on: report.headline(source.source),
    verdict: source.verdict,
    verdictName: names.verdictNames[source.verdict],
    detail: hasStopped ? report.untilItStopped(asTold) : asTold,
  };
}

function tellSource(source: SourceFinding, stretches: readonly StretchFinding[], teller: Teller): SourceTelling {
  const { report, names } = teller.words;
  const own = source.stretches.map((index) => stretches[index]);
  const isOnly = own.length === 1;
  const reasons = tellReasons(source.reasons, teller);
  // What source and stretch both say is said once: by the only stretch, else by the source.
  const byStretch = new Set(isOnly ? tellReasons(own[0].reasons, teller) : []);
  const bySource = new Set(reasons.filter((reason) => !byStretch.has(reason)));
  return {
    heading: report.sourceHeading(source.source, names.verdictNames[source.verdict]),
    verdict: source.verdict,
    reasons: [...bySource],
    stretches: own.map((stretch) => tellStretch(stretch, { said: bySource, isOnly }, teller)),
  };
}

function tellKeepsUp(finding: KeepsUpFinding, teller: Teller) {
  const {
    words: { report, unknowns },
    hand,
  } = teller;
  const { source, settledHere, settledAt32 } = finding;
  const told = tellReasons(finding.reasons, teller);
  if (!isKnown(settledHere) && !isKnown(settledAt32) && settledHere.why.code === settledAt32.why.code) {
    return { sentences: [report.notSettled(source, say(unknowns, settledHere.why, hand), hand)], reasons: told };
  }
  const here = isKnown(settledHere)
    ? report.settledHere(source, settledHere, report.against8(hand)[sideOf8(settledHere)], hand)
    : report.notSettledHere(source, say(unknowns, settledHere.why, hand));
  const hot = isKnown(settledAt32)
    ? report.settledAt32(source, settledAt32, report.against8(hand)[sideOf8(settledAt32)], hand)
    : report.notSettledAt32(source, say(unknowns, settledAt32.why, hand), hand);
  return { sentences: [here, hot], reasons: told };
}

function tellEvent(event: Analysis["events"][number], { words: { report, names, events }, hand }: Teller): string {
  const when = hand.period(event.startMs, event.endMs);
  const position = event.position === null ? null : names.positionNames[event.position];
  return `${report.eventAt(when, names.eventNames[event.kind], position)} ${say(events, event.reason, hand)}`;
}

function tellKnownGoodAdds(analysis: Analysis, { words: { report, names } }: Teller): string | null {
  const without = analysis.stretches.filter(lacksKnownGood).map((stretch) => names.onSource(stretch.source));
  return without.length === 0 ? null : report.knownGoodAdds(report.list([...new Set(without)]));
}

function tellFoot(analysis: Analysis, context: ReportContext, { words: { report, names }, hand }: Teller): string[] {
  return [
    report.limits,
    report.times(hand.offset()),
    report.intervals,
    report.margin(hand.percent(analysis.margin)),
    ...context.sourceMarks.map(({ unixMs, source }: { unixMs: number; source: EnergySource }) =>
      report.marks(hand.moment(unixMs), names.onSource(source)),
    ),
    report.method(program.version, program.method),
  ];
}
