// Lines of type as they stand on paper, and the rules between them.

import { tones } from "../drawing/inks.ts";
import { pathThrough } from "../drawing/scene.ts";
import type { Paper, TextStyle } from "./paper.ts";

/** Text cut into lines, and the room they take, points. */
export interface Lines {
  readonly lines: readonly string[];
  readonly style: TextStyle;
  readonly leading: number;
  readonly height: number;
  /** Kept free above, where lines stand under others. */
  readonly above?: number;
}

/** The room that lines take under each other. */
export const heightOf = (all: readonly Lines[]) => all.reduce((sum, { height, above = 0 }) => sum + above + height, 0);

export function writeLines(paper: Paper, { lines, style, leading }: Lines, left: number, top: number): void {
  lines.forEach((line, index) => {
    if (line !== "") paper.write(line, left, top + index * leading + style.size * ascent, style);
  });
}

/** Writes lines under each other. */
export function stackLines(paper: Paper, all: readonly Lines[], left: number, from: number): void {
  let top = from;
  for (const lines of all) {
    top += lines.above ?? 0;
    writeLines(paper, lines, left, top);
    top += lines.height;
  }
}

/** From the top of a line to its baseline, in sizes of its type. */
const ascent = 1;

/** A fine line across. */
export function rule(paper: Paper, left: number, top: number, width: number, colour: string = tones.rule.light): void {
  const path = pathThrough([
    [left, top],
    [left + width, top],
  ]);
  paper.ornament(() => paper.line(path, { colour, width: 0.6, dash: [] }));
}
