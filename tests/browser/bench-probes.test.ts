// Probes that send ohms, in a real browser: told what they are, with what they should send shown while one types.

import { AxeBuilder } from "@axe-core/playwright";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Bench, openBench } from "./bench.ts";

let browser: Browser;
let bench: Bench;
let page: Page;
let complaints: readonly string[];
let fridgeId: string;

beforeAll(async () => {
  ({ browser, bench, page, complaints } = await openBench({ width: 390, height: 844 }));
  fridgeId = (await bench.store.fridges.add({ name: "camper with thermistors" })).id;
  await bench.store.probes.put({ id: "ntc-1", label: "white cable" });
  await bench.store.probes.assign({
    probeId: "ntc-1",
    fridgeId,
    boardId: "bench-1",
    position: "cabinet",
    sinceUnixMs: 0,
  });
  await page.goto(`${bench.base}/fridge/${fridgeId}`);
}, 180_000);
afterAll(async () => {
  await browser?.close();
  await bench?.close();
});

const ofProbe = () => page.locator("li", { hasText: "probe white cable" });

test("a thermistor is told by two figures; what it should send is shown before it is kept", {
  timeout: 60_000,
}, async () => {
  await ofProbe().getByText("What sensor it is").click();
  await ofProbe()
    .getByRole("combobox", { name: /^It is/ })
    .selectOption("a thermistor (NTC), by its B");
  const keep = ofProbe().getByRole("button", { name: "Keep it so" });
  expect(await keep.isDisabled()).toBe(true);
  await ofProbe().getByLabel("Resistance at 25 °C, Ω").fill("10000");
  await ofProbe().getByLabel("B, K").fill("39");
  await ofProbe().getByText("No sensor that is sold has these figures").waitFor();
  expect(await keep.isDisabled()).toBe(true);
  await ofProbe().getByLabel("B, K").fill("3950");
  // Ohms at 0 °C by 10,000 exp(3950 (1/273.15 - 1/298.15)) = 33,620.
  await ofProbe()
    .getByText(/It should send 33,62\d\sΩ at 0\s°C .* and 10,000\sΩ at 25\s°C/)
    .waitFor();
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map(({ id }) => id)).toEqual([]);
  await keep.click();
  await ofProbe().getByText("Kept.").waitFor();
  await ofProbe().getByText("It is a thermistor of 10,000 Ω at 25 °C, B 3,950 K.").waitFor();
  expect(await bench.store.probes.list()).toEqual([
    { id: "ntc-1", label: "white cable", curve: { kind: "thermistor-b", curve: { ohmsAt25: 10_000, b: 3950 } } },
  ]);
});

test("a calibration made as another sensor is said not to count any more", { timeout: 60_000 }, async () => {
  const [{ curve }] = await bench.store.probes.list();
  await bench.store.probes.calibrate({
    probeId: "ntc-1",
    madeUnixMs: Date.now(),
    method: "ice-point",
    coefficients: [0.1, 1],
    standardUncertaintyKelvin: 0.05,
    ...(curve ? { curve } : {}),
  });
  await page.reload();
  await ofProbe()
    .getByText(/Calibrated .*, good to 0\.05\sK\./)
    .waitFor();
  await ofProbe().getByText("What sensor it is").click();
  await ofProbe()
    .getByRole("combobox", { name: /^It is/ })
    .selectOption("a sensor that sends °C");
  await ofProbe().getByRole("button", { name: "Keep it so" }).click();
  await ofProbe().getByText("calibrate it anew").waitFor();
  expect((await bench.store.probes.list())[0].curve ?? null).toBeNull();
});

test("a type K junction is typed in the reader's degrees", { timeout: 60_000 }, async () => {
  await page.evaluate(() => localStorage.setItem("degrees", "F"));
  await page.reload();
  await ofProbe().getByText("What sensor it is").click();
  await ofProbe()
    .getByRole("combobox", { name: /^It is/ })
    .selectOption("a type K thermocouple");
  await ofProbe().getByLabel("How warm it is where its wires end, °F; empty where the board measures that").fill("77");
  await ofProbe()
    .getByText(/It should send .*\smV at 32\s°F/)
    .waitFor();
  await ofProbe().getByRole("button", { name: "Keep it so" }).click();
  await ofProbe().getByText("Kept.").waitFor();
  expect((await bench.store.probes.list())[0].curve).toMatchObject({ kind: "type-k", coldJunction: { celsius: 25 } });
});

test("the page asks for nothing unknown", () => {
  expect(complaints).toEqual([]);
});
