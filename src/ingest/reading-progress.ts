// What was met while a log was read, beside the readings: counted here, judged in log-columns.ts.

import { UnreadableTally } from "./unreadable-cells.ts";

/** Rows, readings and unreadable cells, counted while a log is read. */
export class ReadingProgress {
  /** Rows met that are not blank. */
  rows = 0;
  /** Rows that came in: right length and readable time. */
  kept = 0;
  /** Finite readings in them. */
  readings = 0;
  /** Line of the present row; in the end, of the last. */
  line = 0;
  /** The first row whose length differs from the header's, and how many such rows there are. */
  wrongLength: { readonly line: number; readonly cells: number; rows: number } | null = null;
  readonly tally = new UnreadableTally();

  countRow(line: number): void {
    this.rows++;
    this.line = line;
  }

  setAsideLength(cells: number, text: string): void {
    this.wrongLength ??= { line: this.line, cells, rows: 0 };
    this.wrongLength.rows++;
    this.tally.add("time", "wrong-column-count", this.line, text);
  }

  setAsideTime(text: string): void {
    this.tally.add("time", "unreadable-time", this.line, text);
  }
}
