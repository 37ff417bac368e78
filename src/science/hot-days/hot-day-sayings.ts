// Everything a hot-day prediction can say, as codes with values. The sentences stand in src/report/words.

import type { HeatSource, Nothing, SayingOf } from "../../schema/index.ts";
import type { Estimate } from "../numbers/estimate.ts";
import type { CautionCode, UnknownSaying } from "../sayings.ts";

/** What a prediction rests on and what it allows for. */
export interface HotDayReasonSayings {
  "runs-settled": { stretches: number; belowAmbient: number; ambient: number };
  "slope-of-its-own": { perKelvin: number; standardError: number };
  "slope-usual": { perKelvin: number; standardError: number };
  "bends-when-hot": { fromAmbient: number };
  "cold-runs-left-out": { runs: number; below: number };
  /** Of these stretches; `error` is what it leaves open of their ambient, K, one standard deviation. */
  "exhaust-on-probe": { stretches: number; error: number };
  "dial-held": { estimate: Estimate };
  "from-duty": Nothing;
  "beyond-runs": { coolest: number; warmest: number; ambient: number };
  "starts-at": { celsius: number; from: StartKind; withGoods: boolean };
  "boiler-from": { cold: boolean };
  "rate-usual": { source: HeatSource; perHour: number };
  "warming-usual": { perHour: number };
  "sun-allowed": { kelvin: number; standardError: number; hours: number };
  "driving-allowed": { share: number; hours: number };
  "load-allowed": { kilograms: number; celsius: number; ownShare: number };
  "cannot-from": { unixMs: number; source: HeatSource; why: UnknownSaying };
}
export type HotDayReasonSaying = SayingOf<HotDayReasonSayings>;

/** Where the trip's first temperature comes from. */
export type StartKind = "stated" | "last-reading" | "settled" | "ambient";

/** What helps on a hot day. The cautions of each stand beside it in hot-day-advice.ts. */
export type HotDayAdviceCode =
  | "cool-down-on-mains"
  | "load-cold"
  | "shade-the-wall"
  | "fan-at-the-rear"
  | "gas-on-the-road"
  | "gas-while-driving"
  | "gas-at-night"
  | "dc12-on-charge"
  | "record-hotter"
  | "record-the-source"
  | "record-empty";

/** Advice and its caution in one object, so that no face can show one without the other. */
export interface HotDayAdvice {
  readonly advice: HotDayAdviceCode;
  readonly cautions: readonly CautionCode[];
}
