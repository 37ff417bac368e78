// What a person says of alarms when recording or the service is started, and what follows from it for a run.

import { type AlarmLimits, usualAlarmLimits } from "../../science/live/index.ts";
import type { DayHours } from "../../science/plan/index.ts";

/** What may be said of alarms. */
export interface AlarmOrders {
  /** °C and hours: the cabinet above this for longer than that is an alarm. */
  readonly tooWarm?: { readonly celsius: number; readonly hours: number };
  /** Hours of the day between which alarms are held back. */
  readonly quiet?: DayHours;
}

/** The clock of a night is the watch's concern (night-clock.ts). */
export const alarmLimitsFor = ({ tooWarm, quiet }: AlarmOrders): AlarmLimits => ({
  ...usualAlarmLimits,
  ...(tooWarm === undefined ? {} : { cabinetCelsius: tooWarm.celsius, cabinetMinutes: tooWarm.hours * 60 }),
  ...(quiet === undefined ? {} : { heldBack: quiet }),
});
