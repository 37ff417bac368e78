// Lists on a terminal: columns as wide as their widest cell, under their headings.

/** Rows under a heading, two spaces between columns; just the sentence where there is no row. */
export function table(headings: readonly string[], rows: readonly (readonly string[])[], whenEmpty: string): string {
  if (rows.length === 0) return `${whenEmpty}\n`;
  const all = [headings, ...rows];
  const widths = headings.map((_, column) => Math.max(...all.map((row) => row[column].length)));
  const line = (row: readonly string[]) =>
    row
      .map((cell, column) => cell.padEnd(widths[column]))
      .join("  ")
      .trimEnd();
  return `${all.map(line).join("\n")}\n`;
}
