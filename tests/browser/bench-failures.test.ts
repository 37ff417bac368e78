// What a button does can fail, and the page says so: the service refuses, or is not reached, or the browser cannot draw.

import { readFileSync } from "node:fs";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readLog } from "../../src/ingest/index.ts";
import { hashPassword } from "../../src/server/sign-in.ts";
import { type Bench, startBench } from "./bench.ts";
import { launchBrowser } from "./browser.ts";

const log = new URL("../../sample-logs/bay-5/after-the-winter.csv", import.meta.url).pathname;
const password = "the long bench word";
const sentence = "The store is busy just now; nothing was changed.";

let browser: Browser;
let bench: Bench;
let page: Page;
let fridgeId: string;
let runId: string;
const faults: string[] = [];

beforeAll(async () => {
  const cheap = { N: 1024, r: 8, p: 1 };
  const [technician, owner] = [await hashPassword(password, cheap), await hashPassword("only looking today", cheap)];
  [browser, bench] = await Promise.all([launchBrowser(), startBench({ technician, owner })]);
  const { store } = bench;
  ({ id: fridgeId } = await store.fridges.add({ name: "the long bay" }));
  const { unixMs, columns, sourceCodes, utcOffsetMinutes } = readLog(readFileSync(log), { file: log });
  const origin = { origin: "file", purpose: "test", name: "winter", utcOffsetMinutes } as const;
  ({ id: runId } = await store.runs.open({ fridgeId, startedUnixMs: unixMs[0], ...origin }));
  const into = store.readings.import(runId);
  into.add({ unixMs, columns, sourceCodes });
  await into.finish();
  await store.runs.close(runId, unixMs[unixMs.length - 1]);
  const [raisedUnixMs, sinceMs] = [unixMs[60], unixMs[30]];
  const reason = { code: "cooling-stopped", source: "gas", sinceMs, subject: "", cautions: ["stopped-on-gas", "gas"] };
  await store.alarms.raise({ runId, kind: "cooling-stopped", raisedUnixMs, reason });
  // The worker that keeps answers would stand between the page and what fails here.
  page = await (await browser.newContext({ serviceWorkers: "block" })).newPage();
  page.setDefaultTimeout(20_000);
  page.on("pageerror", (error) => faults.push(String(error)));
  await page.goto(bench.base);
  await page.getByLabel(/the technician/).check();
  await page.getByLabel("Password").fill(password);
  await page.getByRole("button", { name: "Sign in" }).click();
  await page.getByRole("heading", { name: "the long bay" }).waitFor();
}, 180_000);
afterAll(async () => {
  await browser?.close();
  await bench?.close();
});

/** Does something while an address answers that the store is busy. */
async function refused(address: string, work: () => Promise<void>): Promise<void> {
  const problem = { type: "about:blank", title: "Busy", status: 503, code: "store-busy", detail: sentence };
  await page.route(address, (route) =>
    route.fulfill({ status: 503, contentType: "application/problem+json", body: JSON.stringify(problem) }),
  );
  await work();
  await page.getByRole("alert").filter({ hasText: sentence }).first().waitFor();
  await page.unroute(address);
}

test("an alarm that could not be acknowledged says why, and goes when it could", { timeout: 60_000 }, async () => {
  await page.goto(`${bench.base}/fridge/${fridgeId}`);
  const seen = page.getByRole("button", { name: "I have seen it" });
  await refused("**/acknowledge", () => seen.click());
  await seen.click();
  await seen.waitFor({ state: "detached" });
  expect(faults).toEqual([]);
});

test("a file that could not be had says why, and that goes when it could", { timeout: 60_000 }, async () => {
  await page.goto(`${bench.base}/run/${runId}`);
  const file = (name: string) => page.getByRole("button", { name, exact: true });
  await refused("**/log.csv", () => file("Readings (CSV)").click());
  const [download] = await Promise.all([page.waitForEvent("download"), file("Readings (CSV)").click()]);
  expect(download.suggestedFilename()).toBe("winter.csv");
  await expect.poll(() => page.getByText(sentence).count()).toBe(0);
  await page.route("**/drawing.svg*", (route) => route.fulfill({ contentType: "image/svg+xml", body: "<svg" }));
  await file("Drawing (PNG)").click();
  await page.getByText("could not make a PNG of this drawing").waitFor();
  await page.unroute("**/drawing.svg*");
  expect(faults).toEqual([]);
});

test("a drawing of the letter that could not be made a picture says so", { timeout: 60_000 }, async () => {
  await page.evaluate(
    "HTMLImageElement.prototype.decode = () => Promise.reject(new DOMException('no', 'EncodingError'))",
  );
  await page
    .getByRole("button", { name: /^PNG: / })
    .first()
    .click();
  await page.getByText("could not make a PNG of this drawing").first().waitFor();
  expect(faults).toEqual([]);
});

test("a test report that could not be had as a PDF says why", { timeout: 60_000 }, async () => {
  await page.goto(`${bench.base}/run/${runId}/test-report`);
  await refused("**/report.pdf*", () => page.getByRole("button", { name: /PDF/ }).click());
  expect(faults).toEqual([]);
});

test("whoever could not be signed out is told so, and sees that the session goes on", { timeout: 60_000 }, async () => {
  await page.goto(bench.base);
  const leave = page.getByRole("button", { name: "Sign out" });
  await leave.waitFor();
  await page.route("**/api/session", (route) =>
    route.request().method() === "DELETE" ? route.abort() : route.continue(),
  );
  await leave.click();
  await page.getByRole("alert").filter({ hasText: "did not answer" }).waitFor();
  await page.getByRole("heading", { name: "the long bay" }).waitFor();
  expect(await page.getByLabel("Password").count()).toBe(0);
  await page.unroute("**/api/session");
  await leave.click();
  await page.getByLabel("Password").waitFor();
  expect(faults).toEqual([]);
});
