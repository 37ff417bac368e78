// A technician's whole story with the keyboard alone: a fridge is named, a board records on it overnight, an alarm is
// acknowledged, the source told, the verdict read in the morning, a stretch corrected and the correction taken back.

import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { simulated } from "../science/simulated-runs.ts";
import { type Bench, openBench } from "./bench.ts";
import { type ReplayedNight, replayNight } from "./replayed-night.ts";

let browser: Browser;
let bench: Bench;
let page: Page;
let complaints: readonly string[];
let fridgeId: string;
let night: ReplayedNight;

beforeAll(async () => {
  ({ browser, bench, page, complaints } = await openBench({ width: 1000, height: 800 }));
}, 180_000);
afterAll(async () => {
  night?.stop();
  await browser?.close();
  await bench?.close();
});

const hasFocus = (wanted: Locator) => wanted.evaluate((element) => element.matches(":focus"));
const focused = async () =>
  String(
    await page.evaluate(
      "document.activeElement.tagName + ' ' + (document.activeElement.ariaLabel ?? document.activeElement.textContent).slice(0, 60)",
    ),
  );

/** Presses Tab until the wanted element has the focus, as a person does who sees where it is. */
async function tabTo(wanted: Locator, most = 60): Promise<void> {
  await wanted.waitFor();
  const met: string[] = [];
  for (let presses = 0; presses <= most; presses++) {
    if (await hasFocus(wanted)) {
      await expectSeen();
      return;
    }
    await page.keyboard.press("Tab");
    met.push(await focused());
  }
  throw new Error(`not reached by Tab; on the way: ${met.join(", ")}`);
}

/** What has the focus shows it by an outline, and is on the screen. */
async function expectSeen(): Promise<void> {
  const { outline, top, bottom, height } = (await page.evaluate(
    `(() => {
      const { outlineStyle, outlineWidth } = getComputedStyle(document.activeElement);
      const { top, bottom } = document.activeElement.getBoundingClientRect();
      return { outline: outlineStyle + " " + outlineWidth, top, bottom, height: innerHeight };
    })()`,
  )) as { readonly outline: string; readonly top: number; readonly bottom: number; readonly height: number };
  expect(outline, `how ${await focused()} shows its focus`).toMatch(/^(solid|auto) [1-9]/);
  expect(bottom).toBeGreaterThan(0);
  expect(top).toBeLessThan(height);
}

/** After something was pressed away, the next Tab must not begin at the top of the page. */
const expectFocusKept = async (within: Locator) =>
  expect
    .poll(() => within.evaluate((part) => part.matches(":focus-within")), { timeout: 5000, interval: 50 })
    .toBe(true);

test("a fridge is named, and its page comes up with the focus on the letter", { timeout: 60_000 }, async () => {
  await page.goto(bench.base);
  await tabTo(page.getByLabel("What the workshop calls it"));
  await page.keyboard.type("the long bay");
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "the long bay", level: 1 }).waitFor();
  await expect.poll(() => hasFocus(page.locator("main"))).toBe(true);
  // The whole page framed would show nobody where he is.
  expect(await page.evaluate("getComputedStyle(document.querySelector('main')).outlineStyle")).toBe("none");
  [{ id: fridgeId }] = await bench.store.fridges.list();
});

test("a board that begins to record appears, and takes the focus from nobody", { timeout: 120_000 }, async () => {
  await tabTo(page.getByRole("link", { name: "Hot days" }));
  // A night on mains and a day on gas; the flame goes out after three hours for two. Played within seconds.
  const { recording } = simulated(7, { outages: [{ atHours: 15, hours: 2 }] });
  night = await replayNight(bench.store, fridgeId, recording, { hours: 17, speed: 12_000 });
  await page.getByRole("heading", { name: "Being recorded now" }).waitFor();
  expect(await focused()).toMatch(/Hot days/);
  await night.done;
});

test("the alarm that the recorder raised is acknowledged, and the focus stays with the run", {
  timeout: 60_000,
}, async () => {
  const alarm = page.getByRole("alert").filter({ hasText: "cooling stopped" });
  await alarm.first().waitFor();
  const run = page.getByRole("region", { name: "Being recorded now" });
  for (let waiting = await alarm.count(); waiting > 0; waiting = await alarm.count()) {
    await page.keyboard.press("Home");
    await tabTo(alarm.first().getByRole("button", { name: "I have seen it" }), 80);
    await page.keyboard.press("Enter");
    await expect.poll(() => alarm.count()).toBeLessThan(waiting);
    await expectFocusKept(run);
  }
  const kept = await bench.store.alarms.list({ runId: night.run.id });
  expect(kept.some(({ kind }) => kind === "cooling-stopped")).toBe(true);
  expect(kept.filter(({ kind }) => kind === "cooling-stopped").every((one) => one.acknowledgedUnixMs !== null)).toBe(
    true,
  );
});

test("the fridge is told to run on gas, and the button that was pressed keeps the focus", {
  timeout: 60_000,
}, async () => {
  const gas = page.getByRole("button", { name: "gas", exact: true });
  await tabTo(gas);
  await page.keyboard.press("Space");
  await page.getByText("Noted: on gas from now on.").waitFor();
  expect(await hasFocus(gas)).toBe(true);
});

test("the live curves are reached, and arrow keys read what was measured when", { timeout: 60_000 }, async () => {
  await tabTo(page.getByRole("region", { name: /^Readings so far.*: arrow keys read it/ }));
  for (let i = 0; i < 20; i++) await page.keyboard.press("ArrowRight");
  const readings = page.locator(".now .reading-line");
  await expect.poll(() => readings.textContent()).toMatch(/^\d+.June.\d\d:\d\d: cabinet .*°C, evaporator .*°C/);
});

test("in the morning the verdict is on the fridge's page, and leads to the run", { timeout: 60_000 }, async () => {
  const extents = await bench.store.runs.extents(night.run.id);
  await bench.store.runs.close(night.run.id, Math.max(...extents.map(({ lastUnixMs }) => lastUnixMs)));
  const why = page.getByRole("link", { name: "Why, and what to check next" });
  await tabTo(why, 80);
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "tonight", level: 1 }).waitFor();
  await expect.poll(() => hasFocus(page.locator("main"))).toBe(true);
});

test("curves are narrowed and shown whole again by keys, and a pressed button at its end keeps the focus", {
  timeout: 60_000,
}, async () => {
  const plot = page.getByRole("region", { name: /^Readings of tonight/ });
  await tabTo(plot, 80);
  for (let i = 0; i < 4; i++) await page.keyboard.press("+");
  const whole = page.getByRole("button", { name: "All of it" });
  await tabTo(whole);
  await page.keyboard.press("Enter");
  expect(await hasFocus(whole)).toBe(true);
  expect(await whole.getAttribute("aria-disabled")).toBe("true");
});

test("a stretch is corrected, and the correction taken back", { timeout: 90_000 }, async () => {
  const stretch = page.locator(".stretches details").last();
  const summary = stretch.locator("summary");
  await summary.waitFor();
  const before = (await summary.textContent()) ?? "";
  expect(before).toMatch(/On gas/);
  await tabTo(summary, 120);
  await page.keyboard.press("Enter");
  const source = stretch.getByLabel("It ran");
  await tabTo(source);
  await page.keyboard.press("ArrowDown");
  if ((await source.inputValue()) !== "mains") await page.keyboard.type("on m");
  await expect.poll(() => source.inputValue()).toBe("mains");
  await tabTo(stretch.getByRole("button", { name: "Read it so" }));
  await page.keyboard.press("Enter");
  await page.getByText(/The verdict was: .* It is now: |The verdict stays as it was/).waitFor();
  const part = page.getByRole("region", { name: "How this run is read" });
  await expectFocusKept(part);
  const takeBack = page.getByRole("button", { name: "Take the last change back" });
  await tabTo(takeBack);
  await page.keyboard.press("Enter");
  await expect.poll(() => page.locator(".stretches summary").last().textContent()).toBe(before);
  await expectFocusKept(part);
});

test("nothing was complained of in the browser's console", () => {
  expect(complaints).toEqual([]);
});
