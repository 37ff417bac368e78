import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, onTestFinished, test } from "vitest";
import { analysisDocumentSchema, comparisonDocumentSchema, hotDayDocumentSchema } from "../../src/schema/index.ts";
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
  const newest = (await call("GET /api/fridges/{fridgeId}/verdict", { params: { fridgeId } })).answer.verdict;
  expect(newest).toMatchObject({ runIds: [runId] });

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
