// An alarm as it leaves the house.

import type { Alarm } from "../../science/live/index.ts";
import type { Fridge, Run } from "../../store/index.ts";

/** @param text the alarm in words, its cautions with it */
export const alarmMessage = (alarm: Alarm, text: string, run: Run, fridge: Pick<Fridge, "name">) => ({
  format: "coldfall-alarm-1",
  fridge: fridge.name,
  run: run.id,
  kind: alarm.kind,
  subject: alarm.subject,
  raised: new Date(alarm.raisedMs).toISOString(),
  text,
});
