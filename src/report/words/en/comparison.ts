// English: before compared with after. What the science says of a change, and the report's own sentences.

import type { Change } from "../../../schema/documents/index.ts";
import type { HeatSource, Phrases } from "../../../schema/index.ts";
import type {
  ChangeClause,
  ChangeReasonSayings,
  ComparisonWarningSayings,
  Difference,
  DifferenceSayings,
  SummarySayings,
} from "../../../science/before-after/index.ts";
import type { Estimate, UnknownSaying } from "../../../science/index.ts";
import type { Hand } from "../../hand.ts";
import { betterFrom, sameHigh, sameLow, worseFrom } from "../change-limits.ts";
import { capital } from "../phrasing.ts";
import { conditionNames as heldNames, settings, vents } from "./conditions.ts";
import { bareSource, list, onSource } from "./names.ts";
import { reasons } from "./reasons.ts";
import { unknowns } from "./unknowns.ts";

const byFactor = (factor: number, hand: Hand) =>
  factor >= 1 ? `raises the ratio by ${hand.percent(factor - 1)}` : `lowers it by ${hand.percent(1 - factor)}`;

/** "138 % of before (112 to 170)". */
const ofBefore = (e: Estimate, hand: Hand) => `${hand.value(e)} of before (${hand.interval(e)})`;

const conditionNames: { readonly [C in Difference["code"]]: string } = {
  fridge: "the fridge's name",
  setting: "the setting",
  "tilt-sideways": "the tilt sideways",
  "tilt-lengthways": "the tilt lengthways",
  dial: "the dial",
  load: "the load",
  vents: "the vents",
  "fan-inside": "a fan inside",
  "fan-at-rear": "a fan at the rear",
  "gas-kind": "the kind of gas",
  "gas-pressure": "the gas pressure",
  altitude: "the altitude",
  "gas-rated-watts": "the rated heat on gas",
  "mains-rated-watts": "the rated heat on mains",
  "dc12-rated-watts": "the rated heat on 12\u00a0V",
  "mains-volts": "the mains voltage",
  "dc12-volts": "the voltage on 12\u00a0V",
  "mains-rated-volts": "the rated mains voltage",
  "dc12-rated-volts": "the rated voltage on 12\u00a0V",
};
const conditions = (codes: readonly Difference["code"][]) => list(codes.map((code) => conditionNames[code]));

/** "Load: empty before, full after." */
const differs = <Value>(
  code: Difference["code"],
  { before, after }: { readonly before: readonly Value[]; readonly after: readonly Value[] },
  write: (value: Value) => string,
) => {
  const side = (values: readonly Value[]) => (values.length === 0 ? "not stated" : list(values.map(write)));
  return `${capital(conditionNames[code].replace(/^(the|a) /, ""))}: ${side(before)} before, ${side(after)} after.`;
};

const asTold = (value: string) => value;
const yesOrNo = (value: boolean) => (value ? "yes" : "no");
const volts = (hand: Hand) => (value: number) => hand.quantity(value, "V", 1);
const watts = (hand: Hand) => (value: number) => hand.quantity(value, "W", 0);
const degrees = (hand: Hand) => (value: number) => `${hand.number(value, 1)}°`;

const differences: Phrases<DifferenceSayings, Hand> = {
  fridge: (stated) => differs("fridge", stated, asTold),
  setting: (stated) => differs("setting", stated, (value) => settings[value]),
  "tilt-sideways": (stated, hand) => differs("tilt-sideways", stated, degrees(hand)),
  "tilt-lengthways": (stated, hand) => differs("tilt-lengthways", stated, degrees(hand)),
  dial: (stated) => differs("dial", stated, asTold),
  load: (stated) => differs("load", stated, asTold),
  vents: (stated) => differs("vents", stated, (value) => vents[value]),
  "fan-inside": (stated) => differs("fan-inside", stated, yesOrNo),
  "fan-at-rear": (stated) => differs("fan-at-rear", stated, yesOrNo),
  "gas-kind": (stated) => differs("gas-kind", stated, asTold),
  "gas-pressure": (stated, hand) => differs("gas-pressure", stated, (value) => `${hand.number(value, 0)}\u00a0mbar`),
  altitude: (stated, hand) => differs("altitude", stated, (value) => `${hand.number(value, 0)}\u00a0m`),
  "gas-rated-watts": (stated, hand) => differs("gas-rated-watts", stated, watts(hand)),
  "mains-rated-watts": (stated, hand) => differs("mains-rated-watts", stated, watts(hand)),
  "dc12-rated-watts": (stated, hand) => differs("dc12-rated-watts", stated, watts(hand)),
  "mains-volts": (stated, hand) => differs("mains-volts", stated, volts(hand)),
  "dc12-volts": (stated, hand) => differs("dc12-volts", stated, volts(hand)),
  "mains-rated-volts": (stated, hand) => differs("mains-rated-volts", stated, volts(hand)),
  "dc12-rated-volts": (stated, hand) => differs("dc12-rated-volts", stated, volts(hand)),
};

const changeReasons: Phrases<ChangeReasonSayings, Hand> = {
  "ratio-better": ({ estimate, margin }, hand) =>
    `Cooling strength ${ofBefore(estimate, hand)}: the whole interval lies above ${betterFrom(margin, hand)}, from where on it counts as better.`,
  "ratio-same": ({ estimate, margin }, hand) =>
    `Cooling strength ${ofBefore(estimate, hand)}: the whole interval lies between ${sameLow(margin, hand)} and ${sameHigh(margin, hand)}, which counts as the same.`,
  "ratio-worse": ({ estimate, margin }, hand) =>
    `Cooling strength ${ofBefore(estimate, hand)}: the whole interval lies below ${worseFrom(margin, hand)}, from where on it counts as worse.`,
  "ratio-undecided": ({ estimate, margin }, hand) =>
    `Cooling strength ${ofBefore(estimate, hand)}: the interval is too wide to say. Better lies wholly above ${betterFrom(margin, hand)}, worse wholly below ${worseFrom(margin, hand)}, the same wholly between ${sameLow(margin, hand)} and ${sameHigh(margin, hand)}.`,
  "no-ratio": ({ why }, hand) => {
    // The same dispatch as `say`, which stands above this folder.
    const phrase = unknowns[why.code] as (values: UnknownSaying, hand: Hand) => string;
    return `There is no ratio here. ${phrase(why, hand)}`;
  },
  "dead-before": () => "Before, it did not cool at all; now it does. There is no ratio to something that was nothing.",
  "dead-after": () => "Before, it cooled; now it does not cool at all.",
  "dead-throughout": () => "It did not cool before, and does not cool now.",
  "dead-now-and-then": ({ when }) =>
    `In one of the runs ${when} it did not cool at all, in another it did: a fault that comes and goes cannot be compared.`,
  "stopped-then": ({ when, unixMs }, hand) =>
    `In the run ${when} it stopped cooling at ${hand.moment(unixMs)} and did not come back. What is compared is the time until then; why it stopped comes first.`,
  "runs-combined": ({ before, after, hours }, hand) => {
    const both = `${capital(stretches(after, hand))} after, ${stretches(before, hand)} before`;
    return hours === null ? `${both}.` : `${both}, all cut to the same ${hand.span(hours)} from the start of cold.`;
  },
  "switched-on-both-sides": ({ from }) =>
    `Before and after, it was switched to from ${bareSource(from)} while cold. The fins across either switch hold the two sources against each other; the fall ${onSource(from)} carries that from before to after.`,
  "runs-disagree": () => "The runs after disagree by more than their intervals allow; something changed between them.",
  "seal-changed": ({ ratio }, hand) =>
    `When off, the cabinet now warms back at ${hand.value(ratio)} of the rate before (${hand.interval(ratio)}): more cold leaks out, or less was inside.`,
  "load-changed": ({ ratio }, hand) =>
    `When off, the cabinet now warms back at ${hand.value(ratio)} of the rate before (${hand.interval(ratio)}): less cold leaks out, or more was inside.`,
  "is-control": () => "Nobody touched this source: what changes here changed with the run, not with the work.",
  "over-control": ({ control, estimate }, hand) =>
    `Held against ${bareSource(control)}, which nobody touched: ${hand.brief(estimate)}. Frost, probes, ambient and load act on both and drop out.`,
  "control-decides": ({ control }) =>
    `The change held against ${bareSource(control)} decides, since it is free of what both sources felt.`,
  "control-changed": ({ control }) =>
    `${capital(bareSource(control))}, which nobody touched, changed, and this source by itself hardly did: other volts on the two nights or a fault of ${bareSource(control)} would look like that, and so would a night that was better or worse for both. Measured volts of both nights would tell.`,
  "control-speaks-against": ({ control }) =>
    `${capital(bareSource(control))}, which nobody touched, changed much the same way: the run may have changed rather than this source.`,
  "control-clears": ({ control, differences: codes }) =>
    `${capital(conditions(codes))} differed too, but ${bareSource(control)} felt that as well and does not explain the change.`,
  withheld: ({ change, differences: codes }) =>
    `It would count as ${change}, but ${conditions(codes)} differed between the runs and could explain it: repeat the run under the conditions of before; ${safeHabit}.`,
  "another-pair-decides": () =>
    `Another run after, or known-good runs of this fridge, would narrow the interval; ${safeHabit}.`,
  "witnesses-agree": ({ finRatio, slopeRatio }, hand) =>
    `The two witnesses of cooling agree, conditions allowed for: ${hand.percent(finRatio)} of before by the fins (cooling goes as their difference to the power of 1.36), ${hand.percent(slopeRatio)} by the initial fall.`,
  "witnesses-disagree": ({ finRatio, slopeRatio }, hand) =>
    `The two witnesses of cooling disagree, conditions allowed for: ${hand.percent(finRatio)} of before by the fins (cooling goes as their difference to the power of 1.36), ${hand.percent(slopeRatio)} by the initial fall.`,
  "fins-alone": reasons["fins-alone"],
  "slope-alone": reasons["slope-alone"],
  "cabinet-probe-slow": ({ kelvin: lag, side }, hand) =>
    `With the fridge off the fins read ${hand.quantity(lag, "K", 1)} farther above the cabinet probe ${side === "here" ? "after than before" : "before than after"}, and nothing heats them: that probe answers late, as in a bottle or among goods. The fins look colder and the fall slower for it, and the interval is open to the side that this hides.`,
  "load-unseen": reasons["load-unseen"],
  "fall-bent": ({ share }, hand) =>
    `The fall starts steeper than before and slows down sooner, as with goods put in cold or a leak: the start may not be the source's doing, so the interval reaches ${hand.percent(share)} farther down. An evaporator probe would tell.`,
  "began-cold": ({ kelvin: colder, side }, hand) =>
    `As its first heating began, the cabinet stood ${hand.quantity(colder, "K", 1)} farther below ambient ${side === "here" ? "after than before" : "before than after"}, as with goods put in cold. The air then falls faster than the source makes it, and the interval is open to the side that this hides.`,
  "load-unseen-before": reasons["load-unseen-before"],
  "explained-by-seal": ({ ratio }, hand) =>
    `When off, the cabinet now warms back at ${hand.value(ratio)} of the rate before (${hand.interval(ratio)}): more cold leaks out, which would explain that.`,
  "explained-by-load": ({ ratio }, hand) =>
    `When off, the cabinet now warms back at ${hand.value(ratio)} of the rate before (${hand.interval(ratio)}): more was inside, or less cold leaks out, which would explain that.`,
  "frost-or-moved-probe": () =>
    "Frost on the fins, or an evaporator probe that sits elsewhere than before, would explain that; the ratio rests on the initial fall alone.",
  "ambient-referred": ({ ambient, baselineAmbient, factor }, hand) =>
    `Ambient ${hand.quantity(ambient, "Cel", 1)}, before ${hand.quantity(baselineAmbient, "Cel", 1)}: allowing for that ${byFactor(factor, hand)}.`,
  "supply-referred": ({ volts: now, baselineVolts, factor }, hand) =>
    `Supply ${hand.quantity(now, "V", 1)}, before ${hand.quantity(baselineVolts, "V", 1)}: allowing for that ${byFactor(factor, hand)}.`,
  "gas-referred": ({ heat, factor, share }, hand) =>
    `Gas kind, pressure and altitude give the burner ${hand.percent(heat)} of the heat before: allowing for that ${byFactor(factor, hand)} and leaves ±${hand.percent(share)} open.`,
  "condition-one-sided": ({ condition, share }, hand) =>
    `${capital(heldNames[condition])} is stated for one side only; that leaves ±${hand.percent(share)} open, and the interval is so much wider.`,
};

/** Wherever a sentence has the fridge run again, it says how. */
const safeHabit = "nights on electricity only, gas attended";
const stretches = (count: number, hand: Hand) => hand.count(count, { one: "stretch", other: "stretches" });

/** "1.6 times as strongly as before (1.3 to 2.1)". */
const times = (ratio: Estimate, hand: Hand) => {
  const figure = (value: number | null) => (value === null ? "?" : hand.number(value, 1));
  return `${figure(ratio.value)}\u00a0times as strongly as before (${hand.range(figure(ratio.low), figure(ratio.high))})`;
};

/** What a customer reads of a source, after "on gas". */
function statement({ change, ratio, dead }: ChangeClause, fridge: string, hand: Hand): string {
  if (change === "undecided") return `these runs do not show whether ${fridge} cools better or worse than before`;
  if (dead === "before") return `${fridge} cools again, which it did not before`;
  if (dead === "after") return `${fridge} no longer cools`;
  if (dead === "throughout") return `${fridge} still does not cool`;
  if (change === "same" || ratio === null) return `${fridge} cools as well as before`;
  if (change === "better") return `${fridge} cools better, ${times(ratio, hand)}`;
  return `${fridge} cools less well, ${times(ratio, hand)}`;
}

/** Sources of which the same is to be said are named together. What changed comes first, what does not show last. */
function clauses(all: readonly ChangeClause[], hand: Hand): readonly string[] {
  const order: readonly Change[] = ["better", "worse", "same", "undecided"];
  const groups: { on: string[]; first: ChangeClause; said: string }[] = [];
  for (const one of [...all].sort((a, b) => order.indexOf(a.change) - order.indexOf(b.change))) {
    const on = `${onSource(one.source)}${one.isUntouched ? ", which nobody touched," : ""}`;
    const said = statement(one, "it", hand);
    const group = groups.find((other) => other.said === said);
    if (group === undefined) groups.push({ on: [on], first: one, said });
    else group.on.push(on);
  }
  // The fridge is named once; from then on it is "it".
  return groups.map(
    ({ on, first, said }, index) => `${list(on)} ${index === 0 ? statement(first, "the fridge", hand) : said}`,
  );
}

const summary: Phrases<SummarySayings, Hand> = {
  changes: ({ clauses: all }, hand) => `${capital(clauses(all, hand).join("; "))}.`,
  "nothing-compared": () => "Neither log holds a stretch with a named energy source, so there is nothing to compare.",
};

const warnings: Phrases<ComparisonWarningSayings, Hand> = {
  "after-is-older": ({ before, after }) =>
    `What was given as after, ${list(after)}, is older than what was given as before, ${list(before)}; check that they were not exchanged.`,
  "no-run-sheet": ({ when }) =>
    when === "both"
      ? "There is no run sheet: level, dial, load, vents, gas and volts are taken as equal before and after."
      : `There is no run sheet ${when}: level, dial, load, vents, gas and volts are taken as equal.`,
  "stated-on-one-side": ({ when, conditions: codes }) =>
    `Stated only in the run sheet ${when}, and taken as equal: ${conditions(codes)}.`,
  "untouched-not-run": ({ source }) =>
    `The run sheet says that nobody touched ${bareSource(source)}, but the fridge did not run ${onSource(source)} in these logs.`,
  "source-unnamed": ({ log }) =>
    `In ${log} the fridge ran on a source that nobody named; name it by --source-at to have it compared.`,
};

const changeNames: { readonly [C in Change]: string } = {
  better: "better",
  same: "the same",
  worse: "worse",
  undecided: "cannot say yet",
};

export const comparison = {
  reasons: changeReasons,
  differences,
  summary,
  warnings,
  changeNames,

  title: (before: string, after: string) => `Coldfall: ${before} compared with ${after}`,
  when: (before: string, after: string, offset: string) => `before: ${before}; after: ${after} (${offset})`,
  ratio: (e: Estimate, hand: Hand) => `cooling strength ${ofBefore(e, hand)}`,
  overControl: (control: HeatSource, e: Estimate, hand: Hand) =>
    `held against ${bareSource(control)}, which nobody touched, ${hand.brief(e)}`,

  differencesHeading: "What else differed",
  noDifferences: "The run sheets state no difference in the conditions.",
  sourceHeading: (source: HeatSource, change: string) => `${capital(onSource(source))}: ${change}`,

  numbersCaption: "The fitted pull-down, before and after",
  beforeColumn: "before",
  afterColumn: "after",
  ratioColumn: "compared",
  finDifference: {
    name: "fin difference",
    shows: "how strongly the fins draw heat from the air, with little regard to load and doors.",
    hides: "frost, or a probe clipped on elsewhere, which change it without any fault.",
  },
  equalLength: (hours: number, hand: Hand) => `All over the same ${hand.span(hours)} from the start of cold.`,

  ratiosTitle: "Cooling strength after over before",
  ratiosAxis: "after over before, %",
  ratiosCaption: (margin: number, hand: Hand) =>
    `Each bar is a 95\u00a0% interval with its value. Shaded: ${sameLow(margin, hand)} to ${sameHigh(margin, hand)}, which counts as the same; a bar wholly to the right of the right-hand dashed line (${betterFrom(margin, hand)}) is better, one wholly to the left of the left-hand one (${worseFrom(margin, hand)}) worse.`,
  ratiosTable: "The ratios of this drawing as a table",
  ratiosColumns: { source: "source", ratio: "after over before", interval: "95\u00a0% interval", change: "change" },
  barsLegend: (margin: number, hand: Hand) =>
    `In %. ◆ value, ├┤ 95\u00a0% interval, ░ ${sameLow(margin, hand)} to ${sameHigh(margin, hand)} counts as the same, ┊ worse wholly left of ${worseFrom(margin, hand)}, better wholly right of ${betterFrom(margin, hand)}.`,
  controlBar: (source: HeatSource, control: HeatSource) => `${onSource(source)} against ${bareSource(control)}`,
  controlBarShort: (source: HeatSource, control: HeatSource) => `${bareSource(source)} against ${bareSource(control)}`,
  barIs: (name: string, e: Estimate, hand: Hand) => `${capital(name)}: ${hand.brief(e)}.`,

  curvesTitle: (source: HeatSource) => `${capital(onSource(source))}: before and after, laid on the start of cold`,
  curvesAxis: (hand: Hand) => `${hand.unit("K")} below ambient`,
  curvesHours: "hours since cold began",
  curvesCaption: (patterns: readonly string[]) => `${capital(patterns.join("; "))}.`,
  lines: { before: "before", after: "after" },
  patterns: { before: "before in long dashes", after: "after as a solid line" },
  fromSwitchOn: "where no start of cold was found, hours count from the switch-on",
  curvesTable: "K below ambient",
  curvesColumns: { hours: "hours" },
  reaches: (name: string, end: string, hours: string) =>
    `${capital(name)}: ${end} below ambient ${hours} after cold began.`,
  reachesFromSwitchOn: (name: string, end: string, hours: string) =>
    `${capital(name)}: ${end} below ambient ${hours} after the switch-on; no start of cold was found.`,

  /** Stands right under the sentence that answers. */
  cannotSee: "This says what changed between these runs, not that all is well now.",
  margin: (margin: number, hand: Hand) =>
    `Allowed loss: ${hand.percent(margin)}. Better means above ${betterFrom(margin, hand)} of before, worse below ${worseFrom(margin, hand)}, the same between ${sameLow(margin, hand)} and ${sameHigh(margin, hand)}, always with the whole interval.`,
  roles: {
    before: "Log before",
    after: "Log after",
    "known-good": "Known-good log",
    baseline: "Baseline",
    sheet: "Run sheet",
  },
};
