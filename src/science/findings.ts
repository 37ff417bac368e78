// What an analysis finds: the shape that src/report turns into JSON, text and drawings.
// Instants are unixMs, sentences are sayings; the outside shape is src/schema/documents/analysis-document.ts.

import type { BaselineKind, Cause, EventKind, StartState, Verdict } from "../schema/documents/index.ts";
import type { EnergySource, HeatSource, Position } from "../schema/index.ts";
import type { Answer } from "./numbers/estimate.ts";
import type {
  CautionCode,
  CheckCode,
  EventSaying,
  ReasonSaying,
  RejectionCode,
  UnitProofCode,
  UnitProofSaying,
  WarningSaying,
} from "./sayings.ts";

/** Something that happened during a run. */
export interface RunEvent {
  readonly log: string;
  readonly kind: EventKind;
  readonly startMs: number;
  readonly endMs: number;
  readonly position: Position | null;
  readonly size: number | null;
  readonly sizeUnit: "K" | "h" | "1" | null;
  readonly reason: EventSaying;
}

/** Readings set aside, counted. They stay in the log; only the analysis leaves them out. */
export interface Rejection {
  readonly log: string;
  readonly position: Position | "time" | "source";
  readonly reason: RejectionCode;
  readonly readings: number;
  /** When each of them says it was taken, ascending; empty where that is not known, or they were only put in order. */
  readonly unixMs: Float64Array;
  /** What each said, °C or V; empty where whole rows were set aside. */
  readonly values: Float64Array;
}

/** The four numbers of a pull-down. */
export interface PullDownNumbers {
  readonly rateConstant: Answer;
  readonly depth: Answer;
  readonly initialSlope: Answer;
  readonly deadTime: Answer;
}

/** Series for drawing one stretch; all the same length, `hours` from the stretch's start; NaN where there is none. */
export interface StretchCurves {
  readonly hours: Float64Array;
  readonly evaporator: Float64Array;
  readonly cabinet: Float64Array;
  readonly ambient: Float64Array;
  readonly fitted: Float64Array;
  /** 95 % band of the fitted curve. */
  readonly bandLow: Float64Array;
  readonly bandHigh: Float64Array;
  /** cabinet - fitted, K; only where the reading took part in the fit. */
  readonly residual: Float64Array;
  readonly evaporatorFitted: Float64Array;
  /** Mean fitted curve of the known-good runs, as kelvin below ambient against hours since the onset; null without. */
  readonly knownGood: { readonly hoursSinceOnset: Float64Array; readonly belowAmbient: Float64Array } | null;
}

/** A stretch's numbers over those of what it is compared with, both cut to equal length. */
export type NumberRatios = {
  readonly rateConstant: Answer;
  readonly depth: Answer;
  readonly initialSlope: Answer;
  readonly finDifference: Answer;
};

export interface StretchFinding extends PullDownFindings {
  readonly log: string;
  readonly source: EnergySource | null;
  readonly startMs: number;
  readonly endMs: number;
  readonly sourceFrom: "told" | "found";
  readonly startState: StartState | null;
  readonly verdict: Verdict | null;
  readonly baseline: { readonly kind: BaselineKind; readonly runs: number };
  readonly coolingStrength: Answer;
  readonly thisNight: Answer;
  readonly reasons: readonly ReasonSaying[];
  readonly curves: StretchCurves;
}

interface PullDownFindings {
  readonly fit: PullDownNumbers & { readonly modes: 1 | 2 };
  /** The same numbers of the known-good runs, over the same hours from the onset. */
  readonly baselineFit: (PullDownNumbers & { readonly hours: number }) | null;
  readonly finDifference: Answer;
  readonly belowAmbient: Answer;
  readonly warmingRate: Answer;
  readonly duty: Answer;
  readonly milestones: {
    readonly to8: Answer;
    readonly to5: Answer;
    readonly to0: Answer;
    readonly fallFirstHour: Answer;
    readonly shareAbove5: Answer;
    readonly shareAbove8: Answer;
  };
  readonly ratios: NumberRatios;
  readonly deadTimeShift: Answer;
  /** Against the source before it, where it was switched to while cold; null elsewhere. */
  readonly switchOver: SwitchOverFinding | null;
}

/** Two sources held against each other across a switch without a pause. */
export interface SwitchOverFinding {
  readonly from: HeatSource;
  /** Cooling after the switch over cooling before it. */
  readonly ratio: Answer;
  /** "removed": the first source came on once more and took the drift out; else it widens the interval. */
  readonly drift: "removed" | "allowed-for";
}

export interface SourceFinding {
  readonly source: HeatSource | null;
  readonly verdict: Verdict;
  /** What the strength stands on. */
  readonly baseline: BaselineKind;
  readonly coolingStrength: Answer;
  /** Indices into `Analysis.stretches`. */
  readonly stretches: readonly number[];
  readonly reasons: readonly ReasonSaying[];
}

export interface KeepsUpFinding {
  readonly source: HeatSource | null;
  readonly settledHere: Answer;
  readonly settledAt32: Answer;
  /** What the depth is held against: known-good runs through the verdict, or the range that is usual for such fridges. */
  readonly baseline: BaselineKind;
  readonly reasons: readonly ReasonSaying[];
}

export interface CauseFinding {
  readonly cause: Cause;
  readonly source: HeatSource | null;
  readonly probability: number;
}

/** Advice and its caution in one object, so that no face can show one without the other. */
export interface NextCheck {
  readonly check: CheckCode;
  readonly separates: readonly Cause[];
  /** Minutes of work at the fridge, waiting not counted. */
  readonly minutes: number;
  readonly cautions: readonly CautionCode[];
}

/** Something to be proven before a cooling unit is condemned, and its caution in the same object. */
export interface UnitProof {
  readonly proof: UnitProofCode;
  readonly state: "shown" | "not-shown";
  /** What the given logs and sheets show of it. */
  readonly seen: UnitProofSaying;
  readonly cautions: readonly CautionCode[];
}

export interface Analysis {
  readonly margin: number;
  readonly sources: readonly SourceFinding[];
  readonly stretches: readonly StretchFinding[];
  readonly keepsUp: readonly KeepsUpFinding[];
  readonly causes: readonly CauseFinding[];
  readonly nextChecks: readonly NextCheck[];
  /** Empty where the cooling unit is not among the causes. */
  readonly beforeCondemning: readonly UnitProof[];
  readonly events: readonly RunEvent[];
  readonly rejected: readonly Rejection[];
  readonly warnings: readonly WarningSaying[];
}
