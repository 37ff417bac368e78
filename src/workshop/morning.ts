// The morning after: one run judged, with everything the recorder kept besides readings.

import type { Night, ToldAlarm } from "../report/recording/index.ts";
import type { HeatSource } from "../schema/index.ts";
import type { Alarm } from "../science/live/index.ts";
import { uncheckedItems } from "../science/plan/index.ts";
import type { Alarm as KeptAlarm, Store } from "../store/index.ts";
import { type Judgement, type JudgeOptions, judgeRuns } from "./judge.ts";
import type { LogShelves } from "./logs-read.ts";
import { wasWatched } from "./recording/index.ts";

/** The part of a store that a morning report is made from. */
export type MorningShelves = LogShelves & Pick<Store, "results" | "fridges" | "alarms" | "events" | "settings">;

/** A judgement with the night around it. */
export interface Morning extends Judgement {
  readonly night: Night;
}

/**
 * Judges a run and gathers its night. The judgement is kept as the fridge's newest result.
 *
 * @param id the run's id or the beginning of it
 * @param nowUnixMs when the result is made
 * @throws BadInput "no-such-record"
 */
export async function morningOf(
  store: MorningShelves,
  id: string,
  nowUnixMs: number,
  options: JudgeOptions = {},
): Promise<Morning> {
  const run = await store.runs.get(id);
  const { analysis, context } = await judgeRuns(store, [run.id], nowUnixMs, options);
  const [fridge, extents, events, alarms, isWatched] = await Promise.all([
    store.fridges.get(run.fridgeId),
    store.runs.extents(run.id),
    store.events.list(run.id),
    store.alarms.list({ runId: run.id }),
    wasWatched(store.settings, run),
  ]);
  const heated = analysis.stretches.flatMap(({ source }) =>
    source === null || source === "off" ? [] : [source satisfies HeatSource],
  );
  return {
    analysis,
    context,
    night: {
      run: run.id,
      fridge: fridge.name,
      endedMs: run.endedUnixMs,
      lastMs: Math.max(run.startedUnixMs, ...extents.map(({ lastUnixMs }) => lastUnixMs)),
      happenings: events.map(({ kind, fromUnixMs, toUnixMs, position }) => ({
        kind,
        fromMs: fromUnixMs,
        toMs: toUnixMs ?? null,
        position: position ?? null,
      })),
      alarms: alarms.map(toldAlarm).toReversed(),
      isWatched,
      unchecked: uncheckedItems(run.sheet, heated.length === 0 ? undefined : [...new Set(heated)]),
    },
  };
}

/** A kept alarm as it is told. Its reason was written by the recorder, cautions in the same object. */
export function toldAlarm({
  kind,
  reason,
  raisedUnixMs,
  clearedUnixMs,
  acknowledgedUnixMs,
  acknowledgedBy,
}: KeptAlarm): ToldAlarm {
  const { cautions, ...saying } = reason as unknown as Alarm["reason"] & Pick<Alarm, "cautions">;
  return {
    kind: kind as Alarm["kind"],
    reason: saying as Alarm["reason"],
    cautions,
    raisedMs: raisedUnixMs,
    clearedMs: clearedUnixMs,
    acknowledgedMs: acknowledgedUnixMs,
    acknowledgedBy,
  };
}
