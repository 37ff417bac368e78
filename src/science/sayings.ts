// Everything the science can say, as codes with values. The sentences stand in src/report/words.

import type { Cause } from "../schema/documents/index.ts";
import type { EnergySource, HeatSource, Nothing, Position, SayingOf } from "../schema/index.ts";
import type { Estimate } from "./numbers/estimate.ts";

/** Why single readings were set aside. */
export type RejectionCode =
  | "power-on-value"
  | "disconnected-value"
  | "out-of-range"
  | "too-fast"
  | "spike"
  | "stuck"
  | "duplicate-instant"
  | "out-of-order"
  | "clock-jump"
  | "not-a-number"
  | "unreadable-time"
  | "wrong-column-count"
  | "unknown-source";

/** What an event was taken from. */
/**
 * What else explains that cooling stopped: a thermostat's first hold looks the same; or a probe at the boiler or in the
 * flue shows that the heat goes on, so that it is no dead flame, or that it is back after it was lost. null: nothing known.
 */
export type StopDoubt = "first-hold" | "heat-goes-on" | "heat-came-back" | null;

export interface EventSayings {
  "door-opened": { riseKelvin: number; minutes: number };
  "cooling-stopped": {
    source: HeatSource | null;
    finDifferenceBefore: number;
    finDifferenceAfter: number;
    doubt: StopDoubt;
  };
  "thermostat-cycles": { source: HeatSource | null; duty: number; periodMinutes: number; cycles: number };
  "no-rows": { minutes: number };
  "probe-silent": { minutes: number };
  "probe-stuck": { celsius: number; minutes: number };
  "probe-unbelievable": { celsius: number; minutes: number };
  "probe-stepped": { kelvin: number };
  "sun-on-ambient": { kelvin: number; minutes: number };
  "exhaust-on-ambient": { kelvin: number; isProven: boolean };
  "clock-jumped": { seconds: number };
}
export type EventSaying = SayingOf<EventSayings>;

/** Why a number cannot be given. */
export interface UnknownSayings {
  "no-cabinet": Nothing;
  "no-evaporator": Nothing;
  "no-ambient": Nothing;
  "no-onset": Nothing;
  "too-early": { hoursAfterOnset: number; neededHours: number };
  "too-short": { hours: number; neededHours: number };
  "too-few-readings": { readings: number; needed: number };
  /** Too cold at its start for a fall to fit; `warms` where it even ends warmer than it began. */
  "starts-settled": { warms: boolean };
  "switched-while-cold": Nothing;
  "held-back-at-switch": Nothing;
  "warm-boiler": Nothing;
  "time-unreliable": { share: number };
  "fins-warmer-than-air": Nothing;
  "open-profile": { hours: number };
  "soft-start-possible": { hours: number };
  "not-settled": Nothing;
  /** Goods put in warm may still have cooled at its end, when the cabinet had come so far below ambient. */
  "goods-may-have-cooled": { belowAmbient: number; ambient: number };
  /** The same, of a temperature that the cabinet was on its way to. */
  "goods-hide-the-end": { celsius: number };
  "no-cycling": Nothing;
  "no-known-good": { source: HeatSource | null };
  "known-good-unusable": { source: HeatSource | null };
  "not-reached": { celsius: number; settles: number };
  "already-below": { celsius: number };
  /** Heat was lost or a thermostat held: what would have come of the fall was not to come. */
  "fall-ended": Nothing;
  "not-warming-back": Nothing;
  "frost-melting": Nothing;
  "ambient-too-low": { ambient: number; needed: number };
  "is-off": Nothing;
  "source-unknown": Nothing;
  "no-stretch": Nothing;
  "source-not-run": { source: HeatSource | null };
  "holds-at-any": { celsius: number; ambient: number };
  "holds-at-none": { celsius: number; ambient: number };
  "never-crosses": { celsius: number; settles: number; falling: boolean };
  "no-numbers": Nothing;
  "not-run": { source: HeatSource; when: "before" | "after" };
  "run-before-unusable": { source: HeatSource };
  "conditions-differ": ConditionPair;
  "nothing-cooled": Nothing;
  "no-untouched-source": Nothing;
  "is-untouched-source": Nothing;
  "untouched-not-comparable": { source: HeatSource };
}
export type UnknownSaying = SayingOf<UnknownSayings>;

/** Conditions of a run sheet that bear on a comparison, and those that feed the heat. */
export type SheetCondition = "setting" | "load" | "vents" | "fan-inside" | "fan-at-rear";
export type HeatCondition = "supply" | "gas" | "gas-pressure" | "altitude";

/** A condition on either side, as its sheet has it; null where it does not say. */
export interface ConditionPair {
  readonly condition: SheetCondition;
  readonly here: string | null;
  readonly knownGood: string | null;
}

/** What a difference does to a comparison: widens it, silences a witness, refuses it, is allowed for, or is only told. */
export type ConditionEffect = "wider" | "slope-silent" | "fins-silent" | "refused" | "referred" | "told";

/** Evidence behind a verdict, one sentence each. */
export interface ReasonSayings {
  "strength-sound": { estimate: Estimate; margin: number };
  "strength-weak": { estimate: Estimate; margin: number };
  "strength-undecided": { estimate: Estimate; margin: number };
  /** More than any service gains: something else is wrong. */
  "strength-unbelievable": { estimate: Estimate };
  /** As strong as it was known to be good, until it stopped and did not come back. */
  "stopped-for-good": { estimate: Estimate; unixMs: number };
  "compared-with-source": { other: HeatSource };
  "witnesses-apart-among-sources": { other: HeatSource; finRatio: number; slopeRatio: number };
  "weak-among-sources": { estimate: Estimate; margin: number };
  "low-among-sources": { estimate: Estimate; margin: number };
  "not-weak-among-sources": { estimate: Estimate };
  "another-night-decides": Nothing;
  "wait-until": { unixMs: number; hours: number };
  "cannot-tell": { why: UnknownSaying };
  "no-baseline": { source: HeatSource | null };
  "baseline-one-run": { runs: number };
  "cold-began": { onsetUnixMs: number; minutes: number; source: HeatSource | null };
  "onset-later": { shift: Estimate };
  "onset-earlier": { shift: Estimate };
  "onset-as-usual": { shift: Estimate };
  "no-cold-yet": { hours: number };
  "not-cooling": { finDifference: number; hours: number };
  "fins-tell": { finDifference: Estimate; baseline: Estimate; ratio: Estimate };
  "slope-tells": { slope: Estimate; baseline: Estimate; ratio: Estimate };
  "fins-alone": Nothing;
  "slope-alone": Nothing;
  /** With the fridge off the fins stood so much more above the cabinet's probe than on the other side: it answers late. */
  "cabinet-probe-slow": { kelvin: number; side: "here" | "known-good" };
  "load-unseen": { share: number };
  /** Without fins: the fall starts steeper and ends sooner than in the known-good runs. */
  "fall-bent": { share: number };
  /** One side began so much colder against ambient than the other: goods may have been put in cold. */
  "began-cold": { kelvin: number; side: "here" | "known-good" };
  /** The same of the run before, where two runs are compared. */
  "load-unseen-before": { share: number };
  "rate-constants": { rate: Estimate; baseline: Estimate; hours: number };
  "rate-constant-alone-misleads": Nothing;
  "rate-constant-raised": Nothing;
  "room-shares": { ventShare: number };
  "witnesses-agree": { finRatio: number; slopeRatio: number };
  "witnesses-disagree": { finRatio: number; slopeRatio: number };
  "explained-by-seal": { ratio: Estimate };
  "explained-by-load": { ratio: Estimate };
  "explained-by-lamp": { kelvin: number };
  "seal-suspected": { ratio: Estimate };
  "load-suspected": { ratio: Estimate };
  "frost-or-moved-probe": Nothing;
  "load-not-ruled-out": Nothing;
  "two-modes": Nothing;
  "supply-low": { volts: number; ratedVolts: number };
  "supply-referred": { volts: number; baselineVolts: number; factor: number };
  "gas-referred": { heat: number; factor: number; share: number };
  "ambient-referred": { ambient: number; baselineAmbient: number; factor: number };
  "start-referred": { belowAmbient: number; baselineBelowAmbient: number; factor: number };
  "offset-from-settled": { kelvin: number };
  "offset-unknown": { tolerance: number };
  "flame-out": { unixMs: number; minutes: number; source: HeatSource | null };
  "thermostat-held": { source: HeatSource | null; duty: number };
  "at-least": Nothing;
  "starts-settled": { warms: boolean };
  "switch-tells": { from: HeatSource; to: HeatSource; finsBefore: number; finsAfter: number; ratio: Estimate };
  "switch-drift": { drift: "removed" | "allowed-for"; from: HeatSource };
  "switch-cannot-see": { from: HeatSource };
  "switch-cannot-tell": { from: HeatSource; why: UnknownSaying };
  "strength-over-switch": { from: HeatSource; to: HeatSource; runs: number };
  "source-was-found": Nothing;
  "whichever-source": Nothing;
  "source-unknown": Nothing;
  "stretches-combined": { stretches: number };
  "stretches-disagree": Nothing;
  "cool-ambient": { ambient: number };
  "offered-as-baseline": Nothing;
  "cut-to-equal-length": { hours: number; runs: number };
  /** Without a fall to fit there is no start of cold to cut from: the fins late in each are compared. */
  "late-fins-compared": { runs: number };
  "conditions-taken-equal": { conditions: readonly (SheetCondition | HeatCondition | "level" | "dial")[] };
  "condition-one-sided": { condition: HeatCondition; share: number };
  /** Nobody told the volts of an electric source, on either side; `share` is what that leaves open, ± of the strength. */
  "supply-untold": { source: HeatSource; share: number };
  "condition-differs": ConditionPair & { effect: ConditionEffect; slopeShare: number; finShare: number };
  "settled-from": { stretches: number; belowAmbient: number; ambient: number };
  "settled-projected": { stretches: number; belowAmbient: number; ambient: number };
  "slope-default": { kelvinPerKelvin: number; standardError: number };
  extrapolated: { fromAmbient: number; toAmbient: number };
  "usual-depth": {
    belowAmbient: number;
    ambient: number;
    low: number;
    good: number;
    side: "above" | "below" | "across";
  };
  "usual-depth-cannot-see": Nothing;
}
export type ReasonSaying = SayingOf<ReasonSayings>;

/** What one stretch points to when it is looked at alone, the likeliest first. */
export interface StretchCauses {
  readonly log: string;
  readonly source: HeatSource;
  readonly startMs: number;
  readonly causes: readonly Cause[];
}

/** A strength, as a share of known-good, and the ambient it was found at, °C. */
export interface StrengthAt {
  readonly ambient: number;
  readonly strength: number;
}

/** Said once for the whole analysis. */
export interface WarningSayings {
  "source-column-absent": { log: string };
  "warms-while-on": { log: string; source: HeatSource | null };
  "evaporator-warmer": { log: string };
  "low-ambient": { log: string; ambient: number };
  "no-ambient-probe": { log: string };
  "known-good-not-used": { log: string; why: "no-stretch" | "cycling" | "probes-exchanged" | "too-short" };
  /** Of two known-good logs of a source the weaker cooled so much less, as a share, that nights do not explain it. */
  "known-good-at-odds": { source: HeatSource; stronger: string; weaker: string; share: number };
  "different-conditions": {
    condition: SheetCondition | "dial" | "gas" | "level";
    here: readonly string[];
    knownGood: readonly string[];
    effect: ConditionEffect;
  };
  "weaker-in-heat": { coolest: StrengthAt; hottest: StrengthAt };
  "lamp-suspected": { log: string; kelvin: number };
  "causes-differ": { stretches: readonly StretchCauses[] };
  "mark-outside": { atMs: number; source: EnergySource };
  /** `times` in all, the first from `startMs` on; `minutes` of all of them together. */
  "cooling-stopped": { log: string; source: HeatSource | null; times: number; startMs: number; minutes: number };
  "many-rejected": { log: string; position: Position; share: number };
}
export type WarningSaying = SayingOf<WarningSayings>;

/** What to check next. The caution of each stands beside it in src/science/causes/next-checks.ts. */
export type CheckCode =
  | "clean-flue-and-burner"
  | "measure-gas-pressure"
  | "measure-element"
  | "measure-supply-voltage"
  | "check-level"
  | "fan-at-rear"
  | "paper-test-of-seal"
  | "wait-for-load"
  | "check-lamp"
  | "seat-probes"
  | "defrost"
  | "record-known-good"
  | "record-longer"
  | "sort-the-log"
  | "say-the-source"
  | "exchange-probes"
  | "add-ambient-probe"
  | "record-another-night"
  | "prove-heat-in-watts"
  | "ask-a-fitter"
  | "why-flame-went-out"
  | "why-supply-was-lost"
  | "dial-to-coldest";

/** What must be proven before a cooling unit is condemned. */
export type UnitProofCode =
  | "tilt-measured"
  | "heat-in-watts"
  | "boiler-hot"
  | "fan-at-rear-tried"
  | "twelve-hours"
  | "two-nights";

/** How far the given logs and run sheets have shown a proof. */
export interface UnitProofSayings {
  "tilt-not-measured": Nothing;
  "stood-level": { sideways: number; lengthways: number };
  "stood-tilted": { sideways: number; lengthways: number };
  "watts-not-measured": Nothing;
  "watts-too-few": { source: HeatSource; watts: number; rated: number };
  "watts-taken": { source: HeatSource; watts: number; rated: number };
  "boiler-not-seen": Nothing;
  "boiler-not-hot": { celsius: number; needed: number };
  "boiler-was-hot": { celsius: number };
  "fan-not-tried": Nothing;
  "fan-was-tried": { hours: number; log: string };
  "ran-too-short": { hours: number; needed: number };
  "ran-so-long": { hours: number; needed: number };
  "nights-seen": { nights: number };
}
export type UnitProofSaying = SayingOf<UnitProofSayings>;

/** Cautions by subject; see src/report/words for their text, tests for their presence. */
export type CautionCode =
  | "gas"
  | "night"
  | "two-sources"
  | "no-cold"
  | "dc12"
  | "mains"
  | "cooling-unit"
  | "stopped-on-gas"
  | "road"
  | "food";
