// Watches a run and raises alarms: a pure state machine, whose state is plain JSON and so outlives a restart.
//
// For each kind of alarm and each subject (a position, a board) there is at most one. It latches: it stays until it is
// acknowledged, also when its cause is over, and its cause coming back does not raise it again; but cooling that stops
// once more is another event, which must not go unsaid because nobody saw the first. By night an alarm may be held back; it
// then speaks when the night is over, unless it is about gas.

import { msPerMinute } from "../../schema/index.ts";
import { hourOfDay } from "../plan/day-hours.ts";
import { type Condition, conditionsOf } from "./alarm-conditions.ts";
import {
  type Alarm,
  type AlarmInput,
  type AlarmKey,
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
  /** Of those raised: another event of a kind that was raised before, over, and not acknowledged. */
  readonly anew: readonly Alarm[];
  /** Latched alarms whose cause is back: taken up again, and silently, for they have spoken already. */
  readonly resumed: readonly Alarm[];
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
  const anew: Alarm[] = [];
  const resumed: Alarm[] = [];
  const cleared: Alarm[] = [];
  const raisedAt: { [key: string]: number } = { ...state.raisedAt };
  const isSoon = ({ kind, subject }: AlarmKey) => {
    const before = raisedAt[`${kind} ${subject}`];
    return before !== undefined && nowMs - before < limits.leastMinutesBetween * msPerMinute;
  };
  const isAnother = (alarm: Alarm) =>
    alarm.clearedMs !== null &&
    !alarm.isHeldBack &&
    !isSoon(alarm) &&
    conditions.some((condition) => condition.isAnotherEachTime && isSame(condition, alarm));
  const before = state.alarms.filter(isAnother);
  const followed = state.alarms.map((alarm): Alarm => {
    if (before.includes(alarm)) return alarm;
    const cause = conditions.find((condition) => isSame(condition, alarm));
    const isOver = cause === undefined && alarm.clearedMs === null;
    const isBack = cause !== undefined && alarm.clearedMs !== null;
    const clearedMs = cause === undefined ? (alarm.clearedMs ?? nowMs) : null;
    const speaksNow = alarm.isHeldBack && !mayNotSpeak;
    const next = { ...alarm, clearedMs, isHeldBack: alarm.isHeldBack && mayNotSpeak };
    if (speaksNow) raised.push(next);
    if (isOver) cleared.push(next);
    if (isBack) resumed.push(next);
    return next;
  });
  const latched = followed.filter((alarm) => isLatched(alarm) && !before.includes(alarm));
  for (const { isUrgent, isAnotherEachTime: _, ...cause } of conditions) {
    if (isSoon(cause) || latched.some((alarm) => isSame(alarm, cause))) continue;
    const isHeldBack = mayNotSpeak && !isUrgent;
    const unseen = { clearedMs: null, acknowledgedMs: null, acknowledgedBy: null };
    const alarm: Alarm = { ...cause, raisedMs: nowMs, ...unseen, isHeldBack };
    latched.push(alarm);
    raisedAt[`${cause.kind} ${cause.subject}`] = nowMs;
    if (!isHeldBack) raised.push(alarm);
    if (before.some((one) => isSame(one, cause))) anew.push(alarm);
  }
  return { state: { ...state, alarms: latched, raisedAt }, raised, anew, resumed, cleared };
}

/** Whether the hour lies between the two; from 22 to 6 goes over midnight. */
function isHeldBackAt(nowMs: number, { heldBack, utcOffsetMinutes }: AlarmLimits): boolean {
  if (heldBack === null) return false;
  const { fromHour, toHour } = heldBack;
  const hour = hourOfDay(nowMs, utcOffsetMinutes);
  return fromHour <= toHour ? hour >= fromHour && hour < toHour : hour >= fromHour || hour < toHour;
}
