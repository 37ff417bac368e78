// How a run's edits stand when all in force are applied, in the order made.

import type { Edit, EditEntry, EditStep, RunEdits } from "./records.ts";

/** @param entries the oldest first, undone ones included */
export function currentEdits(entries: readonly (EditEntry & { readonly canRedo?: boolean })[]): RunEdits {
  const edits = standingEdits(entries);
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

/** The edits that stand, by number. */
export function standingEdits(
  entries: readonly Pick<EditEntry, "number" | "step" | "isUndone">[],
): ReadonlyMap<number, Edit> {
  const edits = new Map<number, Edit>();
  for (const { number, step, isUndone } of entries) {
    if (isUndone) continue;
    if (step.kind === "replace") edits.set(step.number, step.by);
    else if (step.kind === "remove") edits.delete(step.number);
    else for (const [place, edit] of editsOf(step).entries()) edits.set(number + place, edit);
  }
  return edits;
}

/** The number after those that the entries hold. */
export function nextNumber(entries: readonly Pick<EditEntry, "number" | "step">[]): number {
  const last = entries.at(-1);
  return last === undefined ? 1 : last.number + Math.max(1, editsOf(last.step).length);
}

const editsOf = (step: EditStep): readonly Edit[] =>
  step.kind === "together" ? step.edits : step.kind === "replace" || step.kind === "remove" ? [] : [step];
