import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { BoardIntake } from "../../src/server/board-intake.ts";
import { type Running, running, type Settings } from "./service.ts";

const now = Date.UTC(2026, 5, 4, 20);

async function withBoard(settings: Settings = {}) {
  const service = await running({ now: () => now, ...settings });
  const { store, call } = service;
  const { id: fridgeId } = await store.fridges.add({ name: "Larch" });
  const params = { boardId: "bench-1" };
  const { token } = (await call("POST /api/boards/{boardId}/token", { params })).answer;
  await call("PATCH /api/boards/{boardId}", { params, body: { fridgeId } });
  await call("PUT /api/probes/{probeId}", { params: { probeId: "28-00aa" }, body: { label: "blue" } });
  await call("PUT /api/probes/{probeId}/roles/{fridgeId}", {
    params: { probeId: "28-00aa", fridgeId },
    body: { boardId: "bench-1", position: "evaporator" },
  });
  return { ...service, token, fridgeId };
}

// biome-ignore lint/suspicious/noExplicitAny: each test looks into the answer it asked for
type Answer = Omit<Response, "json"> & { readonly json: () => Promise<any> };

const send = ({ base }: Running, token: string | null, pack: unknown, boardId = "bench-1"): Promise<Answer> =>
  fetch(`${base}/api/boards/${boardId}/readings`, {
    method: "POST",
    body: JSON.stringify(pack),
    headers: {
      "Content-Type": "application/senml+json",
      ...(token === null ? {} : { Authorization: `Bearer ${token}` }),
    },
  });

test("a pack goes to the positions of its probes, in one run, and is durable when it is answered", async () => {
  const service = await withBoard();
  const pack = [
    { bt: now / 1000, n: "28-00aa", u: "Cel", v: -3.25 },
    { n: "bench-1:cabinet", u: "K", v: 280.15 },
    { n: "ambient", u: "Cel", v: 24, t: -10 },
  ];
  const answer = await (await send(service, service.token, pack)).json();
  expect(answer).toMatchObject({ stored: 3, refused: {} });
  const { columns } = await service.store.readings.recording(answer.runId);
  expect(columns.evaporator?.filter(Number.isFinite)).toEqual(Float64Array.of(-3.25));
  expect(columns.cabinet?.filter(Number.isFinite)[0]).toBeCloseTo(7, 10);
  expect(await (await send(service, service.token, pack)).json()).toMatchObject({
    runId: answer.runId,
    stored: 0,
    repeated: 3,
  });
});

test("packs that come at the same time open one run", async () => {
  const { store, fridgeId } = await withBoard();
  const intake = new BoardIntake(store, null);
  const [board] = await store.boards.list();
  const pack = (second: number) => [{ n: "cabinet", u: "Cel", v: 7, t: now / 1000 - second }];
  const taken = await Promise.all([1, 2, 3, 4].map((second) => intake.take(board, pack(second), now)));
  expect(new Set(taken.map(({ runId }) => runId)).size).toBe(1);
  expect((await store.runs.list({ fridgeId })).runs).toHaveLength(1);
});

test("what a board cannot have measured is refused record by record and counted, and the rest is kept", async () => {
  const service = await withBoard();
  const seconds = now / 1000;
  const pack = [
    { n: "cabinet", u: "Cel", v: 7, t: seconds },
    { n: "cabinet", u: "Cel", v: 7, t: seconds + 3600 },
    { n: "cabinet", u: "Cel", v: 7, t: seconds - 366 * 86_400 },
    { n: "cabinet", u: "Cel", v: 9e6, t: seconds - 1 },
    { n: "cabinet", u: "V", v: 7, t: seconds - 2 },
    { n: "cabinet", vs: "warm", t: seconds - 3 },
    { n: "28-ffff", u: "Cel", v: 7, t: seconds - 4 },
  ];
  const refused = {
    "in-the-future": 1,
    "too-old": 1,
    unbelievable: 1,
    "wrong-unit": 1,
    "no-value": 1,
    "unknown-probe": 1,
  };
  expect(await (await send(service, service.token, pack)).json()).toMatchObject({ stored: 1, refused });
  const { answer } = await service.call("GET /api/status");
  expect(answer.refused).toMatchObject({ "record-in-the-future": 1, "record-too-old": 1 });
});

test("ohms and volts of a placed probe are kept as they came, and are °C by its curve, told before or after", async () => {
  const service = await withBoard();
  const params = { probeId: "28-00aa" };
  const at = (u: string, v: number, second: number) => ({ n: "28-00aa", u, v, t: now / 1000 - second });
  const taken = await (await send(service, service.token, [at("Ohm", 10_000, 9), at("Ohm", -1, 8)])).json();
  expect(taken).toMatchObject({ stored: 1, refused: { unbelievable: 1 } });
  const evaporator = async () => (await service.store.readings.recording(taken.runId)).columns.evaporator;
  const thermistor = { kind: "thermistor-b", curve: { ohmsAt25: 10_000, b: 3950 } } as const;
  await service.call("PUT /api/probes/{probeId}", { params, body: { curve: thermistor } });
  // By definition of the curve.
  expect((await evaporator())?.[0]).toBeCloseTo(25, 9);
  const junction = { celsius: 0, standardUncertainty: 0.5 };
  const couple = { kind: "type-k", toleranceClass: 1, coldJunction: junction } as const;
  await service.call("PUT /api/probes/{probeId}", { params, body: { curve: couple } });
  await send(service, service.token, [at("V", 0.004096, 5), at("mV", 4.096, 4)]);
  // IEC 60584-1, type K: 4.096 mV at 100 °C. The ohms mean nothing to this curve.
  expect([...((await evaporator()) ?? [])].filter(Number.isFinite).map((value) => value.toFixed(1))).toEqual([
    "100.0",
    "100.0",
  ]);
  const unnamed = await (
    await send(service, service.token, [{ n: "cabinet", u: "Ohm", v: 1e4, t: now / 1000 }])
  ).json();
  expect(unnamed).toMatchObject({ stored: 0, refused: { "wrong-unit": 1 } });
});

test("a board on no fridge is told so", async () => {
  const service = await withBoard();
  await service.call("PATCH /api/boards/{boardId}", { params: { boardId: "bench-1" }, body: { fridgeId: null } });
  const answer = await send(service, service.token, [{ n: "cabinet", u: "Cel", v: 7 }]);
  expect(await answer.json()).toMatchObject({ status: 409, code: "not-now" });
});

test("a new token makes the old one void, and only its hash lies in the store", async () => {
  const service = await withBoard();
  const { token } = (await service.call("POST /api/boards/{boardId}/token", { params: { boardId: "bench-1" } })).answer;
  const pack = [{ n: "cabinet", u: "Cel", v: 7 }];
  expect((await send(service, service.token, pack)).status).toBe(401);
  expect((await send(service, token, pack)).status).toBe(200);
  const files = readdirSync(service.folder).filter((name) => name.startsWith("store"));
  for (const name of files) expect(readFileSync(`${service.folder}/${name}`).includes(token)).toBe(false);
  expect(files.length).toBeGreaterThan(0);
});

test("a probe put elsewhere counts from the very next pack on", async () => {
  const service = await withBoard();
  const sent = async (second: number) => {
    const answer = await send(service, service.token, [{ n: "28-00aa", u: "Cel", v: 7, t: now / 1000 - second }]);
    return ((await answer.json()) as { runId: string }).runId;
  };
  const runId = await sent(20);
  await service.call("PUT /api/probes/{probeId}/roles/{fridgeId}", {
    params: { probeId: "28-00aa", fridgeId: service.fridgeId },
    body: { boardId: "bench-1", position: "cabinet" },
  });
  expect(await sent(10)).toBe(runId);
  const held = (await service.store.runs.extents(runId)).map(({ position, readings }) => [position, readings]);
  expect(held).toEqual([
    ["evaporator", 1],
    ["cabinet", 1],
  ]);
});

test("a pack for a run that somebody removed a moment ago opens a new one", async () => {
  const service = await withBoard();
  const sent = async (second: number) => {
    const answer = await send(service, service.token, [{ n: "cabinet", u: "Cel", v: 7, t: now / 1000 - second }]);
    return (await answer.json()) as { runId: string; stored: number };
  };
  const first = await sent(20);
  // As another process does it: the service is not told.
  await service.store.runs.delete(first.runId);
  const second = await sent(10);
  expect(second.stored).toBe(1);
  expect(second.runId).not.toBe(first.runId);
});
