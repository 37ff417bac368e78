// The bad readings of one probe, found from its own column: impossible values, sensor codes, spikes. Stuck probes need
// the other columns and are in stuck-probe.ts.

import { msPerMinute, type Position } from "../../schema/index.ts";
import type { RejectionCode } from "../sayings.ts";
import { canBeAt85, probeLimits } from "./probe-limits.ts";

/** Why a cell is bad; 0 is a good one, `blank` was never there. Kept as a byte per cell: a log can have millions. */
export const cellReasons = [
  "good",
  "blank",
  "power-on-value",
  "disconnected-value",
  "out-of-range",
  "spike",
  "too-fast",
  "stuck",
] as const satisfies readonly (RejectionCode | "good" | "blank")[];
/** The reasons by name, as they are kept: places in `cellReasons`. */
export const cell = { good: 0, blank: 1, powerOn: 2, disconnected: 3, outOfRange: 4, spike: 5, tooFast: 6, stuck: 7 };

/** Value of a one-wire sensor that lost its power before it measured, °C. Source: datasheet of the 18B20-type sensor. */
export const powerOnCelsius = 85;
/** What drivers write for a sensor that does not answer, °C. Common practice, no source. */
export const disconnectedCelsius = -127;
/** Rounded or calibrated variants of either lie this near, K. */
export const codeTolerance = 0.1;
/** Next to a probe that really is at 85 °C its neighbours are this near, K. */
const nearThePowerOnValue = 15;

/** A spike must stand out by this much, K; below, it does no harm in a mean over a minute. */
const leastSpike = 2;
/** Within this time a door's air has not recovered; an excursion that comes back sooner is none of the fridge, min. */
const spikeMinutes = 2.2;
/** What comes back from too fast an excursion does so within this many readings, or a minute. */
const mostExcursionRows = 3;

/**
 * The column without its bad readings (NaN instead), and the reason per cell.
 *
 * @param unixMs ascending.
 */
export function withoutBadReadings(
  position: Position,
  unixMs: Float64Array,
  column: Float64Array,
): { values: Float64Array; cells: Uint8Array } {
  const values = column.slice();
  const cells = new Uint8Array(values.length);
  const set = (row: number, reason: number) => {
    values[row] = Number.NaN;
    cells[row] = reason;
  };
  markImpossible(position, values, set, cells);
  if (position === "supply") return { values, cells };
  if (canBeAt85(position)) markLonePowerOn(values, set);
  markExcursions(position, unixMs, values, set);
  markSpikes(unixMs, values, set);
  return { values, cells };
}

type SetCell = (row: number, reason: number) => void;

function markImpossible(position: Position, values: Float64Array, set: SetCell, cells: Uint8Array): void {
  const { low, high } = probeLimits[position];
  for (let i = 0; i < values.length; i++) {
    const value = values[i];
    if (value >= low && value <= high) continue;
    if (Number.isNaN(value)) cells[i] = cell.blank;
    else if (position !== "supply" && Math.abs(value - disconnectedCelsius) <= codeTolerance) set(i, cell.disconnected);
    else if (position !== "supply" && Math.abs(value - powerOnCelsius) <= codeTolerance) set(i, cell.powerOn);
    else set(i, cell.outOfRange);
  }
}

/** Where 85 °C can be real: a run of exactly 85 is the sensor's code when both its neighbours are far, on the same side. */
function markLonePowerOn(values: Float64Array, set: SetCell): void {
  let before = Number.NaN;
  for (let i = 0; i < values.length; i++) {
    if (values[i] !== powerOnCelsius) {
      if (!Number.isNaN(values[i])) before = values[i];
      continue;
    }
    let end = i + 1;
    while (end < values.length && (values[end] === powerOnCelsius || Number.isNaN(values[end]))) end++;
    const after = end < values.length ? values[end] : Number.NaN;
    const isLone = (near: number, other: number) =>
      Math.abs(near - powerOnCelsius) > nearThePowerOnValue &&
      (Number.isNaN(other) || (near - powerOnCelsius) * (other - powerOnCelsius) > nearThePowerOnValue ** 2);
    if (Number.isNaN(before) ? isLone(after, before) : isLone(before, after)) {
      for (let row = i; row < end; row++) if (values[row] === powerOnCelsius) set(row, cell.powerOn);
    }
    i = end - 1;
  }
}

/** Too fast away and back again. What goes away and stays is no bad reading: a probe that was moved, a door. */
function markExcursions(position: Position, unixMs: Float64Array, values: Float64Array, set: SetCell): void {
  const perMs = probeLimits[position].perMinute / msPerMinute;
  let last = -1;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) continue;
    const away = last < 0 ? 0 : Math.abs(values[i] - values[last]);
    if (away > leastSpike && away > leastSpike + perMs * (unixMs[i] - unixMs[last])) {
      const back = returnTo(unixMs, values, last, i, away);
      if (back > 0) {
        const reason = validBetween(values, i, back) === 1 ? cell.spike : cell.tooFast;
        for (let row = i; row < back; row++) if (!Number.isNaN(values[row])) set(row, reason);
        i = back;
      }
    }
    last = i;
  }
}

/** The row where the values are back where they came from, soon; -1 when they stay away. */
function returnTo(unixMs: Float64Array, values: Float64Array, from: number, away: number, by: number): number {
  const soon = unixMs[away] + msPerMinute;
  for (let i = away + 1, rows = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) continue;
    rows++;
    if (rows > mostExcursionRows && unixMs[i] > soon) return -1;
    if (Math.abs(values[i] - values[from]) < 0.3 * by) return i;
  }
  return -1;
}

function validBetween(values: Float64Array, from: number, to: number): number {
  let count = 0;
  for (let i = from; i < to; i++) if (!Number.isNaN(values[i])) count++;
  return count;
}

/**
 * Single readings far from the median of their four neighbours, where these agree. A door opening is no spike: its air
 * takes minutes to recover, so the reading after the peak disagrees with the one before it.
 */
function markSpikes(unixMs: Float64Array, values: Float64Array, set: SetCell): void {
  const n = values.length;
  for (let i = 1; i < n - 1; i++) {
    const value = values[i];
    const up = value - values[i - 1];
    if (!(up > leastSpike || up < -leastSpike)) continue;
    let next = i + 1;
    while (next < n && Number.isNaN(values[next])) next++;
    if (next === n) break;
    const down = value - values[next];
    if (!(up > 0 ? down > leastSpike : down < -leastSpike)) continue;
    if (unixMs[next] - unixMs[i - 1] > 2 * spikeMinutes * msPerMinute) continue;
    const before = i > 1 && !Number.isNaN(values[i - 2]) ? values[i - 2] : values[i - 1];
    const after = next + 1 < n && !Number.isNaN(values[next + 1]) ? values[next + 1] : values[next];
    const near = [before, values[i - 1], values[next], after].sort((a, b) => a - b);
    const middle = (near[1] + near[2]) / 2;
    const spread = near[3] - near[0];
    if (Math.abs(value - middle) > Math.max(leastSpike, 6 * spread)) set(i, cell.spike);
  }
}
