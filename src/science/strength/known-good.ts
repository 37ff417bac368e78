// The known-good runs: read like any other log, put in an order of their own so that the order given does not matter,
// and sorted by energy source.

import type { HeatSource, Recording } from "../../schema/index.ts";
import { finsWarmerThanAir } from "../evidence/fin-difference.ts";
import { type RunEvidence, runEvidence, type StretchEvidence } from "../evidence/run-evidence.ts";
import { slopeHours } from "../pull-down/pull-down-numbers.ts";

/** Runs as they followed each other, whatever order they are given in. */
export function runsInOrder(recordings: readonly Recording[]): readonly RunEvidence[] {
  const startOf = (recording: Recording) => recording.unixMs[0] ?? 0;
  return [...recordings].sort((a, b) => startOf(a) - startOf(b) || (a.name < b.name ? -1 : 1)).map(runEvidence);
}

/** Stretches that can serve for comparison: a told source, a pull-down of at least two hours, probes where they belong. */
export function knownGoodBySource(runs: readonly RunEvidence[]): ReadonlyMap<HeatSource, readonly StretchEvidence[]> {
  const bySource = new Map<HeatSource, StretchEvidence[]>();
  for (const run of runs) {
    for (const stretch of run.stretches) {
      if (stretch.source === null || !isUsable(stretch)) continue;
      bySource.set(stretch.source, [...(bySource.get(stretch.source) ?? []), stretch]);
    }
  }
  return bySource;
}

/**
 * Whether a known-good stretch can be compared with: it was fitted, ran on long enough after the onset, and its probes
 * are in place.
 */
export const isUsable = (stretch: StretchEvidence): boolean =>
  !("why" in stretch.fitted) && stretch.fitted.cabinetFit.hoursAfterOnset >= slopeHours && !finsWarmerThanAir(stretch);
