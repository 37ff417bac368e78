// A comparison of before with after in words and in order, before any layout: the printed text, the page and the JSON
// all take from this one telling.

import type { Change } from "../../schema/documents/index.ts";
import type {
  ComparedNumbers,
  ComparisonWarningSaying,
  RunsCompared,
  SourceChange,
} from "../../science/before-after/index.ts";
import type { Answer, Estimate, WarningSaying } from "../../science/index.ts";
import { isKnown } from "../../science/index.ts";
import type { Cell, NumberRow } from "../analysis/stretch-telling.ts";
import type { Hand } from "../hand.ts";
import { program } from "../program.ts";
import { type Teller, tellerFor } from "../teller.ts";
import { say, type Words } from "../words/index.ts";
import type { ComparisonContext } from "./comparison-context.ts";

export interface ComparisonTelling {
  readonly title: string;
  /** Days of the logs and the clock; empty when there is no stretch. */
  readonly when: string;
  readonly sentence: string;
  /** What the sentence does not say, to stand right under it. */
  readonly cannotSee: string;
  readonly headlines: readonly ChangeHeadline[];
  /** Conditions that differ between the run sheets. */
  readonly differences: readonly string[];
  readonly warnings: readonly string[];
  readonly sources: readonly ChangeTelling[];
  /** Every ratio there is, to be drawn against the margin. */
  readonly bars: readonly RatioBar[];
  readonly foot: readonly string[];
  readonly inputs: readonly string[];
}

export interface ChangeHeadline {
  readonly on: string;
  readonly change: Change;
  readonly changeName: string;
  readonly detail: string;
}

export interface ChangeTelling {
  readonly finding: SourceChange;
  readonly heading: string;
  readonly reasons: readonly string[];
  readonly numbers: readonly NumberRow[];
  readonly numberNotes: readonly string[];
}

export interface RatioBar {
  readonly name: string;
  /** For narrow places. */
  readonly short: string;
  readonly isOverControl: boolean;
  readonly change: Change;
  readonly ratio: Estimate;
}

/** Tells a comparison in the context's language. */
export function tellComparison(compared: RunsCompared, context: ComparisonContext): ComparisonTelling {
  const teller = tellerFor(context);
  const { comparison, report } = teller.words;
  const { hand } = teller;
  const namesOf = (role: "before" | "after") =>
    report.list(context.inputs.filter((input) => input.role === role).map(({ name }) => name));
  return {
    title: comparison.title(namesOf("before"), namesOf("after")),
    when: tellWhen(compared.sources, teller),
    sentence: say(comparison.summary, compared.sentence, hand),
    cannotSee: comparison.cannotSee,
    headlines: compared.sources.map((change) => tellHeadline(change, teller)),
    differences: compared.differences.map((difference) => say(comparison.differences, difference, hand)),
    warnings: [...new Set(compared.warnings.map((warning) => tellWarning(warning, teller.words, hand)))],
    sources: compared.sources.map((change) => tellChange(change, teller)),
    bars: compared.sources.flatMap((change) => barsOf(change, teller.words)),
    foot: [
      report.limits,
      report.times(hand.offset()),
      report.intervals,
      comparison.margin(compared.margin, hand),
      ...context.sourceMarks.map(({ unixMs, source }) =>
        report.marks(hand.moment(unixMs), teller.words.names.onSource(source)),
      ),
      report.method(program.version, program.method),
    ],
    inputs: context.inputs.map((input) => report.input(comparison.roles[input.role], input.name, input.sha256)),
  };
}

function tellWhen(sources: readonly SourceChange[], { words: { comparison }, hand }: Teller): string {
  const periodOf = (when: "before" | "after") => {
    const stretches = sources.flatMap(({ curves }) => curves[when]);
    return stretches.length === 0
      ? null
      : hand.period(
          Math.min(...stretches.map(({ startMs }) => startMs)),
          Math.max(...stretches.map(({ endMs }) => endMs)),
          "with year",
        );
  };
  const [before, after] = [periodOf("before"), periodOf("after")];
  return before === null || after === null ? "" : comparison.when(before, after, hand.offset());
}

function tellHeadline(
  { source, change, coolingStrength, overControl, control, reasons }: SourceChange,
  { words: { comparison, report }, hand }: Teller,
): ChangeHeadline {
  // Without a ratio the first reason says what there is instead.
  const bare = isKnown(coolingStrength)
    ? comparison.ratio(coolingStrength, hand)
    : say(comparison.reasons, reasons[0], hand);
  const against =
    control !== null && isKnown(overControl) ? `; ${comparison.overControl(control, overControl, hand)}` : "";
  return { on: report.headline(source), change, changeName: comparison.changeNames[change], detail: bare + against };
}

/** Codes of a single log's warnings and of the comparison's own are apart; which table has this one decides. */
function tellWarning(warning: WarningSaying | ComparisonWarningSaying, own: Words, hand: Hand): string {
  const isOfComparison = (one: typeof warning): one is ComparisonWarningSaying => one.code in own.comparison.warnings;
  return isOfComparison(warning) ? say(own.comparison.warnings, warning, hand) : say(own.warnings, warning, hand);
}

function tellChange(finding: SourceChange, teller: Teller): ChangeTelling {
  const { comparison } = teller.words;
  return {
    finding,
    heading: comparison.sourceHeading(finding.source, comparison.changeNames[finding.change]),
    reasons: finding.reasons.map((reason) => say(comparison.reasons, reason, teller.hand)),
    numbers: finding.numbers === null ? [] : tellNumbers(finding.numbers, teller),
    numberNotes:
      finding.numbers === null || finding.numbers.hours === null
        ? []
        : [comparison.equalLength(finding.numbers.hours, teller.hand)],
  };
}

const numberNames = ["finDifference", "initialSlope", "rateConstant", "depth", "deadTime"] as const;

function tellNumbers(numbers: ComparedNumbers, { words: { comparison, report }, hand }: Teller): NumberRow[] {
  const { before, after, ratios, deadTimeShift } = numbers;
  const shown = numberNames.filter((name) => isKnown(before[name]) || isKnown(after[name]));
  return shown.map((name) => {
    const [then, now] = [before[name], after[name]];
    const unit = [now, then].filter(isKnown).map((one) => hand.figures(one).unit)[0];
    const cell = (column: string, answer: Answer): Cell => {
      if (!isKnown(answer)) return { column, value: report.notKnown, interval: "" };
      const figures = hand.figures(answer);
      const value = figures.unit === unit ? figures.value : `${figures.value}\u00a0${figures.unit}`;
      return { column, value, interval: figures.interval };
    };
    const {
      name: called,
      shows,
      hides,
    } = name === "finDifference" ? comparison.finDifference : report.pullDownNumbers[name];
    const compared = cell(comparison.ratioColumn, name === "deadTime" ? deadTimeShift : ratios[name]);
    const shifted =
      name === "deadTime" && isKnown(deadTimeShift)
        ? { ...compared, value: report.later(compared.value, Math.round(deadTimeShift.value * 60)) }
        : compared;
    return {
      name: called,
      unit,
      cells: [cell(comparison.beforeColumn, then), cell(comparison.afterColumn, now), shifted],
      phrase: "",
      shows,
      hides,
    };
  });
}

function barsOf(
  { source, change, coolingStrength, overControl, control }: SourceChange,
  { comparison, names }: Words,
): RatioBar[] {
  const bars: RatioBar[] = [];
  if (isKnown(coolingStrength)) {
    const [name, short] = [names.onSource(source), names.bareSource(source)];
    bars.push({ name, short, isOverControl: false, change, ratio: coolingStrength });
  }
  if (isKnown(overControl) && control !== null) {
    const [name, short] = [comparison.controlBar(source, control), comparison.controlBarShort(source, control)];
    bars.push({ name, short, isOverControl: true, change, ratio: overControl });
  }
  return bars;
}

/** A line's name: "before", or with its log where there are several. */
export function curveLines({ curves }: SourceChange, { words: { comparison } }: Teller) {
  return (["before", "after"] as const).flatMap((when) =>
    curves[when].map((curve) => ({
      when,
      curve,
      name: curves[when].length === 1 ? comparison.lines[when] : `${comparison.lines[when]} (${curve.log})`,
    })),
  );
}
