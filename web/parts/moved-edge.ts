// The change that moves the beginning of a stretch, or names its source. A mark holds until the log's own rows say another
// source, or until the next mark.

import type { CallInput } from "../../src/schema/api/index.ts";
import type { EnergySource } from "../../src/schema/index.ts";

export type EditStep = CallInput<"POST /api/runs/{runId}/edits">["body"];

export interface Edge {
  readonly stretch: { readonly source: EnergySource | null; readonly fromMs: number };
  /** What it ran on before; null where nobody said, or nothing was before. */
  readonly before: EnergySource | null;
  readonly marks: readonly { readonly unixMs: number; readonly number: number }[];
}

/** The step after which the stretch begins then, on that source: one, as what one act did is undone as one. */
export function movedEdge(
  { stretch, before, marks }: Edge,
  { fromMs, source }: { readonly fromMs: number; readonly source: EnergySource },
): EditStep {
  const by = { kind: "source", unixMs: fromMs, source, how: "later" } as const;
  const mark = marks.find(({ unixMs }) => Math.abs(unixMs - stretch.fromMs) < nearMs);
  if (mark !== undefined) return { kind: "replace", number: mark.number, by };
  // Begun later than the rows say: what was before goes on until then.
  if (fromMs <= stretch.fromMs || before === null) return by;
  const goesOn = { kind: "source", unixMs: stretch.fromMs, source: before, how: "later" } as const;
  return { kind: "together", edits: [goesOn, by] };
}

/** A stretch begins with the first reading after its mark. */
const nearMs = 120_000;
