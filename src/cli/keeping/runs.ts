// `coldfall runs` and `coldfall export`: the runs that are kept.

import { nativeLogText, refuseToReplace, writeWholeFile } from "../../ingest/index.ts";
import { handOf, plain } from "../../report/index.ts";
import { msPerHour } from "../../schema/index.ts";
import type { RunChanges, RunPurpose } from "../../store/index.ts";
import { runList } from "../../workshop/kept-lists.ts";
import { wordsFor } from "../language-option.ts";
import type { Terminal } from "../terminal.ts";
import { table } from "./table.ts";
import { amongRemoved, type StoreOptions, withStore } from "./with-store.ts";

const textFor = (options: StoreOptions) => wordsFor(options).keeping.runs;

export interface ListRunsOptions extends StoreOptions {
  readonly fridge?: string;
  readonly purpose?: RunPurpose;
  readonly removed?: boolean;
}

export const listRuns = (options: ListRunsOptions, terminal: Terminal) =>
  withStore(options, async (store) => {
    const { fridge, purpose, removed: areDeleted } = options;
    const fridgeId = fridge === undefined ? undefined : (await store.fridges.named(fridge)).id;
    const list = await runList(store, { fridgeId, purpose, areDeleted });
    if (options.json) return terminal.print(`${JSON.stringify(list, null, 2)}\n`);
    const text = textFor(options);
    const rows = list.runs.map((run) => {
      const hand = handOf(options.language ?? "en", run.utcOffsetMinutes);
      const [from, to] = [Date.parse(run.start), run.end === null ? null : Date.parse(run.end)];
      const lasted = to === null ? text.goesOn : hand.span((to - from) / msPerHour);
      return [run.id, run.fridge, run.name, run.purpose, hand.period(from, from, "with year"), lasted].map(plain);
    });
    terminal.print(table(text.headings, rows, text.none));
  });

/** @throws BadInput "no-such-record" */
export const editRun = (
  id: string,
  { name, purpose, notes, ...options }: StoreOptions & Pick<RunChanges, "name" | "purpose" | "notes">,
  terminal: Terminal,
) =>
  withStore(options, async (store) => {
    const run = await store.runs.get(id);
    const changed = await store.runs.edit(run.id, {
      ...(name === undefined ? {} : { name }),
      ...(purpose === undefined ? {} : { purpose }),
      ...(notes === undefined ? {} : { notes }),
    });
    terminal.print(`${textFor(options).changed(changed.name)}\n`);
  });

export const removeRun = (id: string, options: StoreOptions, terminal: Terminal) =>
  withStore(options, async (store) => {
    const run = await store.runs.get(id);
    await store.runs.delete(run.id);
    terminal.print(`${textFor(options).removed(run.name, run.id)}\n`);
  });

export const restoreRun = (id: string, options: StoreOptions, terminal: Terminal) =>
  withStore(options, async (store) => {
    const { name } = await amongRemoved(() => store.runs.restore(id));
    terminal.print(`${textFor(options).restored(name)}\n`);
  });

/** Writes a run as a native log. */
export const exportRun = (
  id: string,
  options: StoreOptions & { readonly out: string; readonly raw?: boolean },
  terminal: Terminal,
) =>
  withStore(options, async (store) => {
    refuseToReplace({ readings: options.out });
    const run = await store.runs.get(id);
    const values = options.raw ? "raw" : "corrected";
    const recording = await store.readings.recording(run.id, { values, exclusions: "kept", sources: "in-rows" });
    writeWholeFile(options.out, nativeLogText(recording), "readings");
    terminal.print(`${wordsFor(options).keeping.export.wrote(options.out, recording.unixMs.length)}\n`);
  });
