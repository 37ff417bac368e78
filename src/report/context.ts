// What a report needs to know besides the analysis: its language, where the readings came from, and
// the clock people read beside the fridge.

import type { AnalysisDocument } from "../schema/documents/index.ts";
import type { SourceMark } from "../schema/index.ts";
import type { Degrees } from "./hand.ts";
import type { Language } from "./words/index.ts";

/** A file that went into the analysis. */
export type ReportInput = AnalysisDocument["inputs"][number];

/** How somebody is told: in which language and degrees, and on which clock. */
export interface Reader {
  readonly language: Language;
  /** °C unless stated. */
  readonly degrees?: Degrees;
  /** The log's own UTC offset, minutes: times are shown with it. */
  readonly utcOffsetMinutes: number;
}

export interface ReportContext extends Reader {
  readonly inputs: readonly ReportInput[];
  /** Energy sources the user told by hand. */
  readonly sourceMarks: readonly SourceMark[];
}
