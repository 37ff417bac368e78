// What the pages ask for besides documents: a run as it stands now, plans and hot days as letters, each in the visitor's
// language.

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { readLog } from "../../src/ingest/index.ts";
import type { EnergySource } from "../../src/schema/index.ts";
import { energySources } from "../../src/schema/index.ts";
import { type Running, raw, running, sampleLogs } from "./service.ts";

const hour = 3_600_000;

/** A run that goes on: the first hours of a sample night. */
async function goingOn({ store }: Running, hours: number) {
  const file = join(sampleLogs, "bay-5/after-the-winter.csv");
  const log = readLog(readFileSync(file), { file });
  const fridge = await store.fridges.add({ name: "the long bay" });
  const run = await store.runs.open({
    fridgeId: fridge.id,
    purpose: "test",
    origin: "board",
    startedUnixMs: log.unixMs[0],
    utcOffsetMinutes: 120,
  });
  const rows = [...log.unixMs.keys()].filter((row) => log.unixMs[row] <= log.unixMs[0] + hours * hour);
  for (const position of ["cabinet", "evaporator", "ambient"] as const)
    await store.readings.append(
      run.id,
      rows.map((row) => ({ position, unixMs: log.unixMs[row], raw: log.columns[position]?.[row] ?? Number.NaN })),
    );
  let last: EnergySource | null = null;
  for (const row of rows) {
    const source = energySources[(log.sourceCodes?.[row] ?? 0) - 1];
    if (source === undefined || source === last) continue;
    await store.edits.make(run.id, { kind: "source", unixMs: log.unixMs[row], source, how: "told" });
    last = source;
  }
  return { fridge, run };
}

test("a run that goes on is told with where it goes: the band starts at the newest reading and widens", async () => {
  const service = await running();
  const { run } = await goingOn(service, 5);
  const { answer } = await service.call("GET /api/runs/{runId}/now", { params: { runId: run.id } });
  expect(answer.source).toBe("mains");
  expect(answer.headline).toMatch(/mains/);
  expect(answer.onsetUnixMs).toBeGreaterThan(answer.sinceUnixMs);
  const { ahead } = answer;
  if (ahead === null) throw new Error("nothing lies ahead");
  expect(Math.abs(ahead.unixMs[0] - answer.asOfUnixMs)).toBeLessThan(10 * 60_000);
  const width = (i: number) => ahead.high[i] - ahead.low[i];
  expect(width(4)).toBeGreaterThan(width(0));
  for (const i of ahead.unixMs.keys()) {
    expect(ahead.low[i]).toBeLessThanOrEqual(ahead.middle[i]);
    expect(ahead.high[i]).toBeGreaterThanOrEqual(ahead.middle[i]);
  }
});

test("the band told after four hours on mains holds what the cabinet really did in the next three", async () => {
  const service = await running();
  const { run } = await goingOn(service, 5);
  const { answer } = await service.call("GET /api/runs/{runId}/now", { params: { runId: run.id } });
  const file = join(sampleLogs, "bay-5/after-the-winter.csv");
  const log = readLog(readFileSync(file), { file });
  const { ahead } = answer;
  if (ahead === null) throw new Error("nothing lies ahead");
  const seen = ahead.unixMs.flatMap((at, i) => {
    const row = log.unixMs.findIndex((unixMs) => unixMs >= at);
    return at < answer.asOfUnixMs + 3 * hour ? [{ i, celsius: log.columns.cabinet?.[row] ?? Number.NaN }] : [];
  });
  expect(seen.length).toBeGreaterThan(8);
  for (const { i, celsius } of seen) {
    // A reading has noise of its own.
    expect(celsius).toBeGreaterThan(ahead.low[i] - 0.3);
    expect(celsius).toBeLessThan(ahead.high[i] + 0.3);
    expect(Math.abs(celsius - ahead.middle[i])).toBeLessThan(1.5);
  }
});

test("a run without readings says so, what it was said to run on, and what is to be heeded there", async () => {
  const service = await running();
  const fridge = await service.store.fridges.add({ name: "empty" });
  const { id } = await service.store.runs.open({
    fridgeId: fridge.id,
    purpose: "test",
    origin: "hand",
    startedUnixMs: 0,
    utcOffsetMinutes: 0,
  });
  const picture = async () => (await service.call("GET /api/runs/{runId}/now", { params: { runId: id } })).answer;
  expect(await picture()).toMatchObject({ source: null, headline: "No reading has come yet.", caution: null });
  await service.call("POST /api/fridges/{fridgeId}/source", {
    ...{ params: { fridgeId: fridge.id }, body: { source: "gas", unixMs: 60_000 } },
  });
  const { source, sinceUnixMs, caution } = await picture();
  expect({ source, sinceUnixMs }).toEqual({ source: "gas", sinceUnixMs: 60_000 });
  expect(caution?.subjects[0].text).toMatch(/Never leave gas burning unattended/);
});

test("a plan is a page with clock times; a source that is none, or named twice, is refused", async () => {
  const service = await running();
  const query = { start: Date.parse("2026-06-04T14:00:00Z"), utcOffsetMinutes: 120 };
  const { answer } = await service.call("GET /api/plan.html", { query: { ...query, sources: "mains,gas" } });
  expect(answer).toContain("overnight");
  for (const sources of ["coal", "gas,gas", ","])
    expect((await service.problem(service.call("GET /api/plan.html", { query: { ...query, sources } }))).code).toBe(
      "bad-request",
    );
});

test("the same question is answered in the visitor's language, and caches are told so", async () => {
  const service = await running();
  const address = `/api/plan.html?start=${Date.parse("2026-06-04T14:00:00Z")}&sources=mains&utcOffsetMinutes=120`;
  const asked = (language: string) =>
    raw(service.port, "GET", address, { Host: "127.0.0.1", "Accept-Language": language });
  const [english, german, other] = [
    await asked("en-GB,en"),
    await asked("fr-CH, de-CH;q=0.9, en;q=0.8"),
    await asked("fr"),
  ];
  expect(english.body).toContain('lang="en"');
  expect(german.body).toContain('lang="de"');
  expect(other.body).toContain('lang="en"');
  expect(german.headers.vary).toContain("Accept-Language");
});

test("a problem is told in the visitor's language: title, detail, and which part is wrong", async () => {
  const { call, problem } = await running();
  const german = { headers: { "Accept-Language": "de-AT,de;q=0.9,en;q=0.5" } };
  const missing = await problem(call("GET /api/runs/{runId}", { params: { runId: "nobody" }, ...german }));
  expect(missing).toMatchObject({ title: "So einen Eintrag gibt es nicht", status: 404 });
  expect(missing.detail).toMatch(/nobody/);
  expect(missing.detail).not.toMatch(/There is no/);
  const body = { name: 7 } as unknown as { name: string };
  const wrong = await problem(call("POST /api/fridges", { body, ...german }));
  expect(wrong).toMatchObject({
    title: "Ein Teil der Anfrage ist nicht zu gebrauchen",
    detail: "„name“ ist nicht zu gebrauchen.",
    fields: [{ where: "name", what: expect.stringMatching(/^Ungültige Eingabe/) }],
  });
  const inEnglish = await problem(call("POST /api/fridges", { body }));
  expect(inEnglish).toMatchObject({ code: wrong.code, fields: [{ what: expect.stringMatching(/^Invalid input/) }] });
});

test("a refused answer says which language it is in", async () => {
  const { base } = await running();
  const answer = await fetch(`${base}/api/nothing`, { headers: { "Accept-Language": "de" } });
  expect(answer.headers.get("Content-Language")).toBe("de");
  expect(await answer.json()).toMatchObject({ title: "Unter dieser Adresse gibt es nichts" });
});
