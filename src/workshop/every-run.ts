// All runs that a question asks for, however many pages the store gives them in.

import type { Run, RunQuery, Store } from "../store/index.ts";

/** Newest first. Each page is read when the one before is through. */
export async function* everyRun(
  store: Pick<Store, "runs">,
  query: Omit<RunQuery, "cursor"> = {},
): AsyncGenerator<Run, void> {
  let cursor: string | undefined;
  do {
    const { runs, next } = await store.runs.list({ ...query, cursor });
    yield* runs;
    cursor = next ?? undefined;
  } while (cursor !== undefined);
}
