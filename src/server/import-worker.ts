// The thread of imports. import-in-worker.ts starts it and hears what it tells.

import { statSync } from "node:fs";
import { enableCompileCache } from "node:module";
import { parentPort, workerData } from "node:worker_threads";
import type { ImportShelves } from "../workshop/import-log.ts";
import type { ImportTask, WorkerNews } from "./import-in-worker.ts";

enableCompileCache();
const { lookOver } = await import("../ingest/index.ts");
const { BadInput } = await import("../schema/index.ts");
const { openStore } = await import("../store/index.ts");
const { importLog } = await import("../workshop/import-log.ts");
const { renamed } = await import("./log-preview.ts");

const { storeFile, tasks } = workerData as { readonly storeFile: string; readonly tasks: readonly ImportTask[] };
const tell = (news: WorkerNews) => parentPort?.postMessage(news);

type OpenStore = Awaited<ReturnType<typeof openStore>>;

await using store = await openStore(storeFile);
tell(await importAll());

async function importAll(): Promise<WorkerNews> {
  const sum = { runIds: [] as string[], stored: 0, repeated: 0, contradicted: 0 };
  for (const [index, { file, fridgeId, way, shownAs, ...order }] of tasks.entries()) {
    try {
      const log = lookOver(file);
      const fridge = await store.fridges.get(fridgeId);
      const progress = (share: number) => tell({ kind: "progress", share: (index + share) / tasks.length });
      const watched = watching(store, rowsIn(log.head, statSync(file).size), progress);
      const imported = await importLog(watched, log, way, { ...order, fridge });
      sum.runIds.push(imported.run.id);
      if (imported.outcome === "known") continue;
      sum.stored += imported.received.stored;
      sum.repeated += imported.received.repeated;
      sum.contradicted += imported.received.contradicted;
    } catch (error) {
      if (!(error instanceof BadInput)) throw error;
      return { kind: "refused", saying: renamed(error.saying, file, shownAs) };
    }
  }
  return { kind: "done", result: sum };
}

/** The store, telling how much of the log has come. */
function watching(whole: OpenStore, rows: number, progress: (share: number) => void): ImportShelves {
  let [seen, told] = [0, 0];
  const startImport: OpenStore["readings"]["import"] = (...given) => {
    const into = whole.readings.import(...given);
    return {
      add: (chunk) => {
        into.add(chunk);
        seen += chunk.unixMs.length;
        // Keeping them takes its time too; the last part of the bar is for that.
        const share = Math.min(0.9, (0.9 * seen) / rows);
        if (share - told < 0.01) return;
        told = share;
        progress(share);
      },
      finish: () => into.finish(),
    };
  };
  const parts: OpenStore["readings"]["parts"] = (runId) => whole.readings.parts(runId);
  const { fridges, runs, events, edits, probes, settings } = whole;
  return { fridges, runs, events, edits, probes, settings, readings: { import: startImport, parts } };
}

/** About how many rows the log has, from the length of its first ones. */
function rowsIn(head: Uint8Array, bytes: number): number {
  const look = head.subarray(0, 100_000);
  let lines = 1;
  for (const byte of look) if (byte === 0x0a) lines++;
  return Math.max(1, (bytes / Math.max(1, look.length)) * lines);
}
