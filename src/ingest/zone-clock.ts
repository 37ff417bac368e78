// From a wall clock's time to the instant, in a named zone: with the hour that occurs twice in autumn and the one
// that is left out in spring. The zones come from Intl, which every runtime keeps.

import { msPerDay, msPerHour, msPerMinute } from "../schema/index.ts";
import type { Instant } from "./text-log.ts";

/** The instant of a wall clock at an offset. */
export const atOffset = (wallMs: number, utcOffsetMinutes: number): Instant => ({
  unixMs: wallMs - utcOffsetMinutes * msPerMinute,
  utcOffsetMinutes,
});

const noInstant: Instant = { unixMs: Number.NaN, utcOffsetMinutes: 0 };

/**
 * Follows a log's clock from row to row.
 *
 * Of the two instants that a time in the repeated hour can be, the one nearest to where the rows before lead is
 * taken: a clock that falls back an hour has begun the second. Where no row within an hour tells, there is no instant.
 */
export class ZoneClock {
  readonly #format: Intl.DateTimeFormat;
  readonly #offsetsByDay = new Map<number, readonly [number, number]>();
  #last = Number.NaN;
  #step = 0;

  /** @param zone as `isTimeZone` accepts, but no offset. @throws RangeError for a zone nobody knows. */
  constructor(zone: string) {
    this.#format = new Intl.DateTimeFormat("en-GB", {
      timeZone: zone,
      hourCycle: "h23",
      year: "numeric",
      month: "2-digit",
      day: "2-digit",
      hour: "2-digit",
      minute: "2-digit",
      second: "2-digit",
    });
  }

  /** @param wallMs the clock's date and time as if it ran on UTC, ms */
  instant(wallMs: number): Instant {
    if (!Number.isFinite(wallMs)) return noInstant;
    const [before, after] = this.#offsetsAround(wallMs);
    const found = before === after ? atOffset(wallMs, before) : this.#nearest(this.instants(wallMs));
    if (Number.isNaN(found.unixMs)) return found;
    if (found.unixMs > this.#last) this.#step = Math.min(found.unixMs - this.#last, msPerHour);
    this.#last = found.unixMs;
    return found;
  }

  /** All instants at which the clock shows this time: one; two in the repeated hour; none in the one left out. */
  instants(wallMs: number): readonly Instant[] {
    if (!Number.isFinite(wallMs)) return [];
    const [before, after] = this.#offsetsAround(wallMs);
    if (before === after) return [atOffset(wallMs, before)];
    return [atOffset(wallMs, before), atOffset(wallMs, after)].filter(({ unixMs, utcOffsetMinutes }) => {
      return this.#offsetAt(unixMs) === utcOffsetMinutes;
    });
  }

  #nearest(candidates: readonly Instant[]): Instant {
    if (candidates.length < 2) return candidates[0] ?? noInstant;
    const expected = this.#last + this.#step;
    const away = ({ unixMs }: Instant) => Math.abs(unixMs - expected);
    const [nearest] = [...candidates].sort((a, b) => away(a) - away(b));
    return away(nearest) <= msPerHour ? nearest : noInstant;
  }

  /** The offsets a day before and a day after: they differ only where the clock is changed. */
  #offsetsAround(wallMs: number): readonly [number, number] {
    const day = Math.floor(wallMs / msPerDay);
    const known = this.#offsetsByDay.get(day);
    if (known !== undefined) return known;
    const found = [this.#offsetAt((day - 1) * msPerDay), this.#offsetAt((day + 2) * msPerDay)] as const;
    this.#offsetsByDay.set(day, found);
    return found;
  }

  #offsetAt(unixMs: number): number {
    const part = new Map(this.#format.formatToParts(unixMs).map(({ type, value }) => [type, Number(value)]));
    const of = (type: Intl.DateTimeFormatPartTypes) => part.get(type) ?? Number.NaN;
    const wall = Date.UTC(of("year"), of("month") - 1, of("day"), of("hour"), of("minute"), of("second"));
    return Math.round((wall - Math.floor(unixMs / 1000) * 1000) / msPerMinute);
  }
}
