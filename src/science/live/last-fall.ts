// How fast the cabinet fell in the last hour: what a look ahead starts from.

import { fitStraightLine } from "../numbers/straight-line.ts";
import { picked, type StretchView } from "../readings/stretch-view.ts";

export interface LastFall {
  /** Middle of the readings, hours from the stretch's start, and where the line is there. */
  readonly hours: number;
  readonly celsius: number;
  /** K/h, positive while it falls. */
  readonly perHour: number;
  readonly error: number;
}

/** How fast the last part of a pull-down bends, as shares of the whole fit's rate. Simulated fridges, tests/bench/live-study.ts. */
export const rateShares = { least: 0, usual: 0.65, most: 1.1 } as const;

/** A straight line through the last hour: where it is in its middle, and how fast it falls; null without readings. */
export function fallOfLastHour(view: StretchView): LastFall | null {
  const rows = [...view.hours.keys()].filter(
    (row) =>
      view.hours[row] >= view.endHours - 1 && view.hours[row] <= view.endHours && Number.isFinite(view.cabinet[row]),
  );
  if (rows.length < fewestRows) return null;
  const line = fitStraightLine(picked(view.hours, rows), picked(view.cabinet, rows));
  if (line === null) return null;
  const { slope, intercept, meanX, slopeStandardError } = line;
  return { hours: meanX, celsius: intercept + slope * meanX, perHour: -slope, error: slopeStandardError };
}

const fewestRows = 6;
