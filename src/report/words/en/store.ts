// English: what the store refuses. One sentence each: what was wrong, where, and what to do.

import type { BadInputSayings, Phrases, StoreRecord } from "../../../schema/index.ts";

type StoreCode =
  | "no-such-record"
  | "not-one-record"
  | "name-taken"
  | "record-in-use"
  | "no-such-store"
  | "not-a-store"
  | Extract<keyof BadInputSayings, `store-${string}`>;

export const storeRefusals: Phrases<Pick<BadInputSayings, StoreCode>, unknown> = {
  "no-such-record": ({ kind, id, known, isRemoved = false }) =>
    `There is no ${isRemoved ? "removed " : ""}${recordNames[kind]} "${id}" in the store; ${isRemoved ? `"coldfall ${listedBy[kind]} --removed" lists what was removed` : remedy(kind, id, known)}.`,
  "not-one-record": ({ kind, id, known }) =>
    `More than one ${recordNames[kind]} begins with "${id}": ${known.join(", ")}; write more of the one you mean.`,
  "name-taken": ({ kind, name }) =>
    `There is a ${recordNames[kind]} named "${name}" already; give this one another name, or rename the other first.`,
  "record-in-use": ({ kind, id, runs }) =>
    `The ${recordNames[kind]} "${id}" cannot be removed: ${runs === 1 ? "one run holds" : `${runs} runs hold`} readings of it, which could then no longer be corrected; delete these first.`,
  "store-newer": ({ file, version, known }) =>
    `"${file}" was written by a newer coldfall (store version ${version}; this one knows ${known} at most), so it was left alone; update coldfall to open it.`,
  "no-such-store": ({ file }) =>
    `There is no store "${file}"; check the path, or begin a new one there with "coldfall fridges add NAME --store FILE".`,
  "not-a-store": ({ file }) =>
    `"${file}" is not a store of coldfall, so it was left alone; name a store's file, or a new one, with --store.`,
  "store-busy": ({ file }) =>
    `"${file}" is being written to by another program and did not come free; wait until that is done, then try again.`,
  "store-disk-full": ({ file }) =>
    `The disk that holds "${file}" is full; nothing kept so far is lost, so free some space and go on.`,
  "store-unusable": ({ file, reason }) =>
    `"${file}" cannot be used as a store: ${reason}; check the disk and your rights to the file and its folder, or restore a backup.`,
  "store-damaged": ({ file, run, position, from, to }) =>
    `"${file}": the ${position} readings of run ${run} from ${from} to ${to} are damaged and were not used; restore a backup, and run "coldfall store check" to see the whole damage.`,
};

const recordNames: Readonly<Record<StoreRecord, string>> = {
  fridge: "fridge",
  run: "run",
  edit: "edit",
  event: "event",
  result: "result",
  baseline: "baseline",
  probe: "probe",
  calibration: "calibration",
  board: "probe board",
  alarm: "alarm",
  message: "message",
};

/** The commands that list them. */
const listedBy: { readonly [K in StoreRecord]?: string } = {
  fridge: "fridges",
  run: "runs",
  result: "results",
  baseline: "baselines",
  probe: "probes",
  board: "boards",
  alarm: "alarms",
};

/** "night.csv", or a path. */
const isFileName = (id: string) => /[\\/]|\.[a-z]{2,5}$/i.test(id);

function remedy(kind: StoreRecord, id: string, known: readonly string[] | undefined): string {
  if (kind === "run" && isFileName(id))
    return 'runs are named by their ids ("coldfall runs" lists them), and "coldfall import" brings a file in';
  if (known === undefined) {
    const list = listedBy[kind];
    return list === undefined ? "check the spelling" : `"coldfall ${list}" lists what there is`;
  }
  if (known.length === 0 && kind === "fridge")
    return 'no fridge is kept yet, so add one first with "coldfall fridges add NAME"';
  if (known.length === 0) return `no ${recordNames[kind]} is kept yet, so add one first`;
  return `${known.length === 1 ? "the only one is" : "there are"} ${known.map((name) => `"${name}"`).join(", ")}`;
}
