// What other floors may import of the comparison before and after a service.
export type * from "./change-findings.ts";
export type * from "./change-sayings.ts";
export { compareRuns } from "./compare-runs.ts";
