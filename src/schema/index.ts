// The outside shapes and the words for quantities: what every floor may import from below.
export * from "./asked-ambient.ts";
export * from "./bad-input.ts";
export * from "./baseline-file.ts";
export * from "./forecast.ts";
export * from "./log-mapping.ts";
export * from "./log-understanding.ts";
export * from "./probe-curve.ts";
export * from "./recording.ts";
export type { EstimateDocument } from "./result-shapes.ts";
export * from "./run-sheet.ts";
export * from "./sayings.ts";
export * from "./sheet-limits.ts";
export * from "./time-zone.ts";
export * from "./units.ts";
export * from "./utc-offset.ts";
