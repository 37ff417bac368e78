// Every page of the bench, on a phone and on a desk, on light and on dark paper: axe finds nothing, nothing is wider than the
// screen, and a picture of each is kept in .cache/bench-pictures to be looked at.

import { mkdirSync, readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { gzipSync } from "node:zlib";
import { AxeBuilder } from "@axe-core/playwright";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { hashPassword } from "../../src/server/sign-in.ts";
import { type Bench, startBench } from "./bench.ts";
import { launchBrowser } from "./browser.ts";
import { replayNight } from "./replayed-night.ts";

const root = path.join(import.meta.dirname, "../..");
const pictures = path.join(root, ".cache/bench-pictures");
const log = path.join(root, "sample-logs/bay-5/after-the-winter.csv");

let browser: Browser;
let bench: Bench;
let page: Page;
let fridge: string;
let runs: { readonly [name: string]: string };

beforeAll(async () => {
  mkdirSync(pictures, { recursive: true });
  [browser, bench] = await Promise.all([launchBrowser(), startBench()]);
  const context = await browser.newContext({ timezoneId: "Europe/Berlin" });
  page = await context.newPage();
  page.setDefaultTimeout(20_000);
  await page.goto(bench.base);
  await page.getByRole("button", { name: "Show me with the sample logs" }).click();
  await page.getByText("On gas").first().waitFor({ timeout: 60_000 });
  const all = await bench.store.fridges.list();
  fridge = all.find(({ name }) => name === "bay-5")?.id ?? "";
  runs = Object.fromEntries((await bench.store.runs.list({ fridgeId: fridge })).runs.map(({ name, id }) => [name, id]));
  const other = all.find(({ name }) => name === "bay-2")?.id ?? "";
  const night = await replayNight(bench.store, other, log, { hours: 5, speed: Number.POSITIVE_INFINITY });
  await night.done;
  runs = { ...runs, tonight: `/fridge/${other}` };
}, 180_000);
afterAll(async () => {
  await browser?.close();
  await bench?.close();
});

/** Address, and what stands on the page when it is complete. */
const pages: readonly [name: string, address: () => string, ready: string][] = [
  ["first page", () => "/", "text=On gas"],
  ["fridge", () => `/fridge/${fridge}`, "text=Why, and what to check next"],
  ["recorded now", () => runs.tonight, "text=where it may lie"],
  ["run", () => `/run/${runs["after-the-winter"]}`, "text=To take along"],
  ["test report", () => `/run/${runs["after-the-winter"]}/test-report`, ".test-report"],
  ["before and after", () => `/fridge/${fridge}/before-and-after`, "text=On gas the fridge"],
  ["hot days", () => `/fridge/${fridge}/hot-days`, "text=outside this fridge settles"],
  ["before you start", () => `/fridge/${fridge}/before-you-start`, "text=Hour by hour"],
  ["bring in a log", () => `/fridge/${fridge}/bring-in`, "text=Drop the file here"],
  ["nowhere", () => "/no/such/page", "text=There is nothing at this address"],
];

for (const [name, address, ready] of pages) {
  for (const colorScheme of ["light", "dark"] as const) {
    test(`axe finds nothing on the page "${name}", on ${colorScheme} paper, on a phone and on a desk`, {
      timeout: 60_000,
    }, async () => {
      await page.emulateMedia({ colorScheme });
      for (const [place, width] of [
        ["phone", 360],
        ["desk", 1200],
      ] as const) {
        await page.setViewportSize({ width, height: 800 });
        await page.goto(bench.base + address());
        await page.locator(ready).first().waitFor();
        // What is asked for besides has to be there too.
        await page.waitForLoadState("load");
        await page.waitForTimeout(400);
        await page.screenshot({
          path: path.join(pictures, `${name.replaceAll(" ", "-")}-${place}-${colorScheme}.png`),
          fullPage: true,
        });
        const { violations } = await new AxeBuilder({ page }).analyze();
        expect(
          violations.map(({ id, nodes }) => `${id}: ${nodes[0].html.slice(0, 200)} ${nodes[0].failureSummary}`),
        ).toEqual([]);
        expect(await page.evaluate("document.documentElement.scrollWidth - innerWidth")).toBeLessThanOrEqual(0);
      }
    });
  }
}

test("what is pressed or typed into is 44 px high at the least", { timeout: 60_000 }, async () => {
  await page.setViewportSize({ width: 360, height: 800 });
  await page.goto(bench.base + runs.tonight);
  await page.locator("text=where it may lie").waitFor();
  const low = await page.evaluate(
    `[...document.querySelectorAll("button, input:not([type=radio], [type=checkbox]), select, summary, .choice label")]
      .filter((one) => one.checkVisibility() && one.getBoundingClientRect().height < 44)
      .map((one) => one.outerHTML.slice(0, 100))`,
  );
  expect(low).toEqual([]);
});

test("the reader's choice of dark paper and of Fahrenheit is kept", { timeout: 60_000 }, async () => {
  await page.emulateMedia({ colorScheme: "light" });
  await page.goto(`${bench.base}/run/${runs["after-the-winter"]}`);
  const colour = () => page.evaluate("getComputedStyle(document.body).backgroundColor");
  const light = await colour();
  await page.getByLabel("dark", { exact: true }).check();
  expect(await colour()).not.toBe(light);
  await page.getByLabel("Fahrenheit").check();
  await page.reload();
  await page.getByRole("img", { name: /°F/ }).waitFor();
  expect(await colour()).not.toBe(light);
  await page.getByLabel("Celsius").check();
  await page.getByLabel("as the system").check();
});

test("in German the page, the server's letter and the curves' key are German, and nothing is left in English", {
  timeout: 60_000,
}, async () => {
  await page.goto(`${bench.base}/run/${runs["after-the-winter"]}`);
  await page.getByLabel("Deutsch").check();
  await page
    .getByText("Auf Gas")
    .first()
    .waitFor({ timeout: 20_000 })
    .catch(() => undefined);
  await page.waitForTimeout(1500);
  const text = (await page.locator("main").textContent()) ?? "";
  expect(await page.evaluate("document.documentElement.lang")).toBe("de");
  for (const english of ["On gas", "The curves", "What to check next", "Take the last change back"])
    expect(text).not.toContain(english);
  expect(text).toMatch(/schwach/);
  await page.getByLabel("English").check();
  await page.getByText("On gas: ").first().waitFor();
});

test("where a password is needed, a page asks for it first; the owner then looks and the technician changes", {
  timeout: 90_000,
}, async () => {
  const cheap = { N: 1024, r: 8, p: 1 };
  const passwords = {
    technician: await hashPassword("the long bench word", cheap),
    owner: await hashPassword("only looking today", cheap),
  };
  const guarded = await startBench(passwords);
  try {
    const context = await browser.newContext({ viewport: { width: 360, height: 800 } });
    const visitor = await context.newPage();
    visitor.setDefaultTimeout(20_000);
    await visitor.goto(guarded.base);
    const enter = async (role: RegExp, password: string) => {
      await visitor.getByLabel(role).check();
      await visitor.getByLabel("Password").fill(password);
      await visitor.getByRole("button", { name: "Sign in" }).click();
    };
    await enter(/the owner/, "a wrong guess here");
    await visitor.getByText("That is not the password").waitFor();
    expect((await new AxeBuilder({ page: visitor }).analyze()).violations.map(({ id }) => id)).toEqual([]);
    await enter(/the owner/, "only looking today");
    await visitor.getByText("There is no fridge here yet.").waitFor();
    expect(await visitor.getByRole("button", { name: "Show me with the sample logs" }).count()).toBe(0);
    await visitor.getByRole("button", { name: "Sign out" }).click();
    await enter(/the technician/, "the long bench word");
    await visitor.getByRole("button", { name: "Show me with the sample logs" }).waitFor();
  } finally {
    await guarded.close();
  }
});

test("the scripts of the first load are 120 kB compressed at the most", () => {
  const folder = path.join(root, "dist/web/assets");
  const sizes = readdirSync(folder)
    .filter((file) => file.endsWith(".js"))
    .map((file) => gzipSync(readFileSync(path.join(folder, file))).length);
  const total = sizes.reduce((sum, size) => sum + size, 0);
  console.log(`scripts of the pages, compressed: ${(total / 1000).toFixed(1)} kB`);
  expect(total).toBeGreaterThan(20_000);
  expect(total).toBeLessThan(120_000);
});
