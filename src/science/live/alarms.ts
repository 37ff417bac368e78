// Watches a run and raises alarms: a pure state machine, whose state is plain JSON and so outlives a restart.
//
// For each kind of alarm and each subject (a position, a board) there is at most one. It latches: it stays until it is
// acknowledged, also when its cause is over, and its cause coming back does not raise it again. By night it may be held
// back; it then speaks when the night is over, unless it is about gas.

import { msPerMinute } from "../../schema/index.ts";
import { hourOfDay } from "../plan/day-hours.ts";
import { type Condition, conditionsOf } from "./alarm-conditions.ts";
import {
  type Alarm,
  type AlarmInput,
  type AlarmLimits,
  type AlarmState,
  isLatched,
  isSame,
  taken,
  usualAlarmLimits,
} from "./alarm-state.ts";

export interface AlarmStep {
  readonly state: AlarmState;
  /** What has to be told now: alarms newly raised, and those whose hold is over. */
  readonly raised: readonly Alarm[];
  /** Latched alarms whose cause is over. */
  readonly cleared: readonly Alarm[];
}

/** One step. Costs a time that grows with probes, boards and latched alarms alone. */
export function watch(state: AlarmState, input: AlarmInput, limits: AlarmLimits = usualAlarmLimits): AlarmStep {
  const seen = taken(state, input, limits);
  return settle(seen, conditionsOf(seen, limits), limits);
}

/** Latches what is new, lets go of what is over, and speaks where it may. */
function settle(state: AlarmState, conditions: readonly Condition[], limits: AlarmLimits): AlarmStep {
  const { nowMs } = state;
  const mayNotSpeak = isHeldBackAt(nowMs, limits);
  const raised: Alarm[] = [];
  const cleared: Alarm[] = [];
  const raisedAt: { [key: string]: number } = { ...state.raisedAt };
  const followed = state.alarms.map((alarm): Alarm => {
    const cause = conditions.find((condition) => isSame(condition, alarm));
    const isOver = cause === undefined && alarm.clearedMs === null;
    // A cause that comes back takes the latched alarm up again, silently: it has spoken already.
    const clearedMs = cause === undefined ? (alarm.clearedMs ?? nowMs) : null;
    const speaksNow = alarm.isHeldBack && !mayNotSpeak;
    const next = { ...alarm, clearedMs, isHeldBack: alarm.isHeldBack && mayNotSpeak };
    if (speaksNow) raised.push(next);
    if (isOver) cleared.push(next);
    return next;
  });
  const latched = followed.filter(isLatched);
  for (const { isUrgent, ...cause } of conditions) {
    const key = `${cause.kind} ${cause.subject}`;
    const before = raisedAt[key];
    const isSoon = before !== undefined && nowMs - before < limits.leastMinutesBetween * msPerMinute;
    if (isSoon || latched.some((alarm) => isSame(alarm, cause))) continue;
    const isHeldBack = mayNotSpeak && !isUrgent;
    const unseen = { clearedMs: null, acknowledgedMs: null, acknowledgedBy: null };
    const alarm: Alarm = { ...cause, raisedMs: nowMs, ...unseen, isHeldBack };
    latched.push(alarm);
    raisedAt[key] = nowMs;
    if (!isHeldBack) raised.push(alarm);
  }
  return { state: { ...state, alarms: latched, raisedAt }, raised, cleared };
}

/** Whether the hour lies between the two; from 22 to 6 goes over midnight. */
function isHeldBackAt(nowMs: number, { heldBack, utcOffsetMinutes }: AlarmLimits): boolean {
  if (heldBack === null) return false;
  const { fromHour, toHour } = heldBack;
  const hour = hourOfDay(nowMs, utcOffsetMinutes);
  return fromHour <= toHour ? hour >= fromHour && hour < toHour : hour >= fromHour || hour < toHour;
}
