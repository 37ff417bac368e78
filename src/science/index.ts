// What other floors may import from the science: the one job, and the shapes of its answer.
export { type AnalyseOptions, analyse, usualMargin } from "./analyse.ts";
export type * from "./before-after/change-findings.ts";
export type * from "./before-after/change-sayings.ts";
export { compareRuns } from "./compare-runs.ts";
export type * from "./findings.ts";
export { type HotDayOptions, hotDay } from "./hot-day.ts";
export type { SettledDepth } from "./hot-days/depth-law.ts";
export { adviceCodes, adviceFor } from "./hot-days/hot-day-advice.ts";
export type * from "./hot-days/hot-day-findings.ts";
export type * from "./hot-days/hot-day-sayings.ts";
export type { AlarmKind, AlarmSayings } from "./live/alarm-sayings.ts";
export {
  type Alarm,
  type AlarmInput,
  type AlarmLimits,
  type AlarmState,
  noAlarms,
  usualAlarmLimits,
  watch,
} from "./live/alarms.ts";
export type { LiveProofs, ProofState } from "./live/live-proofs.ts";
export {
  type LiveEstimate,
  LiveRun,
} from "./live/live-run.ts";
export type * from "./live/live-sayings.ts";
export { type Answer, type Estimate, isKnown } from "./numbers/estimate.ts";
export type { ChecklistCode, ChecklistItem } from "./plan/checklist.ts";
export { uncheckedItems } from "./plan/checklist.ts";
export type { DayHours } from "./plan/day-hours.ts";
export { type PlanRequest, type PlanStep, planRun, type RunPlan } from "./plan/plan-run.ts";
export type * from "./plan/plan-sayings.ts";
export {
  type CalibrationPoint,
  calibrateProbe,
  expandedUncertainty,
  largestUncertainty,
  type ProbeCalibration,
} from "./probes/calibration.ts";
export { type CalibrationStanding, calibrationDue, calibrationStanding } from "./probes/calibration-due.ts";
export { type AirPressure, boilingPoint, icePoint } from "./probes/fixed-points.ts";
export { iceSlushCheck, type SlushFinding } from "./probes/ice-slush-check.ts";
export { sensorCelsius, sensorRaw, sensorUnits } from "./probes/probe-sensor.ts";
export { type Warming, warmings } from "./probes/warmings.ts";
export { cleanRecording } from "./readings/cleaning.ts";
export { keepExtremes } from "./readings/keep-extremes.ts";
export { workingSeries } from "./readings/working-series.ts";
export type * from "./sayings.ts";
