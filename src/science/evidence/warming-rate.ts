// The rate of warming back k_w = UA/C: the only number that tells a leaking seal (up) from a warm load (down).

import { type Answer, estimate, unknown } from "../numbers/estimate.ts";
import { fitPullDown } from "../pull-down/pull-down-fit.ts";
import { pullDownIntervals } from "../pull-down/pull-down-intervals.ts";
import { fewestReadings } from "../pull-down/pull-down-readings.ts";
import { doorCutHours, picked, type StretchView } from "../readings/stretch-view.ts";
import { meltsBetween } from "./frost.ts";

/** Before this the cold evaporator still cools, h after the switch-off. */
export const settleBeforeWarming = 0.75;
/** Shorter warming tells nothing, h. */
export const leastWarmingHours = 2;
/** The cabinet must still be this far from ambient, K. */
const leastGap = 4;

/**
 * From 45 min after the switch-off on, while the cabinet closes on the ambient.
 *
 * @param hours how much of it to use, for equal-length comparison; all of it when left out.
 */
export function warmingRate(view: StretchView, hours = Number.POSITIVE_INFINITY): Answer {
  const { ambient, cabinet, evaporator } = view;
  if (ambient === null) return unknown({ code: "no-ambient" });
  const last = view.hours[view.hours.length - 1] ?? 0;
  const until = Math.min(last, settleBeforeWarming + hours);
  if (until - settleBeforeWarming < leastWarmingHours) {
    return unknown({ code: "too-short", hours: last, neededHours: settleBeforeWarming + leastWarmingHours });
  }
  if (meltsBetween(view.hours, evaporator, settleBeforeWarming, until)) return unknown({ code: "frost-melting" });
  const firstDoor =
    view.doorHours.find((door) => door + doorCutHours > settleBeforeWarming) ?? Number.POSITIVE_INFINITY;
  if (firstDoor < until)
    return unknown({
      code: "too-short",
      hours: Math.max(0, firstDoor - settleBeforeWarming),
      neededHours: leastWarmingHours,
    });
  const rows = [...view.hours.keys()].filter(
    (i) => view.hours[i] >= settleBeforeWarming && view.hours[i] <= until && Number.isFinite(cabinet[i]),
  );
  if (rows.length < 2 * fewestReadings)
    return unknown({ code: "too-few-readings", readings: rows.length, needed: 2 * fewestReadings });
  const from = view.hours[rows[0]];
  if (ambient[rows[0]] - cabinet[rows[0]] < leastGap) return unknown({ code: "not-warming-back" });
  const fit = fitPullDown(
    {
      hours: picked(view.hours, rows).map((hours) => hours - from),
      cabinetCelsius: picked(cabinet, rows),
      ambientCelsius: picked(ambient, rows),
    },
    { held: { onset: 0, depth: 0 }, robust: true },
  );
  if (fit.outcome === "not fitted") return unknown({ code: "no-numbers" });
  const { rate } = pullDownIntervals(fit);
  const error = fit.standardErrors.rate * Math.sqrt(fit.inflation);
  if (rate.low === null || rate.high === null || !(error < 0.3 * fit.pullDown.rate)) {
    return unknown({ code: "open-profile", hours: until - settleBeforeWarming });
  }
  return estimate("1/h", fit.pullDown.rate, rate.low, rate.high, {
    standardError: error,
    readings: fit.count,
  });
}
