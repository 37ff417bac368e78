// Lists on a terminal: columns as wide as their widest cell, under their headings.

import { wrap } from "../../report/index.ts";

/** Words behind fewer characters than this would make a column of single words; they go below the row instead. */
const leastRoom = 30;
const indent = 2;

/**
 * Rows under a heading, two spaces between columns; just the sentence where there is no row.
 *
 * @param width characters per line, which the words of the last column keep to
 */
export function table(
  headings: readonly string[],
  rows: readonly (readonly string[])[],
  whenEmpty: string,
  width = Number.POSITIVE_INFINITY,
): string {
  if (rows.length === 0) return `${whenEmpty}\n`;
  const all = [headings, ...rows];
  const widths = headings.slice(0, -1).map((_, column) => Math.max(...all.map((row) => row[column].length)));
  const before = widths.reduce((sum, column) => sum + column + 2, 0);
  const longest = Math.max(...all.map((row) => row[row.length - 1].length));
  const isBelow = before + longest > width && width - before < leastRoom;
  const room = width - (isBelow ? indent : before);
  const line = (row: readonly string[], isHeading: boolean) => {
    const cells = widths.map((column, at) => row[at].padEnd(column));
    const words = row[row.length - 1];
    const lines = room < longest ? wrap(words, room) : [words];
    if (isBelow && !isHeading)
      return [cells.join("  ").trimEnd(), ...lines.map((text) => `${" ".repeat(indent)}${text}`)];
    return [[...cells, lines[0]].join("  "), ...lines.slice(1).map((text) => `${" ".repeat(before)}${text}`)];
  };
  const lines = all.flatMap((row, at) => line(row, at === 0));
  return `${lines.map((text) => text.trimEnd()).join("\n")}\n`;
}
