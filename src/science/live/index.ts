// What other floors may import of a run that is being recorded.

export { probeLimits } from "../readings/probe-limits.ts";
export type { AlarmKind, AlarmSayings } from "./alarm-sayings.ts";
export {
  type Alarm,
  type AlarmInput,
  type AlarmLimits,
  type AlarmState,
  noAlarms,
  usualAlarmLimits,
} from "./alarm-state.ts";
export { watch } from "./alarms.ts";
export { cautionsOnSource } from "./live-head.ts";
export type { LiveProofs, ProofState } from "./live-proofs.ts";
export {
  type LiveEstimate,
  LiveRun,
} from "./live-run.ts";
export type * from "./live-sayings.ts";
