// The readings of one stretch as means over a minute, and over longer times when there are many: as many rows as a night
// has however fast and long it is recorded, so that a reading always costs the same. A reading that comes late finds its row.

import { msPerMinute, type Position, positions } from "../../schema/index.ts";

/** More rows than this are joined two by two; 8 h at a row a minute. */
const mostRows = 480;

interface Row {
  /** Which row of the clock this is: instants from `slot` times the width on. */
  readonly slot: number;
  /** Sum of the readings' instants, counted from the row's beginning, ms. */
  msAfter: number;
  readings: number;
  /** Sum and number of the values per position, as in `positions`. */
  readonly sums: Float64Array;
  readonly counts: Uint32Array;
}

/** Rows of means, in order of time; a reading of any instant finds its own. */
export class LiveRows {
  private widthMs = msPerMinute;
  private rows: Row[] = [];

  /** How many rows there are. */
  get length(): number {
    return this.rows.length;
  }

  /** @param value finite. */
  add(unixMs: number, position: Position, value: number): void {
    const slot = Math.floor(unixMs / this.widthMs);
    const row = this.rowOf(slot);
    const at = positions.indexOf(position);
    row.msAfter += unixMs - slot * this.widthMs;
    row.readings++;
    row.sums[at] += value;
    row.counts[at]++;
    while (this.rows.length > mostRows) this.joinTwoByTwo();
  }

  /** Instants and the mean of one position; NaN where it said nothing. */
  unixMs(): Float64Array {
    return Float64Array.from(this.rows, (row) => row.slot * this.widthMs + Math.round(row.msAfter / row.readings));
  }

  /** Means of one position, °C or V; NaN where it said nothing. */
  column(position: Position): Float64Array {
    const at = positions.indexOf(position);
    return Float64Array.from(this.rows, (row) => row.sums[at] / row.counts[at]);
  }

  private rowOf(slot: number): Row {
    const { rows } = this;
    let at = rows.length;
    // Nearly every reading belongs to the last row or begins the next.
    while (at > 0 && rows[at - 1].slot > slot) at--;
    if (at > 0 && rows[at - 1].slot === slot) return rows[at - 1];
    const row = emptyRow(slot);
    rows.splice(at, 0, row);
    return row;
  }

  private joinTwoByTwo(): void {
    this.widthMs *= 2;
    const joined: Row[] = [];
    for (const row of this.rows) {
      const slot = Math.floor(row.slot / 2);
      const last = joined.at(-1);
      const into = last?.slot === slot ? last : emptyRow(slot);
      if (into !== last) joined.push(into);
      into.msAfter += row.msAfter + (row.slot % 2 === 0 ? 0 : (row.readings * this.widthMs) / 2);
      into.readings += row.readings;
      for (let at = 0; at < positions.length; at++) {
        into.sums[at] += row.sums[at];
        into.counts[at] += row.counts[at];
      }
    }
    this.rows = joined;
  }
}

const emptyRow = (slot: number): Row => ({
  slot,
  msAfter: 0,
  readings: 0,
  sums: new Float64Array(positions.length),
  counts: new Uint32Array(positions.length),
});
