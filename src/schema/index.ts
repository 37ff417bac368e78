// The words for quantities and for what is refused, and the types of the outside shapes: what every floor may import from
// below.
export * from "./asked-ambient.ts";
export * from "./bad-input.ts";
export * from "./forecast.ts";
export * from "./log-understanding.ts";
export * from "./recording.ts";
export * from "./sayings.ts";
export type { BaselineFile, EstimateDocument, LogMapping, ProbeCurve, RunSheet } from "./shapes/index.ts";
export * from "./sheet-limits.ts";
export * from "./time-zone.ts";
export * from "./units.ts";
export * from "./utc-offset.ts";
