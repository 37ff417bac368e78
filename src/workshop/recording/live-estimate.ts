// What is known of a run that goes on, for whoever looks on without recording it: read from the store, nothing written.

import type { Position } from "../../schema/index.ts";
import { type LiveEstimate, LiveRun } from "../../science/index.ts";
import type { Run, Store } from "../../store/index.ts";
import { type BaselineShelves, fridgeBaseline } from "../fridge-baseline.ts";

/** As of the run's newest reading. */
export async function liveEstimateOf(
  store: BaselineShelves & Pick<Store, "edits" | "readings">,
  run: Run,
): Promise<LiveEstimate> {
  const { knownGood, kind } = await fridgeBaseline(store, run.fridgeId, [run.id]);
  const live = new LiveRun({ sheet: run.sheet, knownGood, baselineKind: kind });
  const { sourceMarks } = await store.edits.current(run.id);
  for (const { unixMs, source } of sourceMarks) live.switchTo(source, unixMs);
  const { unixMs, columns } = await store.readings.recording(run.id);
  const series = Object.entries(columns) as [Position, Float64Array][];
  unixMs.forEach((at, row) => {
    for (const [position, values] of series)
      if (Number.isFinite(values[row])) live.add({ unixMs: at, position, value: values[row] });
  });
  return live.tell(unixMs.at(-1) ?? run.startedUnixMs);
}
