// A process of its own that records: node recording-process.ts FILE RUN BATCHES FROM. Prints a line after each batch that was
// acknowledged. Other tests watch its syncs, run two at once, or take its files while it is at work.

import { setTimeout as sleep } from "node:timers/promises";
import { openStore } from "../../src/store/index.ts";

const [file, runId, batches, from] = process.argv.slice(2);
const store = await openStore(file, { groupWaitMs: 0 });
for (let i = Number(from); i < Number(from) + Number(batches); i++) {
  await store.readings.append(runId, [{ position: "cabinet", unixMs: i * 1000, raw: i / 16 }]);
  process.stdout.write(`${i}\n`);
  await sleep(1);
}
await store.close();
