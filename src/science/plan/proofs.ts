// What a stretch proves, and after how many hours: one table for the plan made beforehand and for the run as it goes.

import { msPerHour } from "../../schema/index.ts";
import { slopeHours } from "../pull-down/pull-down-numbers.ts";
import { finsAloneHours } from "../strength/comparison.ts";
import { notCoolingHours } from "../verdict/stretch-verdict.ts";
import type { PlanProofCode } from "./plan-sayings.ts";

/** From a cold boiler cold begins after so many hours. Common practice, no source. */
export const usualOnsetHours = { earliest: 0.5, latest: 1 } as const;
/** By then volts and amperes are read, or boiler and flue are warm. Common practice, no source. */
export const heatShowsHours = 0.25;
/** After the onset the fins are clearly colder than the air within this, h. */
export const coldShowsHours = 0.5;
/** After the onset rate constant and depth part company within this, h: a curve is told from a line at about one time constant. */
export const curveHours = 4;
/** As `curveHours`, for narrow intervals, h. */
export const betterCurveHours = 7;
/** After a switch-over while cold the boiler's own heat is used up by then, h: what the fins show is the new source's. */
export const switchedFinsHours = 2;

/** Something that can be proven between two instants. */
export interface Proof {
  readonly proof: PlanProofCode;
  readonly fromMs: number;
  readonly byMs: number;
}

/** The proofs of a stretch in order, whether it runs long enough for them or not. */
export function proofsOf(startMs: number, isSwitched: boolean): readonly Proof[] {
  const at = (proof: PlanProofCode, from: number, by = from): Proof => ({
    proof,
    fromMs: startMs + from * msPerHour,
    byMs: startMs + by * msPerHour,
  });
  if (isSwitched) return [at("heat", heatShowsHours), at("fins", switchedFinsHours), at("strength", finsAloneHours)];
  const { earliest, latest } = usualOnsetHours;
  return [
    at("heat", heatShowsHours),
    at("onset", earliest, latest),
    at("cold", earliest + coldShowsHours, latest + coldShowsHours),
    at("strength", earliest + slopeHours, latest + slopeHours),
    at("dead", notCoolingHours),
    at("curve", earliest + curveHours, latest + curveHours),
    at("better-curve", earliest + betterCurveHours, latest + betterCurveHours),
  ];
}
