// Door openings: the cabinet air rises by a kelvin or more within minutes and partly recovers. The thermostat's rises
// are slow, a fallen probe does not recover.

import { median } from "simple-statistics";
import { msPerMinute } from "../../../schema/index.ts";
import type { RunEvent } from "../../findings.ts";
import type { Series } from "../series.ts";
import { movingMedian, robustDeviation } from "../smoothing.ts";

/** From this rise on an opening is reported, K: one kelvin, less what the minute's mean cuts off a peak. */
const leastRise = 0.9;
/** A peak of that size, averaged over two rows of which the second has begun to recover, may be as low as this, K. */
const leastMeanRise = 0.6;
/** How many times the usual scatter of such a rise an opening must stand out. */
const scatterTimes = 4.5;
/** How long the rise may take, min; with slow sampling one step may. */
const riseMinutes = 4;
/** The trend that a rise is held against is that of so long before it, min, and no steeper than this, K per min. */
const trendMinutes = 15;
const steepestTrend = 0.12;
/** So long after an opening the air's own recovery hides the trend: the one from before it still counts, min. */
const afterglowMinutes = 35;
/** Part of the rise that must be gone again, and within how long, min: the air comes back to its walls. */
const recoveredShare = 0.25;
const recoveryMinutes = 25;
/** A door left open is followed to its peak as long as the rise is faster than warming back ever is, K per min. */
const slowestRise = 0.15;

/** Openings in the whole run, in order; also while the fridge is off. */
export function findDoorOpenings({ log, unixMs, columns }: Series): RunEvent[] {
  const { cabinet } = columns;
  if (cabinet === undefined) return [];
  const air: Air = { unixMs, cabinet, trend: trendBefore(unixMs, cabinet), ...levels(unixMs, cabinet) };
  const rises = Float64Array.from(cabinet, (_, i) => riseTo(air, i, 0, air.trend[i]));
  const least = leastBelievable(rises);
  const openings: RunEvent[] = [];
  // After a peak the level before it no longer counts, or one opening would be found again in each row that follows.
  let floor = 0;
  let lastTrend = 0;
  for (let i = 1; i < cabinet.length; i++) {
    const isRecovering = floor > 0 && unixMs[i] - unixMs[floor] < afterglowMinutes * msPerMinute;
    if (!((isRecovering ? riseTo(air, i, floor, lastTrend) : rises[i]) >= least)) continue;
    const peak = peakFrom(air, i);
    const start = beginOfRise(air, i, peak, floor);
    const minutes = (unixMs[peak] - unixMs[start]) / msPerMinute;
    const before = levelUpTo(air, start, floor);
    const trend = isRecovering ? lastTrend : air.trend[start];
    const size = cabinet[peak] - before.celsius - (trend * (unixMs[peak] - before.atMs)) / msPerMinute;
    if (size >= leastRise && recovers(air, trend, peak, size)) {
      openings.push({
        log,
        kind: "door-opening",
        startMs: unixMs[start],
        endMs: unixMs[peak],
        position: "cabinet",
        size,
        sizeUnit: "K",
        reason: { code: "door-opened", riseKelvin: size, minutes },
      });
      floor = peak;
      lastTrend = trend;
      i = peak;
    }
  }
  return openings;
}

interface Air {
  readonly unixMs: Float64Array;
  readonly cabinet: Float64Array;
  /** Of the minutes before each row, K per minute. */
  readonly trend: Float64Array;
  /** Median of the three readings that end at each row, and the instant it stands for. */
  readonly level: Float64Array;
  readonly levelMs: Float64Array;
}

function levels(unixMs: Float64Array, cabinet: Float64Array): Pick<Air, "level" | "levelMs"> {
  const level = Float64Array.from(cabinet);
  const levelMs = Float64Array.from(unixMs);
  for (let row = 2; row < cabinet.length; row++) {
    const [a, b, c] = [cabinet[row], cabinet[row - 1], cabinet[row - 2]];
    const middle = Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
    if (Number.isNaN(middle)) continue;
    level[row] = middle;
    levelMs[row] = unixMs[row - 1];
  }
  return { level, levelMs };
}

function trendBefore(unixMs: Float64Array, cabinet: Float64Array): Float64Array {
  const smooth = movingMedian(unixMs, cabinet, 5);
  const trend = new Float64Array(cabinet.length);
  for (let i = 1, back = 0; i < cabinet.length; i++) {
    // The row before, and what its median looks ahead, would hold the rise itself.
    let last = i - 1;
    while (last > 0 && unixMs[i] - unixMs[last] < 3 * msPerMinute) last--;
    while (back < last && unixMs[last] - unixMs[back] > trendMinutes * msPerMinute) back++;
    const slope = ((smooth[last] - smooth[back]) / (unixMs[last] - unixMs[back])) * msPerMinute;
    trend[i] = Number.isNaN(slope) ? 0 : Math.min(steepestTrend, Math.max(-steepestTrend, slope));
  }
  return trend;
}

/** The least rise that is neither too small to report nor likely among this run's own noise. */
function leastBelievable(all: Float64Array): number {
  // A few thousand rows tell the scatter as well as a million.
  const stride = Math.max(1, Math.floor(all.length / 5000));
  const rises: number[] = [];
  for (let i = 1; i < all.length; i += stride) if (Number.isFinite(all[i])) rises.push(all[i]);
  return rises.length === 0 ? Infinity : Math.max(leastMeanRise, median(rises) + scatterTimes * robustDeviation(rises));
}

/** How far the air at row i lies above the lowest level of the minutes before, less the trend, K; NaN when unknown. */
function riseTo(air: Air, i: number, floor: number, trend: number): number {
  const { unixMs, cabinet } = air;
  const next = i + 1 < cabinet.length && unixMs[i + 1] - unixMs[i] <= 2 * msPerMinute ? cabinet[i + 1] : Number.NaN;
  const now = Number.isNaN(next) ? cabinet[i] : (cabinet[i] + next) / 2;
  let lowest = Number.NaN;
  for (let back = 1; i - back >= floor; back++) {
    const row = i - back;
    if (back > 1 && unixMs[i] - unixMs[row] > riseMinutes * msPerMinute) break;
    // A step over a gap is no quick rise.
    if (unixMs[i] - unixMs[row] > 10 * msPerMinute) break;
    const { celsius, atMs } = levelUpTo(air, row, floor);
    const level = celsius + (trend * (unixMs[i] - atMs)) / msPerMinute;
    if (!(level >= lowest)) lowest = level;
  }
  return now - lowest;
}

/** What the air was at up to a row, and the instant that stands for; no reading before the floor counts. */
const levelUpTo = ({ unixMs, cabinet, level, levelMs }: Air, row: number, floor: number) =>
  row - 2 < floor ? { celsius: cabinet[row], atMs: unixMs[row] } : { celsius: level[row], atMs: levelMs[row] };

/** The top of the rise within minutes; further while a rise that is large already goes on quickly (a door left open). */
function peakFrom({ unixMs, cabinet }: Air, from: number): number {
  let peak = from;
  for (let i = from + 1; i < cabinet.length; i++) {
    const minutes = (unixMs[i] - unixMs[peak]) / msPerMinute;
    if (minutes > riseMinutes && i > peak + 1) break;
    const isEarly = unixMs[i] - unixMs[from] <= riseMinutes * msPerMinute;
    const isLarge = cabinet[peak] - cabinet[from - 1] >= leastRise;
    if (cabinet[i] > cabinet[peak] && (isEarly || (isLarge && cabinet[i] - cabinet[peak] > slowestRise * minutes)))
      peak = i;
  }
  return peak;
}

/** The last row that the rise had not lifted by more than a fifth. */
function beginOfRise({ unixMs, cabinet }: Air, from: number, peak: number, floor: number): number {
  let lowest = from - 1;
  for (let i = from - 1; i >= floor && unixMs[from] - unixMs[i] <= riseMinutes * msPerMinute; i--)
    if (cabinet[i] < cabinet[lowest]) lowest = i;
  const lifted = cabinet[lowest] + 0.2 * (cabinet[peak] - cabinet[lowest]);
  for (let i = peak - 1; i > lowest; i--) if (cabinet[i] <= lifted) return i;
  return lowest;
}

/** Whether a share of the rise is gone again soon, beyond what the pull-down itself takes away, and not after more of it. */
function recovers(air: Air, trend: number, peak: number, rise: number): boolean {
  const { unixMs, cabinet } = air;
  for (let i = peak + 1; i < cabinet.length; i++) {
    const minutes = (unixMs[i] - unixMs[peak]) / msPerMinute;
    if (minutes > recoveryMinutes && i > peak + 2) return false;
    const { celsius } = levelUpTo(air, i, peak + 1);
    if (celsius > cabinet[peak]) return false;
    if (cabinet[peak] - celsius + trend * minutes >= recoveredShare * rise) return true;
  }
  return false;
}
