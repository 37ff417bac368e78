// From what a field for date and time holds to an instant, and back.

import { offsetName } from "../../src/schema/index.ts";

/**
 * "2026-06-04T21:00" or with seconds, as RFC 3339 with its offset; null for no date.
 *
 * @param utcOffsetMinutes of the clock that was meant; that of this machine's zone then unless stated
 */
export function localInstant(typed: string, utcOffsetMinutes?: number): string | null {
  const local = new Date(typed);
  if (typed.length < 16 || Number.isNaN(local.getTime())) return null;
  const offset = offsetName(utcOffsetMinutes ?? -local.getTimezoneOffset());
  return `${typed.slice(0, 16)}:${typed.slice(17, 19) || "00"}${offset}`;
}

/** Such an instant as the field holds it; one without an offset was meant on that very clock. */
export function typedInstant(instant: string, utcOffsetMinutes?: number): string {
  const unixMs = Date.parse(instant);
  if (!/(Z|[+-]\d\d:\d\d)$/.test(instant) || Number.isNaN(unixMs)) return instant.slice(0, 16);
  const offset = utcOffsetMinutes ?? -new Date(unixMs).getTimezoneOffset();
  return new Date(unixMs + offset * 60_000).toISOString().slice(0, 16);
}
