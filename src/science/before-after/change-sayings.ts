// Everything a comparison of before with after can say, as codes with values. The sentences stand in src/report/words.

import type { Change } from "../../schema/documents/index.ts";
import type { HeatSource, Nothing, RunSheet, SayingOf } from "../../schema/index.ts";
import type { Estimate } from "../numbers/estimate.ts";
import type { ReasonSayings, UnknownSaying } from "../sayings.ts";

/** What is said of two stretches whatever they are; here the earlier one stands where a known-good run would. */
export const sharedReasonCodes = [
  "witnesses-agree",
  "witnesses-disagree",
  "fins-alone",
  "slope-alone",
  "cabinet-probe-slow",
  "load-unseen",
  "load-unseen-before",
  "fall-bent",
  "began-cold",
  "explained-by-seal",
  "explained-by-load",
  "frost-or-moved-probe",
  "ambient-referred",
  "supply-referred",
  "gas-referred",
  "condition-one-sided",
] as const satisfies readonly (keyof ReasonSayings)[];

/** Evidence behind a change, one sentence each. */
export interface ChangeReasonSayings extends Pick<ReasonSayings, (typeof sharedReasonCodes)[number]> {
  "ratio-better": { estimate: Estimate; margin: number };
  "ratio-same": { estimate: Estimate; margin: number };
  "ratio-worse": { estimate: Estimate; margin: number };
  "ratio-undecided": { estimate: Estimate; margin: number };
  "no-ratio": { why: UnknownSaying };
  /** A source that does not cool at all has no ratio. */
  "dead-before": Nothing;
  "dead-after": Nothing;
  "dead-throughout": Nothing;
  /** It did not cool in one of the runs of one side, and did in another. */
  "dead-now-and-then": { when: "before" | "after" };
  /** Cooling stopped in a run of one side and did not come back: what it was until then is not all there is to say. */
  "stopped-then": { when: "before" | "after"; unixMs: number };
  /** `hours` from the start of cold; null where the fins alone are compared. */
  "runs-combined": { before: number; after: number; hours: number | null };
  /** Either side was switched to while cold: the fall on that source stands in. */
  "switched-on-both-sides": { from: HeatSource };
  "runs-disagree": Nothing;
  "seal-changed": { ratio: Estimate };
  "load-changed": { ratio: Estimate };
  "is-control": Nothing;
  "over-control": { control: HeatSource; estimate: Estimate };
  /** The ratio over the control decides where the bare one says otherwise. */
  "control-decides": { control: HeatSource };
  "control-changed": { control: HeatSource };
  "control-speaks-against": { control: HeatSource };
  /** Both sources felt these differences; the ratio over the control is free of them. */
  "control-clears": { control: HeatSource; differences: readonly Difference["code"][] };
  withheld: { change: "better" | "worse"; differences: readonly Difference["code"][] };
  "another-pair-decides": Nothing;
}
export type ChangeReasonSaying = SayingOf<ChangeReasonSayings>;

/** A condition on either side, as the sheets of its runs state it; empty where none does. */
interface Stated<Value> {
  before: readonly Value[];
  after: readonly Value[];
}
type Field<Name extends keyof RunSheet> = NonNullable<RunSheet[Name]>;

/** Conditions that differ between the run sheets. */
export interface DifferenceSayings {
  fridge: Stated<Field<"fridge">>;
  setting: Stated<Field<"setting">>;
  "tilt-sideways": Stated<number>;
  "tilt-lengthways": Stated<number>;
  dial: Stated<Field<"dial">>;
  load: Stated<Field<"load">>;
  vents: Stated<Field<"vents">>;
  "fan-inside": Stated<boolean>;
  "fan-at-rear": Stated<boolean>;
  "gas-kind": Stated<Field<"gasKind">>;
  "gas-pressure": Stated<number>;
  altitude: Stated<number>;
  "gas-rated-watts": Stated<number>;
  "mains-rated-watts": Stated<number>;
  "dc12-rated-watts": Stated<number>;
  "mains-volts": Stated<number>;
  "dc12-volts": Stated<number>;
  "mains-rated-volts": Stated<number>;
  "dc12-rated-volts": Stated<number>;
}
export type Difference = SayingOf<DifferenceSayings>;

/** What one source's part of the sentence says. */
export interface ChangeClause {
  readonly source: HeatSource;
  readonly change: Change;
  /** After over before; null where there is none. */
  readonly ratio: Estimate | null;
  /** When it did not cool at all; null where it did. */
  readonly dead: "before" | "after" | "throughout" | null;
  readonly isUntouched: boolean;
}

/** The whole comparison in one sentence. */
export interface SummarySayings {
  changes: { clauses: readonly ChangeClause[] };
  "nothing-compared": Nothing;
}
export type SummarySaying = SayingOf<SummarySayings>;

/** Said once for the whole comparison, besides what is said of each log. */
export interface ComparisonWarningSayings {
  /** Every log after ended before any log before began. */
  "after-is-older": { before: readonly string[]; after: readonly string[] };
  "no-run-sheet": { when: "before" | "after" | "both" };
  "stated-on-one-side": { when: "before" | "after"; conditions: readonly Difference["code"][] };
  "untouched-not-run": { source: HeatSource };
  "source-unnamed": { log: string };
}
export type ComparisonWarningSaying = SayingOf<ComparisonWarningSayings>;
