// The thread that reads a log to its end before it is brought in. whole-log-in-worker.ts starts it and hears what it tells.

import { enableCompileCache } from "node:module";
import { parentPort, workerData } from "node:worker_threads";
import type { WholeLogNews, WholeLogTask } from "./whole-log-in-worker.ts";

enableCompileCache();
const { lookOver } = await import("../ingest/index.ts");
const { BadInput } = await import("../schema/index.ts");
const { wholeLogOf } = await import("../workshop/whole-log.ts");

parentPort?.postMessage(looked(workerData as WholeLogTask));

function looked({ file, way, areColumnsTold }: WholeLogTask): WholeLogNews {
  try {
    return { kind: "read", whole: wholeLogOf(lookOver(file), way, areColumnsTold) };
  } catch (error) {
    if (!(error instanceof BadInput)) throw error;
    return { kind: "refused", saying: error.saying };
  }
}
