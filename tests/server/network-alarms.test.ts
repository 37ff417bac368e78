// Boards over the network are watched as a recorder watches its own: nights posted in accelerated time.

import { createHmac } from "node:crypto";
import { once } from "node:events";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { expect, onTestFinished, test, vi } from "vitest";
import { msPerHour, msPerMinute } from "../../src/schema/index.ts";
import type { AlarmOptions } from "../../src/server/network-alarms.ts";
import { boardClaimName } from "../../src/workshop/recording/index.ts";
import { signatureHeader } from "../../src/workshop/recording/webhook.ts";
import { at, begunMs, nightOnMains } from "../workshop/night-on-mains.ts";
import { type Running, running } from "./service.ts";

/** The supply is lost for good at 22:00. */
const night = nightOnMains(7.5, [{ atHours: 4, hours: 4 }]);
const claimName = "watch over network boards";
const probes = ["evaporator", "cabinet", "ambient"] as const;

/** Fast looks, far apart in the run's time: a fit each simulated minute would be all that the test does. */
const pace = { everyMs: 10, lookEveryMs: 5 * msPerMinute, share: 1, sleptMs: Number.POSITIVE_INFINITY };

async function bench(alarms: AlarmOptions = {}) {
  const clock = { nowMs: begunMs };
  const lines: string[] = [];
  const service = await running({
    now: () => clock.nowMs,
    defencesOff: ["request-limit"],
    alarms: { ...alarms, pace: { ...pace, ...alarms.pace }, tell: (line) => void lines.push(line) },
  });
  const { store, call } = service;
  const { id: fridgeId } = await store.fridges.add({ name: "Larch" });
  const { id: otherFridge } = await store.fridges.add({ name: "Oak" });
  const tokens = new Map<string, string>();
  for (const boardId of ["b1", "b2"]) {
    tokens.set(boardId, (await call("POST /api/boards/{boardId}/token", { params: { boardId } })).answer.token);
    await call("PATCH /api/boards/{boardId}", {
      params: { boardId },
      body: { fridgeId: boardId === "b1" ? fridgeId : otherFridge },
    });
  }
  /** One pack, as it arrives now. */
  const pack = async (records: readonly object[], { base = service.base, boardId = "b1" } = {}) => {
    const answer = await fetch(`${base}/api/boards/${boardId}/readings`, {
      method: "POST",
      body: JSON.stringify(records),
      headers: { "Content-Type": "application/senml+json", Authorization: `Bearer ${tokens.get(boardId)}` },
    });
    return (await answer.json()) as { readonly runId: string; readonly stored: number };
  };
  /** The readings of some hours of a night, a pack a minute. */
  const post = async (fromHours: number, toHours: number, to: { base?: string; boardId?: string } = {}) => {
    let runId = "";
    for (const [row, unixMs] of night.unixMs.entries()) {
      if (unixMs < at(fromHours) || unixMs >= at(toHours)) continue;
      clock.nowMs = unixMs;
      runId = (await pack(rowOf(row), to)).runId;
    }
    return runId;
  };
  const tell = (source: "off" | "mains" | "gas") =>
    call("POST /api/fridges/{fridgeId}/source", { params: { fridgeId }, body: { source } });
  return { ...service, clock, lines, pack, post, tell, otherFridge };
}

const rowOf = (row: number) =>
  probes.map((n) => ({ n, u: "Cel", v: night.columns[n]?.[row] ?? 0, t: night.unixMs[row] / 1000 }));

/** Time goes on to an hour, and everybody has looked. */
async function quietUntil({ clock }: { readonly clock: { nowMs: number } }, hours: number) {
  for (; clock.nowMs < at(hours); clock.nowMs += msPerMinute) await new Promise((resolve) => setTimeout(resolve, 15));
  await new Promise((resolve) => setTimeout(resolve, 100));
}

const kinds = async ({ store }: Pick<Running, "store">, runId: string) =>
  (await store.alarms.list({ runId })).map(({ kind }) => kind).toReversed();

/** These are raised, sooner or later, and no others. */
const raised = (it: Pick<Running, "store">, runId: string, expected: readonly string[]) =>
  vi.waitFor(async () => expect(await kinds(it, runId)).toEqual(expected), 10_000);

/** Somebody who gets alarms. */
async function receiver() {
  const got: { readonly kind: string; readonly fridge: string; readonly text: string; readonly isOurs: boolean }[] = [];
  const server = createServer(async (request, response) => {
    const chunks: Buffer[] = [];
    for await (const chunk of request) chunks.push(chunk);
    const body = Buffer.concat(chunks).toString();
    const signature = `sha256=${createHmac("sha256", "between us").update(body).digest("hex")}`;
    got.push({ ...JSON.parse(body), isOurs: request.headers[signatureHeader] === signature });
    response.end();
  }).listen(0, "127.0.0.1");
  await once(server, "listening");
  onTestFinished(() => void server.close());
  const hook = { url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`, secret: "between us" };
  return { got, hook };
}

test("a supply lost at night is an alarm in the store, on the page and at the receiver, once; acknowledged as any other", async () => {
  const { got, hook } = await receiver();
  const it = await bench({ hook });
  const runId = await it.post(0, 0.5);
  await it.tell("mains");
  await it.post(0.5, 6);
  await raised(it, runId, ["cooling-stopped"]);
  const { answer } = await it.call("GET /api/runs/{runId}/now", { params: { runId } });
  const onPage = answer.alarms.filter(({ text }) => /cooling stopped/.test(text));
  expect(onPage).toMatchObject([{ isWaiting: true, caution: expect.anything() }]);
  const [kept] = await it.store.alarms.list({ runId });
  expect(kept).toMatchObject({ kind: "cooling-stopped", reason: { source: "mains", subject: "mains" } });
  // Within an hour and a half of the loss, as a recorder has it (bench stop-study).
  expect(kept.raisedUnixMs).toBeGreaterThan(at(4));
  expect(kept.raisedUnixMs).toBeLessThan(at(5.5));
  await vi.waitFor(() => expect(got).not.toEqual([]), 5000);
  await it.call("POST /api/alarms/{alarmId}/acknowledge", { params: { alarmId: kept.id } });
  await it.post(6, 7);
  await new Promise((resolve) => setTimeout(resolve, 2500));
  expect(got).toMatchObject([{ kind: "cooling-stopped", fridge: "Larch", isOurs: true }]);
  expect(await kinds(it, runId)).toEqual(["cooling-stopped"]);
  expect(it.lines).toEqual([expect.stringMatching(/^Larch: .*cooling stopped/)]);
}, 60_000);

test("the service started again in the middle raises nothing twice and loses nothing", async () => {
  const { got, hook } = await receiver();
  const it = await bench({ hook });
  const runId = await it.post(0, 0.5);
  await it.tell("mains");
  // The supply was lost half an hour ago: no alarm yet.
  await it.post(0.5, 4.5);
  expect(await kinds(it, runId)).toEqual([]);
  const second = await it.restarted();
  await it.post(4.5, 6, second);
  await raised(it, runId, ["cooling-stopped"]);
  const third = await it.restarted();
  await it.post(6, 7, third);
  await new Promise((resolve) => setTimeout(resolve, 2500));
  expect(await kinds(it, runId)).toEqual(["cooling-stopped"]);
  expect(got.map(({ kind }) => kind)).toEqual(["cooling-stopped"]);
}, 60_000);

test("a board that falls silent is noticed by time going on, also by a service that was started meanwhile", async () => {
  const it = await bench();
  const runId = await it.post(0, 0.5);
  await quietUntil(it, 0.55);
  expect(await kinds(it, runId)).toEqual([]);
  const { base } = await it.restarted();
  await quietUntil(it, 0.8);
  await raised(it, runId, ["board-silent"]);
  // Back, and over.
  await it.post(1, 1.2, { base });
  await vi.waitFor(async () => {
    expect(await it.store.alarms.list({ runId })).toMatchObject([{ clearedUnixMs: expect.any(Number) }]);
  }, 5000);
}, 30_000);

test("what came while the service did not run was not watched, and the morning says so; nobody was silent then", async () => {
  const it = await bench({ pace: { sleptMs: 2 * 3_600_000 } });
  const runId = await it.post(0, 0.5);
  const second = await it.restarted(() => {
    it.clock.nowMs = at(8);
  });
  it.clock.nowMs = at(8) + 1000;
  await it.pack([{ n: "cabinet", u: "Cel", v: 7 }], second);
  await quietUntil(it, 8.05);
  expect(await kinds(it, runId)).toEqual([]);
  const [unwatched, ...others] = await it.store.events.list(runId);
  expect(others).toEqual([]);
  expect(unwatched).toMatchObject({ kind: "unwatched", fromUnixMs: night.unixMs[29] });
  expect(unwatched.toUnixMs).toBeGreaterThanOrEqual(at(8));
}, 30_000);

test("a machine that slept heard nobody: only from then on is a board silent, and the morning tells when nobody watched", async () => {
  const it = await bench({ pace: { sleptMs: msPerHour } });
  const runId = await it.post(0, 0.5);
  await quietUntil(it, 0.52);
  it.clock.nowMs = at(3);
  await quietUntil(it, 3.05);
  expect(await kinds(it, runId)).toEqual([]);
  await quietUntil(it, 3.2);
  await raised(it, runId, ["board-silent"]);
  const [kept] = await it.store.alarms.list({ runId });
  expect(kept.raisedUnixMs).toBeGreaterThanOrEqual(at(3) + 5 * msPerMinute);
  expect(await it.store.events.list(runId)).toMatchObject([{ kind: "unwatched", toUnixMs: expect.any(Number) }]);
}, 30_000);

test("a run that nothing comes for is forgotten when the next pack would open another, and then nothing is claimed", async () => {
  const it = await bench();
  const runId = await it.post(0, 0.2);
  const claimed = () => it.store.boards.claimOf(claimName, 0);
  await vi.waitFor(async () => expect(await claimed()).not.toBeNull(), 5000);
  await quietUntil(it, 0.4);
  it.clock.nowMs = at(12);
  await quietUntil(it, 12.1);
  await raised(it, runId, ["board-silent"]);
  it.clock.nowMs = at(12.3);
  await vi.waitFor(async () => expect(await claimed()).toBeNull(), 5000);
}, 30_000);

test("more than may wait between two looks is read from the store", async () => {
  const it = await bench({ pace: { everyMs: 1500 } });
  const runId = await it.post(0, 0.1);
  await it.tell("mains");
  const rows = [...night.unixMs.keys()].slice(6, 330);
  it.clock.nowMs = night.unixMs[330];
  // Six readings a minute of each probe, the newest pack last; more than five thousand.
  for (let seconds = 0; seconds < 60; seconds += 10)
    await it.pack(rows.flatMap((row) => rowOf(row).map((record) => ({ ...record, t: record.t + seconds }))));
  await raised(it, runId, ["cooling-stopped"]);
}, 30_000);

test("quiet hours hold an alarm back but for gas, keep it at once, and it is sent when they are over", async () => {
  const { got, hook } = await receiver();
  // Runs go by this machine's zone.
  const offset = -new Date(begunMs).getTimezoneOffset() / 60;
  const hour = (utc: number) => (((utc + offset) % 24) + 24) % 24;
  const it = await bench({ hook, orders: { quiet: { fromHour: hour(20), toHour: hour(1) } } });
  const runId = await it.post(0, 0.5);
  await it.tell("mains");
  await it.post(0.5, 6.9);
  await raised(it, runId, ["cooling-stopped"]);
  await new Promise((resolve) => setTimeout(resolve, 2500));
  expect(got).toEqual([]);
  await it.post(6.9, 7.2);
  await vi.waitFor(() => expect(got).toMatchObject([{ kind: "cooling-stopped" }]), 5000);
}, 60_000);

test("gas told while the board sends is what is watched from then on: its alarm does not wait for the morning", async () => {
  const { got, hook } = await receiver();
  const it = await bench({ hook, orders: { quiet: { fromHour: 0, toHour: 24 } } });
  const runId = await it.post(0, 0.5);
  await it.tell("mains");
  await it.post(0.5, 2);
  await it.tell("gas");
  await it.post(2, 6);
  await vi.waitFor(() => expect(got).toMatchObject([{ kind: "cooling-stopped", subject: "gas" }]), 5000);
  expect(got[0].text).toMatch(/Do not relight/i);
  expect(await kinds(it, runId)).toEqual(["cooling-stopped"]);
}, 60_000);

test("a run that a recorder listens to is judged by the recorder alone, and again here when it has ended", async () => {
  const it = await bench();
  const claim = { name: boardClaimName("b1"), holder: "process 1 on another bench", untilUnixMs: at(100) };
  const runId = await it.post(0, 0.5);
  await it.store.boards.claim(claim, it.clock.nowMs);
  await quietUntil(it, 1);
  await it.post(1, 1.3);
  await quietUntil(it, 1.6);
  expect(await kinds(it, runId)).toEqual([]);
  await it.store.boards.release(claim.name, claim.holder);
  await it.post(1.6, 1.8);
  await quietUntil(it, 2);
  await raised(it, runId, ["board-silent"]);
}, 30_000);

test("a run that was closed, or removed, is watched no longer", async () => {
  const it = await bench();
  const runId = await it.post(0, 0.5);
  await it.call("PATCH /api/runs/{runId}", { params: { runId }, body: { endedUnixMs: it.clock.nowMs } });
  const other = await it.post(0.6, 0.8);
  expect(other).not.toBe(runId);
  await quietUntil(it, 1.2);
  expect(await kinds(it, runId)).toEqual([]);
  await raised(it, other, ["board-silent"]);
}, 30_000);

test("of two services over one store one watches; the other says so once, and takes over when it has ended", async () => {
  const it = await bench();
  const claim = { name: claimName, holder: "process 1 on another bench", untilUnixMs: at(100) };
  await it.store.boards.claim(claim, begunMs);
  const runId = await it.post(0, 0.5);
  await vi.waitFor(() => expect(it.lines).toEqual([expect.stringContaining(claim.holder)]), 10_000);
  await quietUntil(it, 1);
  expect(await kinds(it, runId)).toEqual([]);
  await it.store.boards.release(claim.name, claim.holder);
  // What it refused to watch a minute ago it asks for again.
  await quietUntil(it, 1.1);
  await it.post(1.2, 1.4);
  await quietUntil(it, 1.6);
  await raised(it, runId, ["board-silent"]);
  expect(it.lines).toHaveLength(2);
}, 40_000);

test("a board put on another fridge is not silent on the one before", async () => {
  const it = await bench();
  const runId = await it.post(0, 0.5);
  await it.call("PATCH /api/boards/{boardId}", { params: { boardId: "b1" }, body: { fridgeId: it.otherFridge } });
  const other = await it.post(0.5, 1);
  expect(other).not.toBe(runId);
  expect(await kinds(it, runId)).toEqual([]);
  await quietUntil(it, 1.2);
  await raised(it, other, ["board-silent"]);
  expect(await kinds(it, runId)).toEqual([]);
}, 30_000);

test("a disk that runs full is one alarm, not one of each run", async () => {
  const it = await bench({ freeMegabytes: () => 100 });
  const first = await it.post(0, 0.1);
  const second = await it.post(0.1, 0.14, { boardId: "b2" });
  expect(second).not.toBe(first);
  await it.post(0.14, 0.18);
  await raised(it, first, ["disk-low"]);
  expect(await kinds(it, second)).toEqual([]);
});

test("packs that come late, out of order or twice raise nothing", async () => {
  const it = await bench();
  const runId = await it.post(2, 2.8);
  // Cold, then what its memory held of the warm hours before, backwards; each pack twice.
  const before = [...night.unixMs.entries()].filter(([, unixMs]) => unixMs < at(2)).toReversed();
  for (const [row] of before) {
    for (let i = 0; i < 2; i++) await it.pack(rowOf(row));
  }
  await it.post(2.8, 3.2);
  await it.post(3, 3.2);
  await new Promise((resolve) => setTimeout(resolve, 200));
  expect(await kinds(it, runId)).toEqual([]);
}, 60_000);
