// Imports beside the service: in a thread of their own, so that a large log holds up neither live readings nor pages.

import { Worker } from "node:worker_threads";
import type { LogWay } from "../ingest/index.ts";
import { BadInput, type BadInputSaying, type RunSheet } from "../schema/index.ts";
import type { RunPurpose } from "../store/index.ts";
import type { JobControl, JobResult } from "./jobs.ts";

/** What is to be imported. */
export interface ImportTask {
  /** Where the log lies, on this machine. */
  readonly file: string;
  /** What people call it. */
  readonly shownAs: string;
  readonly fridgeId: string;
  readonly way: LogWay;
  readonly name: string;
  readonly purpose: RunPurpose;
  readonly sheet?: RunSheet;
}

/** What the thread tells. */
export type WorkerNews =
  | { readonly kind: "progress"; readonly share: number }
  | { readonly kind: "done"; readonly result: JobResult }
  | { readonly kind: "refused"; readonly saying: BadInputSaying };

/**
 * Imports logs, one after the other.
 *
 * @throws BadInput as `importLog` does; the signal's reason when it was cancelled: nothing is kept of the log under way then
 */
export function importInWorker(
  storeFile: string,
  tasks: readonly ImportTask[],
  { signal, progress }: JobControl,
): Promise<JobResult> {
  signal.throwIfAborted();
  const { promise, resolve, reject } = Promise.withResolvers<JobResult>();
  const worker = new Worker(threadFile, { workerData: { storeFile, tasks } });
  const cancel = () => reject(signal.reason);
  signal.addEventListener("abort", cancel);
  worker.on("message", (news: WorkerNews) => {
    if (news.kind === "progress") progress(news.share);
    else if (news.kind === "done") resolve(news.result);
    else reject(new BadInput(news.saying));
  });
  worker.on("error", reject);
  worker.on("exit", (code) => reject(new Error(`the import's thread ended with ${code}`)));
  return promise.finally(() => {
    signal.removeEventListener("abort", cancel);
    return worker.terminate();
  });
}

/** As written, or as built for the package. */
const asWritten = new URL("./import-worker.ts", import.meta.url).href;
const threadFile = new URL(import.meta.url.endsWith(".js") ? asWritten.replace(/ts$/, "js") : asWritten);
