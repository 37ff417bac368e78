// Where the cabinet goes from here, drawn ahead of the readings as a band. It rests on the same three ways as the time to
// 5 °C (live-numbers.ts): no sooner than straight on, no later than with the rate of the whole fit.

import { type Answer, isKnown } from "../numbers/estimate.ts";
import type { StretchView } from "../readings/stretch-view.ts";
import { fallOfLastHour, rateShares } from "./last-fall.ts";

/** Hours from the stretch's start, and the cabinet there, °C. */
export interface CurveAhead {
  readonly hours: readonly number[];
  readonly middle: readonly number[];
  readonly low: readonly number[];
  readonly high: readonly number[];
}

/** How far ahead, h. */
const aheadHours = 8;
const points = 33;

/**
 * @param rate of the whole fit, 1/h
 * @param settled where it would settle: the curve does not go below that
 * @returns null while the cabinet does not fall
 */
export function curveAhead(view: StretchView, rate: number, settled: Answer): CurveAhead | null {
  const now = fallOfLastHour(view);
  if (now === null || !(now.perHour > 0) || !(rate > 0)) return null;
  const floor = isKnown(settled) ? settled : null;
  const along = (share: number, perHour: number, hours: number) => {
    const bent = share * rate;
    const after = hours - now.hours;
    return now.celsius - (bent > 0 ? (perHour / bent) * -Math.expm1(-bent * after) : perHour * after);
  };
  const hours = Array.from({ length: points }, (_, i) => view.endHours + (aheadHours * i) / (points - 1));
  const above = (least: number | null | undefined) => (celsius: number) => Math.max(celsius, least ?? -Infinity);
  const { usual, least, most } = rateShares;
  const reach = 2 * now.error;
  const middle = hours.map((at) => along(usual, now.perHour, at)).map(above(floor?.value));
  const low = hours.map((at) => along(least, now.perHour + reach, at)).map(above(floor?.low));
  const high = hours.map((at) => along(most, Math.max(0, now.perHour - reach), at)).map(above(floor?.value));
  return {
    hours,
    middle,
    low: low.map((celsius, i) => Math.min(celsius, middle[i])),
    high: high.map((celsius, i) => Math.max(celsius, middle[i])),
  };
}
