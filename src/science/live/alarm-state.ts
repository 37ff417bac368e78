// What alarms know of a run: plain JSON that outlives a restart, and what each thing that comes in changes of it. What the
// state means stands in alarm-conditions.ts, what is told of it in alarms.ts.

import { type EnergySource, msPerMinute, type Position } from "../../schema/index.ts";
import type { DayHours } from "../plan/day-hours.ts";
import type { CautionCode, StopDoubt } from "../sayings.ts";
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
  /**
   * Nothing at all comes from a board for so long, min; three times its own pause, where that is longer. Until two of its
   * pauses are known: at least `firstPauseMinutes`.
   */
  readonly boardSilentMinutes: number;
  readonly firstPauseMinutes: number;
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
  firstPauseMinutes: 5,
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
  /** From now on it is listened again: what nobody could hear before was not silent. What is an alarm already stays one. */
  | { readonly kind: "listening"; readonly unixMs: number }
  /** A board is no longer listened to: it cannot be silent. */
  | { readonly kind: "dismissed"; readonly unixMs: number; readonly board: string }
  /** What it runs on from now on; null when what was said was taken back. */
  | { readonly kind: "source"; readonly unixMs: number; readonly source: EnergySource | null }
  /** What `LiveEstimate.stopped` says: since when cooling has stopped, or null; and what else explains it. */
  | {
      readonly kind: "cooling";
      readonly unixMs: number;
      readonly stoppedSinceMs: number | null;
      readonly doubt: StopDoubt;
    }
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
  /** Missing from a state that was kept before it was told. */
  readonly stopDoubt?: StopDoubt;
  readonly wasCold: boolean;
  /** A cabinet above its limit: since when, when last, and how warm then. */
  readonly warm: { readonly sinceMs: number; readonly lastMs: number; readonly celsius: number } | null;
  readonly positions: { readonly [P in Position]?: WatchedPosition };
  /** When each board was last heard. */
  readonly boards: { readonly [board: string]: number };
  /** How long each board paused lately, ms, the last pause at the end. Missing from a state that was kept before it was told. */
  readonly pauses?: { readonly [board: string]: readonly number[] };
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

/** The state after one thing that came in. */
export function taken(state: AlarmState, input: AlarmInput, limits: AlarmLimits): AlarmState {
  return take(turnedBack(state, input.unixMs), input, limits);
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

function take(state: AlarmState, input: AlarmInput, limits: AlarmLimits): AlarmState {
  switch (input.kind) {
    case "reading":
      return takeReading(state, input, limits);
    case "heard":
      return heard(state, input.board, input.unixMs);
    case "listening":
      return listenedAgain(state, input.unixMs);
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
      return {
        ...state,
        stoppedSinceMs: state.source === "off" ? null : input.stoppedSinceMs,
        stopDoubt: input.doubt,
      };
    case "disk":
      return { ...state, freeMegabytes: input.freeMegabytes };
    case "acknowledged":
      return acknowledge(state, input.alarm, input.unixMs, input.by ?? null);
    case "tick":
      return state;
  }
}

function heard(state: AlarmState, board: string, unixMs: number): AlarmState {
  const { boards, pauses = {} } = state;
  const pauseMs = unixMs - (boards[board] ?? unixMs);
  // A board that is back speaks of one probe after the other: the last one is not lost while the first speaks.
  const isBack = hasAlarm(state, "board-silent", board);
  return {
    ...state,
    positions: isBack ? spokenFor(state, unixMs, (one) => one.board === board) : state.positions,
    boards: { ...boards, [board]: unixMs },
    // Readings of one line or pack are no pause.
    ...(pauseMs > 0 && { pauses: { ...pauses, [board]: [...(pauses[board] ?? []), pauseMs].slice(-pausesKept) } }),
  };
}

const pausesKept = 3;

function listenedAgain(state: AlarmState, unixMs: number): AlarmState {
  const boards = Object.entries(state.boards).map(([board, lastMs]) => [
    board,
    hasAlarm(state, "board-silent", board) ? lastMs : Math.max(lastMs, unixMs),
  ]);
  // Nor does anyone know that a cabinet stayed warm.
  const { warm, source } = state;
  const isLongAgo = warm !== null && unixMs - warm.lastMs >= waverMs;
  return {
    ...state,
    boards: Object.fromEntries(boards),
    positions: spokenFor(state, unixMs, () => true),
    warm: isLongAgo && !hasAlarm(state, "cabinet-warm", source ?? "") ? null : warm,
  };
}

/** Positions nobody could hear count from this instant on, but for those that were lost before. */
function spokenFor(state: AlarmState, unixMs: number, isMeant: (one: WatchedPosition) => boolean) {
  const all = Object.entries(state.positions).map(([position, one]) => [
    position,
    isMeant(one) && !hasAlarm(state, "probe-lost", position)
      ? { ...one, lastGoodMs: Math.max(one.lastGoodMs, unixMs) }
      : one,
  ]);
  return Object.fromEntries(all) as AlarmState["positions"];
}

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

/** Whether an alarm of this key is there and its cause goes on. */
export const hasAlarm = ({ alarms }: AlarmState, kind: AlarmKind, subject: string) =>
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
export const isLatched = ({ acknowledgedMs, clearedMs }: Alarm) => acknowledgedMs === null || clearedMs === null;

/** Whether two are the same alarm, whenever they were raised. */
export const isSame = (a: AlarmKey, b: AlarmKey) => a.kind === b.kind && a.subject === b.subject;
