// A name of one long word on a phone: nothing is wider than the screen.

import { readFileSync } from "node:fs";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readLog } from "../../src/ingest/index.ts";
import { type Bench, openBench } from "./bench.ts";

const file = new URL("../../sample-logs/bay-5/after-the-winter.csv", import.meta.url).pathname;
const longWord = "W".repeat(60);

let browser: Browser;
let bench: Bench;
let page: Page;
let fridgeId: string;
let runId: string;

beforeAll(async () => {
  ({ browser, bench, page } = await openBench({ width: 360, height: 800 }));
  ({ id: fridgeId } = await bench.store.fridges.add({ name: longWord, kind: longWord, notes: longWord }));
  const { unixMs, columns, sourceCodes, utcOffsetMinutes } = readLog(readFileSync(file), { file });
  const opened = { fridgeId, origin: "file", purpose: "test", startedUnixMs: unixMs[0], utcOffsetMinutes } as const;
  const sheet = { fridge: longWord, dial: longWord, checkedBy: longWord, notes: longWord };
  ({ id: runId } = await bench.store.runs.open({ ...opened, name: longWord, sheet }));
  const into = bench.store.readings.import(runId);
  into.add({ unixMs, columns, sourceCodes });
  await into.finish();
  await bench.store.runs.close(runId, unixMs[unixMs.length - 1]);
  const { id } = await bench.store.runs.open({ ...opened, name: `${longWord}2` });
  await bench.store.runs.delete(id);
  const second = { ...opened, name: `${longWord}3`, startedUnixMs: Date.now(), origin: "hand" } as const;
  await bench.store.runs.open(second);
}, 180_000);
afterAll(async () => {
  await browser?.close();
  await bench?.close();
});

for (const [name, address, ready] of [
  ["first page", () => "/", "text=On gas"],
  ["fridge", () => `/fridge/${fridgeId}`, "text=Runs out of sight"],
  ["run", () => `/run/${runId}`, "text=To take along"],
  ["test report", () => `/run/${runId}/test-report`, ".test-report"],
  ["hot days", () => `/fridge/${fridgeId}/hot-days`, ".told"],
  ["before you start", () => `/fridge/${fridgeId}/before-you-start`, "text=Hour by hour"],
  ["bring in a log", () => `/fridge/${fridgeId}/bring-in`, "text=Drop the file here"],
] as const) {
  test(`with names of one long word the page "${name}" is no wider than a phone`, { timeout: 60_000 }, async () => {
    await page.goto(bench.base + address());
    await page.locator(ready).first().waitFor();
    await page.waitForLoadState("networkidle");
    await page.evaluate("for (const one of document.querySelectorAll('details')) one.open = true");
    const wide = await page.evaluate(
      `[...document.querySelectorAll("main *, nav *")]
        .filter((one) => one.getBoundingClientRect().right > innerWidth + 1 && one.closest(".scroll, [style*=overflow]") === null && one.closest("svg") === null)
        .map((one) => one.outerHTML.slice(0, 120))`,
    );
    expect(await page.evaluate("document.documentElement.scrollWidth - innerWidth"), `${wide}`).toBeLessThanOrEqual(0);
  });
}
