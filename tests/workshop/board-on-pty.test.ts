// A board on a real pseudo-terminal, recorded into a real store: every good line once, every bad one counted.

import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout } from "node:timers/promises";
import { afterAll, beforeAll, expect, test } from "vitest";
import { listenToPort, type ProbeLine } from "../../src/ingest/index.ts";
import { seededRandom } from "../../src/simulate/index.ts";
import { openStore } from "../../src/store/index.ts";
import {
  boardArrivals,
  boardRoles,
  firstHello,
  lastLineOf,
  recordRun,
  runToRecord,
} from "../../src/workshop/recording/index.ts";
import { probeLineText } from "../ingest/probe-line-text.ts";
import { type PtyPair, ptyPair } from "./pty-pair.ts";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-pty-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

const probes = ["28-01", "28-02", "28-03"];
const hello = (sequence: number): ProbeLine => ({
  type: "hello",
  boardId: "larch-board",
  boot: 1,
  sequence,
  uptimeMs: 100,
  formatVersion: 1,
  firmware: "1.0.0",
  reason: "asked",
  intervalSeconds: 1,
  probes: (["evaporator", "cabinet", "ambient"] as const).map((role, index) => ({
    probeId: probes[index],
    role,
    unit: "Cel",
    resolution: 0.0625,
  })),
});
const reading = (sequence: number): ProbeLine => ({
  type: "reading",
  boardId: "larch-board",
  boot: 1,
  sequence,
  uptimeMs: 1000 * Math.floor(sequence / 3),
  probeId: probes[sequence % 3],
  value: 25 - Math.round(sequence / 100) / 16,
  unit: "Cel",
});

/** Says a text in pieces of random length, as a port hands it over. */
async function sayInPieces(board: PtyPair, bytes: Uint8Array, random: () => number): Promise<void> {
  for (let at = 0; at < bytes.length; ) {
    const length = 1 + Math.floor(random() * 200);
    await board.say(bytes.subarray(at, at + length));
    at += length;
  }
}

test("of 10,000 lines cut at random bytes, with noise between and some damaged, every good one is stored once and every bad one counted", async () => {
  const random = seededRandom(11, "pty").uniform;
  const board = await ptyPair();
  await using store = await openStore(join(folder, "noise.coldfall"), { groupWaitMs: 5 });
  const fridge = await store.fridges.add({ name: "Larch" });
  const stop = new AbortController();
  const port = await listenToPort(board.path, { signal: stop.signal });
  const greeting = firstHello(port);
  await setTimeout(200);
  await board.say(`${probeLineText(hello(1))}\n`);
  const greeted = await greeting;
  expect(greeted?.hello.boardId).toBe("larch-board");
  if (greeted === null) return;
  const roles = await boardRoles(store, greeted.hello, fridge, Date.now());
  const wanted = { fridgeId: fridge.id, origin: "board", purpose: "test", startedUnixMs: Date.now() } as const;
  const { run } = await runToRecord(store, { ...wanted, utcOffsetMinutes: 0 }, Date.now());
  const arrivals = boardArrivals(greeted.happenings, { roles, last: null, say: port.say });
  const counting = recordRun(arrivals, store, run.id, () => {});

  // A line sent only with one character changed never comes whole; noise is a damaged line of its own.
  let [changed, noise] = [0, 0];
  const texts: string[] = [];
  for (let sequence = 2; sequence <= 10_001; sequence++) {
    const line = probeLineText(reading(sequence));
    const fate = random();
    if (fate < 0.02) {
      // One character turned into another: the checksum tells.
      const at = Math.floor(random() * line.length);
      const other = String.fromCharCode(33 + ((line.charCodeAt(at) - 33 + 1 + Math.floor(random() * 90)) % 94));
      texts.push(`${line.slice(0, at)}${other}${line.slice(at + 1)}\n`);
      changed += 1;
    } else if (fate < 0.04) {
      texts.push(`${line}\n${line}\n`);
    } else {
      texts.push(`${line}\n`);
    }
    if (random() < 0.01) {
      texts.push("\u0001~#?noise\n");
      noise += 1;
    }
  }
  await sayInPieces(board, new TextEncoder().encode(texts.join("")), random);
  const good = 10_001 - changed;
  while (arrivals.counts.good < good) await setTimeout(20);
  // Whatever came with the last lines is on its way to the disk; stopping waits for it.
  stop.abort();
  const counts = await counting;
  await board.unplug();

  expect(arrivals.counts).toMatchObject({ good, damaged: changed + noise });
  // The hello is a good line, too.
  expect(counts).toEqual({ stored: good - 1, repeated: 0, contradicted: 0 });
  const kept = (await store.runs.extents(run.id)).reduce((sum, { readings }) => sum + readings, 0);
  expect(kept).toBe(good - 1);
}, 60_000);

test("a board pulled out and put back goes on in the same run, and what it measured meanwhile is asked for again", async () => {
  const board = await ptyPair();
  await using store = await openStore(join(folder, "replug.coldfall"), { groupWaitMs: 5 });
  const fridge = await store.fridges.add({ name: "Larch" });
  const stop = new AbortController();
  const port = await listenToPort(board.path, { signal: stop.signal, retryMs: 50 });
  const greeting = firstHello(port);
  while (!board.heard().includes("identify")) await setTimeout(5);
  await board.say(`${probeLineText(hello(1))}\n`);
  const greeted = await greeting;
  if (greeted === null) throw new Error("no hello");
  const roles = await boardRoles(store, greeted.hello, fridge, Date.now());
  const wanted = { fridgeId: fridge.id, origin: "board", purpose: "test", startedUnixMs: Date.now() } as const;
  const { run } = await runToRecord(store, { ...wanted, utcOffsetMinutes: 0 }, Date.now());
  const kinds: string[] = [];
  const arrivals = boardArrivals(greeted.happenings, { roles, last: null, say: port.say });
  const counting = recordRun(arrivals, store, run.id, (arrival) => {
    if (arrival.kind === "happened") kinds.push(arrival.event.kind);
  });
  const sayLines = async (first: number, last: number) => {
    for (let sequence = first; sequence <= last; sequence++) await board.say(`${probeLineText(reading(sequence))}\n`);
  };
  await sayLines(2, 100);
  while (arrivals.counts.good < 100) await setTimeout(5);
  await board.unplug();
  await setTimeout(150);
  await board.plugIn();
  while (!board.heard().includes("resend")) await setTimeout(5);
  expect(board.heard()).toMatch(/resend 101\n/);
  await sayLines(101, 200);
  while (arrivals.counts.good < 200) await setTimeout(5);
  stop.abort();
  expect(await counting).toEqual({ stored: 199, repeated: 0, contradicted: 0 });
  expect(kinds).toContain("board-unplugged");
  await board.unplug();
}, 30_000);

test("a recording started again asks the board for what came since the last line it holds", async () => {
  await using store = await openStore(join(folder, "again.coldfall"), { groupWaitMs: 5 });
  const fridge = await store.fridges.add({ name: "Larch" });
  for (const [first, last] of [
    [2, 50],
    [51, 90],
  ] as const) {
    const board = await ptyPair();
    const stop = new AbortController();
    const port = await listenToPort(board.path, { signal: stop.signal, retryMs: 50 });
    const greeting = firstHello(port);
    while (!board.heard().includes("identify")) await setTimeout(5);
    // The second hello is a line that the first recording had heard.
    await board.say(`${probeLineText(hello(1))}\n`);
    const greeted = await greeting;
    if (greeted === null) throw new Error("no hello");
    const roles = await boardRoles(store, greeted.hello, fridge, Date.now());
    const wanted = { fridgeId: fridge.id, origin: "board", purpose: "test", startedUnixMs: Date.now() } as const;
    const { run, lastUnixMs } = await runToRecord(store, { ...wanted, utcOffsetMinutes: 0 }, Date.now());
    const lastLine = lastUnixMs === null ? null : await lastLineOf(store.readings, run.id, "larch-board");
    const arrivals = boardArrivals(greeted.happenings, { roles, last: lastLine, say: port.say });
    const counting = recordRun(arrivals, store, run.id, () => {});
    if (lastLine !== null) {
      while (!board.heard().includes("resend")) await setTimeout(5);
      expect(board.heard()).toMatch(/resend 51\n/);
    }
    const awaited = arrivals.counts.good + 1 + last - first + (lastLine === null ? 1 : 0);
    for (let sequence = first; sequence <= last; sequence++) await board.say(`${probeLineText(reading(sequence))}\n`);
    while (arrivals.counts.good < awaited) await setTimeout(5);
    stop.abort();
    expect(await counting).toEqual({ stored: 1 + last - first, repeated: 0, contradicted: 0 });
    await board.unplug();
  }
  const { runs } = await store.runs.list();
  expect(runs).toHaveLength(1);
}, 30_000);
