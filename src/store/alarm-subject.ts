// What an alarm is about, besides its kind: it stands in its reason, beside the values that make the sentence.

import type { Json } from "./records.ts";

/** An energy source, a position or a board; "" where the reason names none: the fridge, the disk. */
export function alarmSubject(reason: Json): string {
  const { subject } = (reason ?? {}) as { readonly subject?: unknown };
  return typeof subject === "string" ? subject : "";
}
