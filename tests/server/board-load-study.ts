// Many boards at once: packs over the network to a service in a process of its own, lines over ptys to recorders in another,
// all into one store. What is measured is what a board sees: from the instant at which a reading was due to be sent to the
// one at which it is durable.

import { type ChildProcess, fork } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { Agent, get, type IncomingMessage, request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { openStore } from "../../src/store/index.ts";
import { probeLineText } from "../ingest/probe-line-text.ts";
import { type PtyPair, ptyPair } from "../workshop/pty-pair.ts";

export interface LoadOrder {
  readonly networkBoards: number;
  readonly ptyBoards: number;
  readonly seconds: number;
  /** Decides when within its second each board sends. */
  readonly seed: number;
  /** Pages that look on; none unless stated. */
  readonly viewers?: number;
}

export interface LoadFigures {
  readonly sent: number;
  readonly kept: number;
  /** Answers that were not "kept", by their status; "no answer" for a connection that broke. A board then sends the pack again. */
  readonly refused: { readonly [status: string]: number };
  readonly networkMs: readonly number[];
  readonly ptyMs: readonly number[];
  /** Until the stream answers a page that begins to look on, with all runs open. */
  readonly firstAnswerMs: number | null;
  /** From the instant of a reading to its coming to a page, of every reading and page. */
  readonly shownMs: readonly number[];
  /** Of all readings, how many came to the page that got least, and how many there were. */
  readonly shown: { readonly least: number; readonly all: number } | null;
  /** Of one core, while boards sent. */
  readonly serviceShare: number;
  readonly recorderShare: number;
}

/** What the two processes tell: where they are, and how much they worked. */
export type ProcessNews =
  | { readonly kind: "ready"; readonly port: number }
  | { readonly kind: "worked"; readonly cpuMs: number }
  | {
      readonly kind: "durable";
      readonly lines: readonly (readonly [board: string, sequence: number, unixMs: number])[];
    };

const probesEach = ["evaporator", "cabinet", "ambient"] as const;

/** Runs it. */
export async function boardLoad({
  networkBoards,
  ptyBoards,
  seconds,
  seed,
  viewers = 0,
}: LoadOrder): Promise<LoadFigures> {
  const folder = mkdtempSync(join(tmpdir(), "coldfall-load-"));
  const storeFile = join(folder, "store.coldfall");
  const random = randomFrom(seed);
  const tokens = await setUp(storeFile, networkBoards, ptyBoards);
  const ptys: PtyPair[] = [];
  for (let i = 0; i < ptyBoards; i++) ptys.push(await ptyPair());
  const service = started("service-process.ts", [storeFile]);
  const recorder = started("recorder-process.ts", [storeFile, ...ptys.map(({ path }) => path)]);
  try {
    const { port } = await news(service, "ready");
    const saidAt = new Map<string, number>();
    const greeting = setInterval(() => greetEach(ptys), 100);
    await news(recorder, "ready").finally(() => clearInterval(greeting));
    const pages = await Promise.all(Array.from({ length: viewers }, () => lookOn(port)));
    const before = await Promise.all([service, recorder].map(worked));
    const began = Date.now();
    const agent = new Agent({ keepAlive: true });
    const boards = tokens.map((token, i) => sendPacks(port, `net-${i}`, token, { began, seconds, random, agent }));
    const lines = ptys.map((pty, i) => sayLines(pty, i, { began, seconds, random, saidAt }));
    const [packs] = await Promise.all([Promise.all(boards), Promise.all(lines)]);
    const wallMs = Date.now() - began;
    const after = await Promise.all([service, recorder].map(worked));
    agent.destroy();
    // Lines on their way to the disk.
    await sleep(1500);
    const durable = await asked(recorder, "durable", "durable");
    const network = packs.flat();
    // A page that begins to look on now finds all runs open.
    const late = viewers === 0 ? null : await lookOn(port);
    for (const page of [...pages, ...(late === null ? [] : [late])]) page.leave();
    await Promise.all([service, recorder].map(stopped));
    return {
      sent: (networkBoards + ptyBoards) * seconds * probesEach.length,
      kept: await keptIn(storeFile),
      refused: counted(network.flatMap(({ refusals }) => refusals)),
      networkMs: network.map(({ ms }) => ms),
      ptyMs: durable.lines.map(
        ([board, sequence, unixMs]) => unixMs - (saidAt.get(`${board} ${sequence}`) ?? Number.NaN),
      ),
      firstAnswerMs: late?.answeredMs ?? null,
      shownMs: pages.flatMap(({ delays }) => delays),
      shown:
        viewers === 0
          ? null
          : {
              least: Math.min(...pages.map(({ delays }) => delays.length)),
              all: (networkBoards + ptyBoards) * seconds * probesEach.length,
            },
      serviceShare: (after[0] - before[0]) / wallMs,
      recorderShare: (after[1] - before[1]) / wallMs,
    };
  } finally {
    for (const child of [service, recorder]) child.kill();
    for (const pty of ptys) await pty.unplug();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Fridges, boards, probes and their places, as a workshop would have them; a token for each board of the network. */
async function setUp(file: string, networkBoards: number, ptyBoards: number): Promise<readonly string[]> {
  await using store = await openStore(file);
  const tokens: string[] = [];
  for (const board of [...named("net", networkBoards), ...named("pty", ptyBoards)]) {
    const { id: fridgeId } = await store.fridges.add({ name: board });
    if (board.startsWith("net")) tokens.push(await store.boards.issueToken(board));
    else await store.boards.seen(board, { unixMs: Date.now() });
    await store.boards.edit(board, { fridgeId });
    for (const position of probesEach) {
      const probeId = probeOf(board, position);
      await store.probes.put({ id: probeId });
      await store.probes.assign({ probeId, fridgeId, boardId: board, position, sinceUnixMs: 0 });
    }
  }
  return tokens;
}

const counted = (words: readonly string[]) =>
  Object.fromEntries([...Map.groupBy(words, (word) => word)].map(([word, own]) => [word, own.length]));

const named = (kind: string, count: number) => Array.from({ length: count }, (_, i) => `${kind}-${i}`);
const probeOf = (board: string, position: string) => `${board}-${position}`;
const value = (second: number, i: number) => 8 + i + ((second * 7) % 16) / 16;

interface Sending {
  readonly began: number;
  readonly seconds: number;
  readonly random: () => number;
}

/** A pack a second, whether or not the one before was answered: a board does not wait. */
async function sendPacks(
  port: number,
  board: string,
  token: string,
  { began, seconds, random, agent }: Sending & { readonly agent: Agent },
): Promise<readonly Answer[]> {
  const phase = random() * 1000;
  const answers: Promise<Answer>[] = [];
  for (let second = 0; second < seconds; second++) {
    const due = began + phase + 1000 * second;
    await sleep(Math.max(0, due - Date.now()));
    const records = probesEach.map((position, i) => ({ n: probeOf(board, position), u: "Cel", v: value(second, i) }));
    const pack = JSON.stringify([{ ...records[0], bt: due / 1000 }, ...records.slice(1)]);
    answers.push(untilKept(() => post(port, board, token, pack, agent), due));
  }
  return Promise.all(answers);
}

interface Answer {
  readonly ms: number;
  /** Of the attempts before the one that was kept, or of all of them. */
  readonly refusals: readonly string[];
}

const mostAttempts = 5;

/** Sends a pack again after a second when it was not answered as kept, as a board has to: what is there already is harmless. */
async function untilKept(send: () => Promise<string | null>, due: number): Promise<Answer> {
  const refusals: string[] = [];
  while (refusals.length < mostAttempts) {
    const refusal = await send();
    if (refusal === null) break;
    refusals.push(refusal);
    await sleep(1000);
  }
  return { ms: Date.now() - due, refusals };
}

function post(port: number, board: string, token: string, pack: string, agent: Agent): Promise<string | null> {
  return new Promise((resolve) => {
    const sent = request(
      {
        host: "127.0.0.1",
        port,
        method: "POST",
        path: `/api/boards/${board}/readings`,
        agent,
        headers: {
          authorization: `Bearer ${token}`,
          "content-type": "application/senml+json",
          "content-length": Buffer.byteLength(pack),
        },
      },
      (response) => {
        let body = "";
        response.setEncoding("utf8").on("data", (text: string) => {
          body += text;
        });
        response.on("end", () => {
          const { stored = 0, repeated = 0 } = response.statusCode === 200 ? JSON.parse(body) : {};
          const isKept = stored + repeated === probesEach.length;
          resolve(isKept ? null : `${response.statusCode}`);
        });
      },
    );
    sent.on("error", () => resolve("no answer"));
    sent.end(pack);
  });
}

interface LookingOn {
  readonly answeredMs: number;
  /** Of every reading that came, ms since its instant. */
  readonly delays: readonly number[];
  readonly leave: () => void;
}

/** A page at the live stream. */
async function lookOn(port: number): Promise<LookingOn> {
  const began = performance.now();
  const delays: number[] = [];
  const response = await new Promise<IncomingMessage>((resolve, reject) => {
    get({ host: "127.0.0.1", port, path: "/api/live", agent: false }, resolve).on("error", reject);
  });
  const answeredMs = performance.now() - began;
  let rest = "";
  response.setEncoding("utf8").on("data", (text: string) => {
    const events = (rest + text).split("\n\n");
    rest = events.pop() ?? "";
    for (const event of events) {
      if (!event.includes("event: readings")) continue;
      const { unixMs } = JSON.parse(/^data: (.*)$/m.exec(event)?.[1] ?? "{}");
      for (const at of unixMs) delays.push(Date.now() - at);
    }
  });
  response.on("error", () => {});
  return { answeredMs, delays, leave: () => void response.destroy() };
}

/** The boards that were asked who they are say it, as often as they are asked. */
function greetEach(ptys: readonly PtyPair[]): void {
  for (const [i, pty] of ptys.entries()) if (pty.heard().includes("identify")) void pty.say(`${helloOf(`pty-${i}`)}\n`);
}

const helloOf = (boardId: string) =>
  probeLineText({
    type: "hello",
    boardId,
    boot: 1,
    sequence: 1,
    uptimeMs: 0,
    formatVersion: 1,
    firmware: "1.0.0",
    reason: "power-on",
    intervalSeconds: 1,
    probes: probesEach.map((position) => ({
      probeId: probeOf(boardId, position),
      role: null,
      unit: "Cel",
      resolution: 0.0625,
    })),
  });

async function sayLines(
  pty: PtyPair,
  index: number,
  { began, seconds, random, saidAt }: Sending & { readonly saidAt: Map<string, number> },
): Promise<void> {
  const board = `pty-${index}`;
  const phase = random() * 1000;
  for (let second = 0; second < seconds; second++) {
    const due = began + phase + 1000 * second;
    await sleep(Math.max(0, due - Date.now()));
    const lines = probesEach.map((position, i) => {
      const sequence = 2 + probesEach.length * second + i;
      saidAt.set(`${board} ${sequence}`, due);
      return probeLineText({
        type: "reading",
        boardId: board,
        boot: 1,
        sequence,
        uptimeMs: 1000 * (second + 1),
        probeId: probeOf(board, position),
        value: value(second, i),
        unit: "Cel",
      });
    });
    await pty.say(`${lines.join("\n")}\n`);
  }
}

async function keptIn(file: string): Promise<number> {
  await using store = await openStore(file);
  const { damage, readings } = await store.care.check();
  if (damage.length > 0) throw new Error(`the store is damaged: ${JSON.stringify(damage[0])}`);
  return readings;
}

const started = (script: string, args: readonly string[]): ChildProcess =>
  fork(join(import.meta.dirname, "load", script), [...args], { stdio: ["ignore", "inherit", "inherit", "ipc"] });

/** The next message of that kind. */
async function news<K extends ProcessNews["kind"]>(
  child: ChildProcess,
  kind: K,
): Promise<Extract<ProcessNews, { kind: K }>> {
  for (;;) {
    const [message] = (await Promise.race([
      once(child, "message"),
      once(child, "exit").then(([code]) => {
        throw new Error(`${child.spawnargs[1]} ended with ${code}`);
      }),
    ])) as [ProcessNews];
    if (message.kind === kind) return message as Extract<ProcessNews, { kind: K }>;
  }
}

function asked<K extends ProcessNews["kind"]>(child: ChildProcess, question: string, kind: K) {
  const answer = news(child, kind);
  child.send(question);
  return answer;
}

const worked = async (child: ChildProcess) => (await asked(child, "worked", "worked")).cpuMs;

async function stopped(child: ChildProcess): Promise<void> {
  const exit = once(child, "exit");
  child.send("stop");
  await exit;
}

/** Mulberry32: the same seed sends at the same instants. */
function randomFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let bits = Math.imul(state ^ (state >>> 15), 1 | state);
    bits = (bits + Math.imul(bits ^ (bits >>> 7), 61 | bits)) ^ bits;
    return ((bits ^ (bits >>> 14)) >>> 0) / 2 ** 32;
  };
}
