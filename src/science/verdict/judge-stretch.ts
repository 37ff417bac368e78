// Everything about one stretch, judged: its numbers, its strength, its verdict, the reasons, the drawing.

import type { HeatSource } from "../../schema/index.ts";
import { finDifference } from "../evidence/fin-difference.ts";
import { milestones } from "../evidence/milestones.ts";
import type { RunEvidence, StretchEvidence } from "../evidence/run-evidence.ts";
import { belowAmbient, duty } from "../evidence/settled-depth.ts";
import { sideBySide } from "../evidence/side-by-side.ts";
import { stretchCurves } from "../evidence/stretch-curves.ts";
import { type SwitchOver, switchOverAt } from "../evidence/switch-over.ts";
import { warmingRate } from "../evidence/warming-rate.ts";
import type { WarmingRatio } from "../evidence/warming-ratio.ts";
import type { StretchFinding } from "../findings.ts";
import { type Unknown, unknown } from "../numbers/estimate.ts";
import { noNumbers } from "../pull-down/pull-down-numbers.ts";
import { type AtOdds, againstEither } from "../strength/known-good-at-odds.ts";
import { strengthAmongSources } from "../strength/other-sources.ts";
import { narrower, type Strength, strengthAnswer, strengthOf } from "../strength/strength.ts";
import { strengthOverSwitch } from "../strength/strength-over-switch.ts";
import type { WitnessSpread } from "../strength/witness-spread.ts";
import { stretchReasons } from "./stretch-reasons.ts";
import { deadness, judgeStrength, judgeStretch } from "./stretch-verdict.ts";

/** What a stretch is compared with. */
export interface Yardstick {
  readonly knownGood: ReadonlyMap<HeatSource, readonly StretchEvidence[]>;
  /** Sources that the known-good logs ran on, be it in no stretch that can serve. */
  readonly ranKnownGood: ReadonlySet<HeatSource | null>;
  /** Sources whose known-good runs contradict each other. */
  readonly atOdds: readonly AtOdds[];
  readonly spread: WitnessSpread;
  readonly baselineKind: "own" | "kind";
  readonly margin: number;
}

/** @param knownGood runs, whether they can serve or not. */
export const sourcesRunBy = (knownGood: readonly RunEvidence[]): Yardstick["ranKnownGood"] =>
  new Set(knownGood.flatMap(({ stretches }) => stretches.map(({ source }) => source)));

/** A stretch with its evidence, its strength where it has one, and all that is told of it. */
export interface JudgedStretch {
  readonly evidence: StretchEvidence;
  readonly strength: Strength | Unknown;
  readonly finding: StretchFinding;
}

/**
 * @param others the stretches of the given logs, which stand in where there is no known-good run.
 * @param warming how the whole run warms back against the known-good runs.
 */
export function judgeWhole(
  evidence: StretchEvidence,
  others: readonly StretchEvidence[],
  yardstick: Yardstick,
  warming: WarmingRatio,
): JudgedStretch {
  const { view, stretch, events, fitted } = evidence;
  const dead = stretch.heated ? deadness(evidence) : null;
  const strength: Strength | Unknown =
    dead === null ? strengthAgainst(evidence, others, yardstick, warming) : { why: { code: "no-onset" } };
  const over = stretch.heated ? switchOverAt(evidence, others) : null;
  // Numbers of another source or another stretch are compared, but not put side by side as if they were this one's.
  const comparisons =
    "why" in strength || strength.baseline === "other-sources" || strength.isOverSwitch ? [] : strength.comparisons;
  const coolingStrength = strengthAnswer(strength, true);
  const { curves, modes } = stretchCurves(evidence, comparisons);
  const judged = stretch.heated ? (dead ?? judgeStretch(evidence, strength, yardstick.margin, over)) : null;
  const numbers = "why" in fitted ? noNumbers(fitted.why) : fitted.judged.numbers;
  const beside = sideBySide(
    comparisons,
    stretch.startState === "cold-boiler",
    "why" in strength ? strength.why : { code: "no-numbers" },
  );
  const finding: Omit<StretchFinding, "reasons"> = {
    log: evidence.run.log,
    source: stretch.source,
    startMs: stretch.startMs,
    endMs: stretch.endMs,
    sourceFrom: stretch.sourceFrom,
    startState: stretch.startState,
    verdict: judged?.verdict ?? null,
    baseline: baselineOf(strength),
    coolingStrength,
    thisNight: strengthAnswer(strength, false),
    fit: { ...numbers, modes },
    ...beside,
    finDifference: stretch.heated ? finDifference(view, evidence.offset) : unknown({ code: "is-off" }),
    belowAmbient: stretch.heated ? belowAmbient(view, events) : unknown({ code: "is-off" }),
    warmingRate: stretch.heated ? unknown({ code: "not-warming-back" }) : warmingRate(view),
    duty: stretch.heated ? duty(view, events) : unknown({ code: "is-off" }),
    switchOver: switchOverFinding(over),
    milestones: milestones(view, fitted, evidence.warmGoods),
    curves,
  };
  const reasons = judged === null ? [] : stretchReasons(evidence, finding, strength, judged.reasons, warming, over);
  return { evidence, strength, finding: { ...finding, reasons } };
}

/** The sources of one night count as one run to compare with, however they were compared. */
function baselineOf(strength: Strength | Unknown): StretchFinding["baseline"] {
  if ("why" in strength) return { kind: "none", runs: 0 };
  const { baseline, comparisons } = strength;
  return { kind: baseline, runs: baseline === "other-sources" ? 1 : comparisons.length };
}

const switchOverFinding = (over: SwitchOver | null): StretchFinding["switchOver"] =>
  over === null || over.before.source === null
    ? null
    : { from: over.before.source, ratio: over.ratio, drift: over.drift };

function strengthAgainst(
  evidence: StretchEvidence,
  others: readonly StretchEvidence[],
  yardstick: Yardstick,
  warming: WarmingRatio,
): Strength | Unknown {
  const { knownGood, ranKnownGood, spread, baselineKind } = yardstick;
  const { source, stretch } = evidence;
  if (!stretch.heated) return { why: { code: "is-off" } };
  if (source === null) return strengthOnAnySource(evidence, yardstick, warming);
  if (isTimeDoubtful(evidence)) return { why: evidence.fitted.why };
  const known = knownGood.get(source) ?? [];
  const strength = strengthOf(evidence, known, spread, warming, baselineKind);
  if ("why" in strength && strength.why.code === "no-known-good") {
    // The sources of a night are referred to one ambient, too.
    if (!Number.isFinite(evidence.ambient)) return { why: { code: "no-ambient" } };
    const sorted = others.filter((other) => !isTimeDoubtful(other) && Number.isFinite(other.ambient));
    const unusable = { why: { code: "known-good-unusable", source } } as const;
    return strengthAmongSources(evidence, sorted, spread) ?? (ranKnownGood.has(source) ? unusable : strength);
  }
  const overSwitch = strengthOverSwitch(evidence, others, known, spread, warming, baselineKind);
  const found = narrower("why" in strength ? null : strength, overSwitch) ?? strength;
  const odds = yardstick.atOdds.find((one) => one.source === source);
  return odds === undefined || "why" in found ? found : againstEither(found, odds);
}

/**
 * Of a stretch whose source nobody named: held against the known-good runs of every source, where all of them give one verdict;
 * of their strengths the one that bears it out least.
 */
function strengthOnAnySource(
  evidence: StretchEvidence,
  { knownGood, spread, baselineKind, margin }: Yardstick,
  warming: WarmingRatio,
): Strength | Unknown {
  const unknown = { why: { code: "source-unknown" } } as const;
  if (isTimeDoubtful(evidence)) return unknown;
  const found = [...knownGood].map(([source, runs]) =>
    strengthOf({ ...evidence, source }, runs, spread, warming, baselineKind),
  );
  const strengths = found.flatMap((one) => ("why" in one ? [] : [one]));
  const verdicts = new Set(strengths.map((one) => judgeStrength(one, margin, evidence.stoppedMs).verdict));
  const [verdict] = verdicts;
  if (strengths.length < Math.max(1, found.length) || verdicts.size > 1 || verdict === "undecided") return unknown;
  const sorted = strengths.toSorted((a, b) => a.log - b.log);
  const least = verdict === "weak" ? sorted[sorted.length - 1] : sorted[0];
  return { ...least, reasons: [{ code: "whichever-source" }, ...least.reasons] };
}

/** Rows out of their order: not even the fins, which need no fit, are then known to be of this source. */
const isTimeDoubtful = (one: StretchEvidence): one is StretchEvidence & { readonly fitted: Unknown } =>
  "why" in one.fitted && one.fitted.why.code === "time-unreliable";
