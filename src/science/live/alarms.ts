// Watches a run and raises alarms: a pure state machine, whose state is plain JSON and so outlives a restart.
//
// For each kind of alarm and each subject (a position, a board) there is at most one. It latches: it stays until it is
// acknowledged, also when its cause is over, and its cause coming back does not raise it again. By night it may be held
// back; it then speaks when the night is over, unless it is about gas.

import { type EnergySource, type HeatSource, msPerMinute, type Position } from "../../schema/index.ts";
import { type DayHours, hourOfDay } from "../plan/day-hours.ts";
import type { CautionCode } from "../sayings.ts";
import type { AlarmKind, AlarmSaying } from "./alarm-sayings.ts";
import { oddness } from "./reading-screen.ts";

/** When alarms are raised, and when their cause counts as over. */
export interface AlarmLimits {
  /** Cabinet above this, °C, for longer than that, min; over when so many kelvin below. It must have been cold before. */
  readonly cabinetCelsius: number;
  readonly cabinetMinutes: number;
  readonly cabinetReturnKelvin: number;
  /** A position that has spoken says nothing for so long, min, though its board does. */
  readonly probeLostMinutes: number;
  /** Nothing at all comes from a board for so long, min. */
  readonly boardSilentMinutes: number;
  /** Less is free on the disk, MB; over when so much more is. */
  readonly diskMegabytes: number;
  readonly diskReturnMegabytes: number;
  /** Nothing but impossible readings come from a position for so long, min; over after as long with good ones. */
  readonly oddMinutes: number;
  /** Hours of the day between which alarms are held back, such as 22 to 6; null: never. Not those of a gas stretch. */
  readonly heldBack: DayHours | null;
  /** The clock of `heldBack`. */
  readonly utcOffsetMinutes: number;
  /** One alarm is not raised again sooner than this after it was last raised, min. */
  readonly leastMinutesBetween: number;
}

/** Used where a workshop states nothing. The cabinet limit is the warmest of the milestones: 8 °C. */
export const usualAlarmLimits: AlarmLimits = {
  cabinetCelsius: 8,
  cabinetMinutes: 60,
  cabinetReturnKelvin: 1,
  probeLostMinutes: 10,
  boardSilentMinutes: 5,
  diskMegabytes: 500,
  diskReturnMegabytes: 250,
  oddMinutes: 5,
  heldBack: null,
  utcOffsetMinutes: 0,
  leastMinutesBetween: 15,
};

/** What is watched. Instants are those of the run's own time axis. */
export type AlarmInput =
  | {
      readonly kind: "reading";
      readonly unixMs: number;
      readonly position: Position;
      readonly value: number;
      readonly board?: string;
    }
  /** A line came from a board, whatever it held. */
  | { readonly kind: "heard"; readonly unixMs: number; readonly board: string }
  /** A board is no longer listened to: it cannot be silent. */
  | { readonly kind: "dismissed"; readonly unixMs: number; readonly board: string }
  /** What it runs on from now on; null when what was said was taken back. */
  | { readonly kind: "source"; readonly unixMs: number; readonly source: EnergySource | null }
  /** What `LiveEstimate.stopped` says: since when cooling has stopped, or null. */
  | { readonly kind: "cooling"; readonly unixMs: number; readonly stoppedSinceMs: number | null }
  | { readonly kind: "disk"; readonly unixMs: number; readonly freeMegabytes: number }
  | { readonly kind: "acknowledged"; readonly unixMs: number; readonly alarm: AlarmKey; readonly by?: string }
  /** Time went on; now and then, at least once a minute. */
  | { readonly kind: "tick"; readonly unixMs: number };

/** Which alarm: at most one of a key is there at a time. `subject` is an energy source, a position, a board, or "". */
export interface AlarmKey {
  readonly kind: AlarmKind;
  readonly subject: string;
}

/** An alarm and its cautions in one object, so that no face can show one without the other. */
export interface Alarm extends AlarmKey {
  readonly raisedMs: number;
  readonly reason: AlarmSaying;
  readonly cautions: readonly CautionCode[];
  /** When its cause was over; null while it lasts. */
  readonly clearedMs: number | null;
  readonly acknowledgedMs: number | null;
  readonly acknowledgedBy: string | null;
  /** Waits for the end of the night before it speaks. */
  readonly isHeldBack: boolean;
}

/** Plain JSON. Treat as opaque but for `alarms`. */
export interface AlarmState {
  readonly format: "coldfall-alarms-1";
  readonly nowMs: number;
  readonly source: EnergySource | null;
  readonly stoppedSinceMs: number | null;
  readonly wasCold: boolean;
  /** A cabinet above its limit: since when, when last, and how warm then. */
  readonly warm: { readonly sinceMs: number; readonly lastMs: number; readonly celsius: number } | null;
  readonly positions: { readonly [P in Position]?: WatchedPosition };
  /** When each board was last heard. */
  readonly boards: { readonly [board: string]: number };
  readonly freeMegabytes: number | null;
  /** When each alarm was last raised, by its key as text. */
  readonly raisedAt: { readonly [key: string]: number };
  /** Latched alarms, the oldest first. */
  readonly alarms: readonly Alarm[];
}

interface WatchedPosition {
  readonly lastGoodMs: number;
  readonly board: string | null;
  /** Impossible readings without a good one between; null while readings are good. */
  readonly odd: {
    readonly sinceMs: number;
    readonly lastMs: number;
    readonly why: string;
    readonly value: number | null;
  } | null;
  /** Since when good ones came again without an impossible one between. */
  readonly goodSinceMs: number;
}

export interface AlarmStep {
  readonly state: AlarmState;
  /** What has to be told now: alarms newly raised, and those whose hold is over. */
  readonly raised: readonly Alarm[];
  /** Latched alarms whose cause is over. */
  readonly cleared: readonly Alarm[];
}

/** Nothing watched yet. */
export const noAlarms: AlarmState = {
  format: "coldfall-alarms-1",
  nowMs: 0,
  source: null,
  stoppedSinceMs: null,
  wasCold: false,
  warm: null,
  positions: {},
  boards: {},
  freeMegabytes: null,
  raisedAt: {},
  alarms: [],
};

/** One step. Costs a time that grows with probes, boards and latched alarms alone. */
export function watch(state: AlarmState, input: AlarmInput, limits: AlarmLimits = usualAlarmLimits): AlarmStep {
  const seen = take(turnedBack(state, input.unixMs), input, limits);
  return settle(seen, conditionsOf(seen, limits), limits);
}

/** A clock set back must leave nothing in the future, or it would be waited for. */
function turnedBack(state: AlarmState, nowMs: number): AlarmState {
  if (nowMs >= state.nowMs) return { ...state, nowMs };
  const back = (ms: number) => Math.min(ms, nowMs);
  const each = <Value>(values: { readonly [key: string]: Value }, of: (value: Value) => Value) =>
    Object.fromEntries(Object.entries(values).map(([key, value]) => [key, of(value)]));
  return {
    ...state,
    nowMs,
    stoppedSinceMs: state.stoppedSinceMs === null ? null : back(state.stoppedSinceMs),
    warm:
      state.warm === null
        ? null
        : { ...state.warm, sinceMs: back(state.warm.sinceMs), lastMs: back(state.warm.lastMs) },
    positions: each(state.positions as { readonly [position: string]: WatchedPosition }, (one) => ({
      ...one,
      lastGoodMs: back(one.lastGoodMs),
      goodSinceMs: back(one.goodSinceMs),
      odd: one.odd === null ? null : { ...one.odd, sinceMs: back(one.odd.sinceMs), lastMs: back(one.odd.lastMs) },
    })),
    boards: each(state.boards, back),
    raisedAt: each(state.raisedAt, back),
  };
}

// What came -----------------------------------------------------------------------------------------------

function take(state: AlarmState, input: AlarmInput, limits: AlarmLimits): AlarmState {
  switch (input.kind) {
    case "reading":
      return takeReading(state, input, limits);
    case "heard":
      return heard(state, input.board, input.unixMs);
    case "dismissed": {
      const { [input.board]: _, ...boards } = state.boards;
      return { ...state, boards };
    }
    case "source":
      if (input.source === state.source) return state;
      // What was so on the source before is no cause on this one; a cabinet that was cold stays so until it is switched off.
      return {
        ...state,
        source: input.source,
        stoppedSinceMs: null,
        warm: null,
        wasCold: input.source === "off" ? false : state.wasCold,
      };
    case "cooling":
      return { ...state, stoppedSinceMs: state.source === "off" ? null : input.stoppedSinceMs };
    case "disk":
      return { ...state, freeMegabytes: input.freeMegabytes };
    case "acknowledged":
      return acknowledge(state, input.alarm, input.unixMs, input.by ?? null);
    case "tick":
      return state;
  }
}

const heard = (state: AlarmState, board: string, unixMs: number): AlarmState => ({
  ...state,
  boards: { ...state.boards, [board]: unixMs },
});

function takeReading(
  state: AlarmState,
  { unixMs, position, value, board }: Extract<AlarmInput, { kind: "reading" }>,
  limits: AlarmLimits,
): AlarmState {
  const listened = board === undefined ? state : heard(state, board, unixMs);
  const before = listened.positions[position];
  const why = oddness(position, value);
  const watched: WatchedPosition =
    why === null
      ? {
          lastGoodMs: unixMs,
          board: board ?? null,
          // Good ones must come for as long as bad ones had to: a loose contact does neither for long.
          odd: before?.odd && unixMs - goodSince(before, unixMs) < limits.oddMinutes * msPerMinute ? before.odd : null,
          goodSinceMs: goodSince(before, unixMs),
        }
      : {
          lastGoodMs: before?.lastGoodMs ?? unixMs,
          board: board ?? null,
          odd: {
            sinceMs: before?.odd?.sinceMs ?? unixMs,
            lastMs: unixMs,
            why,
            value: Number.isFinite(value) ? value : null,
          },
          goodSinceMs: before?.goodSinceMs ?? unixMs,
        };
  const next = { ...listened, positions: { ...listened.positions, [position]: watched } };
  return position === "cabinet" && why === null ? takeCabinet(next, unixMs, value, limits) : next;
}

/** Since when readings are good: from the first one after the last impossible one. */
const goodSince = (before: WatchedPosition | undefined, unixMs: number): number => {
  if (before === undefined) return unixMs;
  const { odd, goodSinceMs } = before;
  return odd !== null && goodSinceMs <= odd.lastMs ? unixMs : goodSinceMs;
};

/** A cabinet seen above its limit so lately still counts as above it, ms. */
const waverMs = 10 * msPerMinute;

/** Only a cabinet that has been cold on this run can be too warm: before that it is still being cooled. */
function takeCabinet(state: AlarmState, unixMs: number, celsius: number, limits: AlarmLimits): AlarmState {
  const { cabinetCelsius, cabinetReturnKelvin } = limits;
  if (state.source === "off") return state;
  const isBack = celsius <= cabinetCelsius - cabinetReturnKelvin;
  const wasCold = state.wasCold || isBack;
  if (celsius > cabinetCelsius && wasCold) {
    return { ...state, wasCold, warm: { sinceMs: state.warm?.sinceMs ?? unixMs, lastMs: unixMs, celsius } };
  }
  if (isBack || state.warm === null) return { ...state, wasCold, warm: null };
  // Between the two: an alarm goes on, and a cabinet that wavers about the limit has not come back.
  const wavers = unixMs - state.warm.lastMs < waverMs || hasAlarm(state, "cabinet-warm", state.source ?? "");
  return { ...state, wasCold, warm: wavers ? state.warm : null };
}

const hasAlarm = ({ alarms }: AlarmState, kind: AlarmKind, subject: string) =>
  alarms.some((alarm) => alarm.kind === kind && alarm.subject === subject && alarm.clearedMs === null);

function acknowledge(state: AlarmState, key: AlarmKey, unixMs: number, by: string | null): AlarmState {
  return {
    ...state,
    alarms: state.alarms
      .map((alarm) =>
        isSame(alarm, key) && alarm.acknowledgedMs === null
          ? { ...alarm, acknowledgedMs: unixMs, acknowledgedBy: by, isHeldBack: false }
          : alarm,
      )
      .filter(isLatched),
  };
}

/** Until it is acknowledged and its cause is over. */
const isLatched = ({ acknowledgedMs, clearedMs }: Alarm) => acknowledgedMs === null || clearedMs === null;
const isSame = (a: AlarmKey, b: AlarmKey) => a.kind === b.kind && a.subject === b.subject;

// What it means -------------------------------------------------------------------------------------------

/** A cause that is there now. */
interface Condition extends AlarmKey {
  readonly reason: AlarmSaying;
  readonly cautions: readonly CautionCode[];
  /** Speaks at any hour. */
  readonly isUrgent: boolean;
}

function conditionsOf(state: AlarmState, limits: AlarmLimits): readonly Condition[] {
  const heat = state.source === "off" ? null : state.source;
  return [
    ...stoppedCondition(state, heat),
    ...warmCondition(state, heat, limits),
    ...boardConditions(state, limits),
    ...positionConditions(state, limits),
    ...diskCondition(state, limits),
  ];
}

function stoppedCondition({ stoppedSinceMs, source }: AlarmState, heat: HeatSource | null): readonly Condition[] {
  if (stoppedSinceMs === null || source === "off") return [];
  const mayBeGas = heat === "gas" || heat === null;
  return [
    {
      kind: "cooling-stopped",
      // A flame that dies is another alarm than the element that failed at night, though nobody has seen that one yet.
      subject: heat ?? "",
      reason: { code: "cooling-stopped", source: heat, sinceMs: stoppedSinceMs },
      cautions: mayBeGas ? ["stopped-on-gas", "gas"] : ["night", heat],
      isUrgent: mayBeGas,
    },
  ];
}

function warmCondition(
  { warm, nowMs, source }: AlarmState,
  heat: HeatSource | null,
  limits: AlarmLimits,
): readonly Condition[] {
  const { cabinetCelsius, cabinetMinutes } = limits;
  if (warm === null || source === "off" || nowMs - warm.sinceMs < cabinetMinutes * msPerMinute) return [];
  const mayBeGas = heat === "gas" || heat === null;
  return [
    {
      kind: "cabinet-warm",
      subject: heat ?? "",
      reason: { code: "cabinet-warm", celsius: warm.celsius, limitCelsius: cabinetCelsius, sinceMs: warm.sinceMs },
      cautions: ["food", ...(mayBeGas ? (["stopped-on-gas", "gas"] as const) : [heat])],
      isUrgent: mayBeGas,
    },
  ];
}

/** While a board is silent nobody sees a flame die: on gas that cannot wait for the morning. */
function boardConditions(
  { boards, nowMs, source }: AlarmState,
  { boardSilentMinutes }: AlarmLimits,
): readonly Condition[] {
  const isGas = source === "gas";
  return Object.entries(boards)
    .filter(([, lastMs]) => nowMs - lastMs >= boardSilentMinutes * msPerMinute)
    .map(([board, lastMs]) => ({
      kind: "board-silent",
      subject: board,
      reason: { code: "board-silent", board, lastMs },
      cautions: isGas ? ["gas"] : [],
      isUrgent: isGas,
    }));
}

/** A board that is silent explains its probes: one alarm, not four. */
function positionConditions(state: AlarmState, limits: AlarmLimits): readonly Condition[] {
  const { nowMs, boards, positions } = state;
  return Object.entries(positions).flatMap(([name, watched]): Condition[] => {
    const position = name as Position;
    const heardMs = watched.board === null ? nowMs : boards[watched.board];
    if (
      heardMs === undefined ||
      nowMs - heardMs >= Math.min(limits.boardSilentMinutes, limits.probeLostMinutes) * msPerMinute
    ) {
      return [];
    }
    const { odd } = watched;
    const key = {
      subject: position,
      cautions: position === "supply" ? (["mains", "dc12"] as const) : ([] as const),
      isUrgent: false,
    };
    if (odd !== null && odd.lastMs - odd.sinceMs >= limits.oddMinutes * msPerMinute) {
      const { why, value, sinceMs } = odd;
      const reason = { code: "readings-odd", position, why, value, sinceMs } as AlarmSaying;
      return [{ kind: "readings-odd", ...key, reason }];
    }
    const spokeMs = Math.max(watched.lastGoodMs, odd?.lastMs ?? 0);
    if (nowMs - spokeMs < limits.probeLostMinutes * msPerMinute) return [];
    return [{ kind: "probe-lost", ...key, reason: { code: "probe-lost", position, lastMs: spokeMs } }];
  });
}

function diskCondition(state: AlarmState, { diskMegabytes, diskReturnMegabytes }: AlarmLimits): readonly Condition[] {
  const { freeMegabytes } = state;
  const limit = diskMegabytes + (hasAlarm(state, "disk-low", "") ? diskReturnMegabytes : 0);
  if (freeMegabytes === null || freeMegabytes >= limit) return [];
  const reason = { code: "disk-low", freeMegabytes, limitMegabytes: diskMegabytes } as const;
  return [{ kind: "disk-low", subject: "", reason, cautions: [], isUrgent: false }];
}

// What is told --------------------------------------------------------------------------------------------

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
