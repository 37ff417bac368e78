// The bench in a real browser, on a store that begins empty: the samples brought in, a fridge read, a run changed and
// changed back.

import { AxeBuilder } from "@axe-core/playwright";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Bench, openBench } from "./bench.ts";

let browser: Browser;
let bench: Bench;
let page: Page;
let complaints: readonly string[];

beforeAll(async () => {
  ({ browser, bench, page, complaints } = await openBench({ width: 1200, height: 900 }));
  page.setDefaultTimeout(30_000);
  await page.goto(bench.base);
  await page.getByRole("heading", { name: "A fridge of your own" }).waitFor();
  await page.getByRole("button", { name: "Show me with the sample logs" }).click();
  await page.getByRole("heading", { name: "bay-5" }).waitFor();
}, 180_000);
afterAll(async () => {
  await browser?.close();
  await bench?.close();
});

const faults = async () => {
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(" | ")}`);
};

test("one click on an empty store brings the sample fridges with their newest verdicts", {
  timeout: 60_000,
}, async () => {
  const section = page.getByRole("region", { name: "bay-5" });
  await section.getByText("On gas: good").waitFor();
  await page.getByRole("heading", { name: "Another fridge" }).waitFor();
  await section.getByText("On mains: good").waitFor();
  // Whose verdict it is: last year's is not tonight's.
  await section.getByText("Run serviced-june, 8 June 2026").waitFor();
  expect(await faults()).toEqual([]);
});

test("a fridge's page is its letter: verdict, runs, and what a new run would be compared with", {
  timeout: 60_000,
}, async () => {
  await page.getByRole("link", { name: "bay-5" }).click();
  await page.getByText("compared with three known-good runs of this fridge").waitFor();
  expect(await page.title()).toBe("bay-5");
  expect(await page.getByRole("link", { name: "after-the-winter" }).count()).toBe(1);
  expect(await faults()).toEqual([]);
});

test("a run shows its verdict, then what to check next, then curves, then numbers, and axe finds nothing", {
  timeout: 60_000,
}, async () => {
  await page.getByRole("link", { name: "after-the-winter" }).click();
  await page.getByRole("heading", { name: "What to check next" }).waitFor();
  const text = (await page.locator("main").textContent()) ?? "";
  const places = ["On gas: weak", "What to check next", "The curves", "held against known-good"].map((part) =>
    text.indexOf(part),
  );
  expect(places[0]).toBeGreaterThan(0);
  expect(places.toSorted((one, other) => one - other)).toEqual(places);
  expect(await faults()).toEqual([]);
});

test("narrowing the curves by key asks for finer readings of that part alone", { timeout: 60_000 }, async () => {
  const plot = page.getByRole("region", { name: /^Readings of after-the-winter/ });
  await plot.focus();
  const asked = page.waitForResponse((response) => /\/readings\?.*from=/.test(response.url()) && response.ok());
  for (let i = 0; i < 6; i++) await page.keyboard.press("+");
  const curve = await (await asked).json();
  expect(curve.unixMs.at(-1) - curve.unixMs[0]).toBeLessThan(12 * 3_600_000);
  await page.getByText("readings of this part are drawn.").waitFor();
  await page.keyboard.press("0");
});

test("saying that the gas stretch was on 12 V changes the verdict, and taking it back brings the old one", {
  timeout: 60_000,
}, async () => {
  const stretch = page.locator(".stretches details").last();
  await stretch.locator("summary").click();
  await stretch.getByLabel("It ran").selectOption("dc12");
  await stretch.getByRole("button", { name: "Read it so" }).click();
  await page.getByText(/The verdict was: .*on gas weak.*It is now: .*on 12.V/).waitFor();
  await page.getByRole("button", { name: "Take the last change back" }).click();
  await page.getByText(/It is now: .*on gas weak/).waitFor();
});

test("a stretch begun later by hand is taken back as a whole, in one go", { timeout: 60_000 }, async () => {
  const stretch = page.locator(".stretches details").last();
  const began = stretch.getByLabel("from");
  const before = await began.inputValue();
  const later = before.replace(/\d\d:\d\d$/, "16:30");
  await stretch.evaluate((details) => details.setAttribute("open", ""));
  await began.fill(later);
  await stretch.getByRole("button", { name: "Read it so" }).click();
  await expect.poll(() => began.inputValue()).toBe(later);
  const takeBack = page.getByRole("button", { name: "Take the last change back" });
  await takeBack.click();
  await expect.poll(() => began.inputValue()).toBe(before);
  await expect.poll(() => takeBack.isDisabled()).toBe(true);
});

test("the same run picked before and after a service is said to be the same", { timeout: 60_000 }, async () => {
  await page.getByRole("link", { name: "bay-5" }).click();
  await page.getByRole("link", { name: "Before and after" }).click();
  await page.getByText("On gas the fridge cools better").first().waitFor();
  const [before, after] = [page.locator("select").first(), page.locator("select").last()];
  await before.selectOption(await after.inputValue());
  await page.getByText("That is the same run twice").waitFor();
});

test("nothing was complained of in the browser's console", () => {
  expect(complaints).toEqual([]);
});
