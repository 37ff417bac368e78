// A short text that changes when anything a run's answers rest on changes: what is computed from it can be kept until then.

import { createHash } from "node:crypto";
import type { Store } from "../store/index.ts";

/** The part of a store that a revision is made from. */
export type RevisionShelves = Pick<Store, "runs" | "edits" | "probes">;

/** @param besides what else the answer rests on */
export async function runsRevision(
  store: RevisionShelves,
  runIds: readonly string[],
  ...besides: readonly unknown[]
): Promise<string> {
  const runs = await Promise.all(
    runIds.map(async (id) => [await store.runs.get(id), await store.runs.extents(id), await store.edits.current(id)]),
  );
  const calibrations = (await store.probes.calibrations()).map(({ id }) => id);
  const curves = (await store.probes.list()).map(({ id, curve }) => [id, curve]);
  return createHash("sha256")
    .update(JSON.stringify([runs, calibrations, curves, besides]))
    .digest("base64url");
}
