// One stretch in words: its particulars, the evidence, the numbers of its pull-down beside known-good, and its facts.

import type { HeatSource } from "../../schema/index.ts";
import type { Answer, Estimate, ReasonSaying, StretchFinding } from "../../science/index.ts";
import { isKnown } from "../../science/index.ts";
import { hoursBetween } from "../hand.ts";
import type { Teller } from "../teller.ts";
import { say, type Words } from "../words/index.ts";

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

/**
 * Tells one stretch.
 *
 * @param beside the sentences that its source has `said` already, and whether it is that source's only stretch.
 */
export function tellStretch(
  stretch: StretchFinding,
  beside: { readonly said: ReadonlySet<string>; readonly isOnly: boolean },
  teller: Teller,
): StretchTelling {
  const {
    words: { report, names },
    hand,
  } = teller;
  const cools = stretch.source !== "off";
  const period = hand.period(stretch.startMs, stretch.endMs);
  const sentences = (ofAllowance: boolean) =>
    tellReasons(
      stretch.reasons.filter((reason) => allowanceCodes.has(reason.code) === ofAllowance),
      teller,
    ).filter((sentence) => !beside.said.has(sentence));
  const [first, ...further] = sentences(false);
  const thisNight =
    cools && isKnown(stretch.thisNight) ? [report.thisNight(stretch.thisNight, stretch.baseline.kind, hand)] : [];
  const off = isKnown(stretch.warmingRate) ? report.warmingBack : names.onSource("off");
  const name = report.stretchHeading(cools ? names.onSource(stretch.source) : off, period);
  return {
    finding: stretch,
    heading: cools ? period : name,
    name,
    verdictName: stretch.verdict === null || beside.isOnly ? null : names.verdictNames[stretch.verdict],
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
/** The numbers of a pull-down, in the order in which they are told. */
export const pullDownNumberNames = [
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

/** Reasons as sentences, each once. */
export const tellReasons = (reasons: readonly ReasonSaying[], { words: own, hand }: Teller) => [
  ...new Set(reasons.map((reason) => say(own.reasons, reason, hand))),
];

/** Known-good runs that are there but could not be compared are another matter, told by why. */
export const lacksKnownGood = ({ coolingStrength }: StretchFinding): boolean =>
  !isKnown(coolingStrength) && coolingStrength.why.code === "no-known-good";

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
