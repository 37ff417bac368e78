// The worst error of a short pull-down: cooling that builds up over 10 to 30 minutes, read as a step. A 4 h
// stretch can then show half the rate and twice the depth. This tells how far off a fit could be.

import { cabinetTemperature, type PullDown } from "./pull-down.ts";
import type { FittedPullDown } from "./pull-down-fit.ts";
import { fitPullDown } from "./pull-down-fit.ts";
import type { PullDownIntervals } from "./pull-down-intervals.ts";

/** Build-up times that occur, h: common practice, no source. */
const buildUps = [10 / 60, 30 / 60];

/** Whether rate and depth would stay inside their intervals if the cooling had built up instead of stepping on. */
export function withstandsSoftStart(fit: FittedPullDown, intervals: PullDownIntervals): boolean {
  const { readings, warmingRate, held } = fit;
  return buildUps.every((buildUp) => {
    const soft = cabinetTemperature(readings, fit.pullDown, { warmingRate, buildUp });
    const read = fitPullDown(
      { ...readings, cabinetCelsius: soft },
      { warmingRate, held, doorHours: fit.pullDown.jumps.map((jump) => jump.hours) },
    );
    return read.outcome === "fitted" && staysInside(read.pullDown, intervals);
  });
}

function staysInside(read: PullDown, { rate, depth }: PullDownIntervals): boolean {
  const inside = (value: number, low: number | null, high: number | null) =>
    low !== null && high !== null && low <= value && value <= high;
  return inside(read.rate, rate.low, rate.high) && inside(read.depth, depth.low, depth.high);
}
