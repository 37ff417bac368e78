// What other floors may import from the science: the one job, and the shapes of its answer.
export { type AnalyseOptions, analyse, usualMargin } from "./analyse.ts";
export type * from "./change-findings.ts";
export type * from "./change-sayings.ts";
export { cleanRecording } from "./cleaning.ts";
export { compareRuns } from "./compare-runs.ts";
export type { SettledDepth } from "./depth-law.ts";
export { type Answer, type Estimate, isKnown } from "./estimate.ts";
export type * from "./findings.ts";
export { type HotDayOptions, hotDay } from "./hot-day.ts";
export { adviceCodes, adviceFor } from "./hot-day-advice.ts";
export type * from "./hot-day-findings.ts";
export type * from "./hot-day-sayings.ts";
export type * from "./sayings.ts";
export { workingSeries } from "./working-series.ts";
