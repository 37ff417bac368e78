// The alarms that the store keeps, in their outside shape: what `--json` prints. The other lists are in kept-lists.ts.

import type { Reader } from "../report/index.ts";
import { alarmText } from "../report/recording/index.ts";
import type { KeptLists } from "../schema/documents/index.ts";
import type { Store } from "../store/index.ts";
import { toldAlarm } from "./morning.ts";

/** Which alarms, and in what language and degrees they are told. */
export interface AlarmsAsked extends Pick<Reader, "language" | "degrees"> {
  readonly runId?: string;
}

/**
 * Newest first, on each run's own clock; the store leaves out those of removed runs.
 *
 * @throws BadInput "no-such-record" for such a run
 */
export async function alarmList(
  store: Pick<Store, "fridges" | "runs" | "alarms">,
  { runId, ...telling }: AlarmsAsked,
): Promise<KeptLists["alarms"]> {
  const of = runId === undefined ? {} : { runId: (await store.runs.get(runId)).id };
  const alarms: KeptLists["alarms"]["alarms"] = [];
  for (const alarm of await store.alarms.list(of)) {
    const run = await store.runs.get(alarm.runId);
    const { id: fridgeId, name: fridge } = await store.fridges.get(run.fridgeId);
    alarms.push({
      ...{ id: alarm.id, run: run.id, fridge, fridgeId, kind: alarm.kind, position: alarm.position ?? null },
      raised: instant(alarm.raisedUnixMs),
      cleared: instantOrNull(alarm.clearedUnixMs),
      acknowledged: instantOrNull(alarm.acknowledgedUnixMs),
      acknowledgedBy: alarm.acknowledgedBy,
      text: alarmText(toldAlarm(alarm), { ...telling, utcOffsetMinutes: run.utcOffsetMinutes }),
    });
  }
  return { format: "coldfall-alarm-list-1", alarms };
}

const instant = (unixMs: number) => new Date(unixMs).toISOString();
const instantOrNull = (unixMs: number | null) => (unixMs === null ? null : instant(unixMs));
