// What other floors may import from the science: the one job, and the shapes of its answer.
export { type AnalyseOptions, analyse, usualMargin } from "./analyse.ts";
export type * from "./change-findings.ts";
export type * from "./change-sayings.ts";
export { cleanRecording } from "./cleaning.ts";
export { type CompareRunsOptions, compareRuns } from "./compare-runs.ts";
export { type Answer, type Estimate, isKnown, type Unknown } from "./estimate.ts";
export type * from "./findings.ts";
export { type HotDayOptions, hotDay } from "./hot-day.ts";
export { adviceCodes, adviceFor } from "./hot-day-advice.ts";
export type * from "./hot-day-findings.ts";
export type * from "./hot-day-sayings.ts";
export { checkFor } from "./next-checks.ts";
export type * from "./sayings.ts";
export type { Series } from "./series.ts";
export { workingSeries } from "./working-series.ts";
