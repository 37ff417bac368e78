// Everything the science can say, as codes with values. The sentences stand in src/report/words.

import type { HeatSource, Nothing, Position, SayingOf } from "../schema/index.ts";
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
export interface EventSayings {
  "door-opened": { riseKelvin: number; minutes: number };
  "cooling-stopped": { source: HeatSource | null; finDifferenceBefore: number; finDifferenceAfter: number };
  "thermostat-cycles": { duty: number; periodMinutes: number; cycles: number };
  "no-rows": { minutes: number };
  "probe-silent": { minutes: number };
  "probe-stuck": { celsius: number; minutes: number };
  "probe-unbelievable": { celsius: number; minutes: number };
  "probe-stepped": { kelvin: number };
  "sun-on-ambient": { kelvin: number; minutes: number };
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
  "starts-settled": Nothing;
  "switched-while-cold": Nothing;
  "warm-boiler": Nothing;
  "time-unreliable": { share: number };
  "fins-warmer-than-air": Nothing;
  "open-profile": { hours: number };
  "soft-start-possible": { hours: number };
  "not-settled": Nothing;
  "no-cycling": Nothing;
  "no-known-good": { source: HeatSource | null };
  "known-good-unusable": { source: HeatSource | null };
  "not-reached": { celsius: number; settles: number };
  "already-below": { celsius: number };
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
  "nothing-cooled": Nothing;
  "no-untouched-source": Nothing;
  "is-untouched-source": Nothing;
  "untouched-not-comparable": { source: HeatSource };
}
export type UnknownSaying = SayingOf<UnknownSayings>;

/** Evidence behind a verdict, one sentence each. */
export interface ReasonSayings {
  "strength-sound": { estimate: Estimate; margin: number };
  "strength-weak": { estimate: Estimate; margin: number };
  "strength-undecided": { estimate: Estimate; margin: number };
  "compared-with-source": { other: HeatSource };
  "weak-among-sources": { estimate: Estimate; margin: number };
  "not-weak-among-sources": { estimate: Estimate };
  "another-night-decides": Nothing;
  "wait-until": { unixMs: number; hours: number };
  "cannot-tell": { why: UnknownSaying };
  "no-baseline": { source: HeatSource | null };
  "baseline-one-run": { runs: number };
  "cold-began": { onsetUnixMs: number; minutes: number; source: HeatSource | null };
  "onset-later": { shift: Estimate };
  "onset-as-usual": { shift: Estimate };
  "no-cold-yet": { hours: number };
  "not-cooling": { finDifference: number; hours: number };
  "fins-tell": { finDifference: Estimate; baseline: Estimate; ratio: Estimate };
  "slope-tells": { slope: Estimate; baseline: Estimate; ratio: Estimate };
  "fins-alone": Nothing;
  "slope-alone": Nothing;
  "rate-constants": { rate: Estimate; baseline: Estimate; hours: number };
  "rate-constant-alone-misleads": Nothing;
  "witnesses-agree": { finRatio: number; slopeRatio: number };
  "witnesses-disagree": { finRatio: number; slopeRatio: number };
  "explained-by-seal": { ratio: Estimate };
  "explained-by-load": { ratio: Estimate };
  "seal-suspected": { ratio: Estimate };
  "load-suspected": { ratio: Estimate };
  "frost-or-moved-probe": Nothing;
  "load-not-ruled-out": Nothing;
  "two-modes": Nothing;
  "supply-low": { volts: number; ratedVolts: number };
  "supply-referred": { volts: number; baselineVolts: number; factor: number };
  "gas-referred": { heat: number; factor: number };
  "ambient-referred": { ambient: number; baselineAmbient: number; factor: number };
  "start-referred": { belowAmbient: number; baselineBelowAmbient: number; factor: number };
  "offset-from-settled": { kelvin: number };
  "offset-unknown": { tolerance: number };
  "flame-out": { unixMs: number; minutes: number; source: HeatSource | null };
  "thermostat-held": { duty: number };
  "at-least": Nothing;
  "starts-settled": Nothing;
  "source-was-found": Nothing;
  "source-unknown": Nothing;
  "stretches-combined": { stretches: number };
  "stretches-disagree": Nothing;
  "cool-ambient": { ambient: number };
  "offered-as-baseline": Nothing;
  "cut-to-equal-length": { hours: number; runs: number };
  "condition-unknown": { condition: string };
  "condition-one-sided": { condition: "supply" | "gas" | "gas-pressure" | "altitude" };
  "settled-from": { stretches: number; belowAmbient: number; ambient: number };
  "settled-projected": { stretches: number; belowAmbient: number; ambient: number };
  "slope-default": { kelvinPerKelvin: number; standardError: number };
  extrapolated: { fromAmbient: number; toAmbient: number };
}
export type ReasonSaying = SayingOf<ReasonSayings>;

/** Said once for the whole analysis. */
export interface WarningSayings {
  "source-column-absent": { log: string };
  "warms-while-on": { log: string; source: HeatSource | null };
  "evaporator-warmer": { log: string };
  "low-ambient": { log: string; ambient: number };
  "no-ambient-probe": { log: string };
  "known-good-not-used": { log: string; why: "no-stretch" | "cycling" | "too-short" };
  "different-conditions": { condition: string; here: string; knownGood: string };
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
  | "record-another-night"
  | "prove-heat-in-watts"
  | "ask-a-fitter"
  | "dial-to-coldest";

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
