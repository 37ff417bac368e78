// A run sheet and what a hand changed on it. Nothing of the browser is needed here.

import type { RunSheet } from "../../src/schema/index.ts";

/** Fields set by hand; undefined takes a field off the sheet. */
export type SheetChanges = { readonly [Field in keyof RunSheet]?: RunSheet[Field] | undefined };

/** The sheet as it is shown meanwhile. */
export const withChanges = (sheet: RunSheet | null, changes: SheetChanges): SheetChanges => ({ ...sheet, ...changes });

/** The sheet as it is kept: what was left empty is not on it. */
export const changedSheet = (sheet: RunSheet | null, changes: SheetChanges): RunSheet =>
  Object.fromEntries(
    Object.entries(withChanges(sheet, changes))
      .map(([field, value]) => [field, typeof value === "string" ? value.trim() : value] as const)
      .filter(([, value]) => value !== undefined && value !== ""),
  );
