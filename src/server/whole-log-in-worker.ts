// A log read to its end beside the service: a large one in a thread of its own, so that it holds up neither live readings
// nor pages.

import { statSync } from "node:fs";
import { Worker } from "node:worker_threads";
import { type LogWay, lookOver } from "../ingest/index.ts";
import type { WholeLog } from "../report/import/index.ts";
import { BadInput, type BadInputSaying } from "../schema/index.ts";
import { wholeLogOf } from "../workshop/whole-log.ts";

export interface WholeLogTask {
  readonly file: string;
  readonly way: LogWay;
  readonly areColumnsTold: boolean;
}

/** What the thread tells. */
export type WholeLogNews =
  | { readonly kind: "read"; readonly whole: WholeLog }
  | { readonly kind: "refused"; readonly saying: BadInputSaying };

/** A night by the minute has 50 kB; so much is read sooner than a thread starts. */
const mostBytesHere = 1_000_000;

/** @throws BadInput as `wholeLogOf` does */
export async function readWhole(task: WholeLogTask): Promise<WholeLog> {
  const { file, way, areColumnsTold } = task;
  // What is not read by rows was read whole to be understood, and its hints may hold what no thread can be handed.
  const isByRows = way.format === "native" || way.format === "mapped";
  if (!isByRows || statSync(file).size <= mostBytesHere) return wholeLogOf(lookOver(file), way, areColumnsTold);
  const { promise, resolve, reject } = Promise.withResolvers<WholeLog>();
  const worker = new Worker(threadFile, { workerData: task });
  worker.on("message", (news: WholeLogNews) =>
    news.kind === "read" ? resolve(news.whole) : reject(new BadInput(news.saying)),
  );
  worker.on("error", reject);
  worker.on("exit", (code) => reject(new Error(`the thread that reads a log ended with ${code}`)));
  return promise.finally(() => worker.terminate());
}

/** As written, or as built for the package. */
const asWritten = new URL("./whole-log-worker.ts", import.meta.url).href;
const threadFile = new URL(import.meta.url.endsWith(".js") ? asWritten.replace(/ts$/, "js") : asWritten);
