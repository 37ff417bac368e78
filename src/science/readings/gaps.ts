// Where the log has no rows, and where one probe says nothing believable for long.

import { median } from "simple-statistics";
import { msPerHour, msPerMinute, type Position } from "../../schema/index.ts";
import type { RunEvent } from "../findings.ts";
import { cell } from "./bad-readings.ts";
import { usualStepMs } from "./sampling-step.ts";

const leastGapMinutes = 10;
const leastGapSteps = 10;
const leastFaultMinutes = 5;

/** A pause longer than this is a gap, ms: the longer of 10 min and 10 sampling steps. */
export function gapMs(unixMs: Float64Array): number {
  const step = usualStepMs(unixMs);
  return Math.max(leastGapMinutes * msPerMinute, Number.isNaN(step) ? 0 : leastGapSteps * step);
}

/** Pauses without rows. */
export function findGaps(log: string, unixMs: Float64Array): RunEvent[] {
  const longest = gapMs(unixMs);
  const gaps: RunEvent[] = [];
  for (let i = 1; i < unixMs.length; i++) {
    const pause = unixMs[i] - unixMs[i - 1];
    if (!(pause > longest)) continue;
    gaps.push({
      log,
      kind: "gap",
      startMs: unixMs[i - 1],
      endMs: unixMs[i],
      position: null,
      size: pause / msPerHour,
      sizeUnit: "h",
      reason: { code: "no-rows", minutes: pause / msPerMinute },
    });
  }
  return gaps;
}

/**
 * Times of 5 min or more in which one probe was blank or unbelievable though the log had rows.
 *
 * @param raw the column as logged; `cells` says what is wrong with each of its readings (see bad-readings.ts).
 */
export function findProbeFaults(
  log: string,
  position: Position,
  unixMs: Float64Array,
  raw: Float64Array,
  cells: Uint8Array,
): RunEvent[] {
  if (isReadByHand(unixMs, cells)) return [];
  const faults: RunEvent[] = [];
  const longestPause = gapMs(unixMs);
  const least = leastFault(unixMs, cells);
  for (let from = 0; from < cells.length; from++) {
    if (cells[from] === cell.good) continue;
    let end = from + 1;
    while (end < cells.length && cells[end] !== cell.good && unixMs[end] - unixMs[end - 1] <= longestPause) end++;
    const isBeforeRows = end < cells.length && unixMs[end] - unixMs[end - 1] <= longestPause;
    const endMs = unixMs[isBeforeRows ? end : end - 1];
    if (end - from > 1 && endMs - unixMs[from] >= least) {
      faults.push({
        log,
        kind: "probe-fault",
        startMs: unixMs[from],
        endMs,
        position,
        size: (endMs - unixMs[from]) / msPerHour,
        sizeUnit: "h",
        reason: faultReason(raw, cells, from, end, (endMs - unixMs[from]) / msPerMinute),
      });
    }
    from = end - 1;
  }
  return faults;
}

/** So few readings, none soon after another, show no rhythm that could have broken off. Our own choice. */
const mostByHand = 10;
const soonSteps = 3;

/** A person who reads a thermometer now and then is no probe that falls silent between. */
function isReadByHand(unixMs: Float64Array, cells: Uint8Array): boolean {
  const soon = soonSteps * usualStepMs(unixMs);
  let readings = 0;
  let lastMs = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < cells.length; i++) {
    if (cells[i] === cell.blank) continue;
    if (cells[i] !== cell.good || ++readings > mostByHand || unixMs[i] - lastMs <= soon) return false;
    lastMs = unixMs[i];
  }
  return readings > 0;
}

/** A probe that is read less often than the log has rows is not at fault between its readings. */
function leastFault(unixMs: Float64Array, cells: Uint8Array): number {
  let good = 0;
  for (let i = 0; i < cells.length; i++) if (cells[i] === cell.good) good++;
  const instants = new Float64Array(good);
  for (let i = 0, count = 0; i < cells.length; i++) if (cells[i] === cell.good) instants[count++] = unixMs[i];
  const own = usualStepMs(instants);
  const isSparse = own > 1.5 * usualStepMs(unixMs);
  return Math.max(leastFaultMinutes * msPerMinute, isSparse ? 3 * own : 0);
}

function faultReason(
  raw: Float64Array,
  cells: Uint8Array,
  from: number,
  to: number,
  minutes: number,
): RunEvent["reason"] {
  let blank = 0;
  const told: number[] = [];
  for (let i = from; i < to; i++) {
    if (cells[i] === cell.blank) blank++;
    else if (Number.isFinite(raw[i]) && told.length < 1000) told.push(raw[i]);
  }
  if (told.length === 0 || blank > (to - from) / 2) return { code: "probe-silent", minutes };
  const celsius = median(told);
  return cells[from] === cell.stuck
    ? { code: "probe-stuck", celsius, minutes }
    : { code: "probe-unbelievable", celsius, minutes };
}
