import type { ProbeCurve } from "../../schema/index.ts";

/** Whether two curves say the same of a probe; without one it sends °C. */
export const isSameCurve = (one: ProbeCurve | null | undefined, other: ProbeCurve | null | undefined): boolean =>
  JSON.stringify(one ?? null) === JSON.stringify(other ?? null);
