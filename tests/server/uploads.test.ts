import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { type Running, running, sampleLogs } from "./service.ts";

const ownLog = readFileSync(join(sampleLogs, "bay-2", "known-good-1.csv"), "utf8");

const bring = async ({ call }: Running, body: string, name = "night.csv") =>
  (await call("POST /api/uploads", { query: { name }, body })).answer;

async function imported(service: Running, uploadId: string, fridgeName = "Larch") {
  return importedInto(service, uploadId, await service.store.fridges.add({ name: fridgeName }));
}

async function importedInto({ call }: Running, uploadId: string, fridge: { readonly id: string }) {
  const { answer } = await call("POST /api/uploads/{uploadId}/import", {
    params: { uploadId },
    body: { fridgeId: fridge.id, purpose: "known-good" },
  });
  for (let job = answer; ; job = (await call("GET /api/jobs/{jobId}", { params: { jobId: job.id } })).answer) {
    if (job.state !== "running") return job;
    await new Promise((resolve) => setTimeout(resolve, 30));
  }
}

test("a log of our own is understood at once, imported by a job, and known when it comes again", async () => {
  const service = await running();
  const upload = await bring(service, ownLog);
  expect(upload).toMatchObject({
    name: "night.csv",
    problem: null,
    understanding: { isOwnFormat: true, questions: [] },
  });
  const rows = ownLog.trimEnd().split("\n").length - 1;
  const job = await imported(service, upload.id);
  expect(job).toMatchObject({ state: "done", progress: 1 });
  const [runId = ""] = job.result?.runIds ?? [];
  const { answer: run } = await service.call("GET /api/runs/{runId}", { params: { runId } });
  expect(run).toMatchObject({ name: "night.csv", purpose: "known-good", origin: "file" });
  expect(run.extents.find(({ position }) => position === "cabinet")?.readings).toBe(rows);
  expect(await bring(service, ownLog)).toMatchObject({ alreadyIn: [runId] });
});

test("a log whose dates can be read in two ways asks, and is imported once it was answered", async () => {
  const service = await running();
  const rows = Array.from({ length: 30 }, (_, i) =>
    `04.06.2026 20:${String(i).padStart(2, "0")};${8 - i / 10}`.replace(/\.(\d)$/, ",$1"),
  );
  const upload = await bring(service, ["Zeit;Kabinett", ...rows].join("\n"), "foreign.csv");
  expect(upload.understanding?.questions.map(({ about }) => about)).toContain("date-order");
  const { id: fridgeId } = await service.store.fridges.add({ name: "Larch" });
  const params = { uploadId: upload.id };
  const order = { fridgeId, purpose: "test" } as const;
  const early = service.call("POST /api/uploads/{uploadId}/import", { params, body: order });
  expect(await service.problem(early)).toMatchObject({ status: 409, code: "not-now" });
  const hints = { dateOrder: "day-month-year", zone: "+02:00", unit: "Cel", columns: { Kabinett: "cabinet" } } as const;
  const { answer } = await service.call("POST /api/uploads/{uploadId}/understand", { params, body: hints });
  expect(answer.understanding).toMatchObject({ questions: [], firstUnixMs: Date.UTC(2026, 5, 4, 18) });
});

test("every answer to a question carries the hints that say it, and they settle it", async () => {
  const service = await running();
  const upload = await bring(service, "Time,Fridge top,Fridge low\n2026-07-01 07:00 BST,4.5,5\n", "foreign.csv");
  const params = { uploadId: upload.id };
  let hints = {};
  const asked: string[] = [];
  for (let { understanding } = upload; understanding?.questions[0] !== undefined; ) {
    const [{ about, answers }] = understanding.questions;
    asked.push(about);
    hints = { ...hints, ...answers[0].hints };
    ({ understanding } = (
      await service.call("POST /api/uploads/{uploadId}/understand", { params, body: hints })
    ).answer);
  }
  expect(asked.toSorted()).toEqual(["unit", "which-column", "zone"]);
});

test("the zone of whoever asks is offered first, and not assumed", async () => {
  const { call } = await running();
  const body = "Time,Fins °C,Cabinet °C\n2026-07-01 07:00,4.5,5\n";
  const { answer } = await call("POST /api/uploads", { query: { name: "bare.csv", here: "America/Denver" }, body });
  const [{ about, answers }] = answer.understanding?.questions ?? [];
  expect(about).toBe("zone");
  expect(answers.map(({ hints }) => hints.zone)).toEqual(["America/Denver", "Z"]);
});

test("a log in ohms is refused with a sentence that says what to bring instead", async () => {
  const service = await running();
  const rows = ["2026-06-04T07:00:00Z,11441", "2026-06-04T07:01:00Z,11442"];
  for (const header of ["time,cabinet", "time,probe1 ohm"]) {
    const { understanding, problem } = await bring(service, [header, ...rows, ""].join("\n"), "ohms.csv");
    expect(understanding).toBeNull();
    expect(problem?.code).toBe("looks-like-ohms");
    expect(problem?.detail).toMatch(/"ohms.csv".*looks like ohms.*never read as °C.*probe's curve/);
  }
});

test("a log that counts from its start is read once that is told", async () => {
  const service = await running();
  const upload = await bring(service, "Elapsed;Fridge °C\n0;4,5\n30;4,5\n", "counted.csv");
  expect(upload.understanding?.questions.map(({ about }) => about)).toEqual(["elapsed-unit", "starts-at"]);
  const hints = { elapsedUnit: "min", startsAt: "2026-06-04T21:00:00+02:00" } as const;
  const params = { uploadId: upload.id };
  const { answer } = await service.call("POST /api/uploads/{uploadId}/understand", { params, body: hints });
  const from = Date.UTC(2026, 5, 4, 19);
  expect(answer.understanding).toMatchObject({ questions: [], firstUnixMs: from, lastUnixMs: from + 1_800_000 });
  const { id: fridgeId } = await service.store.fridges.add({ name: "Larch" });
  await service.call("POST /api/uploads/{uploadId}/import", { params, body: { fridgeId, purpose: "test", hints } });
  await expect
    .poll(async () => (await service.store.runs.list({ fridgeId })).runs[0]?.endedUnixMs, { timeout: 15_000 })
    .toBe(from + 1_800_000);
});

test("what is no log is refused by the name that its sender gave it, and no path of this machine is told", async () => {
  const service = await running();
  const upload = await bring(service, "<html>no log</html>", "holiday.csv");
  expect(upload.understanding).toBeNull();
  expect(upload.problem?.detail).toMatch(/^"holiday\.csv"/);
  expect(JSON.stringify(upload)).not.toContain(service.folder);
});

test("the bytes of an upload are gone when it is forgotten, and all of them when the service ends", async () => {
  const service = await running();
  const [first] = [await bring(service, ownLog), await bring(service, ownLog)];
  const kept = () => readdirSync(join(service.folder, "uploads"));
  expect(kept()).toHaveLength(2);
  await service.call("DELETE /api/uploads/{uploadId}", { params: { uploadId: first.id } });
  expect(kept()).toHaveLength(1);
});

const withoutLastRows = (log: string, rows: number) =>
  `${log
    .trimEnd()
    .split("\n")
    .slice(0, -rows || undefined)
    .join("\n")}\n`;

test("an upload that was imported is gone, one whose import failed stays, and one left for an hour makes room", async () => {
  let now = Date.UTC(2026, 5, 4, 12);
  const limits = { waitingUploadBytes: 2.5 * ownLog.length };
  const service = await running({ now: () => now, limits });
  const kept = () => readdirSync(join(service.folder, "uploads")).length;
  // Each a log of its own: what one fridge has is not taken for another.
  for (const [rowsLess, fridge] of ["Larch", "Bay 5", "Elm", "Oak"].entries()) {
    const { id } = await bring(service, withoutLastRows(ownLog, rowsLess));
    expect(await imported(service, id, fridge)).toMatchObject({ state: "done" });
    expect(kept()).toBe(0);
  }
  const other = await bring(service, withoutLastRows(ownLog, 4));
  const removed = await service.store.fridges.add({ name: "Ash" });
  await service.store.fridges.remove(removed.id);
  expect(await importedInto(service, other.id, removed)).toMatchObject({ state: "failed" });
  expect(kept()).toBe(1);
  await bring(service, ownLog);
  expect(await service.problem(bring(service, ownLog))).toMatchObject({ code: "body-too-large" });
  now += 61 * 60_000;
  await bring(service, ownLog);
  expect(kept()).toBe(1);
});

test("a running import can be cancelled, and nothing of it stays", async () => {
  const service = await running();
  const begin = Date.UTC(2026, 5, 4);
  const rows = Array.from(
    { length: 400_000 },
    (_, i) => `${new Date(begin + i * 1000).toISOString()},${(i % 90) / 10}`,
  );
  const upload = await bring(service, ["time,cabinet", ...rows].join("\n"));
  const { id: fridgeId } = await service.store.fridges.add({ name: "Larch" });
  const { answer: job } = await service.call("POST /api/uploads/{uploadId}/import", {
    params: { uploadId: upload.id },
    body: { fridgeId, purpose: "test" },
  });
  const { answer: over } = await service.call("DELETE /api/jobs/{jobId}", { params: { jobId: job.id } });
  expect(over.state).toBe("cancelled");
  const { runs } = await service.store.runs.list({ fridgeId });
  const extents = await Promise.all(runs.map(({ id }) => service.store.runs.extents(id)));
  expect(extents.flat()).toEqual([]);
});

test("a preview tells what all of the file holds and what in it cannot be read, in the language asked for", async () => {
  const service = await running();
  const lines = ownLog.split("\n");
  const body = lines.with(2, lines[2].replace(/,[^,]*/, ",Error")).join("\n");
  const { understanding } = await bring(service, body);
  expect(understanding?.whole?.[0]).toMatch(/^1,861 rows, /);
  expect(understanding?.whole?.[1]).toMatch(/^Energy sources: .*mains in /);
  expect(understanding?.whole?.at(-1)).toMatch(/: one cell could not be read, the first in line 3: "Error"\.$/);
  const german = await service.call("POST /api/uploads", {
    query: { name: "night.csv" },
    body,
    headers: { "accept-language": "de" },
  });
  expect(german.answer.understanding?.whole?.at(-1)).toMatch(/in Zeile 3: „Error“/);
  const open = await bring(service, "Zeit;Kabinett\n04.06.2026 20:00;8,1\n04.06.2026 20:01;8,2\n", "foreign.csv");
  expect(open.understanding?.whole).toBeNull();
});

test("a large file is read to its end beside the service, and refused by its own name where its end cannot be used", async () => {
  const service = await running();
  const begin = Date.UTC(2026, 5, 4);
  const long = (last: string) =>
    [
      "time,evaporator,cabinet,ambient,source",
      ...Array.from({ length: 30_000 }, (_, i) => `${new Date(begin + i * 1000).toISOString()},1.5,5.25,20.5,gas`),
      last,
      "",
    ].join("\n");
  const { understanding } = await bring(service, long("2026-06-04T23:59:00Z,Error,5,20,gas"));
  expect(understanding?.whole?.[0]).toMatch(/^30,001 rows, .*23:59/);
  expect(understanding?.whole?.at(-1)).toMatch(/one cell could not be read, the first in line 30,?002: "Error"/);
  const odd = await bring(service, long("2026-06-04T23:59:00Z,1,5,20,diesel\n2026-06-04T23:59:01Z,1,5,20,gas"));
  expect(odd.problem?.detail).toMatch(/^"night\.csv", line 30002: "diesel" is not an energy source/);
});

test("a SenML pack is previewed and imported for somebody who says in which zone they are", async () => {
  const service = await running();
  const records = Array.from({ length: 20 }, (_, i) => ({
    n: "cabinet",
    u: "Cel",
    v: 8 - i / 10,
    t: 1780600000 + 60 * i,
  }));
  const upload = await bring(service, JSON.stringify(records), "night.json");
  const here = "America/Denver";
  const params = { uploadId: upload.id };
  const { answer } = await service.call("POST /api/uploads/{uploadId}/understand", { params, body: { here } });
  expect(answer.understanding?.whole?.[0]).toMatch(/^20 rows, /);
  const { id: fridgeId } = await service.store.fridges.add({ name: "Larch" });
  const started = await service.call("POST /api/uploads/{uploadId}/import", {
    params,
    body: { fridgeId, purpose: "test", hints: { here } },
  });
  const jobId = started.answer.id;
  const job = async () => (await service.call("GET /api/jobs/{jobId}", { params: { jobId } })).answer;
  await expect.poll(async () => (await job()).state, { timeout: 15_000 }).not.toBe("running");
  expect(await job()).toMatchObject({ state: "done", problem: null, result: { stored: 20 } });
});
