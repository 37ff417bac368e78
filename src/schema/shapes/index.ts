// The schemas of the files that come in beside a log. A door of its own: most logs come alone, and loading what checks shapes takes
// a tenth of a command's time.
export { type BaselineFile, baselineFileSchema } from "./baseline-file.ts";
export { type LogMapping, logMappingSchema } from "./log-mapping.ts";
export type { ProbeCurve } from "./probe-curve.ts";
export type { EstimateDocument } from "./result-shapes.ts";
export { type RunSheet, runSheetSchema } from "./run-sheet.ts";
