// What other floors may import of plans.
export type { ChecklistCode, ChecklistItem } from "./checklist.ts";
export { uncheckedItems } from "./checklist.ts";
export type { DayHours } from "./day-hours.ts";
export { type PlanRequest, type PlanStep, planRun, type RunPlan } from "./plan-run.ts";
export type * from "./plan-sayings.ts";
