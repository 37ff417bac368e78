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
