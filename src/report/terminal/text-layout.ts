// Laying out plain text: wrapping, hanging indents and columns. Widths count what is seen: colour codes
// take no room, and a no-break space holds a number and its unit together until the lines are made.

import { stripVTControlCharacters } from "node:util";

/** No-break spaces serve layout only; whoever reads the text, or JSON, wants to search for "72 %". */
export const plain = (text: string) => text.replaceAll("\u00a0", " ");

export const visibleLength = (text: string) => stripVTControlCharacters(text).length;

/** Fills up with spaces to `width` seen characters; never cuts. */
export const padEnd = (text: string, width: number) => text + " ".repeat(Math.max(0, width - visibleLength(text)));
export const padStart = (text: string, width: number) => " ".repeat(Math.max(0, width - visibleLength(text))) + text;

/** Breaks at ordinary spaces; a word longer than the width (a checksum) is broken where it has to be. */
export function wrap(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ").flatMap((whole) => pieces(whole, width))) {
    if (line !== "" && visibleLength(line) + 1 + visibleLength(word) > width) {
      lines.push(line);
      line = word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  return [...lines, line];
}

/** Wraps behind a mark ("1. ") and hangs the further lines under the text. */
export function hang(mark: string, text: string, width: number): string[] {
  const indent = visibleLength(mark);
  return wrap(text, width - indent).map((line, index) => (index === 0 ? mark : " ".repeat(indent)) + line);
}

/** Sets cells side by side, each wrapped in its column's width, with a gap between columns. */
export function columns(cells: readonly string[], widths: readonly number[], gap = 2): string[] {
  const wrapped = cells.map((cell, index) => wrap(cell, widths[index]));
  const height = Math.max(...wrapped.map((lines) => lines.length));
  return Array.from({ length: height }, (_, row) =>
    wrapped
      .map((lines, index) => padEnd(lines[row] ?? "", widths[index]))
      .join(" ".repeat(gap))
      .trimEnd(),
  );
}

function pieces(word: string, width: number): string[] {
  if (visibleLength(word) <= width || word !== stripVTControlCharacters(word)) return [word];
  return Array.from({ length: Math.ceil(word.length / width) }, (_, i) => word.slice(i * width, (i + 1) * width));
}
