// In what order day, month and year stand in a log's dates: told by a part above 12, or by time that must run
// steadily; otherwise nobody knows.

import type { DateOrder } from "../schema/index.ts";
import { msPerDay, msPerHour } from "../schema/index.ts";
import { type TimeText, wallMsOf } from "./time-text.ts";

const orders = ["day-month-year", "month-day-year", "year-month-day"] as const satisfies readonly DateOrder[];

export interface FoundOrder {
  /** One when it is sure, more when it is not, none when the dates fit no order. */
  readonly orders: readonly DateOrder[];
  readonly from: "year-first" | "above-12" | "steady-time";
}

/** @param times in the file's order */
export function dateOrderOf(times: readonly TimeText[]): FoundOrder {
  if (times.every(({ hasMonthName, date }) => hasMonthName || date[0].length === 4)) {
    return { orders: ["year-month-day"], from: "year-first" };
  }
  const possible = orders
    .map((order) => ({ order, walls: times.map((time) => wallMsOf(time, order)) }))
    .filter(({ walls }) => share(walls, Number.isFinite) >= mostlyRight);
  if (possible.length <= 1) return { orders: possible.map(({ order }) => order), from: "above-12" };
  // Midnight moves the day in one reading and the month in another: only in the right one does time run on.
  const jumps = possible.map(({ walls }) => jumpsIn(walls));
  const fewest = Math.min(...jumps);
  const steady = possible.filter((_, index) => jumps[index] === fewest);
  return { orders: steady.map(({ order }) => order), from: "steady-time" };
}

/** A damaged row or two do not rule an order out. */
const mostlyRight = 0.99;

const share = (values: readonly number[], holds: (value: number) => boolean) =>
  values.filter(holds).length / Math.max(values.length, 1);

/** How often time leaps by weeks, or backwards by more than summer time does. */
function jumpsIn(walls: readonly number[]): number {
  const finite = walls.filter(Number.isFinite);
  return finite.filter((wall, index) => index > 0 && !isStep(wall - finite[index - 1])).length;
}

/** No month is shorter than 28 days, so a day read as a month leaps by at least that. */
const isStep = (ms: number) => ms >= -2 * msPerHour && ms < 20 * msPerDay;
