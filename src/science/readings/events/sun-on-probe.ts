// Sun on the ambient probe: it rises fast and comes back, while the air of the room does not. A day's own swing is slow.

import { msPerHour, msPerMinute } from "../../../schema/index.ts";
import type { RunEvent } from "../../findings.ts";
import type { Series } from "../series.ts";
import { medianBetween, movingMedian, readingNoise } from "../smoothing.ts";

/** The least rise, K, and how quickly it must come, min. */
const leastRise = 3;
const riseMinutes = 20;
const noiseTimes = 6;
/** The sun has gone when this share of the rise is left; it is gone within a day's sunny hours. */
const leftShare = 0.4;
const longestMs = 9 * msPerHour;
/** It goes as it came: this share of the rise is lost within so long, min. */
const lostShare = 0.4;
const fallMinutes = 40;
/** A room probe that rises by this share of it: the air itself warmed. */
const sharedShare = 0.5;

/** Times of sun on the ambient probe, in order; where a room probe rose as well it was the air, and no sun. */
export function findSunOnProbe({ log, unixMs, columns }: Series): RunEvent[] {
  const { ambient, room } = columns;
  if (ambient === undefined) return [];
  const smooth = movingMedian(unixMs, ambient, 5);
  const least = Math.max(leastRise, noiseTimes * readingNoise(ambient));
  const found: RunEvent[] = [];
  for (let i = 1, back = 0; i < smooth.length; i++) {
    while (unixMs[i] - unixMs[back] > riseMinutes * msPerMinute && back < i - 1) back++;
    const low = lowestRow(smooth, back, i);
    if (!(smooth[i] - smooth[low] >= least)) continue;
    const sun = followSun(unixMs, smooth, low, i);
    if (sun === null) continue;
    const { kelvin, end } = sun;
    const roomRose = room === undefined ? 0 : rise(unixMs, room, low, sun.top);
    if (!(roomRose >= sharedShare * kelvin)) {
      const minutes = (unixMs[end] - unixMs[low]) / msPerMinute;
      found.push({
        log,
        kind: "sun-on-probe",
        startMs: unixMs[low],
        endMs: unixMs[end],
        position: "ambient",
        size: kelvin,
        sizeUnit: "K",
        reason: { code: "sun-on-ambient", kelvin, minutes },
      });
    }
    i = end;
  }
  return found;
}

/** Follows the rise to its top and back; null when it does not come back, or comes back too slowly to be a shadow. */
function followSun(
  unixMs: Float64Array,
  smooth: Float64Array,
  low: number,
  from: number,
): { kelvin: number; top: number; end: number } | null {
  let top = from;
  for (let i = from; i < smooth.length && unixMs[i] - unixMs[low] <= longestMs; i++) {
    if (smooth[i] > smooth[top]) top = i;
    const kelvin = smooth[top] - smooth[low];
    if (!(smooth[i] - smooth[low] <= leftShare * kelvin)) continue;
    const earlier = medianBetween(
      unixMs,
      smooth,
      unixMs[i] - (fallMinutes + 5) * msPerMinute,
      unixMs[i] - fallMinutes * msPerMinute,
      i,
    );
    const highest = Number.isNaN(earlier) ? smooth[top] : Math.max(earlier, highestSince(unixMs, smooth, i));
    return highest - smooth[i] >= lostShare * kelvin ? { kelvin, top, end: i } : null;
  }
  return null;
}

function highestSince(unixMs: Float64Array, smooth: Float64Array, row: number): number {
  let highest = Number.NEGATIVE_INFINITY;
  for (let i = row; i >= 0 && unixMs[row] - unixMs[i] <= fallMinutes * msPerMinute; i--)
    if (smooth[i] > highest) highest = smooth[i];
  return highest;
}

function lowestRow(smooth: Float64Array, from: number, to: number): number {
  let low = from;
  for (let i = from; i < to; i++) if (smooth[i] < smooth[low] || Number.isNaN(smooth[low])) low = i;
  return low;
}

function rise(unixMs: Float64Array, values: Float64Array, low: number, top: number): number {
  const around = 5 * msPerMinute;
  return (
    medianBetween(unixMs, values, unixMs[top] - around, unixMs[top] + around, top) -
    medianBetween(unixMs, values, unixMs[low] - around, unixMs[low] + around, low)
  );
}
