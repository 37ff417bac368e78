// What a comparison of before with after finds: the shape that src/report turns into JSON, text and drawings.

import type { Change } from "../../schema/documents/index.ts";
import type { HeatSource } from "../../schema/index.ts";
import type { NumberRatios, PullDownNumbers } from "../findings.ts";
import type { Answer } from "../numbers/estimate.ts";
import type { WarningSaying } from "../sayings.ts";
import type { ChangeReasonSaying, ComparisonWarningSaying, Difference, SummarySaying } from "./change-sayings.ts";

/** Readings of one stretch, laid on the start of cold. */
export interface AlignedCurve {
  readonly log: string;
  readonly startMs: number;
  readonly endMs: number;
  /** Whether hour 0 is the start of cold; where there is none, it is the switch-on. */
  readonly isFromOnset: boolean;
  readonly hours: Float64Array;
  /** Ambient minus cabinet, K; NaN where there is no reading. */
  readonly belowAmbient: Float64Array;
}

/** The numbers of the fits, after beside before. */
export interface ComparedNumbers {
  /** All over the same hours from the start of cold; null where either has no fit. */
  readonly hours: number | null;
  readonly before: PullDownNumbers & { readonly finDifference: Answer };
  readonly after: PullDownNumbers & { readonly finDifference: Answer };
  readonly ratios: NumberRatios;
  readonly deadTimeShift: Answer;
}

export interface SourceChange {
  readonly source: HeatSource;
  readonly change: Change;
  /** Cooling strength after over that before. */
  readonly coolingStrength: Answer;
  /** The same over that of a source nobody touched. */
  readonly overControl: Answer;
  /** Which source that was. */
  readonly control: HeatSource | null;
  readonly reasons: readonly ChangeReasonSaying[];
  readonly numbers: ComparedNumbers | null;
  readonly curves: { readonly before: readonly AlignedCurve[]; readonly after: readonly AlignedCurve[] };
}

export interface RunsCompared {
  readonly margin: number;
  readonly sources: readonly SourceChange[];
  readonly differences: readonly Difference[];
  readonly sentence: SummarySaying;
  readonly warnings: readonly (WarningSaying | ComparisonWarningSaying)[];
}
