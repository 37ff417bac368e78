// The technician's night in a real browser: a run goes on, its readings come in live, the source is told, an alarm is seen,
// the service is lost and comes back. Without a mouse.

import { AxeBuilder } from "@axe-core/playwright";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Bench, openBench } from "./bench.ts";
import { type ReplayedNight, replayNight } from "./replayed-night.ts";

const log = new URL("../../sample-logs/bay-5/after-the-winter.csv", import.meta.url).pathname;

let browser: Browser;
let bench: Bench;
let page: Page;
let fridgeId: string;
let night: ReplayedNight;
let complaints: readonly string[];

beforeAll(async () => {
  // On a phone.
  ({ browser, bench, page, complaints } = await openBench({ width: 360, height: 800 }));
  ({ id: fridgeId } = await bench.store.fridges.add({ name: "the long bay" }));
}, 180_000);
afterAll(async () => {
  night?.stop();
  await browser?.close();
  await bench?.close();
});

test("a recording that begins is seen at once, without loading the page again", { timeout: 60_000 }, async () => {
  await page.goto(`${bench.base}/fridge/${fridgeId}`);
  await page.getByText("Nothing is being recorded").waitFor();
  // An hour off and four on mains, played in a second.
  night = await replayNight(bench.store, fridgeId, log, { hours: 5, speed: 20_000 });
  await page.getByRole("heading", { name: "Being recorded now" }).waitFor();
  await night.done;
  await page.getByText("cold began").first().waitFor();
});

test("the fitted curve runs ahead as a band, with the time the cabinet reaches 5 °C", { timeout: 60_000 }, async () => {
  await page.reload();
  await page.getByText("where it may lie").waitFor();
  await page.getByText("at 5\u00a0°C").waitFor();
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map(({ id }) => id)).toEqual([]);
});

test("a reading that arrives is told in the drawing's words within two seconds", { timeout: 60_000 }, async () => {
  const canvas = page.getByRole("img", { name: /Readings so far/ });
  const last = (await bench.store.runs.extents(night.run.id)).find(({ position }) => position === "ambient");
  const began = Date.now();
  await bench.store.readings.append(night.run.id, [
    { position: "ambient", unixMs: (last?.lastUnixMs ?? 0) + 60_000, raw: 31.4 },
  ]);
  await expect.poll(() => canvas.getAttribute("aria-label"), { timeout: 5000, interval: 50 }).toContain("ambient 31.4");
  console.log(`a reading was on the page ${Date.now() - began} ms after it was kept`);
  expect(Date.now() - began).toBeLessThan(2000);
});

test("by keys alone: the fridge is told to run on gas, and says so", { timeout: 60_000 }, async () => {
  await page.locator("main").focus();
  const gas = page.getByRole("button", { name: "gas", exact: true });
  for (let i = 0; i < 40 && !(await gas.evaluate((element) => element.matches(":focus"))); i++)
    await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  await page.getByText("Noted: on gas from now on.").waitFor();
  await expect.poll(() => gas.getAttribute("aria-pressed")).toBe("true");
  const { sourceMarks } = await bench.store.edits.current(night.run.id);
  expect(sourceMarks.at(-1)?.source).toBe("gas");
});

test("an alarm appears with its reason and cautions, and goes when it is acknowledged", {
  timeout: 60_000,
}, async () => {
  const raisedUnixMs = night.run.startedUnixMs + 4 * 3_600_000;
  const reason = {
    code: "cooling-stopped",
    source: "gas",
    sinceMs: raisedUnixMs - 1_800_000,
    subject: "",
    cautions: ["stopped-on-gas", "gas"],
  };
  const {
    alarm: { id },
  } = await bench.store.alarms.raise({ runId: night.run.id, kind: "cooling-stopped", raisedUnixMs, reason });
  const alarm = page.getByRole("alert").filter({ hasText: "cooling stopped" });
  await alarm.getByText("Do not relight from here").waitFor();
  await alarm.getByRole("button", { name: "I have seen it" }).press("Enter");
  await alarm.waitFor({ state: "detached" });
  expect(
    (await bench.store.alarms.list({ runId: night.run.id })).find((one) => one.id === id)?.acknowledgedUnixMs,
  ).not.toBeNull();
});

test("with the service out of reach the page loads all the same, shows the last known state and says so", {
  timeout: 90_000,
}, async () => {
  // The worker that keeps answers looks on from the second load.
  await page.evaluate("navigator.serviceWorker.ready.then(() => undefined)");
  await page.reload();
  await page.getByRole("img", { name: /ambient 31.4/ }).waitFor();
  await bench.stop();
  await page.reload();
  await page.getByText(/out of reach. What you see is the last known state/).waitFor();
  await page.getByRole("heading", { name: "the long bay" }).waitFor();
  await page.getByRole("img", { name: /ambient 31.4/ }).waitFor();
  expect(complaints.filter((text) => !/Failed to load resource|ERR_CONNECTION_REFUSED|net::/.test(text))).toEqual([]);
});

test("when the service is back the page says nothing of it any more, and goes on", { timeout: 90_000 }, async () => {
  await bench.restart();
  await page.getByText("out of reach").waitFor({ state: "detached" });
});
