// When a probe's calibration is to be repeated. Dates come in as arguments: this floor has no clock.

import { msPerDay } from "../../schema/index.ts";

/** How long a calibration is trusted unless somebody says otherwise, months (common practice, no source). */
const usualCalibrationMonths = 12;

/** So long before the day the reminder begins, days. */
const reminderDays = 30;

/** Where a calibration stands on a day. `days` to or since the due day, whole. */
export type CalibrationStanding =
  | { readonly standing: "valid"; readonly days: number }
  | { readonly standing: "due-soon"; readonly days: number }
  | { readonly standing: "overdue"; readonly days: number }
  /** Made after the day asked about: the clock was wrong on one of the two. */
  | { readonly standing: "from-the-future" };

/**
 * The instant at which a calibration falls due: the same day of the month, the last one where the month has no such day.
 *
 * @throws RangeError when the instant is not finite or the months are not whole and above 0.
 * @example calibrationDue(Date.parse("2025-08-31T10:00:00Z"), 6) // 2026-02-28T10:00:00Z
 */
export function calibrationDue(madeUnixMs: number, months = usualCalibrationMonths): number {
  if (!(Number.isFinite(madeUnixMs) && Number.isInteger(months) && months > 0)) {
    throw new RangeError(`a calibration needs its date and a whole number of months, not ${madeUnixMs} and ${months}`);
  }
  const made = new Date(madeUnixMs);
  const due = new Date(madeUnixMs);
  due.setUTCMonth(made.getUTCMonth() + months);
  // 31 August and six months is no 3 March.
  if (due.getUTCDate() !== made.getUTCDate()) due.setUTCDate(0);
  return due.getTime();
}

/** Where a calibration stands at `nowUnixMs`. */
export function calibrationStanding(
  { madeUnixMs, dueUnixMs }: { readonly madeUnixMs: number; readonly dueUnixMs: number },
  nowUnixMs: number,
): CalibrationStanding {
  if (nowUnixMs < madeUnixMs) return { standing: "from-the-future" };
  const days = Math.floor(Math.abs(dueUnixMs - nowUnixMs) / msPerDay);
  if (nowUnixMs >= dueUnixMs) return { standing: "overdue", days };
  return { standing: dueUnixMs - nowUnixMs <= reminderDays * msPerDay ? "due-soon" : "valid", days };
}
