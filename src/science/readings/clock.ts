// The time axis of a log: rows in time order, each instant once, and what the clock did wrong. Rows are never given
// another instant than the log gave them; where the clock cannot be believed they are set aside.

import { msPerDay, msPerHour, type Position, positions, type Recording } from "../../schema/index.ts";
import type { Rejection, RunEvent } from "../findings.ts";
import { usualStepMs } from "./sampling-step.ts";

export interface OrderedRecording {
  /** Rows strictly ascending in time. */
  readonly recording: Recording;
  readonly rejections: readonly Rejection[];
  readonly events: readonly RunEvent[];
}

/** No run lasts a year: a longer step is a clock that was set, or lost its time. */
const longestRunMs = 365 * msPerDay;
/** The farthest instant that a date can be made of, ms. Source: ECMA-262, "Time Values and Time Range". */
const farthestMs = 8.64e15;
/** More backward steps than this share of the rows are a file in another order, not a clock. */
const mostBackwardShare = 0.1;
/** Fewer rows than this written twice over the same time are late rows, not a clock set back. */
const fewestRowsAfterJump = 5;

/**
 * Puts the rows in time order and each instant once.
 *
 * - Rows without a usable instant are left out.
 * - Late rows (a file in another order, a delayed transmission) are put where they belong, and counted.
 * - Of several rows with one instant the first in the file stands; a later one only fills cells that were blank.
 * - Rows that a clock set back writes over time already logged are set aside until the clock is past it again: both
 *   cannot be true, and which one is cannot be known. Copies of rows already there are duplicates instead.
 * - Parts more than a year from each other: the one with most rows stands, the others are set aside.
 */
export function inTimeOrder(recording: Recording): OrderedRecording {
  const { name, unixMs } = recording;
  const step = usualStepMs(unixMs);
  const found = new Found(name);
  let ordered = recording;
  if (!isStrictlyAscending(unixMs)) {
    const usable = rowsWithInstant(unixMs);
    found.reject("unreadable-time", unixMs.length - usable.length, []);
    const { late, isUnsorted } = lateRows(recording, usable);
    const kept = isUnsorted ? usable : withoutSetBack(recording, usable, step, found);
    ordered = eachInstantOnce(recording, sortedByTime(unixMs, kept), late, found);
  }
  ordered = largestPart(ordered, step, found);
  return { recording: ordered, rejections: found.rejections, events: found.events };
}

/** What is set aside or said, gathered while the steps run. */
class Found {
  readonly rejections: Rejection[] = [];
  readonly events: RunEvent[] = [];
  readonly #log: string;
  constructor(log: string) {
    this.#log = log;
  }
  /** @param instants of the rows, in any order, where they can be read and are missing there */
  reject(reason: Rejection["reason"], readings: number, instants: Iterable<number>): void {
    if (readings === 0) return;
    const unixMs = Float64Array.from(instants).sort();
    this.rejections.push({ log: this.#log, position: "time", reason, readings, unixMs, values: new Float64Array(0) });
  }
  jumped(atMs: number, jumpMs: number): void {
    this.events.push({
      log: this.#log,
      kind: "clock-jump",
      startMs: atMs,
      endMs: atMs,
      position: null,
      size: jumpMs / msPerHour,
      sizeUnit: "h",
      reason: { code: "clock-jumped", seconds: Math.round(jumpMs / 1000) },
    });
  }
}

function isStrictlyAscending(unixMs: Float64Array): boolean {
  if (unixMs.length > 0 && !hasInstant(unixMs[0])) return false;
  for (let i = 1; i < unixMs.length; i++) if (!(unixMs[i] > unixMs[i - 1])) return false;
  return unixMs.length === 0 || hasInstant(unixMs[unixMs.length - 1]);
}

const hasInstant = (unixMs: number) => Math.abs(unixMs) <= farthestMs;

function rowsWithInstant(unixMs: Float64Array): Uint32Array {
  const rows = new Uint32Array(unixMs.length);
  let count = 0;
  for (let i = 0; i < unixMs.length; i++) if (hasInstant(unixMs[i])) rows[count++] = i;
  return rows.subarray(0, count);
}

/** Per row of the file, whether it comes after a later one; and whether the file is simply in another order. */
function lateRows({ unixMs }: Recording, rows: Uint32Array): { late: Uint8Array; isUnsorted: boolean } {
  const late = new Uint8Array(unixMs.length);
  let newest = Number.NEGATIVE_INFINITY;
  let backward = 0;
  for (let i = 0; i < rows.length; i++) {
    const at = unixMs[rows[i]];
    if (at < newest) late[rows[i]] = 1;
    else newest = at;
    if (i > 0 && at < unixMs[rows[i - 1]]) backward++;
  }
  return { late, isUnsorted: backward > 1 && backward > mostBackwardShare * rows.length };
}

/** Leaves out the rows that a clock set back wrote over time already logged. */
function withoutSetBack(recording: Recording, rows: Uint32Array, step: number, found: Found): Uint32Array {
  const { unixMs } = recording;
  const kept = new Uint32Array(rows.length);
  // Rows in order so far: ascending, so that a late row's neighbours in time can be looked up.
  const inOrder = new Uint32Array(rows.length);
  let keptCount = 0;
  let orderCount = 0;
  for (let i = 0; i < rows.length; ) {
    const newest = orderCount === 0 ? Number.NEGATIVE_INFINITY : unixMs[inOrder[orderCount - 1]];
    if (unixMs[rows[i]] > newest) {
      inOrder[orderCount++] = rows[i];
      kept[keptCount++] = rows[i++];
      continue;
    }
    const end = endOfLatePart(unixMs, rows, i, newest);
    const late = rows.subarray(i, end);
    if (writesOverLoggedTime(recording, late, inOrder.subarray(0, orderCount))) {
      found.reject(
        "clock-jump",
        late.length,
        Array.from(late, (row) => unixMs[row]),
      );
      found.jumped(newest, unixMs[rows[i]] - unixMs[rows[i - 1]] - (Number.isFinite(step) ? step : 0));
    } else {
      kept.set(late, keptCount);
      keptCount += late.length;
    }
    i = end;
  }
  return kept.subarray(0, keptCount);
}

/** A late part ascends, and ends where the clock is past everything logged before. */
function endOfLatePart(unixMs: Float64Array, rows: Uint32Array, from: number, newest: number): number {
  let end = from + 1;
  while (end < rows.length && unixMs[rows[end]] <= newest && unixMs[rows[end]] >= unixMs[rows[end - 1]]) end++;
  return end;
}

/** Whether the late rows lie among about as many others, and say other things at the same instants. */
function writesOverLoggedTime(recording: Recording, late: Uint32Array, inOrder: Uint32Array): boolean {
  if (late.length < fewestRowsAfterJump) return false;
  const { unixMs } = recording;
  const first = firstRowAtOrAfter(unixMs, inOrder, unixMs[late[0]]);
  const last = firstRowAtOrAfter(unixMs, inOrder, unixMs[late[late.length - 1]]);
  if (last - first < late.length / 2) return false;
  let meeting = 0;
  let copies = 0;
  let other = first;
  for (const row of late) {
    while (other < inOrder.length && unixMs[inOrder[other]] < unixMs[row]) other++;
    if (other === inOrder.length || unixMs[inOrder[other]] !== unixMs[row]) continue;
    meeting++;
    if (tellTheSame(recording, row, inOrder[other])) copies++;
  }
  return copies < late.length / 2 || copies < meeting / 2;
}

/** The place in `rows`, ascending in time, of the first that is not before `at`; as many as there are when none is. */
function firstRowAtOrAfter(unixMs: Float64Array, rows: Uint32Array, at: number): number {
  let low = 0;
  let high = rows.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (unixMs[rows[middle]] < at) low = middle + 1;
    else high = middle;
  }
  return low;
}

function tellTheSame({ columns }: Recording, row: number, other: number): boolean {
  return positions.every((position) => {
    const column = columns[position];
    return column === undefined || Object.is(column[row], column[other]) || Number.isNaN(column[row]);
  });
}

/** Rows of one instant stay in the file's order. */
function sortedByTime(unixMs: Float64Array, rows: Uint32Array): Uint32Array {
  return rows.slice().sort((a, b) => unixMs[a] - unixMs[b] || a - b);
}

/** A row is counted once: as a duplicate when a reading of it was set aside, else as late when it was. */
function eachInstantOnce(recording: Recording, rows: Uint32Array, late: Uint8Array, found: Found): Recording {
  const { unixMs, sourceCodes } = recording;
  const target = new Uint32Array(rows.length);
  let count = 0;
  for (let i = 0; i < rows.length; i++) {
    if (i === 0 || unixMs[rows[i]] !== unixMs[rows[i - 1]]) count++;
    target[i] = count - 1;
  }
  const repeats = new Uint8Array(rows.length);
  const once = rowsMoved(recording, count, (column) => {
    const result = new Float64Array(count).fill(Number.NaN);
    for (let i = 0; i < rows.length; i++) {
      const value = column[rows[i]];
      if (Number.isNaN(result[target[i]])) result[target[i]] = value;
      else if (!Number.isNaN(value)) repeats[i] = 1;
    }
    return result;
  });
  const duplicates: number[] = [];
  let moved = 0;
  for (let i = 0; i < rows.length; i++) {
    if (repeats[i] === 1) duplicates.push(unixMs[rows[i]]);
    else if (late[rows[i]] === 1) moved++;
  }
  found.reject("duplicate-instant", duplicates.length, duplicates);
  // These stand where they belong: nothing is missing there.
  found.reject("out-of-order", moved, []);
  const times = new Float64Array(count);
  const codes = sourceCodes === null ? null : new Uint8Array(count);
  for (let i = rows.length - 1; i >= 0; i--) {
    times[target[i]] = unixMs[rows[i]];
    if (codes !== null && sourceCodes !== null && sourceCodes[rows[i]] !== 0) codes[target[i]] = sourceCodes[rows[i]];
  }
  return { ...once, unixMs: times, sourceCodes: codes };
}

/** Cuts where the clock stepped by more than a year and keeps the part with most rows. */
function largestPart(recording: Recording, step: number, found: Found): Recording {
  const { unixMs, sourceCodes } = recording;
  const n = unixMs.length;
  if (n === 0 || unixMs[n - 1] - unixMs[0] <= longestRunMs) return recording;
  const cuts = [0];
  for (let i = 1; i < n; i++) if (unixMs[i] - unixMs[i - 1] > longestRunMs) cuts.push(i);
  cuts.push(n);
  if (cuts.length === 2) return recording;
  let best = 1;
  for (let i = 2; i < cuts.length; i++) if (cuts[i] - cuts[i - 1] > cuts[best] - cuts[best - 1]) best = i;
  const [from, to] = [cuts[best - 1], cuts[best]];
  found.reject("clock-jump", n - (to - from), [...unixMs.subarray(0, from), ...unixMs.subarray(to)]);
  const usual = Number.isFinite(step) ? step : 0;
  if (from > 0) found.jumped(unixMs[from], unixMs[from] - unixMs[from - 1] - usual);
  if (to < n) found.jumped(unixMs[to - 1], unixMs[to] - unixMs[to - 1] - usual);
  return {
    ...rowsMoved(recording, to - from, (column) => column.slice(from, to)),
    unixMs: unixMs.slice(from, to),
    sourceCodes: sourceCodes?.slice(from, to) ?? null,
  };
}

function rowsMoved(recording: Recording, count: number, move: (column: Float64Array) => Float64Array): Recording {
  const columns: { [P in Position]?: Float64Array } = {};
  for (const position of positions) {
    const column = recording.columns[position];
    if (column !== undefined) columns[position] = move(column);
  }
  return { ...recording, unixMs: new Float64Array(count), columns };
}
