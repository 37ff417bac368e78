// The verdict on one energy source, before against after: ratio of the cooling strengths, the same over a source nobody
// touched, and what else could explain a change.

import type { Change } from "../../schema/documents/index.ts";
import type { HeatSource } from "../../schema/index.ts";
import type { RunEvidence, StretchEvidence } from "../evidence/run-evidence.ts";
import { finDifferenceOf, meanOf, sideBySide } from "../evidence/side-by-side.ts";
import { type WarmingRatio, warmingRatio } from "../evidence/warming-ratio.ts";
import { type Answer, type Estimate, isKnown, type Unknown, unknown } from "../numbers/estimate.ts";
import type { ReasonSaying } from "../sayings.ts";
import { asTheyRan } from "../strength/sheet-conditions.ts";
import { combinedStrength, notComparable, type Strength, strengthEstimate, strengthOf } from "../strength/strength.ts";
import type { WitnessSpread } from "../strength/witness-spread.ts";
import { unseenLoad } from "../strength/witnesses.ts";
import { deadness } from "../verdict/stretch-verdict.ts";
import { alignedCurve } from "./aligned-curve.ts";
import type { ComparedNumbers, SourceChange } from "./change-findings.ts";
import {
  type ChangeReasonSaying,
  type ChangeReasonSayings,
  type Difference,
  sharedReasonCodes,
} from "./change-sayings.ts";
import { overControl, spreadBesideControl } from "./over-control.ts";
import { differencesFelt } from "./sheet-differences.ts";
import { controlOverSwitches, strengthOverSwitches } from "./switched-on-both-sides.ts";

/** All that the changes of a fridge's sources are found from. */
export interface Compared {
  readonly before: readonly RunEvidence[];
  readonly after: readonly RunEvidence[];
  readonly knownGood: ReadonlyMap<HeatSource, readonly StretchEvidence[]>;
  readonly spread: WitnessSpread;
  readonly untouched: readonly HeatSource[];
  readonly differences: readonly Difference[];
  readonly margin: number;
}

/**
 * What became of one energy source between the runs before and those after.
 *
 * @returns the change with its evidence; "undecided" with the reason where the runs do not tell
 */
export function sourceChange(source: HeatSource, compared: Compared): SourceChange {
  const [before, after] = [stretchesOn(source, compared.before), stretchesOn(source, compared.after)];
  const strength = strengthAfterOverBefore(source, before, after, compared);
  const coolingStrength: Answer = "why" in strength ? unknown(strength.why) : strengthEstimate(strength.strength, true);
  const control = controlFor(source, compared);
  const judged =
    judgeDead(source, before, after, compared.differences) ??
    unlessStopped(
      judgeRatio(source, coolingStrength, control, compared, "why" in strength ? [] : evidenceOf(strength)),
      before,
      after,
    );
  return {
    source,
    change: judged.change,
    coolingStrength: judged.isDead ? unknown({ code: "nothing-cooled" }) : coolingStrength,
    overControl: judged.isDead && "ratio" in control ? unknown({ code: "nothing-cooled" }) : controlAnswer(control),
    control: "why" in control ? null : control.source,
    reasons: judged.reasons,
    numbers: judged.isDead || "why" in strength ? null : numbersOf(strength),
    curves: { before: before.map(alignedCurve), after: after.map(alignedCurve) },
  };
}

/** Three-way against the allowed loss, of which half must be passed to call it better or worse; a missing end decides nothing. */
export function changeOf(ratio: Answer, margin: number): Change {
  if (!isKnown(ratio)) return "undecided";
  const { low, high } = ratio;
  const least = 1 - margin / 2;
  if (low !== null && low > 1 / least) return "better";
  if (high !== null && high < least) return "worse";
  if (low !== null && high !== null && low >= 1 - margin && high <= 1 / (1 - margin)) return "same";
  return "undecided";
}

const stretchesOn = (source: HeatSource, runs: readonly RunEvidence[]): readonly StretchEvidence[] =>
  runs.flatMap((run) => run.stretches.filter((stretch) => stretch.stretch.heated && stretch.source === source));

/** Unlike a known-good run, one before may have barely cooled: then its fins speak alone. */
const isComparable = (stretch: StretchEvidence): boolean => notComparable(stretch) === null;

interface StrengthFound {
  readonly strength: Strength;
  /** Of the first stretch after; its comparisons carry the numbers side by side. */
  readonly first: Strength;
  readonly isFromColdBoiler: boolean;
  readonly runsDisagree: boolean;
  readonly after: number;
  readonly warming: readonly Estimate[];
}

/** The runs before stand in for the known-good ones: same witnesses, same references. */
function strengthAfterOverBefore(
  source: HeatSource,
  before: readonly StretchEvidence[],
  after: readonly StretchEvidence[],
  compared: Compared,
): StrengthFound | Unknown {
  if (before.length === 0) return { why: { code: "not-run", source, when: "before" } };
  if (after.length === 0) return { why: { code: "not-run", source, when: "after" } };
  const usable = before.filter(isComparable);
  const warmings = compared.after.map((run) => warmingRatio(run, compared.before));
  const strengths = after.map((stretch) => {
    const at = compared.after.findIndex((run) => run.recording === stretch.run.recording);
    const warming = warmings[at] ?? null;
    const own = strengthOf(stretch, usable, compared.spread, warming, "own", asTheyRan);
    if (!("why" in own)) return withLoadBefore(own, warming);
    const switched = { stretch, run: compared.after[at] };
    return strengthOverSwitches(switched, compared.before, compared.spread, warming) ?? own;
  });
  const known = strengths.flatMap((one) => ("why" in one ? [] : [one]));
  const first = after[strengths.findIndex((one) => !("why" in one))];
  if (first === undefined) {
    const [why] = strengths.flatMap((one) => ("why" in one ? [one.why] : []));
    const isBefore = why.code === "no-known-good" || why.code === "known-good-unusable";
    return { why: isBefore ? { code: "run-before-unusable", source } : why };
  }
  const { strength, nightsDisagree } = combinedStrength(known);
  return {
    strength,
    first: known[0],
    isFromColdBoiler: first.stretch.startState === "cold-boiler",
    runsDisagree: nightsDisagree,
    after: known.length,
    warming: warmings.filter((warming) => warming !== null),
  };
}

/**
 * By its fall alone, goods that were warm before look like a source that became better: no known-good run, with its own load in
 * mind, stands there. Only a warming back no faster than before rules them out.
 */
function withLoadBefore(strength: Strength, warming: WarmingRatio): Strength {
  const isRuledOut = warming !== null && (warming.high ?? Number.POSITIVE_INFINITY) < 1.1;
  if (isRuledOut || !strength.reasons.some(({ code }) => code === "slope-alone")) return strength;
  const unseen: ReasonSaying = { code: "load-unseen-before", share: 1 - Math.exp(-unseenLoad) };
  return { ...strength, below: strength.below + unseenLoad, reasons: [...strength.reasons, unseen] };
}

/** The source nobody touched that tells this one's change best, or why there is none. */
type Control = { readonly source: HeatSource; readonly ratio: Estimate } | Unknown;

function controlFor(source: HeatSource, { before, after, knownGood, spread, untouched }: Compared): Control {
  if (untouched.includes(source)) return { why: { code: "is-untouched-source" } };
  if (untouched.length === 0) return { why: { code: "no-untouched-source" } };
  const usable = (of: HeatSource, runs: readonly RunEvidence[]) => stretchesOn(of, runs).filter(isComparable);
  const bothIn = (control: HeatSource, runs: readonly RunEvidence[]) => ({
    serviced: usable(source, runs),
    control: usable(control, runs),
  });
  const found = untouched.flatMap((control) => {
    const good = { serviced: knownGood.get(source) ?? [], control: knownGood.get(control) ?? [] };
    const ratio =
      overControl(bothIn(control, after), bothIn(control, before), good, spread) ??
      controlOverSwitches(source, control, after, before, spreadBesideControl(good, spread));
    return ratio === null ? [] : [{ source: control, ratio }];
  });
  if (found.length === 0) return { why: { code: "untouched-not-comparable", source: untouched[0] } };
  const widthOf = ({ ratio }: { ratio: Estimate }) => (ratio.standardError ?? 0) / ratio.value;
  return found.reduce((best, one) => (widthOf(one) < widthOf(best) ? one : best));
}

const controlAnswer = (control: Control): Answer => ("why" in control ? unknown(control.why) : control.ratio);

interface JudgedChange {
  readonly change: Change;
  readonly reasons: readonly ChangeReasonSaying[];
  readonly isDead: boolean;
}

/** A source that does not cool at all has no ratio, yet nothing is plainer than that it cools again. */
function judgeDead(
  source: HeatSource,
  before: readonly StretchEvidence[],
  after: readonly StretchEvidence[],
  differences: readonly Difference[],
): JudgedChange | null {
  const isDead = (stretch: StretchEvidence) => deadness(stretch)?.verdict === "not-cooling";
  const cools = (stretch: StretchEvidence) => !("why" in stretch.fitted);
  const dead = [before.filter(isDead).length, after.filter(isDead).length];
  if (dead[0] === 0 && dead[1] === 0) return null;
  for (const [side, stretches] of [before, after].entries()) {
    if (dead[side] > 0 && stretches.some(cools)) {
      const when = side === 0 ? "before" : "after";
      return { change: "undecided", reasons: [{ code: "dead-now-and-then", when }], isDead: true };
    }
  }
  if (dead[0] > 0 && dead[1] > 0) return { change: "same", reasons: [{ code: "dead-throughout" }], isDead: true };
  const [change, code] = dead[0] > 0 ? (["better", "dead-before"] as const) : (["worse", "dead-after"] as const);
  const other = dead[0] > 0 ? after : before;
  if (!other.some(cools)) return null;
  const felt = differencesFelt(differences, source, true);
  const could = [...felt.byItAlone, ...felt.byAll];
  if (could.length === 0) return { change, reasons: [{ code }], isDead: true };
  return { change: "undecided", reasons: [{ code }, { code: "withheld", change, differences: could }], isDead: true };
}

/** A source that stopped for good is neither the same as nor better than one that did not, and the reverse. */
function unlessStopped(
  judged: JudgedChange,
  before: readonly StretchEvidence[],
  after: readonly StretchEvidence[],
): JudgedChange {
  const stopIn = (stretches: readonly StretchEvidence[]) => stretches.flatMap(({ stoppedMs }) => stoppedMs ?? []);
  const stops = [
    ...stopIn(before).map((unixMs) => ({ code: "stopped-then", when: "before", unixMs }) as const),
    ...stopIn(after).map((unixMs) => ({ code: "stopped-then", when: "after", unixMs }) as const),
  ];
  if (stops.length === 0) return judged;
  const bearsOut = { better: "before", worse: "after", same: null, undecided: null }[judged.change];
  const change = stops.every(({ when }) => when === bearsOut) ? judged.change : "undecided";
  return { ...judged, change, reasons: [...stops, ...judged.reasons] };
}

/** From the reasons of a source: when it did not cool. */
export function deadWhen(reasons: readonly ChangeReasonSaying[]): "before" | "after" | "throughout" | null {
  const said = (code: ChangeReasonSaying["code"]) => reasons.some((reason) => reason.code === code);
  if (said("dead-before")) return "before";
  if (said("dead-after")) return "after";
  return said("dead-throughout") ? "throughout" : null;
}

/**
 * The ratio over the control decides where it can: it is free of what both sources felt. Where it is too wide to, the
 * bare ratio stands as long as the control does not speak against it. A change that the sheets' differences could
 * explain is withheld, unless the control, which felt them too, has cleared it.
 */
function judgeRatio(
  source: HeatSource,
  bare: Answer,
  control: Control,
  { differences, margin }: Compared,
  evidence: readonly ChangeReasonSaying[],
): JudgedChange {
  const ofBare = changeOf(bare, margin);
  const ofControl = "why" in control ? "undecided" : changeOf(control.ratio, margin);
  const reasons: ChangeReasonSaying[] = [ratioReason(bare, ofBare, margin)];
  let change = ofBare;
  if (!("why" in control)) {
    reasons.push({ code: "over-control", control: control.source, estimate: control.ratio });
    if (!isBorneOut(ofControl, bare, margin)) {
      change = "undecided";
      reasons.push({ code: "control-changed", control: control.source });
    } else if (ofControl !== "undecided") {
      change = ofControl;
      if (ofBare !== ofControl) reasons.push({ code: "control-decides", control: control.source });
    } else if (speaksAgainst(control.ratio, ofBare)) {
      change = "undecided";
      reasons.push({ code: "control-speaks-against", control: control.source });
    }
  } else if (control.why.code === "is-untouched-source") reasons.push({ code: "is-control" });
  if (change === "better" || change === "worse") {
    const felt = differencesFelt(differences, source);
    const isCleared = ofControl === change;
    const could = [...felt.byItAlone, ...(isCleared ? [] : felt.byAll)];
    if (isCleared && felt.byAll.length > 0 && !("why" in control))
      reasons.push({ code: "control-clears", control: control.source, differences: felt.byAll });
    if (could.length > 0) {
      reasons.push({ code: "withheld", change, differences: could });
      change = "undecided";
    }
  }
  reasons.push(...evidence);
  if (change === "undecided" && isKnown(bare)) reasons.push({ code: "another-pair-decides" });
  return { change, reasons, isDead: false };
}

/**
 * A change of this source over the control counts where the source's own value changed that way, too: else it was the control
 * that changed, which nobody touched but the volts of the night or a fault of its own.
 */
function isBorneOut(change: Change, bare: Answer, margin: number): boolean {
  const least = 1 - margin / 2;
  if (!isKnown(bare) || change === "same" || change === "undecided") return true;
  return change === "better" ? bare.value > 1 / least : bare.value < least;
}

/** A control that changed as much leaves nothing for the service. */
const speaksAgainst = ({ low, high }: Estimate, change: Change): boolean =>
  (change === "better" && !(low !== null && low > 1)) || (change === "worse" && !(high !== null && high < 1));

function ratioReason(ratio: Answer, change: Change, margin: number): ChangeReasonSaying {
  if (!isKnown(ratio)) return { code: "no-ratio", why: ratio.why };
  return { code: `ratio-${change}`, estimate: ratio, margin };
}

function evidenceOf({ first, runsDisagree, after, warming }: StrengthFound): readonly ChangeReasonSaying[] {
  const said = first.reasons.filter(isSharedReason);
  const [fall] = first.comparisons;
  return [
    ...(first.isOverSwitch && fall.knownGood.source !== null
      ? [{ code: "switched-on-both-sides", from: fall.knownGood.source } as const]
      : []),
    { code: "runs-combined", before: first.comparisons.length, after, hours: cutHours(first) },
    ...(runsDisagree ? [{ code: "runs-disagree" } as const] : []),
    ...said,
    ...warmingReason(warming, said),
  ];
}

/** To how many hours from the start of cold both sides were cut; null where the fins alone were compared. */
const cutHours = ({ comparisons }: Strength): number | null =>
  comparisons.every(({ here, there }) => here.fit !== null && there.fit !== null)
    ? Math.min(...comparisons.map(({ hours }) => hours))
    : null;

const isSharedReason = (reason: ReasonSaying): reason is Extract<ReasonSaying, { code: keyof ChangeReasonSayings }> =>
  (sharedReasonCodes as readonly string[]).includes(reason.code);

/** A seal or a load that changed, unless it was said already. */
function warmingReason([ratio]: readonly Estimate[], said: readonly ReasonSaying[]): readonly ChangeReasonSaying[] {
  if (ratio === undefined || said.some(({ code }) => code.startsWith("explained-by-"))) return [];
  if ((ratio.low ?? 0) > 1.1) return [{ code: "seal-changed", ratio }];
  return (ratio.high ?? Number.POSITIVE_INFINITY) < 0.9 ? [{ code: "load-changed", ratio }] : [];
}

/** The numbers of the first stretch after beside the mean of those before; none where another source's fall stands in. */
function numbersOf({ first, isFromColdBoiler }: StrengthFound): ComparedNumbers | null {
  if (first.isOverSwitch) return null;
  const { comparisons } = first;
  const { baselineFit, ratios, deadTimeShift } = sideBySide(comparisons, isFromColdBoiler, { code: "no-numbers" });
  if (baselineFit === null) return null;
  const { hours: _, ...before } = baselineFit;
  const [{ here }] = comparisons;
  return {
    hours: cutHours(first),
    before: { ...before, finDifference: meanOf(comparisons.map(({ there }) => finDifferenceOf(there))) },
    after: { ...here.numbers, finDifference: finDifferenceOf(here) },
    ratios,
    deadTimeShift,
  };
}
