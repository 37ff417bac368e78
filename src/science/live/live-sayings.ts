// What a run says while it goes on, as codes with values. The sentences stand in src/report/words.

import type { Verdict } from "../../schema/documents/index.ts";
import type { HeatSource, Nothing, SayingOf } from "../../schema/index.ts";
import type { Estimate } from "../numbers/estimate.ts";
import type { CautionCode, StopDoubt } from "../sayings.ts";

/** What a proof rests on, or what it lacks. */
export interface LiveProofSayings {
  "heat-by-watts": { watts: number };
  "heat-by-boiler": { kelvin: number };
  "heat-by-flue": { kelvin: number };
  "heat-by-cold": Nothing;
  "heat-needs-watts": { source: HeatSource };
  "heat-needs-flue-probe": Nothing;
  "cold-by-fins": { kelvin: number };
  "cold-by-cabinet": { kelvin: number };
  "strength-told": { strength: Estimate; verdict: Verdict };
  "no-known-good": { source: HeatSource };
  "source-not-told": Nothing;
  "not-cold-in-time": { hours: number };
  "no-fins-no-ambient": Nothing;
}
export type LiveProofSaying = SayingOf<LiveProofSayings>;

/** The one sentence on top. */
export interface LiveHeadSayings {
  "nothing-yet": Nothing;
  /** Readings, but none that tell of the source it is on. */
  "too-little-yet": { source: HeatSource | null };
  /** Nobody said that it is off. */
  "looks-off": Nothing;
  settling: Nothing;
  "warming-back": { sinceMs: number };
  "heating-up": { source: HeatSource | null; coldFromMs: number; coldByMs: number };
  /** The evaporator probe reads warmer than the air it should cool: exchanged, or one of the two is wrong. */
  "probes-exchanged": { source: HeatSource | null };
  /** `deadAtMs` null when that has passed, and the readings do not show for sure that it does not cool. */
  "no-cold-yet": { source: HeatSource | null; hours: number; deadAtMs: number | null };
  /** Cold is proven; `strengthByMs` null when no strength can come. */
  "makes-cold": { source: HeatSource | null; strengthByMs: number | null };
  "strength-so-far": { source: HeatSource | null; strength: Estimate; verdict: Verdict };
  "does-not-cool": { source: HeatSource | null; hours: number };
  stopped: { source: HeatSource | null; sinceMs: number; doubt: StopDoubt };
}
export type LiveHeadSaying = SayingOf<LiveHeadSayings>;

/** A sentence and its cautions in one object, so that no face can show one without the other. */
export interface LiveHead {
  readonly saying: LiveHeadSaying;
  readonly cautions: readonly CautionCode[];
}

/** What the stretch tells already, or will from an instant on. */
export type LiveGoal = "strength" | "curve" | "better-curve";
