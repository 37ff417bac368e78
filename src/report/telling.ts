// The whole report in words and in order, before any layout: the printed text, the page and later the
// PDF all lay out this one telling, so that none can leave out what another says.

import type { Verdict } from "../schema/documents/index.ts";
import type { EnergySource, HeatSource } from "../schema/index.ts";
import type {
  Analysis,
  Answer,
  CautionCode,
  Estimate,
  KeepsUpFinding,
  NextCheck,
  ReasonSaying,
  SourceFinding,
  StretchFinding,
  UnitProof,
} from "../science/index.ts";
import { isKnown } from "../science/index.ts";
import type { Reader, ReportContext } from "./context.ts";
import type { Hand } from "./hand.ts";
import { hoursBetween } from "./hand.ts";
import { program } from "./program.ts";
import { tellRejected } from "./rejected-telling.ts";
import { handOf, say, type Words, words } from "./words/index.ts";

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

export interface StretchTelling {
  readonly finding: StretchFinding;
  /** Under the source's own heading: "4 June 07:00 to 14:00". */
  readonly heading: string;
  /** By itself: "On gas, 4 June 07:00 to 14:00". */
  readonly name: string;
  /** null where there is none, and where the stretch is its source's only one, which has just said it. */
  readonly verdictName: string | null;
  readonly particulars: string;
  /** The evidence not already said of the whole source; the strength first. */
  readonly reasons: readonly string[];
  /** What was allowed for, taken as equal or cut away in the comparison: the small print of the evidence. */
  readonly allowances: readonly string[];
  /** k, D, S and dead time beside known-good; empty where none is known. */
  readonly numbers: readonly NumberRow[];
  /** Why numbers of the table are missing, and to what length known-good was cut. */
  readonly numberNotes: readonly string[];
  readonly facts: readonly { readonly name: string; readonly text: string }[];
}

export interface NumberRow {
  readonly name: string;
  /** Of every figure in the row that states none itself. */
  readonly unit: string;
  /** This stretch; with a known-good run also that run and the two compared. The same columns in every row. */
  readonly cells: readonly Cell[];
  /** In plain words: "halves the remaining gap every 2.8 h"; empty when the number is not known. */
  readonly phrase: string;
  readonly shows: string;
  readonly hides: string;
}

/** A value over its interval; the interval is empty where there is none. */
export interface Cell {
  readonly column: string;
  readonly value: string;
  readonly interval: string;
}

export interface CheckTelling {
  readonly title: string;
  readonly text: string;
  readonly note: string;
  readonly caution: CautionTelling | null;
}

export interface CautionTelling {
  readonly subjects: readonly CautionSubject[];
  /** What holds for every caution. */
  readonly close: string;
}

export interface CautionSubject {
  /** Its short name. */
  readonly about: string;
  readonly text: string;
  /** The same text stands with an advice further up the same letter, so that here its short name may do. */
  readonly isRepeated: boolean;
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
      .map((stretch) => tellStretch(stretch, { said: new Set(), alone: false }, teller)),
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

/** A check's words with its caution: the one way any face gets advice. */
export function tellCheck(check: NextCheck, teller: Teller): CheckTelling {
  const {
    words: { report, checks, names },
    hand,
  } = teller;
  const { title, text } = checks[check.check];
  const apart = check.separates.map((cause) => names.causeNames[cause]);
  const note = report.checkNote(hand.span(check.minutes / 60));
  return {
    title,
    text,
    note: apart.length === 0 ? note : `${note} ${report.tellsApart(report.list(apart))}`,
    caution: tellCautions(check.cautions, teller),
  };
}

/** A proof's words with its caution, as a check has them. */
export function tellProof({ proof, state, seen, cautions }: UnitProof, teller: Teller): CheckTelling {
  const {
    words: { report, condemning },
    hand,
  } = teller;
  return {
    title: report.proof(condemning.proofNames[proof], condemning.proofStates[state]),
    text: say(condemning.proofs, seen, hand),
    note: "",
    caution: tellCautions(cautions, teller),
  };
}

/** The cautions that belong to an advice; null where it comes near nothing. */
export function tellCautions(
  codes: readonly CautionCode[],
  { words: { cautions, cautionClose } }: Teller,
): CheckTelling["caution"] {
  if (codes.length === 0) return null;
  return { subjects: codes.map((code) => ({ ...cautions[code], isRepeated: false })), close: cautionClose };
}

/**
 * Marks what need not be told in full again: eight times the same caution is read by nobody.
 *
 * @param advice of one letter or list, in the order in which it is read
 */
export function repeatsMarked<Advice extends Pick<CheckTelling, "caution">>(advice: readonly Advice[]): Advice[] {
  const said = new Set<string>();
  return advice.map((one) => {
    if (one.caution === null) return one;
    const subjects = one.caution.subjects.map((subject) => ({ ...subject, isRepeated: said.has(subject.text) }));
    for (const { text } of subjects) said.add(text);
    return { ...one, caution: { ...one.caution, subjects } };
  });
}

/** The cautions to tell in full, and the short names of those that stand further up. */
export function cautionParts({ subjects }: CautionTelling): {
  readonly full: readonly CautionSubject[];
  readonly again: readonly string[];
} {
  return {
    full: subjects.filter(({ isRepeated }) => !isRepeated),
    again: subjects.filter(({ isRepeated }) => isRepeated).map(({ about }) => about),
  };
}

/** The words and the hand of one report. */
export interface Teller {
  readonly words: Words;
  readonly hand: Hand;
}

/** Tells in a reader's language and degrees, on his clock. */
export const tellerFor = ({ language, utcOffsetMinutes, degrees }: Reader): Teller => ({
  words: words(language),
  hand: handOf(language, utcOffsetMinutes, degrees),
});

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
  const strength = source.coolingStrength;
  return {
    on: report.headline(source.source),
    verdict: source.verdict,
    verdictName: names.verdictNames[source.verdict],
    detail: isKnown(strength) ? report.strength(strength, source.baseline, hand) : say(unknowns, strength.why, hand),
  };
}

function tellSource(source: SourceFinding, stretches: readonly StretchFinding[], teller: Teller): SourceTelling {
  const { report, names } = teller.words;
  const own = source.stretches.map((index) => stretches[index]);
  const alone = own.length === 1;
  const reasons = tellReasons(source.reasons, teller);
  // What source and stretch both say is said once: by the only stretch, else by the source.
  const byStretch = new Set(alone ? tellReasons(own[0].reasons, teller) : []);
  const bySource = new Set(reasons.filter((reason) => !byStretch.has(reason)));
  return {
    heading: report.sourceHeading(source.source, names.verdictNames[source.verdict]),
    verdict: source.verdict,
    reasons: [...bySource],
    stretches: own.map((stretch) => tellStretch(stretch, { said: bySource, alone }, teller)),
  };
}

const tellReasons = (reasons: readonly ReasonSaying[], { words: own, hand }: Teller) =>
  distinct(reasons.map((reason) => say(own.reasons, reason, hand)));

function tellStretch(
  stretch: StretchFinding,
  { said, alone }: { readonly said: ReadonlySet<string>; readonly alone: boolean },
  teller: Teller,
): StretchTelling {
  const { words: own, hand } = teller;
  const { report, names } = own;
  const cools = stretch.source !== "off";
  const period = hand.period(stretch.startMs, stretch.endMs);
  const sentences = (ofAllowance: boolean) =>
    tellReasons(
      stretch.reasons.filter((reason) => allowanceCodes.has(reason.code) === ofAllowance),
      teller,
    ).filter((sentence) => !said.has(sentence));
  const [first, ...further] = sentences(false);
  const thisNight =
    cools && isKnown(stretch.thisNight) ? [report.thisNight(stretch.thisNight, stretch.baseline.kind, hand)] : [];
  const off = isKnown(stretch.warmingRate) ? report.warmingBack : names.onSource("off");
  const name = report.stretchHeading(cools ? names.onSource(stretch.source) : off, period);
  return {
    finding: stretch,
    heading: cools ? period : name,
    name,
    verdictName: stretch.verdict === null || alone ? null : names.verdictNames[stretch.verdict],
    particulars: report.particulars(tellParticulars(stretch, teller)),
    reasons: [...(first === undefined ? [] : [first]), ...thisNight, ...further],
    allowances: sentences(true),
    numbers: cools ? tellNumbers(stretch, teller) : [],
    numberNotes: cools ? tellNumberNotes(stretch, teller) : [],
    facts: tellFacts(stretch, teller),
  };
}

/** Reasons that say how the comparison was made rather than what it found. */
export const allowanceCodes: ReadonlySet<ReasonSaying["code"]> = new Set([
  "ambient-referred",
  "start-referred",
  "supply-referred",
  "offset-from-settled",
  "offset-unknown",
  "cut-to-equal-length",
  "late-fins-compared",
  "conditions-taken-equal",
  "condition-one-sided",
  "condition-differs",
  "two-modes",
]);

function tellParticulars(stretch: StretchFinding, { words: { report, names, unknowns }, hand }: Teller): string[] {
  const { baseline, startState, coolingStrength } = stretch;
  const runs = hand.count(baseline.runs, report.knownGoodRuns);
  return [
    report.lasting(hand.span(hoursBetween(stretch.startMs, stretch.endMs))),
    ...(startState === null ? [] : [names.startStateNames[startState]]),
    report.toldOrFound[stretch.sourceFrom],
    ...(stretch.source === "off"
      ? []
      : [
          baseline.kind === "none"
            ? isKnown(coolingStrength) || lacksKnownGood(stretch)
              ? names.baselineNames.none
              : report.notCompared(say(unknowns, coolingStrength.why, hand))
            : report.comparedWith(names.baselineNames[baseline.kind], runs),
        ]),
    report.inLog(stretch.log),
  ];
}

type PullDownNumberName = keyof Words["report"]["pullDownNumbers"];
const pullDownNumberNames = [
  "rateConstant",
  "depth",
  "initialSlope",
  "deadTime",
] as const satisfies PullDownNumberName[];

function tellNumbers(stretch: StretchFinding, { words: { report }, hand }: Teller): NumberRow[] {
  const { ratios, deadTimeShift, fit, baselineFit } = stretch;
  if (!pullDownNumberNames.some((name) => isKnown(fit[name]))) return [];
  const some = pullDownNumberNames.filter((name) => isKnown(fit[name]) || (baselineFit && isKnown(baselineFit[name])));
  return some.map((name) => {
    const { phrase, ...row } = report.pullDownNumbers[name];
    const here = fit[name];
    const unit = isKnown(here) ? hand.figures(here).unit : "";
    const cell = (column: string, answer: Answer): Cell => {
      if (!isKnown(answer)) return { column, value: report.notKnown, interval: "" };
      const figures = hand.figures(answer);
      const value = figures.unit === unit ? figures.value : `${figures.value}\u00a0${figures.unit}`;
      return { column, value, interval: figures.interval };
    };
    const shift = cell(report.ratioColumn, deadTimeShift);
    const compared =
      name !== "deadTime"
        ? cell(report.ratioColumn, ratios[name])
        : isKnown(deadTimeShift)
          ? { ...shift, value: report.later(shift.value, Math.round(deadTimeShift.value * 60)) }
          : shift;
    const beside = baselineFit === null ? [] : [cell(report.knownGoodColumn, baselineFit[name]), compared];
    return {
      ...row,
      unit,
      cells: [cell(report.hereColumn, here), ...beside],
      phrase: isKnown(here) ? phrase(here, hand) : "",
    };
  });
}

function tellNumberNotes(stretch: StretchFinding, { words: { report, unknowns }, hand }: Teller): string[] {
  const missing = pullDownNumberNames.flatMap((name) => {
    const answer = stretch.fit[name];
    return isKnown(answer) ? [] : [{ name: report.pullDownNumbers[name].name, text: say(unknowns, answer.why, hand) }];
  });
  const whys = joinSameText(missing, report.list).map(({ name, text }) => report.numberMissing(name, text));
  const { baselineFit, fit } = stretch;
  const readings = pullDownNumberNames.flatMap((name) => (isKnown(fit[name]) ? [fit[name].readings] : []));
  const fitted = readings.find((count) => count !== undefined);
  return [
    ...(fitted === undefined ? [] : [report.fittedTo(hand.count(fitted, report.readings))]),
    ...(baselineFit === null || fitted === undefined ? [] : [report.equalLength(baselineFit.hours, hand)]),
    ...whys,
  ];
}

/** Numbers shown only where the stretch has them: their absence is no news. */
const quietFacts = ["duty", "warmingRate", "belowAmbient"] as const;

function tellFacts(stretch: StretchFinding, teller: Teller): { name: string; text: string }[] {
  const {
    words: { report, unknowns },
    hand,
  } = teller;
  const { milestones } = stretch;
  const heat: HeatSource | null = stretch.source === "off" ? null : stretch.source;
  const length = hoursBetween(stretch.startMs, stretch.endMs);
  const fact = (name: keyof ReturnType<typeof report.factNames>, answer: Answer, phrase: (e: Estimate) => string) => ({
    name: report.factNames(hand)[name],
    text: isKnown(answer) ? phrase(answer) : say(unknowns, answer.why, hand),
    known: isKnown(answer),
  });
  const reaching = (name: "to8" | "to5" | "to0") =>
    fact(name, milestones[name], (e) => (e.value <= length ? report.reached : report.projected)(e, heat, hand));
  const quiet = quietFacts
    .filter((name) => isKnown(stretch[name]))
    .map((name) => fact(name, stretch[name], (e) => report.facts[name](e, hand)));
  if (stretch.source === "off") return quiet;
  const milestone = (name: "fallFirstHour" | "shareAbove5" | "shareAbove8") =>
    fact(name, milestones[name], (e) => report.facts[name](e, hand));
  const loud = [
    fact("finDifference", stretch.finDifference, (e) => report.facts.finDifference(e, hand)),
    reaching("to8"),
    reaching("to5"),
    reaching("to0"),
    milestone("fallFirstHour"),
    milestone("shareAbove5"),
    milestone("shareAbove8"),
  ];
  return joinSameText([...quiet, ...loud], report.list);
}

function tellKeepsUp(finding: KeepsUpFinding, { words: { report, unknowns, reasons }, hand }: Teller) {
  const { source, settledHere, settledAt32 } = finding;
  const told = distinct(finding.reasons.map((reason) => say(reasons, reason, hand)));
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

/** Where an estimate lies against 8 °C; only a closed end can put it wholly on one side. */
function sideOf8({ low, high }: Estimate): "below" | "above" | "across" {
  if (high !== null && high <= 8) return "below";
  return low !== null && low > 8 ? "above" : "across";
}

function tellEvent(event: Analysis["events"][number], { words: { report, names, events }, hand }: Teller): string {
  const when = hand.period(event.startMs, event.endMs);
  const position = event.position === null ? null : names.positionNames[event.position];
  return `${report.eventAt(when, names.eventNames[event.kind], position)} ${say(events, event.reason, hand)}`;
}

function tellKnownGoodAdds(analysis: Analysis, { words: { report, names } }: Teller): string | null {
  const without = analysis.stretches.filter(lacksKnownGood).map((stretch) => names.onSource(stretch.source));
  return without.length === 0 ? null : report.knownGoodAdds(report.list(distinct(without)));
}

/** Known-good runs that are there but could not be compared are another matter, told by why. */
const lacksKnownGood = ({ coolingStrength }: StretchFinding): boolean =>
  !isKnown(coolingStrength) && coolingStrength.why.code === "no-known-good";

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

const distinct = (texts: readonly string[]) => [...new Set(texts)];

/** Neighbours missing for the same reason become one, under all their names: "to 8 °C and to 5 °C". */
function joinSameText(
  facts: readonly { name: string; text: string; known?: boolean }[],
  list: (items: readonly string[]) => string,
): { name: string; text: string }[] {
  const groups: { names: string[]; text: string }[] = [];
  for (const { name, text, known } of facts) {
    const last = groups.at(-1);
    if (!known && last?.text === text) last.names.push(name);
    else groups.push({ names: [name], text });
  }
  return groups.map(({ names, text }) => ({ name: list(names), text }));
}
