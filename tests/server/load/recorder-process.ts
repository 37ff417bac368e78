// The recorders of the load study: a board on each pty, all in one process, into the store that the service writes to as well.

import { listenToPort } from "../../../src/ingest/index.ts";
import { openStore } from "../../../src/store/index.ts";
import {
  boardArrivals,
  boardRoles,
  firstHello,
  recordRun,
  runToRecord,
} from "../../../src/workshop/recording/index.ts";
import type { ProcessNews } from "../board-load-study.ts";

const [storeFile, ...paths] = process.argv.slice(2);
const tell = (news: ProcessNews) => process.send?.(news);
const lines: [board: string, sequence: number, unixMs: number][] = [];
const stop = new AbortController();
const store = await openStore(storeFile);

const recordings = await Promise.all(paths.map(begin));
process.on("message", async (question) => {
  if (question === "worked") {
    const { user, system } = process.cpuUsage();
    tell({ kind: "worked", cpuMs: (user + system) / 1000 });
  }
  if (question === "durable") tell({ kind: "durable", lines });
  if (question !== "stop") return;
  stop.abort();
  await Promise.all(recordings.map(({ counting }) => counting));
  await store.close();
  process.disconnect();
});
tell({ kind: "ready", port: 0 });

async function begin(path: string) {
  const port = await listenToPort(path, { signal: stop.signal });
  const greeted = await firstHello(port);
  if (greeted === null) throw new Error(`no board on ${path}`);
  const { hello, happenings } = greeted;
  const fridge = await store.fridges.named(hello.boardId);
  const now = Date.now();
  const roles = await boardRoles(store, hello, fridge, now);
  const wanted = {
    fridgeId: fridge.id,
    origin: "board",
    purpose: "test",
    startedUnixMs: now,
    utcOffsetMinutes: 0,
  } as const;
  const { run } = await runToRecord(store, wanted, now);
  const arrivals = boardArrivals(happenings, { roles, last: null, say: port.say });
  const counting = recordRun(arrivals, store, run.id, (arrival) => {
    if (arrival.kind !== "readings") return;
    const durable = Date.now();
    for (const { sequence = -1 } of arrival.readings) lines.push([hello.boardId, sequence, durable]);
  });
  return { counting };
}
