// What other floors may import from the science: the one job, and the shapes of its answer.
export { type AnalyseOptions, analyse, usualMargin } from "./analyse.ts";
export type * from "./findings.ts";
export { type Answer, type Estimate, isKnown } from "./numbers/estimate.ts";
export { cleanRecording } from "./readings/cleaning.ts";
export { keepExtremes } from "./readings/keep-extremes.ts";
export { workingSeries } from "./readings/working-series.ts";
export type * from "./sayings.ts";
