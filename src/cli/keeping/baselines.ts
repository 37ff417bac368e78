// `coldfall baselines`: what fridges are compared with.

import { readWholeFile } from "../../ingest/index.ts";
import { parseBaseline } from "../../ingest/json-files/index.ts";
import { BadInput } from "../../schema/index.ts";
import { baselineList } from "../../workshop/kept-lists.ts";
import { refuseOthersBaseline } from "../../workshop/logs-read.ts";
import { wordsFor } from "../language-option.ts";
import type { Terminal } from "../terminal.ts";
import { table } from "./table.ts";
import { type StoreOptions, withStore } from "./with-store.ts";

const textFor = (options: StoreOptions) => wordsFor(options).keeping.baselines;

export const listBaselines = (options: StoreOptions & { readonly fridge?: string }, terminal: Terminal) =>
  withStore(options, async (store) => {
    const fridges = options.fridge === undefined ? undefined : [await store.fridges.named(options.fridge)];
    const list = await baselineList(store, fridges);
    if (options.json) return terminal.print(`${JSON.stringify(list, null, 2)}\n`);
    const text = textFor(options);
    const rows = list.baselines.map(({ id, fridge, made, runs, inUse }) => [
      id,
      fridge,
      made.slice(0, 10),
      runs.length === 0 ? text.ofFile : text.ofRuns(runs.length),
      inUse ? text.yes : "",
    ]);
    terminal.print(table(text.headings, rows, text.none));
  });

export interface AddBaselineOptions extends StoreOptions {
  readonly file?: string;
  readonly notes?: string;
}

/** @throws BadInput "nothing-said" or "bad-option" unless runs or a file are given; "no-such-record"; "different-fridges"; "baseline-of-other-fridge" */
export async function addBaseline(
  name: string,
  runs: readonly string[],
  { file, notes, ...options }: AddBaselineOptions,
  terminal: Terminal,
): Promise<void> {
  const text = textFor(options);
  if (runs.length === 0 && file === undefined) throw new BadInput({ code: "nothing-said", options: ["RUN", "--file"] });
  if (runs.length > 0 && file !== undefined)
    throw new BadInput({ code: "bad-option", option: "RUN", value: runs.join(" "), expected: text.expectedRuns });
  await withStore(options, async (store) => {
    const fridge = await store.fridges.named(name);
    const common = { fridgeId: fridge.id, madeUnixMs: terminal.nowUnixMs(), ...(notes === undefined ? {} : { notes }) };
    if (file === undefined) {
      const kept = await Promise.all(runs.map((id) => store.runs.get(id)));
      const stranger = kept.find(({ fridgeId }) => fridgeId !== fridge.id);
      if (stranger) throw new BadInput({ code: "different-fridges", run: stranger.name, other: fridge.name });
      await store.baselines.add({ ...common, kind: "own", runIds: kept.map(({ id }) => id) });
    } else {
      const baseline = parseBaseline(readWholeFile(file), file);
      refuseOthersBaseline(fridge.name, baseline);
      await store.baselines.add({ ...common, kind: baseline.kind, file: baseline });
    }
    terminal.print(`${text.added(fridge.name)}\n`);
  });
}

export const removeBaseline = (id: string, options: StoreOptions, terminal: Terminal) =>
  withStore(options, async (store) => {
    await store.baselines.remove(id);
    terminal.print(`${textFor(options).removed(id)}\n`);
  });
