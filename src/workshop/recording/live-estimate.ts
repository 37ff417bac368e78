// What is known of a run that goes on, for whoever looks on without recording it: read from the store, nothing written.

import type { LiveEstimate } from "../../science/live/index.ts";
import type { Run, Store } from "../../store/index.ts";
import { fridgeBaseline } from "../fridge-baseline.ts";
import type { LogShelves } from "../logs-read.ts";
import { liveRunOf } from "./live-run-of.ts";

/** As of the run's newest reading, or of what was said after it. */
export async function liveEstimateOf(store: LogShelves & Pick<Store, "edits">, run: Run): Promise<LiveEstimate> {
  const baseline = await fridgeBaseline(store, run.fridgeId, [run.id]);
  const { live, newestUnixMs, sourceMarks } = await liveRunOf(store, run, baseline);
  return live.tell(Math.max(newestUnixMs ?? run.startedUnixMs, sourceMarks.at(-1)?.unixMs ?? -Infinity));
}
