// How every bench prints: a markdown table, and the line that says when and where its figures were taken.

import os from "node:os";

export function printTable(header: readonly string[], rows: readonly (readonly string[])[]): void {
  const line = (cells: readonly string[]) => `| ${cells.join(" | ")} |`;
  console.log([line(header), line(header.map(() => "---")), ...rows.map(line)].join("\n"));
}

/** Date, processor, cores and program versions. */
export function printMachine(): void {
  const [{ model }] = os.cpus();
  const date = new Date().toISOString().slice(0, 10);
  console.log(
    `\n${date}, ${model.trim()}, ${os.availableParallelism()} cores, ${os.type()} ${os.arch()}, Node ${process.versions.node}`,
  );
}
