// What is typed on the pages: nothing of it is dropped in silence, and what was emptied is gone.

import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Bench, openBench } from "./bench.ts";

let browser: Browser;
let bench: Bench;
let page: Page;
let fridgeId: string;

beforeAll(async () => {
  ({ browser, bench, page } = await openBench({ width: 1200, height: 900 }));
  ({ id: fridgeId } = await bench.store.fridges.add({
    ...{ name: "Larch", kind: "tall door", notes: "rattles", cabinetLitres: 90, ratedWatts: { gas: 210, mains: 190 } },
  }));
}, 180_000);
afterAll(async () => {
  await browser?.close();
  await bench?.close();
});

test("a fridge's fields that were emptied are gone from the store too", { timeout: 60_000 }, async () => {
  await page.goto(`${bench.base}/fridge/${fridgeId}`);
  await page.getByText("Change what is known of it").click();
  for (const label of ["Kind", "Cabinet, litres", "Rated heat on gas, W"]) await page.getByLabel(label).fill("");
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  await page.getByText("Kept.", { exact: true }).waitFor();
  const { kind, cabinetLitres, ratedWatts, notes } = await bench.store.fridges.get(fridgeId);
  expect({ kind, cabinetLitres, ratedWatts, notes }).toEqual({ ratedWatts: { mains: 190 }, notes: "rattles" });
});

test("a number that cannot be read is told beside its field, stays in it, and nothing is kept", {
  timeout: 60_000,
}, async () => {
  const litres = page.getByLabel("Cabinet, litres");
  await page.getByLabel("Rated heat on mains, W").fill("200,5");
  await litres.fill("abc");
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  await page.getByText("It takes a number above 0.").waitFor();
  expect(await litres.inputValue()).toBe("abc");
  expect(await litres.evaluate((field) => field.matches(":focus"))).toBe(true);
  expect((await bench.store.fridges.get(fridgeId)).ratedWatts).toEqual({ mains: 190 });
  await litres.fill("88");
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  await expect.poll(async () => (await bench.store.fridges.get(fridgeId)).cabinetLitres).toBe(88);
  expect((await bench.store.fridges.get(fridgeId)).ratedWatts).toEqual({ mains: 200.5 });
  expect(await page.getByText("It takes a number").count()).toBe(0);
});

test("the run sheet says beside a field what it takes, and keeps what was typed", { timeout: 60_000 }, async () => {
  const { id } = await bench.store.runs.open({
    ...{ fridgeId, origin: "hand", purpose: "test", startedUnixMs: Date.now(), utcOffsetMinutes: 120, name: "tonight" },
  });
  await page.goto(`${bench.base}/fridge/${fridgeId}/before-you-start`);
  const keep = page.getByRole("button", { name: "Keep it with tonight" });
  await page.getByLabel("Gas pressure, mbar").fill("30 mbar");
  await keep.click();
  await page.getByText("It takes a number above 0, 500 at the most.").waitFor();
  expect(await page.getByLabel("Gas pressure, mbar").inputValue()).toBe("30 mbar");
  await page.getByLabel("Gas pressure, mbar").fill("30");
  await page.getByLabel("Tilt sideways, degrees").fill("80");
  await keep.click();
  await page.getByText("It takes a number from −45 to 45.").waitFor();
  expect((await bench.store.runs.get(id)).sheet).toBeNull();
  await page.getByLabel("Tilt sideways, degrees").fill("1,5");
  await keep.click();
  await expect
    .poll(async () => (await bench.store.runs.get(id)).sheet)
    .toEqual({ gasPressureMbar: 30, tiltSidewaysDegrees: 1.5 });
});

test("the run sheet takes what verdicts ask for: supply volts, untouched sources, upright since", {
  timeout: 60_000,
}, async () => {
  const sheet = async () => (await bench.store.runs.list({ fridgeId })).runs[0].sheet;
  await page.getByLabel("Mains, V, as an approved plug-in meter").fill("231");
  await page.getByRole("group", { name: "Not touched by the service" }).getByLabel("mains").check();
  await page.getByLabel("Upright since").fill("2026-06-04T07:15");
  const cap = page.getByRole("group", { name: "Flue cap" });
  await cap.getByLabel("blocked").check();
  await page.getByRole("button", { name: "Keep it with tonight" }).click();
  await expect.poll(sheet).toMatchObject({
    supplyVolts: { mains: 231 },
    untouchedSources: ["mains"],
    uprightSince: "2026-06-04T07:15:00+02:00",
    flueCap: "blocked",
  });
  await page.reload();
  expect(await page.getByLabel("Upright since").inputValue()).toBe("2026-06-04T07:15");
  await cap.getByLabel("not said").check();
  await page.getByLabel("Mains, V, as an approved plug-in meter").fill("");
  await page.getByRole("button", { name: "Keep it with tonight" }).click();
  await expect.poll(sheet).not.toHaveProperty("flueCap");
  expect(await sheet()).not.toHaveProperty("supplyVolts");
});

test("a run is renamed and given another purpose on its page", { timeout: 60_000 }, async () => {
  const [run] = (await bench.store.runs.list({ fridgeId })).runs;
  await page.goto(`${bench.base}/run/${run.id}`);
  await page.getByText("Change what is known of it").click();
  await page.getByLabel("Name of the run").fill("evening");
  await page.getByLabel("before service").check();
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  await page.getByRole("heading", { name: "evening", level: 1 }).waitFor();
  expect(await bench.store.runs.get(run.id)).toMatchObject({ name: "evening", purpose: "before-service" });
});

test("a run that goes on is ended from the fridge's page, in two steps", { timeout: 60_000 }, async () => {
  const [run] = (await bench.store.runs.list({ fridgeId })).runs;
  await page.goto(`${bench.base}/fridge/${fridgeId}`);
  await page.getByText("End this run").click();
  expect((await bench.store.runs.get(run.id)).endedUnixMs).toBeNull();
  await page.getByRole("button", { name: "End it now" }).click();
  await page.getByRole("heading", { name: "evening", level: 1 }).waitFor();
  expect((await bench.store.runs.get(run.id)).endedUnixMs).not.toBeNull();
  expect(await page.getByText("End this run").count()).toBe(0);
});

test("a run taken out of sight is brought back from its fridge's page", { timeout: 60_000 }, async () => {
  await page.getByText("Change what is known of it").click();
  await page.getByRole("button", { name: "Take it out of sight" }).click();
  await page.getByRole("heading", { name: "Larch", level: 1 }).waitFor();
  await page.getByText("Nothing has been recorded on it yet.").waitFor();
  await page.getByText("Runs out of sight").click();
  await page.getByRole("button", { name: "Bring evening back" }).click();
  await page.getByRole("link", { name: "evening" }).waitFor();
  expect((await bench.store.runs.list({ fridgeId })).runs).toHaveLength(1);
});

test("an alarm that nobody has seen stands at its fridge on the first page, with its caution, until it is seen", {
  timeout: 60_000,
}, async () => {
  const [run] = (await bench.store.runs.list({ fridgeId })).runs;
  const raisedUnixMs = run.startedUnixMs + 60_000;
  await bench.store.alarms.raise({
    ...{ runId: run.id, kind: "cooling-stopped", raisedUnixMs },
    reason: {
      ...{ code: "cooling-stopped", source: "gas", sinceMs: raisedUnixMs - 1000, subject: "" },
      cautions: ["stopped-on-gas", "gas"],
    },
  });
  await page.goto(bench.base);
  const alarm = page.getByRole("region", { name: "Larch" }).getByRole("alert");
  await alarm.getByText("cooling stopped").waitFor();
  await alarm.getByText("Do not relight from here").waitFor();
  expect(await alarm.getByRole("link").getAttribute("href")).toBe(`/run/${run.id}`);
  // The run is over: its fridge's page tells of it all the same.
  await page.goto(`${bench.base}/fridge/${fridgeId}`);
  await page.getByRole("alert").getByText("cooling stopped").waitFor();
  await page.goto(bench.base);
  await alarm.getByRole("button", { name: "I have seen it" }).press("Enter");
  await alarm.waitFor({ state: "detached" });
});

test("begun by hand on gas, a run shows the gas pressed and its cautions at once, before any reading", {
  timeout: 60_000,
}, async () => {
  await page.goto(`${bench.base}/fridge/${fridgeId}`);
  await page.getByText("Begin one by hand").click();
  const gas = page.getByRole("button", { name: "gas", exact: true });
  await gas.click();
  await page.getByRole("heading", { name: "Being recorded now" }).waitFor();
  const heeded = page.getByText("Never leave gas burning unattended");
  await heeded.waitFor();
  await expect.poll(() => gas.getAttribute("aria-pressed")).toBe("true");
  await page.getByText("No reading has come yet.").waitFor();
  await page.reload();
  await heeded.waitFor();
  expect(await heeded.count()).toBe(1);
  expect(await gas.getAttribute("aria-pressed")).toBe("true");
  // With the picture out of reach the answer to the press itself tells it.
  await page.route("**/now", (route) => route.abort());
  await page.reload();
  await gas.click();
  await heeded.waitFor();
  expect(await gas.getAttribute("aria-pressed")).toBe("true");
  await page.unroute("**/now");
});

test("hot days of a fridge without readings lead to bringing in a log", { timeout: 60_000 }, async () => {
  await page.goto(`${bench.base}/fridge/${fridgeId}/hot-days`);
  await page.getByRole("alert").getByRole("link", { name: "Bring in a log" }).click();
  await page.getByRole("heading", { name: "Bring in a log", level: 1 }).waitFor();
});

test("a page opened while the service is out of reach says nothing of roles, and comes to itself when it is back", {
  timeout: 90_000,
}, async () => {
  await page.goto(`${bench.base}/fridge/${fridgeId}/bring-in`);
  await page.evaluate("navigator.serviceWorker.ready.then(() => undefined)");
  await page.reload();
  await page.getByText("Drop the file here").waitFor();
  await bench.stop();
  await page.reload();
  await page.getByText(/out of reach/).waitFor();
  await page.getByRole("heading", { name: "Bring in a log", level: 1 }).waitFor();
  expect(await page.getByText("Only the technician").count()).toBe(0);
  expect(await page.getByText("Drop the file here").count()).toBe(0);
  await bench.restart();
  await page.evaluate("dispatchEvent(new Event('online'))");
  await page.getByText("Drop the file here").waitFor({ timeout: 5000 });
  await page.getByText(/out of reach/).waitFor({ state: "detached" });
});
