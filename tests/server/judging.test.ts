import { cpSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, onTestFinished, test } from "vitest";
import { readLog } from "../../src/ingest/index.ts";
import {
  analysisDocumentSchema,
  comparisonDocumentSchema,
  hotDayDocumentSchema,
} from "../../src/schema/documents/index.ts";
import { type Running, running, sampleLogs } from "./service.ts";

/** One of the sample fridges, brought in through the interface: the others would only take longer. */
async function withSamples(): Promise<Running> {
  const folder = mkdtempSync(join(tmpdir(), "coldfall-samples-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  cpSync(join(sampleLogs, "bay-5"), join(folder, "bay-5"), { recursive: true });
  const service = await running({ sampleLogs: folder });
  const { answer: job } = await service.call("POST /api/samples");
  expect((await ended(service, job.id)).state).toBe("done");
  return service;
}

async function ended({ call }: Running, jobId: string) {
  for (;;) {
    const { answer } = await call("GET /api/jobs/{jobId}", { params: { jobId } });
    if (answer.state !== "running") return answer;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

// One long test: bringing the samples in takes seconds, and each part only reads.
test("a sample fridge is brought in and judged, compared and predicted for", { timeout: 60_000 }, async () => {
  const service = await withSamples();
  const { call, base, problem } = service;

  expect(await problem(call("POST /api/samples"))).toMatchObject({ status: 409, code: "not-now" });
  const { answer: fridges } = await call("GET /api/fridges");
  expect(fridges.fridges.map(({ name }) => name)).toEqual(["bay-5"]);
  const fridgeId = fridges.fridges[0].id;
  const { runs } = (await call("GET /api/runs", { query: { fridgeId } })).answer;
  const named = (name: string) => runs.find((run) => run.name === name)?.id ?? "";
  expect(runs.map(({ purpose }) => purpose).sort()).toEqual([
    "after-service",
    "known-good",
    "known-good",
    "known-good",
    "test",
  ]);

  // README.md says of this fridge that it is weak on gas after the winter.
  const runId = named("after-the-winter");
  const { answer: verdict, etag } = await call("GET /api/runs/{runId}/verdict", { params: { runId } });
  expect(() => analysisDocumentSchema.parse(verdict)).not.toThrow();
  expect(verdict.sources.find(({ source }) => source === "gas")).toMatchObject({ verdict: "weak", baseline: "own" });
  const again = await call("GET /api/runs/{runId}/verdict", { params: { runId } });
  expect(again.etag).toBe(etag);

  // The fridge's own is that of the run begun last, whatever was looked at last.
  const goodRun = runs.find(({ purpose }) => purpose === "known-good")?.id ?? "";
  const last = named("serviced-june");
  for (const looked of [null, runId, goodRun]) {
    if (looked !== null) await call("GET /api/runs/{runId}/verdict", { params: { runId: looked } });
    const newest = (await call("GET /api/fridges/{fridgeId}/verdict", { params: { fridgeId } })).answer.verdict;
    expect(newest?.runIds).toEqual([last]);
    const { sources } = (await call("GET /api/runs/{runId}/verdict", { params: { runId: last } })).answer;
    expect(newest?.sources).toEqual(sources.map(({ source, verdict, reasons }) => ({ source, verdict, reasons })));
    expect(newest?.resultId).toBe((await service.store.results.newest({ runId: last }))?.id);
  }

  // An edit changes what the verdict says, and undoing it brings the old one back.
  const params = { runId };
  const { extents } = (await call("GET /api/runs/{runId}", { params })).answer;
  const [{ firstUnixMs, lastUnixMs }] = extents;
  await call("POST /api/runs/{runId}/edits", {
    params,
    body: { kind: "exclusion", fromUnixMs: firstUnixMs, toUnixMs: (firstUnixMs + lastUnixMs) / 2 },
  });
  const edited = await call("GET /api/runs/{runId}/verdict", { params });
  expect(edited.answer.sources).not.toEqual(verdict.sources);
  await call("POST /api/runs/{runId}/edits/undo", { params });
  expect((await call("GET /api/runs/{runId}/verdict", { params })).answer.sources).toEqual(verdict.sources);
  const undone = await service.store.results.newest({ runId });
  expect(undone?.document).toMatchObject({ sources: verdict.sources.map((source) => ({ verdict: source.verdict })) });

  const page = await fetch(`${base}/api/runs/${runId}/verdict.html`);
  expect(page.headers.get("Content-Type")).toBe("text/html; charset=utf-8");
  expect(page.headers.get("Content-Security-Policy")).toMatch(/^default-src 'none'; style-src 'sha256-[\w+/]{43}='/);
  expect(await page.text()).toMatch(/<h1[^>]*>bay-5<\/h1>/);

  const { answer: comparison } = await call("GET /api/comparison", {
    query: { before: runId, after: named("serviced-june") },
  });
  expect(() => comparisonDocumentSchema.parse(comparison)).not.toThrow();
  expect(comparison.sources.find(({ source }) => source === "gas")?.change).toBe("better");

  const { answer: hotDay } = await call("GET /api/fridges/{fridgeId}/hot-day", {
    params: { fridgeId },
    query: { ambient: 32, source: "mains" },
  });
  expect(() => hotDayDocumentSchema.parse(hotDay)).not.toThrow();
  expect(hotDay).toMatchObject({ ambient: 32, source: "mains", hours: [] });

  const rows = [0, 6, 12, 24].map((hour) => ({
    unixMs: Date.UTC(2026, 6, 10, hour),
    ambient: 25 + hour / 3,
    source: "mains" as const,
    sun: false,
    driving: false,
  }));
  const trip = (given: typeof rows) =>
    call("POST /api/fridges/{fridgeId}/trip", { params: { fridgeId }, body: { utcOffsetMinutes: 120, rows: given } });
  expect((await trip(rows)).answer.hours.length).toBeGreaterThan(20);
  expect(await problem(trip([rows[1], rows[0]]))).toMatchObject({ status: 422, fields: [{ where: "rows[1]" }] });
});

test("what cannot be judged is said to be so, not guessed", async () => {
  const { call, problem, store } = await running();
  const { id: fridgeId } = await store.fridges.add({ name: "Larch" });
  expect((await call("GET /api/fridges/{fridgeId}/verdict", { params: { fridgeId } })).answer).toEqual({
    verdict: null,
  });
  const { answer: run } = await call("POST /api/runs", { body: { fridgeId, purpose: "test", utcOffsetMinutes: 0 } });
  const judge = call("GET /api/runs/{runId}/verdict", { params: { runId: run.id } });
  expect(await problem(judge)).toMatchObject({ status: 409, detail: "The run holds no readings yet." });
  const hot = call("GET /api/fridges/{fridgeId}/hot-day", { params: { fridgeId }, query: { ambient: 32 } });
  expect(await problem(hot)).toMatchObject({ status: 409 });
});

test("a run and a service become test reports and pictures, kept as they are until something changes", {
  timeout: 60_000,
}, async () => {
  const { call, base } = await withSamples();
  const { runs } = (await call("GET /api/runs")).answer;
  const id = (name: string) => runs.find((run) => run.name === name)?.id ?? "";
  const run = `${base}/api/runs/${id("after-the-winter")}`;
  const service = `${base}/api/comparison/report`;
  const pair = `before=${id("after-the-winter")}&after=${id("serviced-june")}`;

  const pdf = await fetch(`${run}/report.pdf?letterhead=Bench%20two`);
  expect(pdf.headers.get("Content-Type")).toBe("application/pdf");
  const bytes = Buffer.from(await pdf.arrayBuffer());
  expect(bytes.subarray(0, 8).toString()).toBe("%PDF-1.7");
  expect(bytes.toString("latin1").match(/\/Type \/Page\b/g)?.length).toBeOneOf([1, 2]);
  const again = await fetch(`${run}/report.pdf?letterhead=Bench%20two`);
  expect(again.headers.get("ETag")).toBe(pdf.headers.get("ETag"));
  expect(Buffer.from(await again.arrayBuffer()).equals(bytes)).toBe(true);

  const page = await fetch(`${run}/report.html?letterhead=${encodeURIComponent("<b>Bench</b>")}`);
  expect(page.headers.get("Content-Security-Policy")).toMatch(/^default-src 'none'; style-src 'sha256-/);
  const text = await page.text();
  expect(text).toContain("&lt;b&gt;Bench&lt;/b&gt;");
  expect(text).toMatch(/On gas: <span class="verdict weak">weak<\/span>/);
  await call("PATCH /api/runs/{runId}", { params: { runId: id("after-the-winter") }, body: { notes: "jet changed" } });
  expect(await (await fetch(`${run}/report.html`)).text()).toContain("jet changed");

  expect(await (await fetch(`${service}.html?${pair}`)).text()).toMatch(/On gas: <span class="verdict better">/);
  const servicePdf = await fetch(`${service}.pdf?${pair}`);
  expect(servicePdf.status).toBe(200);
  expect(Buffer.from(await servicePdf.arrayBuffer()).toString("latin1")).toContain("before and after service");

  for (const query of ["", "?stretch=1", "?stretch=1&width=340"]) {
    const picture = await fetch(`${run}/drawing.svg${query}`);
    expect(picture.headers.get("Content-Type")).toBe("image/svg+xml; charset=utf-8");
    expect(await picture.text()).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" width="(720|340)"/);
  }
  expect((await fetch(`${run}/drawing.svg?stretch=99`)).status).toBe(404);
});

test("a service that begins again files no result that was filed before, but one that says something else", {
  timeout: 60_000,
}, async () => {
  const first = await running();
  const { call, store } = first;
  const fridge = await store.fridges.add({ name: "Larch" });
  const log = readLog(readFileSync(join(sampleLogs, "bay-5/after-the-winter.csv")), { file: "after.csv" });
  const run = await store.runs.open({
    ...{ fridgeId: fridge.id, startedUnixMs: log.unixMs[0], purpose: "test", origin: "file", utcOffsetMinutes: 120 },
  });
  const into = store.readings.import(run.id);
  into.add({ unixMs: log.unixMs, columns: log.columns, sourceCodes: log.sourceCodes });
  await into.finish();
  await store.runs.close(run.id, log.unixMs[log.unixMs.length - 1]);
  const params = { runId: run.id };
  const filed = async () => (await store.results.list({ fridgeId: fridge.id })).length;
  await call("GET /api/runs/{runId}/verdict", { params });
  expect(await filed()).toBe(1);

  const { call: callAgain } = await first.again();
  await callAgain("GET /api/runs/{runId}/verdict", { params });
  await callAgain("GET /api/runs/{runId}/verdict.html", { params, headers: { "Accept-Language": "de" } });
  expect(await filed()).toBe(1);

  const [begin, end] = [log.unixMs[0], log.unixMs[log.unixMs.length - 1]];
  const body = { kind: "exclusion", fromUnixMs: begin, toUnixMs: (begin + end) / 2 } as const;
  await callAgain("POST /api/runs/{runId}/edits", { params, body });
  await callAgain("GET /api/runs/{runId}/verdict", { params });
  expect(await filed()).toBe(2);
});

test("letters are told in Fahrenheit to whom asks for it, numbers for programs stay as they are named", {
  timeout: 60_000,
}, async () => {
  const { call } = await withSamples();
  const { runs } = (await call("GET /api/runs")).answer;
  const params = { runId: runs.find(({ name }) => name === "after-the-winter")?.id ?? "" };
  const headers = { "Coldfall-Degrees": "F" };
  const told = async (asked: { readonly [name: string]: string }) =>
    (await call("GET /api/runs/{runId}/verdict.html", { params, headers: asked })).answer;
  expect(await told({})).toMatch(/temperature, °C/);
  expect(await told(headers)).toMatch(/temperature, °F/);
  expect(await told(headers)).not.toMatch(/temperature, °C/);
  const fits = async (asked: { readonly [name: string]: string }) =>
    (await call("GET /api/runs/{runId}/verdict", { params, headers: asked })).answer.stretches.map((one) => one.fit);
  expect(await fits(headers)).toEqual(await fits({}));
});
