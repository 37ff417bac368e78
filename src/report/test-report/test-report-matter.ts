// What a test report is made from: findings, and what the workshop keeps besides them.

import type { RunSheet } from "../../schema/index.ts";
import type { RunsCompared } from "../../science/before-after/index.ts";
import type { Analysis } from "../../science/index.ts";
import type { ComparisonContext } from "../comparison/comparison-context.ts";
import type { ReportContext } from "../context.ts";

/** A test report of one run, or of runs before and after a service. */
export interface TestReport {
  /** When the report was written. */
  readonly madeMs: number;
  /** The workshop's own words at its head; null for none. */
  readonly letterhead: string | null;
  /** null where nobody named the fridge. */
  readonly fridge: ReportedFridge | null;
  /** One at least; those before come first. */
  readonly runs: readonly ReportedRun[];
  /** Of the run, or of those after the service. */
  readonly analysis: Analysis;
  readonly context: ReportContext;
  /** null for a report of one run. */
  readonly service: { readonly comparison: RunsCompared; readonly context: ComparisonContext } | null;
}

/** A fridge as the workshop describes it. */
export interface ReportedFridge {
  readonly name: string;
  readonly kind?: string;
  readonly ratedWatts?: RunSheet["ratedWatts"];
  readonly cabinetLitres?: number;
  readonly notes?: string;
}

/** A run with what people wrote about it. */
export interface ReportedRun {
  readonly when: "run" | "before" | "after";
  /** As the store knows it; null for a file. */
  readonly id: string | null;
  readonly name: string;
  readonly startMs: number;
  readonly endMs: number;
  readonly sheet: RunSheet | null;
  readonly notes: string | null;
  /** Notes at an instant of the run. */
  readonly remarks: readonly { readonly unixMs: number; readonly text: string }[];
}
