// The clock that the quiet hours of a run go by: the one on the wall, which may be changed in the night.

import { msPerMinute, offsetMinutesOf } from "../../schema/index.ts";
import type { Run } from "../../store/index.ts";

/** How far the clock is ahead of UTC at an instant, min. */
export type NightClock = (unixMs: number) => number;

/**
 * A run keeps how far its clock was ahead of UTC as it began, and no zone. Where that was the clock of this computer, the run's
 * goes on as this computer's does; otherwise, as of a log from elsewhere that is replayed, nobody knows when it is changed.
 *
 * @param zone this computer's, by its name in the time zone database
 */
export function nightClock(
  { startedUnixMs, utcOffsetMinutes }: Pick<Run, "startedUnixMs" | "utcOffsetMinutes">,
  zone = new Intl.DateTimeFormat().resolvedOptions().timeZone,
): NightClock {
  const here = clockIn(zone);
  return here(startedUnixMs) === utcOffsetMinutes ? here : () => utcOffsetMinutes;
}

/** Clocks are changed at full quarters of an hour. */
const unchangedMs = 15 * msPerMinute;

function clockIn(zone: string): NightClock {
  const format = new Intl.DateTimeFormat("en", { timeZone: zone, timeZoneName: "longOffset" });
  let [slot, minutes] = [Number.NaN, 0];
  return (unixMs) => {
    const asked = Math.floor(unixMs / unchangedMs);
    if (asked === slot) return minutes;
    const name = format.formatToParts(unixMs).find(({ type }) => type === "timeZoneName")?.value ?? "";
    [slot, minutes] = [asked, offsetMinutesOf(name)];
    return minutes;
  };
}
