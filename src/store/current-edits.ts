// How a run's edits stand when all in force are applied, in the order made.

import type { Edit, EditEntry, RunEdits } from "./records.ts";

/** @param entries the oldest first, undone ones included */
export function currentEdits(entries: readonly (EditEntry & { readonly canRedo?: boolean })[]): RunEdits {
  const edits = new Map<number, Edit>();
  for (const { number, step, isUndone } of entries) {
    if (isUndone) continue;
    if (step.kind === "replace") edits.set(step.number, step.by);
    else if (step.kind === "remove") edits.delete(step.number);
    else edits.set(number, step);
  }
  const ofKind = <K extends Edit["kind"]>(kind: K) =>
    Array.from(edits, ([number, edit]) => ({ ...edit, number })).filter(
      (edit): edit is Extract<Edit, { kind: K }> & { number: number } => edit.kind === kind,
    );
  return {
    sourceMarks: ofKind("source")
      .map(({ unixMs, source, how = "told", number }) => ({ unixMs, source, how, number }))
      .sort((a, b) => a.unixMs - b.unixMs || a.number - b.number),
    exclusions: ofKind("exclusion").sort((a, b) => a.fromUnixMs - b.fromUnixMs),
    notes: ofKind("note").sort((a, b) => a.unixMs - b.unixMs),
    canUndo: entries.some(({ isUndone }) => !isUndone),
    canRedo: entries.some(({ canRedo }) => canRedo),
  };
}
