// Clock hours of a place whose clock stands still relative to UTC: when someone is there, and when the next such time begins.

import { msPerDay, msPerHour, msPerMinute } from "../../schema/index.ts";

/** Two hours of the day, such as 7 to 21. */
export interface DayHours {
  readonly fromHour: number;
  readonly toHour: number;
}

/** The hour of the day, 0 to 24, on a clock so far ahead of UTC. */
export const hourOfDay = (unixMs: number, utcOffsetMinutes: number): number => {
  const ms = (unixMs + utcOffsetMinutes * msPerMinute) % msPerDay;
  return (ms < 0 ? ms + msPerDay : ms) / msPerHour;
};

/** A clock and the hours of the day that matter on it; the first of them is the earlier one. */
export class DayWindow {
  readonly hours: DayHours;
  private readonly offsetMs: number;

  constructor(hours: DayHours, utcOffsetMinutes: number) {
    this.hours = hours;
    this.offsetMs = utcOffsetMinutes * msPerMinute;
  }

  /** Whether an instant lies within the hours, both ends included. */
  holds(unixMs: number): boolean {
    const hour = this.hourOfDay(unixMs);
    return hour >= this.hours.fromHour && hour <= this.hours.toHour;
  }

  /** When the hours that hold this instant end. */
  endAfter(unixMs: number): number {
    return this.dayOf(unixMs) + this.hours.toHour * msPerHour;
  }

  /** The next beginning of the hours that is later than this instant. */
  nextBegin(unixMs: number): number {
    const today = this.dayOf(unixMs) + this.hours.fromHour * msPerHour;
    return today > unixMs ? today : today + msPerDay;
  }

  private hourOfDay(unixMs: number): number {
    return (unixMs - this.dayOf(unixMs)) / msPerHour;
  }

  /** Midnight before, as an instant. */
  private dayOf(unixMs: number): number {
    return Math.floor((unixMs + this.offsetMs) / msPerDay) * msPerDay - this.offsetMs;
  }
}
