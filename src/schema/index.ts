// The outside shapes and the words for quantities: what every floor may import from below.
export * from "./analysis-document.ts";
export * from "./bad-input.ts";
export * from "./baseline-file.ts";
export * from "./comparison-document.ts";
export * from "./forecast.ts";
export * from "./hot-day-document.ts";
export * from "./json-schema.ts";
export type { KeptLists } from "./kept-records.ts";
export * from "./log-mapping.ts";
export * from "./log-understanding.ts";
export * from "./plan-document.ts";
export type { ProbeChecks } from "./probe-checks.ts";
export * from "./recording.ts";
export type { EstimateDocument } from "./result-shapes.ts";
export * from "./run-sheet.ts";
export * from "./sayings.ts";
export * from "./units.ts";
