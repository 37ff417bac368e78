// What a report needs to know besides the analysis: its language, where the readings came from, and
// the clock people read beside the fridge.

import type { AnalysisDocument, SourceMark } from "../schema/index.ts";
import type { Language } from "./words/index.ts";

/** A file that went into the analysis. */
export type ReportInput = AnalysisDocument["inputs"][number];

export interface ReportContext {
  readonly language: Language;
  readonly inputs: readonly ReportInput[];
  /** The log's own UTC offset, minutes: times are shown with it. */
  readonly utcOffsetMinutes: number;
  /** Energy sources the user told by hand. */
  readonly sourceMarks: readonly SourceMark[];
}
