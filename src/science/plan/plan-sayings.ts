// What a plan has to say, as codes with values. The sentences stand in src/report/words.

import type { HeatSource, Nothing, SayingOf } from "../../schema/index.ts";

/** Why a plan is as it is. */
export interface PlanReasonSayings {
  "settling-shows-offset": Nothing;
  "boiler-must-cool": { hours: number };
  "warming-tells-seal-from-load": { hours: number };
  "waits-for-a-person": { untilMs: number };
  "night-runs-through": { source: HeatSource };
  "gas-by-day-only": { fromHour: number; toHour: number };
  "order-changed": { asked: readonly HeatSource[]; planned: readonly HeatSource[] };
  "switched-while-cold": { hours: number };
  "back-to-the-first": { source: HeatSource };
  "curve-not-in-time": { source: HeatSource };
}
export type PlanReasonSaying = SayingOf<PlanReasonSayings>;

/** Why there is no plan. */
export interface PlanRefusalSayings {
  "gas-needs-longer-day": { fromHour: number; toHour: number; neededHours: number };
  /** `hasGas`: which runs attended by day; `hasPauses`: in which the boiler grows cold. */
  "needs-more-time": { untilMs: number; sources: number; hasGas: boolean; hasPauses: boolean };
  "one-source-cannot-switch": Nothing;
  "no-electric-source": Nothing;
  "nothing-fits": Nothing;
}
export type PlanRefusalSaying = SayingOf<PlanRefusalSayings>;

/** Steps of proof within a stretch, in the order they come. */
export type PlanProofCode = "heat" | "onset" | "cold" | "fins" | "strength" | "dead" | "curve" | "better-curve";
