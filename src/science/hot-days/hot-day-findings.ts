// What a hot-day prediction finds: the shape that src/report turns into JSON, text and drawings.

import type { EnergySource, HeatSource } from "../../schema/index.ts";
import type { Answer, Estimate } from "../numbers/estimate.ts";
import type { ClimateClass } from "./climate-classes.ts";
import type { HotDayAdvice, HotDayReasonSaying, StartKind } from "./hot-day-sayings.ts";
import type { SettledDepth } from "./stretch-depth.ts";

export interface HotDay {
  /** The ambient asked for; of a trip its warmest. */
  readonly ambient: number;
  readonly source: HeatSource | null;
  /** That source first, then the others that ran. */
  readonly sources: readonly HotDaySource[];
  readonly trip: Trip | null;
  readonly load: Load | null;
  /** How much warmer than the probe's place top shelf and door are, K. */
  readonly topShelf: Estimate;
  readonly advice: readonly HotDayAdvice[];
}

/** Goods put in at the start. */
export interface Load {
  readonly kilograms: number;
  readonly celsius: number;
}

/** One source on the hot day. */
export interface HotDaySource {
  readonly source: HeatSource | null;
  /** As the fridge ran: at the dial's set point where cycling was seen, else under full cooling. */
  readonly settled: Answer;
  /** Under full cooling. */
  readonly belowAmbient: Answer;
  readonly warmestAmbientFor8: Answer;
  /** From switching on with everything at ambient (goods at their own temperature) until 8 °C. */
  readonly hoursUntil8: Answer;
  /** Change of the depth per kelvin of ambient, on ordinary days. */
  readonly slope: Answer;
  readonly isOwnSlope: boolean;
  readonly isExtrapolated: boolean;
  readonly points: readonly SettledDepth[];
  readonly curve: DepthCurve | null;
  readonly classes: readonly ComparedClass[];
  readonly reasons: readonly HotDayReasonSaying[];
}

/** Kelvin below ambient against ambient, with the 95 % band of one more run; all of the same length. */
export interface DepthCurve {
  readonly ambient: Float64Array;
  readonly depth: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** The ambients that the runs speak of. */
  readonly seenFrom: number;
  readonly seenTo: number;
}

/** A climate class beside this fridge: whether its warmest ambient still holds 8 °C. */
export type ComparedClass = ClimateClass & {
  readonly settled: Estimate;
  readonly holds8: "yes" | "no" | "undecided";
};

export interface Trip {
  readonly startMs: number;
  readonly endMs: number;
  readonly start: { readonly celsius: number; readonly from: StartKind };
  readonly hours: readonly TripHour[];
  readonly hoursAbove5: Answer;
  readonly hoursAbove8: Answer;
  /** From the start until 8 °C is crossed for the first time, whichever way. */
  readonly hoursUntil8: Answer;
  readonly crosses8: "falling" | "rising";
  readonly curves: TripCurves;
  readonly reasons: readonly HotDayReasonSaying[];
}

export interface TripHour {
  readonly unixMs: number;
  readonly source: EnergySource;
  readonly ambient: number;
  readonly sun: boolean;
  readonly driving: boolean;
  readonly cabinet: Answer;
  readonly isExtrapolated: boolean;
}

/** Hours from the trip's start; NaN where nothing can be said. All of the same length. */
export interface TripCurves {
  readonly hours: Float64Array;
  readonly ambient: Float64Array;
  readonly cabinet: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
}
