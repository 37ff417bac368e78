// `coldfall results`: what was found, as it was found then.

import { resultList } from "../../workshop/kept-lists.ts";
import { wordsFor } from "../language-option.ts";
import type { Terminal } from "../terminal.ts";
import { table } from "./table.ts";
import { type StoreOptions, withStore } from "./with-store.ts";

const textFor = (options: StoreOptions) => wordsFor(options).keeping.results;

export const listResults = (options: StoreOptions & { readonly fridge?: string }, terminal: Terminal) =>
  withStore(options, async (store) => {
    const fridges = options.fridge === undefined ? undefined : [await store.fridges.named(options.fridge)];
    const list = await resultList(store, fridges);
    if (options.json) return terminal.print(`${JSON.stringify(list, null, 2)}\n`);
    const rows = list.results.map(({ id, fridge, runs, kind, made }) => [
      id,
      fridge,
      runs.join(" "),
      kind,
      made.slice(0, 16).replace("T", " "),
    ]);
    const text = textFor(options);
    terminal.print(table(text.headings, rows, text.none));
  });

/** @throws BadInput "no-such-record" */
export const showResult = (id: string, options: StoreOptions, terminal: Terminal) =>
  withStore(options, async (store) => {
    const { document } = await store.results.get(id);
    terminal.print(`${JSON.stringify(document, null, 2)}\n`);
  });

export const removeResult = (id: string, options: StoreOptions, terminal: Terminal) =>
  withStore(options, async (store) => {
    await store.results.remove(id);
    terminal.print(`${textFor(options).removed(id)}\n`);
  });
