// `coldfall store`: the store itself, checked, copied, tidied.

import type { StoreDamage } from "../../store/index.ts";
import { wordsFor } from "../language-option.ts";
import type { Terminal } from "../terminal.ts";
import { type StoreOptions, withStore } from "./with-store.ts";

const textFor = (options: StoreOptions) => wordsFor(options).keeping.store;

/** Tells what the check found; damage is a finding, not a failure of the program. */
export const checkStore = (options: StoreOptions, terminal: Terminal) =>
  withStore(options, async (store) => {
    const check = await store.care.check();
    if (options.json) return terminal.print(`${JSON.stringify(check, null, 2)}\n`);
    const text = textFor(options);
    const { runs, readings, damage } = check;
    if (damage.length === 0) return terminal.print(`${text.whole(runs, readings)}\n`);
    const lines = [text.damaged(damage.length), ...damage.map((each) => `  ${damageLine(each, text)}`), text.advice];
    terminal.print(`${lines.join("\n")}\n`);
  });

function damageLine(damage: StoreDamage, text: ReturnType<typeof textFor>): string {
  if (damage.kind === "database") return damage.message;
  const [from, to] = [damage.fromUnixMs, damage.toUnixMs].map((unixMs) => new Date(unixMs).toISOString());
  return text.damagedBlock(damage.runId, damage.position, from, to, damage.readings);
}

/** @throws BadInput "cannot-write" */
export const backupStore = (file: string, options: StoreOptions, terminal: Terminal) =>
  withStore(options, async (store) => {
    await store.care.backup(file);
    terminal.print(`${textFor(options).backedUp(file)}\n`);
  });

export const compactStore = (options: StoreOptions, terminal: Terminal) =>
  withStore(options, async (store) => {
    const { deletedRuns, removedFridges } = await store.care.compact();
    terminal.print(`${textFor(options).compacted(deletedRuns, removedFridges)}\n`);
  });

export interface RetireOptions extends StoreOptions {
  /** The beginning of the first day that is kept. */
  readonly before: number;
  readonly knownGoodToo?: boolean;
}

export const retireRuns = ({ before, knownGoodToo, ...options }: RetireOptions, terminal: Terminal) =>
  withStore(options, async (store) => {
    const ids = await store.care.retire(before, { knownGoodToo });
    terminal.print(`${textFor(options).retired(ids.length)}\n`);
  });
