// What every job of the workshop begins with: the logs to look at, and what they are compared with. Files and runs of the
// store come out alike.

import type { ReportInput } from "../report/index.ts";
import { BadInput, type Recording } from "../schema/index.ts";
import { nameKey, type Run, type Store } from "../store/index.ts";
import { fridgeBaseline } from "./fridge-baseline.ts";
import { inputOf, runLog } from "./run-log.ts";

/** The part of a store that logs come from. */
export type LogShelves = Pick<Store, "runs" | "readings" | "baselines">;

/** Logs with their baseline. */
export interface LogsRead {
  /** One at least. */
  readonly logs: readonly Recording[];
  readonly knownGood: readonly Recording[];
  /** Whether the known-good logs are of this very fridge or of others of its kind. */
  readonly baselineKind: "own" | "kind";
  readonly inputs: readonly ReportInput[];
}

/**
 * Reads runs of one fridge, with the fridge's own baseline.
 *
 * @param ids one at least
 * @throws BadInput "no-such-record"; "same-log-twice"; "different-fridges"
 */
export async function readRuns(
  store: LogShelves,
  ids: readonly string[],
): Promise<LogsRead & { readonly runs: readonly Run[] }> {
  const logs = await Promise.all(ids.map((id) => runLog(store, id)));
  const runs = logs.map(({ run }) => run);
  refuseMixed(runs);
  const baseline = await fridgeBaseline(
    store,
    runs[0].fridgeId,
    runs.map(({ id }) => id),
  );
  return {
    runs,
    logs: logs.map(({ recording }) => recording),
    ...baseline,
    inputs: [...logs.map((log) => inputOf(log, "log")), ...baseline.inputs],
  };
}

/** A log, and by which names its fridge is known: that in the store, that on its run sheet; none where nobody said. */
export interface LogOfFridge {
  readonly log: string;
  readonly fridges: readonly string[];
}

/**
 * Logs that are to be taken as of one fridge must not be known to be of different ones.
 *
 * @param knownGood what they are compared with, unless that is said to be of others
 * @throws BadInput "fridges-differ"
 */
export function refuseOtherFridge(logs: readonly LogOfFridge[], knownGood: readonly LogOfFridge[] = []): void {
  const named = [...logs, ...knownGood].filter(({ fridges }) => fridges.length > 0);
  for (const one of named) {
    const stranger = named.find(({ fridges }) => !fridges.some((name) => isAmong(one.fridges, name)));
    if (stranger === undefined) continue;
    throw new BadInput({
      code: "fridges-differ",
      log: one.log,
      fridge: one.fridges[0],
      other: stranger.log,
      otherFridge: stranger.fridges[0],
      isKnownGood: knownGood.includes(stranger),
    });
  }
}

/** As the store tells fridges apart. */
const isAmong = (names: readonly string[], name: string) => names.some((each) => nameKey(each) === nameKey(name));

/** Runs that are to be taken together must be different runs of one fridge. @throws BadInput */
export function refuseMixed(runs: readonly Run[]): void {
  for (const [index, run] of runs.entries()) {
    const twin = runs.slice(0, index).find(({ id }) => id === run.id);
    if (twin) throw new BadInput({ code: "same-log-twice", file: run.name, other: twin.name });
    if (run.fridgeId !== runs[0].fridgeId)
      throw new BadInput({ code: "different-fridges", run: run.name, other: runs[0].name });
  }
}
