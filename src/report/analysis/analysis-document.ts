// The analysis in its outside shape, "coldfall-analysis-1": what `--json` prints.

import type { AnalysisDocument } from "../../schema/documents/index.ts";
import type { Analysis, PullDownNumbers, ReasonSaying, RunEvent, StretchFinding } from "../../science/index.ts";
import { type CheckTelling, tellCheck, tellProof } from "../advice-telling.ts";
import type { ReportContext } from "../context.ts";
import { instant, outside } from "../outside-shapes.ts";
import { program } from "../program.ts";
import { rejectedParts } from "../rejected-telling.ts";
import { type Teller, tellerFor } from "../teller.ts";
import { plain } from "../terminal/text-layout.ts";
import { say } from "../words/index.ts";

/** The analysis as one JSON object; sentences in the context's language, instants in UTC. */
export function analysisDocument(analysis: Analysis, context: ReportContext): AnalysisDocument {
  const teller = tellerFor(context);
  return {
    format: "coldfall-analysis-1",
    program,
    options: {
      margin: analysis.margin,
      sourceMarks: context.sourceMarks.map(({ unixMs, source }) => ({ at: instant(unixMs), source })),
    },
    inputs: context.inputs.map((input) => ({ ...input })),
    sources: analysis.sources.map(({ source, verdict, baseline, coolingStrength, stretches, reasons }) => ({
      source,
      verdict,
      baseline,
      ...outside({ coolingStrength }, teller),
      stretches: [...stretches],
      reasons: reasonTexts(reasons, teller),
    })),
    stretches: analysis.stretches.map((stretch) => stretchDocument(stretch, teller)),
    keepsUp: analysis.keepsUp.map(({ source, settledHere, settledAt32, baseline, reasons }) => ({
      source,
      ...outside({ settledHere, settledAt32 }, teller),
      baseline,
      reasons: reasonTexts(reasons, teller),
    })),
    causes: analysis.causes.map(({ cause, source, probability }) => ({ cause, source, probability })),
    nextChecks: analysis.nextChecks.map((check) => {
      const { title, text, note, caution } = tellCheck(check, teller);
      return {
        check: plain(`${title}. ${text} ${note}`),
        separates: [...check.separates],
        caution: cautionText(caution),
      };
    }),
    beforeCondemning: analysis.beforeCondemning.map((finding) => {
      const { title, text, caution } = tellProof(finding, teller);
      return {
        proof: finding.proof,
        state: finding.state,
        text: plain(`${title}. ${text}`),
        caution: cautionText(caution),
      };
    }),
    events: analysis.events.map((event) => eventDocument(event, teller)),
    rejected: analysis.rejected.map((rejection) => ({
      log: rejection.log,
      position: rejection.position,
      reason: plain(teller.words.names.rejections[rejection.reason]),
      readings: rejection.readings,
      parts: rejectedParts(rejection).map(({ fromMs, toMs, ...part }) => ({
        start: instant(fromMs),
        end: instant(toMs),
        ...part,
      })),
    })),
    warnings: analysis.warnings.map((warning) => plain(say(teller.words.warnings, warning, teller.hand))),
  };
}

const cautionText = (caution: CheckTelling["caution"]) =>
  caution === null ? null : plain([...caution.subjects.map(({ text }) => text), caution.close].join(" "));

function stretchDocument(stretch: StretchFinding, teller: Teller): AnalysisDocument["stretches"][number] {
  const { coolingStrength, thisNight, finDifference, belowAmbient, warmingRate, duty, deadTimeShift } = stretch;
  return {
    log: stretch.log,
    source: stretch.source,
    start: instant(stretch.startMs),
    end: instant(stretch.endMs),
    sourceFrom: stretch.sourceFrom,
    startState: stretch.startState,
    verdict: stretch.verdict,
    baseline: { ...stretch.baseline },
    ...outside({ coolingStrength, thisNight }, teller),
    fit: { position: "cabinet", modes: stretch.fit.modes, ...outside(pullDownNumbers(stretch.fit), teller) },
    baselineFit:
      stretch.baselineFit === null
        ? null
        : { hours: stretch.baselineFit.hours, ...outside(pullDownNumbers(stretch.baselineFit), teller) },
    ...outside({ finDifference, belowAmbient, warmingRate, duty }, teller),
    milestones: outside(stretch.milestones, teller),
    ratios: outside(stretch.ratios, teller),
    ...outside({ deadTimeShift }, teller),
    switchOver:
      stretch.switchOver === null
        ? null
        : {
            from: stretch.switchOver.from,
            ...outside({ ratio: stretch.switchOver.ratio }, teller),
            drift: stretch.switchOver.drift,
          },
    reasons: reasonTexts(stretch.reasons, teller),
  };
}

const pullDownNumbers = ({ rateConstant, depth, initialSlope, deadTime }: PullDownNumbers) => ({
  rateConstant,
  depth,
  initialSlope,
  deadTime,
});

function eventDocument(event: RunEvent, { words: { events }, hand }: Teller): AnalysisDocument["events"][number] {
  return {
    log: event.log,
    kind: event.kind,
    start: instant(event.startMs),
    end: instant(event.endMs),
    position: event.position,
    size: event.size,
    sizeUnit: event.sizeUnit,
    reason: plain(say(events, event.reason, hand)),
  };
}

const reasonTexts = (reasons: readonly ReasonSaying[], teller: Teller) =>
  reasons.map((reason) => plain(say(teller.words.reasons, reason, teller.hand)));
