// The live side of a run that goes on, filled with what the store holds of it.

import type { Position } from "../../schema/index.ts";
import { LiveRun } from "../../science/live/index.ts";
import type { Run, Store } from "../../store/index.ts";
import type { LogsRead } from "../logs-read.ts";

/** A run as far as it is kept. */
export interface KeptLiveRun {
  readonly live: LiveRun;
  /** The newest instant that is kept; null before the first reading. */
  readonly newestUnixMs: number | null;
  /** Since when it runs on what was said last; null where nobody said. */
  readonly newestMarkUnixMs: number | null;
}

/** @param baseline what the run is compared with */
export async function liveRunOf(
  store: Pick<Store, "edits" | "readings">,
  run: Run,
  { knownGood, baselineKind }: Pick<LogsRead, "knownGood" | "baselineKind">,
): Promise<KeptLiveRun> {
  const live = new LiveRun({ sheet: run.sheet, knownGood, baselineKind });
  const { sourceMarks } = await store.edits.current(run.id);
  for (const { unixMs, source } of sourceMarks) live.switchTo(source, unixMs);
  const { unixMs, columns } = await store.readings.recording(run.id);
  const series = Object.entries(columns) as [Position, Float64Array][];
  for (const [row, at] of unixMs.entries()) {
    for (const [position, values] of series) {
      if (Number.isFinite(values[row])) live.add({ unixMs: at, position, value: values[row] });
    }
  }
  const newestMarkUnixMs = sourceMarks.length === 0 ? null : Math.max(...sourceMarks.map((mark) => mark.unixMs));
  return { live, newestUnixMs: unixMs.at(-1) ?? null, newestMarkUnixMs };
}
