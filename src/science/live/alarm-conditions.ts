// Which causes for an alarm are there now, as the state of a run shows them; each with its cautions.

import { type HeatSource, msPerMinute, type Position } from "../../schema/index.ts";
import type { CautionCode } from "../sayings.ts";
import type { AlarmSaying } from "./alarm-sayings.ts";
import { type AlarmKey, type AlarmLimits, type AlarmState, hasAlarm } from "./alarm-state.ts";
import { cautionsOfStop } from "./live-head.ts";

/** A cause that is there now. */
export interface Condition extends AlarmKey {
  readonly reason: AlarmSaying;
  readonly cautions: readonly CautionCode[];
  /** Speaks at any hour. */
  readonly isUrgent: boolean;
  /** Back after it was over it is another event, to be told on its own. */
  readonly isAnotherEachTime: boolean;
}

/** All causes that are there now; an alarm's key stands for one at most. */
export function conditionsOf(state: AlarmState, limits: AlarmLimits): readonly Condition[] {
  const heat = state.source === "off" ? null : state.source;
  return [
    ...stoppedCondition(state, heat),
    ...warmCondition(state, heat, limits),
    ...boardConditions(state, limits),
    ...positionConditions(state, limits),
    ...diskCondition(state, limits),
  ];
}

function stoppedCondition(
  { stoppedSinceMs, stopDoubt = null, source }: AlarmState,
  heat: HeatSource | null,
): readonly Condition[] {
  if (stoppedSinceMs === null || source === "off") return [];
  return [
    {
      kind: "cooling-stopped",
      // A flame that dies is another alarm than the element that failed at night, though nobody has seen that one yet.
      subject: heat ?? "",
      reason: { code: "cooling-stopped", source: heat, sinceMs: stoppedSinceMs, doubt: stopDoubt },
      cautions: cautionsOfStop(heat, stopDoubt),
      isUrgent: heat === "gas" || heat === null,
      // A thermostat's first hold raised it at eleven; the flame that dies at three must still be told.
      isAnotherEachTime: true,
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
      isAnotherEachTime: false,
    },
  ];
}

/** While a board is silent nobody sees a flame die: on gas that cannot wait for the morning. */
function boardConditions(state: AlarmState, limits: AlarmLimits): readonly Condition[] {
  const { boards, nowMs, source } = state;
  const isGas = source === "gas";
  return Object.entries(boards)
    .filter(([board, lastMs]) => nowMs - lastMs >= silentAfterMs(state, board, limits))
    .map(([board, lastMs]) => ({
      kind: "board-silent",
      subject: board,
      reason: { code: "board-silent", board, lastMs },
      cautions: isGas ? ["gas"] : [],
      isUrgent: isGas,
      isAnotherEachTime: false,
    }));
}

/** A board that sends every ten minutes is not silent after five. */
function silentAfterMs(state: AlarmState, board: string, limits: AlarmLimits): number {
  const usualMs = usualPauseMs(state, board) ?? (limits.firstPauseMinutes * msPerMinute) / pausesToBeSilent;
  return Math.max(limits.boardSilentMinutes * msPerMinute, pausesToBeSilent * usualMs);
}

/** So many of a board's own pauses without a word are silence. Our own choice. */
const pausesToBeSilent = 3;

/** The middle one of its last three pauses, the shorter of two: one long one, as when its network was away, says nothing. */
function usualPauseMs({ pauses = {} }: AlarmState, board: string): number | null {
  const lately = (pauses[board] ?? []).toSorted((a, b) => a - b);
  return lately.length < 2 ? null : lately[(lately.length - 1) >> 1];
}

/** A board that is silent explains its probes: one alarm, not four. */
function positionConditions(state: AlarmState, limits: AlarmLimits): readonly Condition[] {
  const { nowMs, boards, positions } = state;
  return Object.entries(positions).flatMap(([name, watched]): Condition[] => {
    const position = name as Position;
    const { board } = watched;
    const heardMs = board === null ? nowMs : boards[board];
    // A probe says no more often something than its board does.
    const slowMs = board === null ? 0 : pausesToBeSilent * (usualPauseMs(state, board) ?? 0);
    const lostAfterMs = Math.max(limits.probeLostMinutes * msPerMinute, slowMs);
    const silentMs = board === null ? lostAfterMs : silentAfterMs(state, board, limits);
    if (heardMs === undefined || nowMs - heardMs >= Math.min(silentMs, lostAfterMs)) return [];
    const { odd } = watched;
    const key = {
      subject: position,
      cautions: position === "supply" ? (["mains", "dc12"] as const) : ([] as const),
      isUrgent: false,
      isAnotherEachTime: false,
    };
    if (odd !== null && odd.lastMs - odd.sinceMs >= limits.oddMinutes * msPerMinute) {
      const { why, value, sinceMs } = odd;
      const reason = { code: "readings-odd", position, why, value, sinceMs } as AlarmSaying;
      return [{ kind: "readings-odd", ...key, reason }];
    }
    const spokeMs = Math.max(watched.lastGoodMs, odd?.lastMs ?? 0);
    if (nowMs - spokeMs < lostAfterMs) return [];
    return [{ kind: "probe-lost", ...key, reason: { code: "probe-lost", position, lastMs: spokeMs } }];
  });
}

function diskCondition(state: AlarmState, { diskMegabytes, diskReturnMegabytes }: AlarmLimits): readonly Condition[] {
  const { freeMegabytes } = state;
  const limit = diskMegabytes + (hasAlarm(state, "disk-low", "") ? diskReturnMegabytes : 0);
  if (freeMegabytes === null || freeMegabytes >= limit) return [];
  const reason = { code: "disk-low", freeMegabytes, limitMegabytes: diskMegabytes } as const;
  return [{ kind: "disk-low", subject: "", reason, cautions: [], isUrgent: false, isAnotherEachTime: false }];
}
