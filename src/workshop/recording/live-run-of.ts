// The live side of a run that goes on, filled with what the store holds of it.

import type { Position, SourceMark } from "../../schema/index.ts";
import { LiveRun } from "../../science/live/index.ts";
import type { Run, Store } from "../../store/index.ts";
import type { LogsRead } from "../logs-read.ts";

/** A run as far as it is kept. */
export interface KeptLiveRun {
  readonly live: LiveRun;
  /** The newest instant that is kept; null before the first reading. */
  readonly newestUnixMs: number | null;
  /** The newest instant of each position. */
  readonly newestAt: ReadonlyMap<Position, number>;
  /** What was said of its source, in order of time. */
  readonly sourceMarks: readonly SourceMark[];
}

/**
 * @param baseline what the run is compared with
 * @param upTo only readings and source marks up to these instants; all unless stated
 */
export async function liveRunOf(
  store: Pick<Store, "edits" | "readings">,
  run: Run,
  { knownGood, baselineKind }: Pick<LogsRead, "knownGood" | "baselineKind">,
  upTo: { readonly readingMs: number; readonly markMs: number } = { readingMs: Infinity, markMs: Infinity },
): Promise<KeptLiveRun> {
  const live = new LiveRun({ sheet: run.sheet, knownGood, baselineKind });
  const sourceMarks = await marksUpTo(store, run, upTo.markMs);
  for (const { unixMs, source } of sourceMarks) live.switchTo(source, unixMs);
  const { unixMs, columns } = await store.readings.recording(run.id);
  const series = Object.entries(columns) as [Position, Float64Array][];
  const newestAt = new Map<Position, number>();
  let newestUnixMs: number | null = null;
  for (const [row, at] of unixMs.entries()) {
    if (at > upTo.readingMs) break;
    newestUnixMs = at;
    for (const [position, values] of series) {
      if (!Number.isFinite(values[row])) continue;
      live.add({ unixMs: at, position, value: values[row] });
      newestAt.set(position, at);
    }
  }
  return { live, newestUnixMs, newestAt, sourceMarks };
}

/** What was said of the run's source up to an instant, in order of time. */
export async function marksUpTo(store: Pick<Store, "edits">, run: Run, markMs: number): Promise<readonly SourceMark[]> {
  const { sourceMarks } = await store.edits.current(run.id);
  return sourceMarks.filter(({ unixMs }) => unixMs <= markMs).map(({ unixMs, source }) => ({ unixMs, source }));
}
