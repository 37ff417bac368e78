// The workshop's and the owner's stories in a real browser: logs brought in before and after a service, compared, the sheet
// printed; and on a phone, a trip typed in.

import { AxeBuilder } from "@axe-core/playwright";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Bench, openBench } from "./bench.ts";

const logs = new URL("../../sample-logs/bay-5/", import.meta.url).pathname;

let browser: Browser;
let bench: Bench;
let page: Page;
let complaints: readonly string[];
let fridge: string;

beforeAll(async () => {
  ({ browser, bench, page, complaints } = await openBench({ width: 1200, height: 900 }));
}, 180_000);
afterAll(async () => {
  await browser?.close();
  await bench?.close();
});

const faults = async () => {
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(" | ")}`);
};

test("a fridge is added by name, and its page opens", { timeout: 60_000 }, async () => {
  await page.goto(bench.base);
  await page.getByLabel("What the workshop calls it").fill("camper of June");
  await page.getByRole("button", { name: "Add it" }).click();
  await page.getByRole("heading", { name: "camper of June", level: 1 }).waitFor();
  fridge = page.url();
});

for (const [log, purpose] of [
  ["after-the-winter", "before service"],
  ["serviced-june", "after service"],
] as const) {
  test(`the log ${log} is shown as it is understood before anything is stored, then brought in`, {
    timeout: 60_000,
  }, async () => {
    await page.goto(`${fridge}/bring-in`);
    const runsBefore = (await bench.store.runs.list({})).runs.length;
    await page.getByLabel("Drop the file here").setInputFiles(`${logs}${log}.csv`);
    await page.getByText("The log is of our own format").waitFor();
    expect((await bench.store.runs.list({})).runs).toHaveLength(runsBefore);
    expect(await faults()).toEqual([]);
    await page.getByLabel(purpose).check();
    await page.getByLabel("Its run sheet").setInputFiles(`${logs}${log}.sheet.json`);
    await page.getByRole("button", { name: "Bring it in" }).click();
    await page.getByRole("heading", { name: log, level: 1 }).waitFor();
  });
}

test("before and after: the newest pair is picked, one sentence says what became of it", {
  timeout: 60_000,
}, async () => {
  await page.goto(`${fridge}/before-and-after`);
  await page.getByText(/On gas the fridge cools better, 1\.\d\stimes as strongly as before/).waitFor();
  expect(await faults()).toEqual([]);
});

test("one tap from the fridge's page each question is answered, with what the answer does not see right under it", {
  timeout: 60_000,
}, async () => {
  for (const [link, answer, unseen] of [
    ["Before and after", /On gas the fridge cools better/, /not that all is well now/],
    ["Hot days", /32\s°C outside/, /door kept shut/],
  ] as const) {
    await page.goto(fridge);
    await page.getByRole("link", { name: link }).click();
    await page.locator(".in-a-sentence", { hasText: answer }).waitFor();
    await page.locator(".in-a-sentence + .note", { hasText: unseen }).waitFor();
  }
});

test("where no run says that it is after a service the two newest are compared, and that is said", {
  timeout: 60_000,
}, async () => {
  const { runs } = await bench.store.runs.list({});
  const marked = runs.find(({ purpose }) => purpose === "after-service");
  if (marked === undefined) throw new Error("no run after the service");
  await bench.store.runs.edit(marked.id, { purpose: "test" });
  await page.goto(`${fridge}/before-and-after`);
  await page.getByText("No run is marked as after a service").waitFor();
  await page.locator(".in-a-sentence", { hasText: /On gas the fridge cools better/ }).waitFor();
  await bench.store.runs.edit(marked.id, { purpose: "after-service" });
  await page.goto(`${fridge}/before-and-after`);
  await page.locator(".in-a-sentence").waitFor();
  expect(await page.getByText("No run is marked as after a service").count()).toBe(0);
});

test("the test report of the pair names the fridge, what was not checked, and has a line to sign", {
  timeout: 60_000,
}, async () => {
  await page.getByRole("link", { name: "Test report" }).click();
  await page.getByRole("heading", { name: "camper of June", level: 1 }).waitFor();
  const report = (await page.locator(".test-report").textContent()) ?? "";
  for (const part of [/not checked/i, /better/i, /place and date/]) expect(report).toMatch(part);
  // Printed, it is two pages of A4 at the most.
  const printed = (await page.pdf({ format: "A4" })).toString("latin1");
  const sheets = printed.match(/\/Type\s*\/Page\b/g)?.length ?? 0;
  expect(sheets).toBeGreaterThan(0);
  expect(sheets).toBeLessThanOrEqual(2);
  expect(await faults()).toEqual([]);
});

test("on a phone the owner is told where the fridge settles at the ambient typed in", { timeout: 60_000 }, async () => {
  await page.setViewportSize({ width: 360, height: 800 });
  await page.goto(`${fridge}/hot-days`);
  await page.locator(".in-a-sentence", { hasText: /32\s°C outside/ }).waitFor();
  const ambient = page.getByLabel("Outside, °C");
  await ambient.fill("38");
  await ambient.press("Enter");
  await page.locator(".in-a-sentence", { hasText: /38\s°C outside/ }).waitFor();
  await page.getByText(/lies beyond what (it|they) saw/).waitFor();
});

test("a temperature outside that cannot be asked is told beside the field, and no old answer stays", {
  timeout: 60_000,
}, async () => {
  const ambient = page.getByLabel("Outside, °C");
  for (const typed of ["200", "abc", "", "-40"]) {
    await ambient.fill(typed);
    await ambient.blur();
    await page.getByText("It takes a temperature from −20 to 55\u00a0°C.").waitFor();
    await page.locator(".in-a-sentence").waitFor({ state: "detached" });
    expect(await ambient.inputValue()).toBe(typed);
    await ambient.fill("38");
    await ambient.press("Enter");
    await page.locator(".in-a-sentence", { hasText: /38\s°C outside/ }).waitFor();
  }
  await ambient.fill("32,5");
  await ambient.press("Enter");
  await page.locator(".in-a-sentence", { hasText: /32\.5\s°C outside/ }).waitFor();
  await page.getByLabel("Fahrenheit").check();
  await page.locator(".in-a-sentence", { hasText: /90\.5\s°F outside/ }).waitFor();
  expect(await page.getByLabel("Outside, °F").inputValue()).toBe("90.5");
  await page.getByLabel("Outside, °F").fill("140");
  await page.getByLabel("Outside, °F").blur();
  await page.getByText("It takes a temperature from −4 to 131\u00a0°F.").waitFor();
  await page.getByLabel("Celsius").check();
});

test("a trip typed in line by line is answered hour by hour, with signs and numbers", { timeout: 60_000 }, async () => {
  await page.getByText("Or a trip: typed, pasted, or from a file").click();
  await page.getByLabel("The trip").fill("2026-07-18 09:00, 24, mains\nfourteen o'clock, 31, gas");
  await page.getByRole("button", { name: "How warm does it get?" }).click();
  await page.getByText("Line 2 does not begin with a day and a time").waitFor();
  await page
    .getByLabel("The trip")
    .fill("2026-07-18 09:00, 24, mains\n14:00, 31, gas, sun\n20:00, 26, gas\n08:00, 22, gas");
  await page.getByRole("button", { name: "How warm does it get?" }).click();
  await page.getByText("4 lines understood.").waitFor();
  // Its own lines say how warm it is outside.
  await page.getByText("How warm it is outside, the trip says.").waitFor();
  expect(await page.getByLabel("Outside, °C").count()).toBe(0);
  await page
    .getByRole("heading", { name: /hour by hour|trip/i })
    .first()
    .waitFor();
  expect(await faults()).toEqual([]);
  expect(await page.evaluate("document.documentElement.scrollWidth - innerWidth")).toBeLessThanOrEqual(0);
});

test("nothing was complained of in the browser's console", () => {
  // A fridge without runs has no hot days yet, which the browser notes as a failed load.
  expect(complaints.filter((text) => !text.includes("409"))).toEqual([]);
});
