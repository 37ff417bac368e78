import { expect, test } from "vitest";
import { raw, running } from "./service.ts";

test("the service says that it is well, to anyone", async () => {
  const { call } = await running({ now: () => 1_700_000_000_000 });
  const { answer } = await call("GET /api/health");
  expect(answer).toEqual({ status: "well", version: "0.0.0-test", nowUnixMs: 1_700_000_000_000 });
});

test("a fridge is added, changed, removed and restored", async () => {
  const { call, problem } = await running();
  const { answer: added, status } = await call("POST /api/fridges", { body: { name: "Larch", cabinetLitres: 90 } });
  expect(status).toBe(201);
  const params = { fridgeId: added.id };
  await call("PATCH /api/fridges/{fridgeId}", { params, body: { notes: "new seal" } });
  expect((await call("GET /api/fridges/{fridgeId}", { params })).answer).toMatchObject({
    name: "Larch",
    cabinetLitres: 90,
    notes: "new seal",
  });
  await call("DELETE /api/fridges/{fridgeId}", { params });
  expect((await call("GET /api/fridges")).answer.fridges).toEqual([]);
  expect((await call("GET /api/fridges", { query: { removed: true } })).answer.fridges).toHaveLength(1);
  await call("POST /api/fridges/{fridgeId}/restore", { params });
  expect((await call("GET /api/fridges")).answer.fridges.map(({ name }) => name)).toEqual(["Larch"]);
  expect(await problem(call("POST /api/fridges", { body: { name: "larch" } }))).toMatchObject({
    status: 409,
    code: "name-taken",
  });
});

test("a baseline file with a run of another fridge does not become a fridge's own, one of its kind may", async () => {
  const { call, problem } = await running();
  const { id: fridgeId } = (await call("POST /api/fridges", { body: { name: "Larch" } })).answer;
  const params = { fridgeId };
  const fileOf = (kind: "own" | "kind", fridge: string) => ({
    ...{
      format: "coldfall-baseline-1" as const,
      program: { name: "coldfall" as const, version: "0.0.0", method: "1" },
      kind,
    },
    runs: [
      {
        ...{ name: "oak.csv", utcOffsetMinutes: 0, start: "2026-06-04T20:00:00Z", secondsSinceStart: [0, 60] },
        ...{ columns: { cabinet: [20, 19] }, sources: null, sheet: { fridge } },
      },
    ],
  });
  const add = (kind: "own" | "kind", fridge: string) =>
    call("POST /api/fridges/{fridgeId}/baselines", { params, body: { kind, file: fileOf(kind, fridge) } });
  const refused = await problem(add("own", "Oak"));
  expect(refused).toMatchObject({ status: 422, code: "baseline-of-other-fridge" });
  expect(refused.detail).toMatch(/"oak\.csv" in the baseline file is of the fridge "Oak" and not of "Larch"/);
  expect((await call("GET /api/fridges/{fridgeId}/baselines", { params })).answer.baselines).toEqual([]);
  expect((await add("kind", "Oak")).status).toBe(201);
  expect((await add("own", " larch ")).status).toBe(201);
});

test("what is not there is a problem with a stable type, and the type can be looked up", async () => {
  const { call, problem, base } = await running();
  const missing = await problem(call("GET /api/fridges/{fridgeId}", { params: { fridgeId: "nobody" } }));
  expect(missing).toMatchObject({ status: 404, code: "no-such-record", type: "/api/problems/no-such-record" });
  expect(missing.detail).toMatch(/nobody/);
  const meaning = await (await fetch(base + missing.type)).json();
  expect(meaning).toMatchObject({ code: "no-such-record", status: 404 });
  const answer = await fetch(`${base}/api/nothing`);
  expect(answer.headers.get("Content-Type")).toMatch(/^application\/problem\+json/);
  expect(await answer.json()).toMatchObject({ status: 404, code: "no-such-address" });
});

test("a method that an address does not know is refused, naming those it does", async () => {
  const { port } = await running();
  const answer = await raw(port, "PUT", "/api/fridges", { "Coldfall-Request": "1" });
  expect(answer.status).toBe(405);
  expect(answer.headers.allow).toBe("GET, POST");
});

test("a body with a wrong part is refused, naming the part", async () => {
  const { base } = await running();
  const send = (body: string, type = "application/json") =>
    fetch(`${base}/api/fridges`, { method: "POST", body, headers: { "Content-Type": type, "Coldfall-Request": "1" } });
  const wrong = await (await send('{"name":"Larch","ratedWatts":{"gas":-3}}')).json();
  expect(wrong).toMatchObject({ status: 422, code: "wrong-shape", fields: [{ where: "ratedWatts.gas" }] });
  expect(await (await send('{"name":"Larch","colour":"red"}')).json()).toMatchObject({ status: 422 });
  expect(await (await send('{"name":')).json()).toMatchObject({ status: 400, code: "not-json" });
  expect(await (await send("name=Larch", "text/plain")).json()).toMatchObject({ status: 415, code: "wrong-media" });
});

test("a question with a wrong part is refused, and one with an unknown part too", async () => {
  const { base } = await running();
  const asked = async (query: string) => (await fetch(`${base}/api/runs?${query}`)).json();
  expect(await asked("limit=many")).toMatchObject({ status: 400, code: "bad-request", fields: [{ where: "limit" }] });
  expect(await asked("colour=red")).toMatchObject({ status: 400 });
});

test("an answer that the caller has already is not sent again", async () => {
  const { call, port } = await running();
  await call("POST /api/fridges", { body: { name: "Larch" } });
  const { etag = "" } = (await raw(port, "GET", "/api/fridges")).headers;
  expect(etag).toMatch(/^"[\w-]+"$/);
  const ask = () => raw(port, "GET", "/api/fridges", { "If-None-Match": etag });
  expect(await ask()).toMatchObject({ status: 304, body: "" });
  await call("POST /api/fridges", { body: { name: "Birch" } });
  expect((await ask()).status).toBe(200);
});

test("a change that starts from an old state is refused when it says so", async () => {
  const { call, problem } = await running();
  const { answer } = await call("POST /api/fridges", { body: { name: "Larch" } });
  const params = { fridgeId: answer.id };
  const { etag } = await call("GET /api/fridges/{fridgeId}", { params });
  const change = (notes: string) =>
    call("PATCH /api/fridges/{fridgeId}", { params, body: { notes }, ifMatch: etag ?? "" });
  await change("first");
  expect(await problem(change("second"))).toMatchObject({ status: 412, code: "changed-meanwhile" });
  expect((await call("GET /api/fridges/{fridgeId}", { params })).answer.notes).toBe("first");
});
