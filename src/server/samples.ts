// The sample logs as tasks for the import: each sub-folder is a fridge, as sample-logs/README.md says.

import { readdirSync } from "node:fs";
import { basename, join } from "node:path";
import { lookOver, sheetOf, wayToRead } from "../ingest/index.ts";
import type { RunPurpose, Store } from "../store/index.ts";
import type { ImportTask } from "./import-in-worker.ts";

/** Adds the samples' fridges and says what is to be imported. */
export async function sampleTasks(store: Pick<Store, "fridges">, folder: string): Promise<readonly ImportTask[]> {
  const tasks: ImportTask[] = [];
  for (const entry of readdirSync(folder, { withFileTypes: true }).filter((entry) => entry.isDirectory())) {
    const logs = readdirSync(join(folder, entry.name)).filter((file) => /(?<!\.forecast)\.csv$/.test(file));
    if (logs.length === 0) continue;
    const { id: fridgeId } = await store.fridges.add({ name: entry.name });
    for (const log of logs.sort()) tasks.push(await taskFor(join(folder, entry.name, log), fridgeId));
  }
  return tasks;
}

async function taskFor(file: string, fridgeId: string): Promise<ImportTask> {
  const name = basename(file, ".csv");
  const { way } = wayToRead(lookOver(file));
  if (way === null) throw new RangeError(`the sample ${name} is not of our own format`);
  return {
    file,
    shownAs: name,
    fridgeId,
    way,
    name,
    purpose: purposeOf(name),
    sheet: (await sheetOf(file)) ?? undefined,
  };
}

const purposeOf = (name: string): RunPurpose =>
  name.startsWith("known-good") ? "known-good" : name.startsWith("serviced") ? "after-service" : "test";
