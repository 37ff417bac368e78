// What a fridge is compared with when nobody says: the baseline chosen for it, else every run of it that was said to be
// known-good.

import { baselineLogs, sha256 } from "../ingest/index.ts";
import type { Baseline, Store } from "../store/index.ts";
import { everyRun } from "./every-run.ts";
import type { LogShelves, LogsRead } from "./logs-read.ts";
import { inputOf, runLog } from "./run-log.ts";

/** Known-good logs, ready for `analyse`. */
export type FridgeBaseline = Omit<LogsRead, "logs">;

/**
 * The baseline of a fridge; without any known-good log when there is none.
 *
 * @param besides ids of the runs that are to be judged: a run is never its own baseline
 */
export async function fridgeBaseline(
  store: LogShelves,
  fridgeId: string,
  besides: readonly string[],
): Promise<FridgeBaseline> {
  const { chosen, runIds } = await baselineRuns(store, fridgeId, besides);
  if (chosen !== undefined && "file" in chosen) return ofFile(chosen);
  const logs = await Promise.all(runIds.map((id) => runLog(store, id)));
  return {
    knownGood: logs.map(({ recording }) => recording),
    baselineKind: chosen?.kind ?? "own",
    inputs: logs.map((log) => inputOf(log, "known-good")),
  };
}

/** Which baseline is in use and the runs it is made of; none of a file. @param besides as for `fridgeBaseline` */
export async function baselineRuns(
  store: Pick<Store, "runs" | "baselines">,
  fridgeId: string,
  besides: readonly string[],
): Promise<{ readonly chosen: Baseline | undefined; readonly id: string | null; readonly runIds: readonly string[] }> {
  const [chosen] = await store.baselines.list(fridgeId);
  const isFile = chosen !== undefined && "file" in chosen;
  const ids = isFile ? [] : (chosen?.runIds ?? (await knownGoodRuns(store, fridgeId)));
  return { chosen, id: chosen?.id ?? null, runIds: ids.filter((id) => !besides.includes(id)) };
}

function ofFile(baseline: Extract<Baseline, { readonly file: unknown }>): FridgeBaseline {
  const name = baseline.notes ?? baseline.id;
  const { kind, runs } = baselineLogs(baseline.file, name);
  const bytes = new TextEncoder().encode(JSON.stringify(baseline.file));
  return { knownGood: runs, baselineKind: kind, inputs: [{ name, role: "baseline", sha256: sha256(bytes) }] };
}

async function knownGoodRuns(store: Pick<Store, "runs">, fridgeId: string): Promise<readonly string[]> {
  const ids: string[] = [];
  for await (const { id } of everyRun(store, { fridgeId, purpose: "known-good" })) ids.push(id);
  return ids;
}
