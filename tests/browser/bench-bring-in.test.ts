// Another logger's file brought in by hand in a real browser: what has two readings is asked, and answered on the page.

import { AxeBuilder } from "@axe-core/playwright";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Bench, openBench } from "./bench.ts";

let browser: Browser;
let bench: Bench;
let page: Page;
let complaints: readonly string[];

beforeAll(async () => {
  ({ browser, bench, page, complaints } = await openBench({ width: 390, height: 844 }));
}, 180_000);
afterAll(async () => {
  await browser?.close();
  await bench?.close();
});

async function drop(name: string, lines: readonly string[]): Promise<string> {
  const { id } = await bench.store.fridges.add({ name });
  await page.goto(`${bench.base}/fridge/${id}/bring-in`);
  const buffer = Buffer.from(`${lines.join("\n")}\n`);
  await page.getByLabel("Drop the file here").setInputFiles({ name: `${name}.csv`, mimeType: "text/csv", buffer });
  return id;
}

const starts = async (fridgeId: string) =>
  (await bench.store.runs.list({ fridgeId })).runs.map(({ startedUnixMs }) => new Date(startedUnixMs).toISOString());

async function broughtIn(fridgeId: string): Promise<readonly string[]> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map(({ id }) => id)).toEqual([]);
  await page.getByRole("button", { name: "Bring it in" }).click();
  await page.getByRole("heading", { level: 1, name: /./ }).filter({ hasNotText: "Bring in" }).waitFor();
  return starts(fridgeId);
}

test("a log that counts from its start asks what it counts and when that was, by the device's clock", {
  timeout: 60_000,
}, async () => {
  const fridge = await drop("counted", ["Elapsed;Fridge °C", ...Array.from({ length: 30 }, (_, i) => `${i * 10};4,5`)]);
  await page.getByText(/does not say in what/).waitFor();
  await page.getByRole("button", { name: /if it counts minutes/ }).click();
  await page.getByText(/the file does not say when that was/).waitFor();
  await page.getByLabel("Its count began").fill("2026-06-04T21:30");
  await page.getByRole("button", { name: "Read it so" }).first().click();
  await page.getByText("Counted from 4 June 2026 21:30 UTC+02:00, as told.").waitFor();
  expect(await broughtIn(fridge)).toEqual(["2026-06-04T19:30:00.000Z"]);
});

test("letters that can mean several zones, a unit and a place are asked for, each answered by a button", {
  timeout: 60_000,
}, async () => {
  const rows = Array.from({ length: 30 }, (_, i) => `2026-07-01 07:${String(i + 10)} BST,4.5,20.5`);
  const fridge = await drop("letters", ["Time,Fridge top,Fridge low", ...rows]);
  await page.getByRole("button", { name: /Europe\/London/ }).click();
  await page.getByRole("button", { name: /if it is in °C/ }).click();
  await page.getByRole("button", { name: /Fridge low/ }).click();
  await page.getByText("“BST” behind a time").or(page.getByText('"BST" behind a time')).waitFor();
  expect(await broughtIn(fridge)).toEqual(["2026-07-01T06:10:00.000Z"]);
});

test("a clock that says no zone: the device's own is offered first, a name that is none is told, the focus stays", {
  timeout: 60_000,
}, async () => {
  const rows = Array.from({ length: 30 }, (_, i) => `2026-07-01 07:${String(i + 10)},4.5,20.5`);
  const fridge = await drop("bare", ["Time,Fins °C,Cabinet °C", ...rows]);
  const asked = page.getByRole("group", { name: /does not say/ });
  await asked.first().waitFor();
  expect(await asked.getByRole("button").first().textContent()).toContain("Europe/Berlin");
  await page.getByText("That is not right").click();
  const zone = page.getByLabel("Clock it was written with");
  await zone.fill("Berlin");
  await zone.press("Enter");
  await page.getByText("It takes a zone by its name in the time zone database, such as Europe/Berlin").waitFor();
  expect(await zone.inputValue()).toBe("Berlin");
  await asked.getByRole("button").first().press("Enter");
  await asked.first().waitFor({ state: "detached" });
  await expect.poll(() => page.evaluate("document.activeElement.id")).toBe("understood");
  expect(await broughtIn(fridge)).toEqual(["2026-07-01T05:10:00.000Z"]);
});

test("three columns without a place are asked for one by one, and an answer can be changed", {
  timeout: 60_000,
}, async () => {
  const rows = Array.from({ length: 30 }, (_, i) => `2026-07-01T07:${String(i + 10)}:00Z,-4.5,5,20.5`);
  const fridge = await drop("channels", ["Time,CH1 °C,CH2 °C,CH3 °C", ...rows]);
  const asked = (column: string) => page.getByRole("group", { name: new RegExp(column) });
  await asked("CH1").getByRole("button", { name: "evaporator" }).click();
  await asked("CH1").waitFor({ state: "detached" });
  await asked("CH2").getByRole("button", { name: "cabinet" }).click();
  await asked("CH2").waitFor({ state: "detached" });
  await asked("CH3")
    .getByRole("button", { name: /left out/ })
    .click();
  await asked("CH3").waitFor({ state: "detached" });
  await page.getByText("That is not right").click();
  await page.getByLabel('Column "CH3 °C" is').selectOption("ambient");
  await page.getByRole("columnheader", { name: "ambient" }).waitFor();
  await broughtIn(fridge);
  const [{ id }] = (await bench.store.runs.list({ fridgeId: fridge })).runs;
  const held = (await bench.store.runs.extents(id)).map(({ position }) => position);
  expect(held.toSorted()).toEqual(["ambient", "cabinet", "evaporator"]);
});

test("nothing went wrong on the way", () => {
  expect(complaints).toEqual([]);
});
