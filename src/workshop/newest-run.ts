// Which run speaks for a fridge when nobody names one.

import type { Run, Store } from "../store/index.ts";
import { everyRun } from "./every-run.ts";

/**
 * The run whose verdict is the fridge's newest: the last begun of those that are over and hold readings. A known-good run says
 * how the fridge was, not how it is.
 */
export async function newestRun(store: Pick<Store, "runs">, fridgeId: string): Promise<Run | null> {
  for await (const run of everyRun(store, { fridgeId, isOpen: false })) {
    if (run.purpose !== "known-good" && (await store.runs.extents(run.id)).length > 0) return run;
  }
  return null;
}
