// How fast the service answers, and what viewers cost it: a run of a million readings drawn and zoomed into, a verdict on
// request, and many viewers of the live stream for two minutes. `npm run bench server-speed`; VIEWER_SECONDS shortens it.

import { mkdtempSync, rmSync } from "node:fs";
import { get } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { createServer } from "../../src/server/index.ts";
import { openStore, type Store } from "../../src/store/index.ts";
import { printMachine, printTable } from "./print.ts";

const begin = Date.UTC(2026, 5, 4, 20);
const viewers = 100;
const seconds = Number(process.env.VIEWER_SECONDS ?? 120);
const folder = mkdtempSync(join(tmpdir(), "coldfall-bench-"));
const storeFile = join(folder, "store.coldfall");
const store = await openStore(storeFile);
const service = createServer({
  store,
  storeFile,
  version: "bench",
  hosts: ["127.0.0.1"],
  passwords: null,
  uploadFolder: join(folder, "uploads"),
  sampleLogs: fileURLToPath(new URL("../../sample-logs", import.meta.url)),
  limits: { requestsPerMinute: 100_000 },
});
const base = `http://127.0.0.1:${await service.listen(0, "127.0.0.1")}`;

try {
  // The samples come first: they want an empty store.
  const rows = [...(await verdict()), ...(await curves()), ...(await looking())];
  printTable(["the service", "measured", "goal"], rows);
  printMachine();
} finally {
  await service.close();
  await store.close();
  rmSync(folder, { recursive: true, force: true });
}

async function curves(): Promise<string[][]> {
  const runId = await millionReadings(store);
  const curve = (query: string) => timed(`/api/runs/${runId}/readings?position=cabinet&points=2000${query}`);
  const first = await curve("");
  const zooms: number[] = [];
  for (let i = 0; i < 40; i++) {
    const from = begin + 20_000_000 * i;
    zooms.push((await curve(`&from=${from}&to=${from + 100_000_000 / (1 + (i % 5))}`)).ms);
  }
  return [
    [
      "1,000,000 readings, first curve of one position",
      `${first.ms.toFixed(0)} ms, ${kilobytes(first.text)} kB`,
      "1 s, with the page",
    ],
    ["the same, panned or zoomed: median", `${median(zooms).toFixed(1)} ms`, "33 ms for 30 a second"],
  ];
}

async function millionReadings({ fridges, runs, readings }: Store): Promise<string> {
  const { id: fridgeId } = await fridges.add({ name: "bench" });
  const opened = { fridgeId, startedUnixMs: begin, purpose: "test", origin: "file", utcOffsetMinutes: 0 } as const;
  const run = await runs.open(opened);
  const into = readings.import(run.id);
  const length = 1_000_000;
  const unixMs = Float64Array.from({ length }, (_, i) => begin + 1000 * i);
  into.add({ unixMs, columns: { cabinet: unixMs.map((_, i) => 8 + 3 * Math.sin(i / 9000) + ((i * 7919) % 16) / 16) } });
  await into.finish();
  await runs.close(run.id, unixMs[length - 1]);
  return run.id;
}

async function verdict(): Promise<string[][]> {
  const started = await fetch(`${base}/api/samples`, { method: "POST", headers: { "Coldfall-Request": "1" } });
  let job = (await started.json()) as { id: string; state: string };
  while (job.state === "running") {
    await sleep(50);
    job = JSON.parse((await timed(`/api/jobs/${job.id}`)).text);
  }
  const { runs } = JSON.parse((await timed("/api/runs?purpose=test")).text) as { runs: { id: string }[] };
  const times: number[] = [];
  // Another margin each time, so that no kept answer is given.
  for (let i = 0; i < 15; i++) times.push((await timed(`/api/runs/${runs[0].id}/verdict?margin=0.1${i}`)).ms);
  const kept = [1, 2, 3, 4, 5].map(() => timed(`/api/runs/${runs[0].id}/verdict?margin=0.11`));
  return [
    ["verdict on a sample run with its known-good runs: median", `${median(times.slice(3)).toFixed(0)} ms`, "200 ms"],
    ["the same again, nothing changed", `${median((await Promise.all(kept)).map(({ ms }) => ms)).toFixed(1)} ms`, ""],
  ];
}

/** Viewers at one reading a second. */
async function looking(): Promise<string[][]> {
  const [{ id: fridgeId }] = await store.fridges.list();
  const opened = { fridgeId, startedUnixMs: begin, purpose: "test", origin: "board", utcOffsetMinutes: 0 } as const;
  const run = await store.runs.open(opened);
  const got = new Array<number>(viewers).fill(0);
  const leave = await Promise.all(got.map((_, viewer) => view((readings) => (got[viewer] += readings))));
  const memory: number[] = [];
  const cpu = process.cpuUsage();
  for (let second = 0; second < seconds; second++) {
    await store.readings.append(run.id, [{ position: "cabinet", unixMs: begin + 1000 * second, raw: 8 }]);
    if (second === Math.floor(seconds / 2) || second === seconds - 1) memory.push(megabytesInUse());
    await sleep(1000);
  }
  await sleep(2500);
  const used = process.cpuUsage(cpu);
  const share = (used.user + used.system) / 1e6 / (seconds + 2.5);
  for (const stop of leave) stop();
  const missed = got.reduce((sum, readings) => sum + seconds - readings, 0);
  return [
    [
      `${viewers} viewers, 1 reading a second for ${seconds} s: events missed`,
      `${missed} of ${viewers * seconds}`,
      "0",
    ],
    [
      "memory in use, viewers' share with it: at half time and at the end",
      memory.map((megabytes) => `${megabytes.toFixed(1)} MB`).join(", "),
      "flat",
    ],
    ["processor, of one core, the viewers' share with it", `${(100 * share).toFixed(0)} %`, ""],
  ];
}

/** What is left after collecting: the process itself keeps room for later. */
function megabytesInUse(): number {
  setFlagsFromString("--expose-gc");
  const collect: () => void = runInNewContext("gc");
  collect();
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return (heapUsed + arrayBuffers) / 2 ** 20;
}

/** @returns how to leave */
function view(count: (readings: number) => void): Promise<() => void> {
  return new Promise((resolve) => {
    const sent = get(`${base}/api/live`, { agent: false }, (response) => {
      response.setEncoding("utf8");
      let rest = "";
      response.on("data", (chunk: string) => {
        const events = (rest + chunk).split("\n\n");
        rest = events.pop() ?? "";
        for (const event of events) {
          const data = /^event: readings\ndata: (.*)$/m.exec(event)?.[1];
          if (data !== undefined) count((JSON.parse(data) as { unixMs: number[] }).unixMs.length);
        }
      });
      resolve(() => sent.destroy());
    });
    sent.on("error", () => {});
  });
}

async function timed(path: string): Promise<{ readonly ms: number; readonly text: string }> {
  const from = performance.now();
  const response = await fetch(base + path);
  const text = await response.text();
  if (!response.ok) throw new Error(`${path}: ${text}`);
  return { ms: performance.now() - from, text };
}

function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[values.length >> 1];
}

function kilobytes(text: string): string {
  return (text.length / 1000).toFixed(0);
}
