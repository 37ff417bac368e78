// What every job of the workshop begins with: the logs to look at, and what they are compared with. Files and runs of the
// store come out alike.

import type { ReportInput } from "../report/index.ts";
import { BadInput, type BaselineFile, type Recording } from "../schema/index.ts";
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

/** A log by what its run sheet says. */
export const fridgeOnSheet = ({ name, sheet }: Pick<Recording, "name" | "sheet">): LogOfFridge => ({
  log: name,
  fridges: sheet?.fridge?.trim() ? [sheet.fridge.trim()] : [],
});

/**
 * Logs that are to be taken as of one fridge must not be known to be of different ones.
 *
 * @param knownGood what they are compared with, unless that is said to be of others
 * @throws BadInput "fridges-differ"
 */
export function refuseOtherFridge(logs: readonly LogOfFridge[], knownGood: readonly LogOfFridge[] = []): void {
  const named = [...logs, ...knownGood].filter(({ fridges }) => fridges.length > 0);
  for (const one of named) {
    const stranger = named.find((other) => !areOfOne(one, other));
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

/** The part of a baseline file that says whose runs it holds. */
interface OfFridges {
  readonly kind: BaselineFile["kind"];
  readonly runs: readonly Pick<Recording, "name" | "sheet">[];
}

/**
 * A baseline file that is to be this fridge's own must not hold runs known to be of another one; one of its kind may.
 *
 * @throws BadInput "baseline-of-other-fridge"
 */
export function refuseOthersBaseline(fridge: string, { kind, runs }: OfFridges): void {
  if (kind === "kind") return;
  const own: LogOfFridge = { log: fridge, fridges: [fridge] };
  const named = runs.map(fridgeOnSheet).filter(({ fridges }) => fridges.length > 0);
  const stranger = named.find((run) => !areOfOne(own, run));
  if (stranger === undefined) return;
  throw new BadInput({
    code: "baseline-of-other-fridge",
    log: stranger.log,
    fridge,
    otherFridge: stranger.fridges[0],
  });
}

/** As the store tells fridges apart. */
const areOfOne = (one: LogOfFridge, other: LogOfFridge) =>
  other.fridges.some((name) => one.fridges.some((each) => nameKey(each) === nameKey(name)));

/** Runs that are to be taken together must be different runs of one fridge. @throws BadInput */
export function refuseMixed(runs: readonly Run[]): void {
  for (const [index, run] of runs.entries()) {
    const twin = runs.slice(0, index).find(({ id }) => id === run.id);
    if (twin) throw new BadInput({ code: "same-log-twice", file: run.name, other: twin.name });
    if (run.fridgeId !== runs[0].fridgeId)
      throw new BadInput({ code: "different-fridges", run: run.name, other: runs[0].name });
  }
}
