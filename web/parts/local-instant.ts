// From what a field for date and time holds to an instant, by this machine's own clock.

import { offsetName } from "../../src/schema/index.ts";

/** "2026-06-04T21:00" or with seconds, as RFC 3339 with the offset that this machine's zone has then; null for no date. */
export function localInstant(typed: string): string | null {
  const local = new Date(typed);
  if (typed.length < 16 || Number.isNaN(local.getTime())) return null;
  return `${typed.slice(0, 16)}:${typed.slice(17, 19) || "00"}${offsetName(-local.getTimezoneOffset())}`;
}
