// `coldfall fridges`: the workshop's fridges.

import { readWholeFile, refuseToReplace, writeWholeFile } from "../../ingest/index.ts";
import { readFridgeExport } from "../../ingest/json-files/index.ts";
import { type HeatSource, heatSources } from "../../schema/index.ts";
import { type FridgeDetails, nameKey } from "../../store/index.ts";
import { fridgeList } from "../../workshop/kept-lists.ts";
import { wordsFor } from "../language-option.ts";
import type { Terminal } from "../terminal.ts";
import { table } from "./table.ts";
import { amongRemoved, type StoreOptions, withNewStore, withStore } from "./with-store.ts";

const textFor = (options: StoreOptions) => wordsFor(options).keeping.fridges;

/** What is known of a fridge, as options say it. */
export interface FridgeOptions extends StoreOptions {
  readonly kind?: string;
  readonly gasWatts?: number;
  readonly mainsWatts?: number;
  readonly dc12Watts?: number;
  readonly litres?: number;
  readonly notes?: string;
}

export const listFridges = (options: StoreOptions & { readonly removed?: boolean }, terminal: Terminal) =>
  withStore(options, async (store) => {
    const list = await fridgeList(store, options.removed);
    if (options.json) return terminal.print(`${JSON.stringify(list, null, 2)}\n`);
    const rows = list.fridges.map(({ name, kind, ratedWatts, cabinetLitres, notes }) => [
      name,
      kind ?? "",
      ...heatSources.map((source) => numberOrNothing(ratedWatts[source])),
      numberOrNothing(cabinetLitres),
      notes ?? "",
    ]);
    const text = textFor(options);
    terminal.print(table(text.headings, rows, text.none, terminal.width));
  });

const numberOrNothing = (value: number | null | undefined) => (value === null || value === undefined ? "" : `${value}`);

/** @throws BadInput "name-taken" */
export const addFridge = (name: string, options: FridgeOptions, terminal: Terminal) =>
  withNewStore(options, async (store) => {
    await store.fridges.add({ name, ...detailsOf(options) });
    terminal.print(`${textFor(options).added(name)}\n`);
  });

/** @throws BadInput "no-such-record", "name-taken" */
export const editFridge = (name: string, options: FridgeOptions & { readonly name?: string }, terminal: Terminal) =>
  withStore(options, async (store) => {
    const { id, ratedWatts } = await store.fridges.named(name);
    const changes = detailsOf(options, ratedWatts);
    const fridge = await store.fridges.edit(
      id,
      options.name === undefined ? changes : { ...changes, name: options.name },
    );
    terminal.print(`${textFor(options).changed(fridge.name)}\n`);
  });

function detailsOf(
  { kind, gasWatts, mainsWatts, dc12Watts, litres, notes }: FridgeOptions,
  watts: FridgeDetails["ratedWatts"] = {},
): Partial<FridgeDetails> {
  const stated = { gas: gasWatts, mains: mainsWatts, dc12: dc12Watts };
  const known = heatSources.filter((source) => stated[source] !== undefined);
  const ratedWatts = Object.fromEntries(known.map((source) => [source, stated[source]])) as {
    [S in HeatSource]?: number;
  };
  return {
    ...(kind === undefined ? {} : { kind }),
    ...(known.length === 0 ? {} : { ratedWatts: { ...watts, ...ratedWatts } }),
    ...(litres === undefined ? {} : { cabinetLitres: litres }),
    ...(notes === undefined ? {} : { notes }),
  };
}

export const removeFridge = (name: string, options: StoreOptions, terminal: Terminal) =>
  withStore(options, async (store) => {
    const fridge = await store.fridges.named(name);
    await store.fridges.remove(fridge.id);
    terminal.print(`${textFor(options).removed(fridge.name)}\n`);
  });

/** The fridge removed last under that name, or the one with that id. */
export const restoreFridge = (name: string, options: StoreOptions, terminal: Terminal) =>
  withStore(options, async (store) => {
    const removed = await store.fridges.list({ areRemoved: true });
    const named = removed
      .filter((fridge) => nameKey(fridge.name) === nameKey(name))
      .sort((a, b) => (b.removedUnixMs ?? 0) - (a.removedUnixMs ?? 0));
    const fridge = await amongRemoved(() => store.fridges.restore(named[0]?.id ?? name));
    terminal.print(`${textFor(options).restored(fridge.name)}\n`);
  });

/** Everything about one fridge, a JSON object a line. */
export const exportFridge = (name: string, options: StoreOptions & { readonly out: string }, terminal: Terminal) =>
  withStore(options, async (store) => {
    refuseToReplace({ readings: options.out });
    const { id } = await store.fridges.named(name);
    const lines: string[] = [];
    for await (const piece of store.fridges.export(id)) lines.push(JSON.stringify(piece));
    writeWholeFile(options.out, `${lines.join("\n")}\n`, "readings");
    terminal.print(`${wordsFor(options).cli.wrote(options.out)}\n`);
  });

/** What another store exported. @throws BadInput for a file that is none, "name-taken" */
export const takeInFridge = (file: string, options: StoreOptions, terminal: Terminal) =>
  withNewStore(options, async (store) => {
    const taken = await store.fridges.takeIn(readFridgeExport(readWholeFile(file), file));
    terminal.print(`${textFor(options).takenIn(file, taken.fridge.name, taken, taken.received)}\n`);
  });
