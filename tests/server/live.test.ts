import { createServer } from "node:http";
import { type AddressInfo, connect } from "node:net";
import { setTimeout as sleep } from "node:timers/promises";
import { expect, onTestFinished, test } from "vitest";
import { liveEvents } from "../../src/schema/api/index.ts";
import { streamTo } from "../../src/server/event-stream.ts";
import { LiveFeed } from "../../src/server/live-feed.ts";
import { viewing } from "./live-stream.ts";
import { type Running, running } from "./service.ts";

const begin = Date.UTC(2026, 5, 4, 20);

async function recordedRun({ store }: Running): Promise<string> {
  const { id: fridgeId } = await store.fridges.add({ name: "Larch" });
  const run = { fridgeId, startedUnixMs: begin, purpose: "test", origin: "board", utcOffsetMinutes: 0 } as const;
  return (await store.runs.open(run)).id;
}

const cabinet = (second: number, raw = 8) => ({ position: "cabinet" as const, unixMs: begin + 1000 * second, raw });

test("readings that another process writes are seen as they come, each once and in order", async () => {
  const service = await running({ limits: { watchMs: 20 } });
  const runId = await recordedRun(service);
  const { events, until } = await viewing(service.base);
  for (let second = 0; second < 40; second++)
    await service.store.readings.append(runId, [cabinet(second, 20 - second / 4)]);
  const seen = () => events.filter(({ kind }) => kind === "readings").flatMap(({ data }) => data.unixMs as number[]);
  await until(() => seen().length >= 40);
  await sleep(60);
  expect(seen()).toEqual(Array.from({ length: 40 }, (_, second) => begin + 1000 * second));
});

test("every event is of the shape that the interface promises", async () => {
  const service = await running({ limits: { watchMs: 20 } });
  const runId = await recordedRun(service);
  const { events, until } = await viewing(service.base);
  const { store } = service;
  await store.readings.append(runId, [cabinet(0)]);
  await until(({ kind }) => kind === "readings");
  await store.edits.make(runId, { kind: "source", unixMs: begin, source: "gas" });
  const { alarm } = await store.alarms.raise({
    runId,
    kind: "board-silent",
    raisedUnixMs: begin,
    reason: { code: "x" },
  });
  await until(({ kind }) => kind === "alarm");
  await service.call("POST /api/alarms/{alarmId}/acknowledge", { params: { alarmId: alarm.id } });
  await until(({ kind, data }) => kind === "alarm" && data.alarm.acknowledgedUnixMs !== null);
  await store.readings.append(runId, [cabinet(-5)]);
  await until(({ kind, data }) => kind === "run-reread" && data.runId === runId);
  await service.call("POST /api/runs/{runId}/end", { params: { runId } });
  await until(({ kind, data }) => kind === "run" && data.run.endedUnixMs !== null);
  expect(events.map(({ kind }) => kind)).toContain("source");
  for (const { kind, data } of events) {
    const shape = liveEvents[kind as keyof typeof liveEvents];
    expect(shape.safeParse(data).error, `${kind} ${JSON.stringify(data)}`).toBeUndefined();
  }
});

test("a viewer that comes back gets what it missed, with the id of the last event it had", async () => {
  const service = await running({ limits: { watchMs: 20 } });
  const runId = await recordedRun(service);
  const first = await viewing(service.base);
  await service.store.readings.append(runId, [cabinet(0)]);
  const { id } = await first.until(({ kind }) => kind === "readings");
  first.leave();
  await service.store.readings.append(runId, [cabinet(1)]);
  await sleep(100);
  const second = await viewing(service.base, { "Last-Event-ID": id });
  expect((await second.until(({ kind }) => kind === "readings")).data).toMatchObject({ unixMs: [begin + 1000] });
});

test("a viewer that comes back too late is told that events are gone", async () => {
  const feed = new LiveFeed(3);
  const publish = (runId: string) => feed.publish({ kind: "run-reread", data: { runId } });
  publish("0");
  const { missed: none } = feed.view(null, () => {});
  expect(none).toEqual([]);
  const ids: string[] = [];
  feed.view(null, ({ id }) => ids.push(id));
  for (const runId of ["1", "2", "3", "4"]) publish(runId);
  const missed = (after: string) => feed.view(after, () => {}).missed.map(({ text }) => text);
  expect(missed(ids[0]).map((text) => /"runId":"(\d)"/.exec(text)?.[1])).toEqual(["2", "3", "4"]);
  for (const runId of ["5", "6", "7", "8"]) publish(runId);
  expect(missed(ids[0]).join("")).toMatch(/event: missed\ndata: {"reason":"too-long-ago"}/);
  expect(missed("another-start.4").join("")).toMatch(/"service-restarted"/);
  // The gap carries the newest id: resuming from it misses nothing more.
  const [gapId] = /^id: (.*)$/m.exec(missed(ids[0])[0])?.slice(1) ?? [];
  expect(missed(gapId)).toEqual([]);
});

test("an event stream is not compressed, and says now and then that it is still there", async () => {
  const service = await running({ limits: { heartbeatMs: 30, watchMs: 20 } });
  const { response, text } = await viewing(service.base, { "Accept-Encoding": "gzip, br" });
  expect(response.headers["content-encoding"]).toBeUndefined();
  expect(response.headers["content-type"]).toBe("text/event-stream; charset=utf-8");
  expect(response.headers["cache-control"]).toContain("no-store");
  // On a busy machine the first one alone may take its time; unasked for, one comes every 15 s.
  await expect.poll(() => text().match(/^: still here$/gm)?.length, { timeout: 10_000 }).toBeGreaterThanOrEqual(2);
});

test("a viewer that does not read is let go, so that what waits for it does not pile up", async () => {
  const feed = new LiveFeed(10);
  const server = createServer((_, response) => streamTo(response, feed, null, 60_000));
  await new Promise<void>((listening) => server.listen(0, "127.0.0.1", listening));
  onTestFinished(() => void server.close());
  const socket = connect((server.address() as AddressInfo).port, "127.0.0.1");
  onTestFinished(() => void socket.destroy());
  socket.on("error", () => {});
  socket.pause();
  socket.write("GET / HTTP/1.1\r\nHost: x\r\n\r\n");
  while (feed.viewers === 0) await sleep(5);
  for (let i = 0; i < 200 && feed.viewers > 0; i++) {
    feed.publish({ kind: "run-reread", data: { runId: "x".repeat(100_000) } });
    await sleep(1);
  }
  expect(feed.viewers).toBe(0);
});

test("more viewers than a service carries are refused, and the place of one who leaves is free again", async () => {
  const service = await running({ limits: { viewers: 2, watchMs: 50 } });
  const [first] = [await viewing(service.base), await viewing(service.base)];
  const third = await viewing(service.base);
  expect(third.response.statusCode).toBe(503);
  first.leave();
  const answer = async () => (await viewing(service.base)).response.statusCode;
  await expect.poll(answer, { timeout: 10_000 }).toBe(200);
});

test("alarms are listed in sentences with their caution and their fridge; those of a removed run are not", async () => {
  const service = await running();
  const runId = await recordedRun(service);
  await service.store.alarms.raise({
    ...{ runId, kind: "cooling-stopped", raisedUnixMs: begin },
    reason: {
      ...{ code: "cooling-stopped", source: "gas", sinceMs: begin, subject: "" },
      cautions: ["stopped-on-gas", "gas"],
    },
  });
  const { answer } = await service.call("GET /api/alarms", { query: { state: "waiting" } });
  const [{ fridgeId, text, caution }] = answer.alarms;
  expect(fridgeId).toBe((await service.store.runs.get(runId)).fridgeId);
  expect(text).toMatch(/cooling stopped/);
  expect(caution?.subjects.map((subject) => subject.text).join(" ")).toMatch(/Do not relight from here/);
  await service.call("DELETE /api/runs/{runId}", { params: { runId } });
  expect((await service.call("GET /api/alarms")).answer.alarms).toEqual([]);
});
