// A process of its own that replays a log into a store, to be killed: node replaying-process.ts FILE LOG. Writes "began" when
// it begins, the newest instant after each batch that is durable, and "done".

import { setTimeout as wait } from "node:timers/promises";
import { readLogFile } from "../../src/ingest/index.ts";
import { openStore } from "../../src/store/index.ts";
import { recordRun, replay, runToReplay } from "../../src/workshop/recording/index.ts";

const [file, logFile] = process.argv.slice(2);
const { recording: log } = await readLogFile(logFile);
const store = await openStore(file, { groupWaitMs: 2 });
const [fridge = await store.fridges.add({ name: "Larch" })] = await store.fridges.list();
const wanted = {
  fridgeId: fridge.id,
  origin: "replay",
  purpose: "test",
  startedUnixMs: log.unixMs[0],
  utcOffsetMinutes: 0,
} as const;
const { run, lastUnixMs } = await runToReplay(store, wanted, log, log.sha256 ?? "");
process.stdout.write("began\n");
const arrivals = replay(log, {
  speed: 15_000,
  ...(lastUnixMs === null ? {} : { afterUnixMs: lastUnixMs }),
  clock: { now: () => performance.now(), wait: (ms) => wait(ms) },
  signal: new AbortController().signal,
});
await recordRun(arrivals, store, run.id, (arrival) => {
  if (arrival.kind === "readings") process.stdout.write(`${arrival.readings[arrival.readings.length - 1].unixMs}\n`);
});
await store.close();
process.stdout.write("done\n");
