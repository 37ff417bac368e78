// The run sheet of runs that ended long ago: filled in and corrected on the run's page, and what follows from it.

import { readFileSync } from "node:fs";
import { AxeBuilder } from "@axe-core/playwright";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readLog } from "../../src/ingest/index.ts";
import type { RunSheet } from "../../src/schema/index.ts";
import type { RunPurpose } from "../../src/store/index.ts";
import { type Bench, openBench } from "./bench.ts";

let browser: Browser;
let bench: Bench;
let page: Page;
let complaints: readonly string[];
let fridgeId: string;
let after: string;

beforeAll(async () => {
  ({ browser, bench, page, complaints } = await openBench({ width: 1280, height: 900 }));
  ({ id: fridgeId } = await bench.store.fridges.add({ name: "Larch" }));
  for (const day of [1, 2, 3]) await bring(`known-good-${day}`, "known-good", { supplyVolts: { mains: 230 } });
  await bring("after-the-winter", "before-service");
  after = await bring("serviced-june", "after-service", { ratedWatts: { gas: 170 } });
}, 180_000);
afterAll(async () => {
  await browser?.close();
  await bench?.close();
});

async function bring(name: string, purpose: RunPurpose, sheet?: RunSheet): Promise<string> {
  const file = new URL(`../../sample-logs/bay-5/${name}.csv`, import.meta.url).pathname;
  const { unixMs, columns, sourceCodes, utcOffsetMinutes } = readLog(readFileSync(file), { file });
  const { id } = await bench.store.runs.open({
    ...{ fridgeId, name, purpose, sheet, origin: "file", startedUnixMs: unixMs[0], utcOffsetMinutes },
  });
  const into = bench.store.readings.import(id);
  into.add({ unixMs, columns, sourceCodes });
  await into.finish();
  await bench.store.runs.close(id, unixMs[unixMs.length - 1]);
  return id;
}

const sheetPart = () => page.getByRole("region", { name: "The run sheet" });
const keep = () => page.getByRole("button", { name: "Keep it with serviced-june" }).click();

test("without an untouched source the comparison has no control, and leads to the run that can name one", {
  timeout: 60_000,
}, async () => {
  await page.goto(`${bench.base}/fridge/${fridgeId}/before-and-after`);
  await page.getByText("On gas: better.").first().waitFor();
  const told = await page.locator("main").textContent();
  expect(told).toMatch(/On gas: \d+\s%/);
  expect(told).not.toMatch(/On gas against|held against/);
  await page.getByRole("link", { name: "The run from after it" }).click();
  await page.getByRole("heading", { name: "serviced-june", level: 1 }).waitFor();
});

test("a finished run's sheet takes no number that cannot be, says what it takes, and loses nothing typed", {
  timeout: 60_000,
}, async () => {
  await page.getByText("On gas: good").first().waitFor();
  expect(await sheetPart().locator("dl").textContent()).toMatch(/rated heatgas 170.W/);
  await sheetPart().getByText("Correct it").click();
  await page.getByRole("group", { name: "Not touched by the service" }).getByLabel("mains").check();
  await page
    .getByRole("group", { name: /^Flame, flue, leaks/ })
    .getByLabel("yes")
    .check();
  await page.getByRole("group", { name: "What is in it" }).getByLabel("partly full").check();
  await page.getByLabel("Checked by").fill("bench technician");
  await page.getByLabel("Tilt lengthways, degrees").fill("0,5");
  await page.getByLabel("Tilt sideways, degrees").fill("80");
  await keep();
  await page.getByText("It takes a number from −45 to 45.").waitFor();
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0].html.slice(0, 120)}`)).toEqual([]);
  expect(await page.getByLabel("Checked by").inputValue()).toBe("bench technician");
  expect(await page.getByLabel("Tilt sideways, degrees").inputValue()).toBe("80");
  expect((await bench.store.runs.get(after)).sheet).toEqual({ ratedWatts: { gas: 170 } });
});

test("what the service cannot keep is told at the form, which stays as it was filled in", {
  timeout: 60_000,
}, async () => {
  await page.getByLabel("Tilt sideways, degrees").fill("1");
  await page.route("**/api/runs/*", (route) =>
    route.request().method() === "PATCH" ? route.abort() : route.continue(),
  );
  await keep();
  await sheetPart().getByRole("alert").getByText("did not answer").waitFor();
  await page.unroute("**/api/runs/*");
  expect(await page.getByLabel("Checked by").inputValue()).toBe("bench technician");
  expect(await page.getByLabel("Tilt sideways, degrees").inputValue()).toBe("1");
});

test("kept, the sheet is read on the closed page, and what another wrote meanwhile stays on it", {
  timeout: 60_000,
}, async () => {
  const { sheet } = await bench.store.runs.get(after);
  await bench.store.runs.edit(after, { sheet: { ...sheet, dial: "coldest" } });
  await keep();
  const outcome = sheetPart().getByRole("status");
  await outcome.getByText(/^Kept\. The verdict /).waitFor();
  expect(await outcome.evaluate((one) => one.matches(":focus"))).toBe(true);
  expect(await page.getByLabel("Checked by").isVisible()).toBe(false);
  const read = await sheetPart().locator("dl").textContent();
  for (const line of [
    /not touched by the servicemains/,
    /tilt1.0° sideways, 0.5° lengthways/,
    /flame, flue, leaks and CO checkedyes/,
    /loadpartly full/,
    /dialcoldest/,
    /checked bybench technician/,
  ])
    expect(read).toMatch(line);
  expect((await bench.store.runs.get(after)).sheet).toEqual({
    ...{ ratedWatts: { gas: 170 }, dial: "coldest", untouchedSources: ["mains"], gasChecked: true, load: "part" },
    ...{ checkedBy: "bench technician", tiltLengthwaysDegrees: 0.5, tiltSidewaysDegrees: 1 },
  });
});

test("the comparison then holds the other source against the one that nobody touched", {
  timeout: 60_000,
}, async () => {
  await page.goto(`${bench.base}/fridge/${fridgeId}/before-and-after`);
  await page.getByText("held against mains, which nobody touched").first().waitFor();
  const told = await page.locator("main").textContent();
  expect(told).toMatch(/On gas against mains: \d+\s%/);
});

test("volts that were not said are said later, and the verdict that they allow is shown and told", {
  timeout: 60_000,
}, async () => {
  await page.goto(`${bench.base}/run/${after}`);
  await page.getByText("On mains: cannot say yet.").first().waitFor();
  await sheetPart().getByText("Correct it").click();
  await page.getByLabel("Mains, V, as an approved plug-in meter").fill("230");
  await keep();
  await sheetPart()
    .getByText(/^Kept\. The verdict was: on mains cannot say yet, .* It is now: on mains good, /)
    .waitFor();
  await page.getByText("On mains: good.").first().waitFor();
});

test("an owner, who only looks, reads the sheet and finds no form", { timeout: 60_000 }, async () => {
  await page.route("**/api/session", (route) =>
    route.fulfill({ json: { role: "owner", needsPassword: true, expiresUnixMs: null } }),
  );
  await page.reload();
  await sheetPart().getByText("bench technician").waitFor();
  expect(await page.getByText("Correct it").count()).toBe(0);
  await page.unroute("**/api/session");
});

test("nothing was complained of in the browser's console but the answer that was held back", () => {
  expect(complaints.filter((text) => !text.includes("net::ERR_FAILED"))).toEqual([]);
});
