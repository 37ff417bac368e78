// A log made fit to be read: rows in time order, bad readings blank. What was set aside is counted and explained,
// nothing is replaced by a guess; the log itself stays as it was. The steps are in clock.ts, bad-readings.ts,
// stuck-probe.ts and gaps.ts.

import { type Position, positions, type Recording } from "../../schema/index.ts";
import type { Rejection, RunEvent } from "../findings.ts";
import type { RejectionCode } from "../sayings.ts";
import { cell, cellReasons, withoutBadReadings } from "./bad-readings.ts";
import { inTimeOrder } from "./clock.ts";
import { clockSetForward } from "./clock-set-forward.ts";
import { findGaps, findProbeFaults } from "./gaps.ts";
import { stuckParts } from "./stuck-probe.ts";

export interface CleanedRecording {
  /** Rows strictly ascending in time; bad readings are NaN. */
  readonly recording: Recording;
  /** Every reading that was set aside, those the file reader could not read included. */
  readonly rejections: Rejection[];
  /** Clock jumps, gaps and probe faults. */
  readonly events: RunEvent[];
}

/** Cleans one log. Never throws, whatever the values are. */
export function cleanRecording(recording: Recording): CleanedRecording {
  const { name } = recording;
  const ordered = inTimeOrder(recording);
  const { unixMs, columns: raw } = ordered.recording;
  const columns: { [P in Position]?: Float64Array } = {};
  const cells: { [P in Position]?: Uint8Array } = {};
  for (const position of positions) {
    const column = raw[position];
    if (column === undefined) continue;
    const cleaned = withoutBadReadings(position, unixMs, column);
    columns[position] = cleaned.values;
    cells[position] = cleaned.cells;
  }
  markStuck(unixMs, columns, cells);

  const rejections: Rejection[] = [
    ...recording.unreadable.map(({ position, reason, readings }) => ({
      log: name,
      position,
      reason,
      readings,
      unixMs: new Float64Array(0),
      values: new Float64Array(0),
    })),
    ...ordered.rejections,
  ];
  const gaps = findGaps(name, unixMs);
  const events: RunEvent[] = [...ordered.events, ...gaps, ...clockSetForward({ name, unixMs, columns }, gaps)];
  for (const position of positions) {
    const [column, why] = [raw[position], cells[position]];
    if (column === undefined || why === undefined) continue;
    rejections.push(...setAside(name, position, why, unixMs, column));
    // There are volts on electric sources only: a blank supply is no fault.
    if (position !== "supply") events.push(...findProbeFaults(name, position, unixMs, column, why));
  }
  return { recording: { ...ordered.recording, columns }, rejections, events };
}

function markStuck(
  unixMs: Float64Array,
  columns: { [P in Position]?: Float64Array },
  cells: { [P in Position]?: Uint8Array },
): void {
  // All are found before any is blanked: two stuck probes must not clear each other.
  const found = positions.map((position) => ({ position, parts: stuckParts(position, unixMs, columns) }));
  for (const { position, parts } of found) {
    const [values, why] = [columns[position], cells[position]];
    if (values === undefined || why === undefined) continue;
    for (const { from, to } of parts) {
      for (let row = from; row < to; row++) {
        if (why[row] === cell.good) why[row] = cell.stuck;
      }
      values.fill(Number.NaN, from, to);
    }
  }
}

/** The bad cells of one column, reason by reason. */
function setAside(
  log: string,
  position: Position,
  cells: Uint8Array,
  unixMs: Float64Array,
  column: Float64Array,
): Rejection[] {
  const rows = cellReasons.map((): number[] => []);
  for (let i = 0; i < cells.length; i++) if (cells[i] > cell.blank) rows[cells[i]].push(i);
  return cellReasons.flatMap((reason, code) =>
    reason === "good" || reason === "blank" || rows[code].length === 0
      ? []
      : [
          {
            log,
            position,
            reason: reason satisfies RejectionCode,
            readings: rows[code].length,
            unixMs: Float64Array.from(rows[code], (row) => unixMs[row]),
            values: Float64Array.from(rows[code], (row) => column[row]),
          },
        ],
  );
}
