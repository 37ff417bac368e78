// Every page of the bench, on a phone and on a desk, on light and on dark paper: axe finds nothing, nothing is wider than the
// screen, and a picture of each is kept in .cache/bench-pictures to be looked at.

import { mkdirSync, readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { gzipSync } from "node:zlib";
import { AxeBuilder } from "@axe-core/playwright";
import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readLog } from "../../src/ingest/index.ts";
import { inks } from "../../src/report/for-pages.ts";
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
  ["hot days", () => `/fridge/${fridge}/hot-days`, "text=/this fridge (holds|does not hold) 8/"],
  ["before you start", () => `/fridge/${fridge}/before-you-start`, "text=Hour by hour"],
  ["bring in a log", () => `/fridge/${fridge}/bring-in`, "text=Drop the file here"],
  ["nowhere", () => "/no/such/page", "text=There is nothing at this address"],
];

test("a run that points to no cause leaves the other fridges on the first page", { timeout: 60_000 }, async () => {
  const { id: fridgeId } = await bench.store.fridges.add({ name: "a minute of mains" });
  const startedUnixMs = Date.parse("2026-06-01T20:00:00Z");
  const open = { fridgeId, name: "minute", purpose: "test", origin: "hand", utcOffsetMinutes: 120 } as const;
  const run = await bench.store.runs.open({ ...open, startedUnixMs });
  const at = (unixMs: number) =>
    (["evaporator", "cabinet", "ambient"] as const).map((position) => ({ position, unixMs, raw: 25 }));
  await bench.store.readings.append(run.id, [...at(startedUnixMs), ...at(startedUnixMs + 60_000)]);
  await bench.store.edits.make(run.id, { kind: "source", unixMs: startedUnixMs, source: "mains" });
  await bench.store.runs.close(run.id, startedUnixMs + 60_000);
  await page.goto(bench.base);
  const own = page.locator("section", { has: page.getByRole("heading", { name: "a minute of mains" }) });
  await own.getByText("cannot say yet").waitFor();
  expect(await own.getByText("Likeliest cause").count()).toBe(0);
  await page.goto(`${bench.base}/fridge/${fridgeId}`);
  await page.getByText("Why, and what to check next").waitFor();
  await bench.store.fridges.remove(fridgeId);
});

test("a seal that leaks beside good sources is named on the first page", { timeout: 60_000 }, async () => {
  await page.goto(bench.base);
  await page.getByText(/^Likeliest cause: leaking door seal, \d\d\s%\.$/).waitFor();
});

for (const [name, address, ready] of pages) {
  test(`axe finds nothing on the page "${name}", on light and dark paper, on a phone and on a desk`, {
    timeout: 60_000,
  }, async () => {
    await page.setViewportSize({ width: 360, height: 800 });
    await page.goto(bench.base + address());
    await page.locator(ready).first().waitFor();
    // What is asked for besides has to be there too.
    await page.waitForLoadState("networkidle");
    await expectSound(page, name);
  });
}

/** At both widths and on both papers axe finds nothing and nothing is wider than the screen; pictures are kept. */
async function expectSound(shown: Page, name: string): Promise<void> {
  for (const [place, width] of [
    ["phone", 360],
    ["desk", 1200],
  ] as const) {
    await shown.setViewportSize({ width, height: 800 });
    for (const colorScheme of ["light", "dark"] as const) {
      await shown.emulateMedia({ colorScheme });
      await drawn(shown);
      await shown.screenshot({
        path: path.join(pictures, `${name.replaceAll(" ", "-")}-${place}-${colorScheme}.png`),
        fullPage: true,
      });
      // Its legacy mode opens no page of its own for each run; it finds less in frames alone, and there are none here.
      const { violations } = await new AxeBuilder({ page: shown }).setLegacyMode().analyze();
      expect(
        violations.map(({ id, nodes }) => `${id}: ${nodes[0].html.slice(0, 200)} ${nodes[0].failureSummary}`),
      ).toEqual([]);
      expect(await shown.evaluate("document.documentElement.scrollWidth - innerWidth")).toBeLessThanOrEqual(0);
    }
  }
}

/** Waits until another width or paper is on the screen: canvases follow within a frame or two. */
const drawn = (shown: Page) =>
  shown.evaluate(
    "new Promise((done) => setTimeout(() => requestAnimationFrame(() => requestAnimationFrame(() => done())), 60))",
  );

test("on a telephone the figures of a run stand whole under each other, and the test report is one tap from its top", {
  timeout: 60_000,
}, async () => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.goto(`${bench.base}/run/${runs["after-the-winter"]}`);
  const report = await page.getByRole("link", { name: "Test report" }).boundingBox();
  expect(report?.y).toBeLessThan(844);
  const span = page.locator("table.numbers.side-by-side td", { hasText: /\d\sh\s\d+/ }).first();
  await span.waitFor();
  // A number and its unit keep together, and have the width for it.
  expect(await span.textContent()).toMatch(
    /^\d+\u00a0h\u00a0\d+\u00a0min \d+\u00a0h\u00a0\d+\u00a0min to \d+\u00a0h\u00a0\d+\u00a0min$/,
  );
  expect((await span.boundingBox())?.width).toBeGreaterThan(300);
});

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
  await page
    .locator("canvas")
    .and(page.getByRole("img", { name: /°F/ }))
    .waitFor();
  expect(await colour()).not.toBe(light);
  await page.getByLabel("Celsius").check();
  await page.getByLabel("as the system").check();
});

test("who reads in Fahrenheit finds the server's letter in it as well, its drawings too", {
  timeout: 60_000,
}, async () => {
  await page.setViewportSize({ width: 1200, height: 800 });
  await page.goto(`${bench.base}/run/${runs["after-the-winter"]}`);
  await page.getByRole("heading", { name: "What to check next" }).waitFor();
  await page.getByLabel("Fahrenheit").check();
  const told = page.locator(".told");
  await told.getByText("temperature, °F").first().waitFor();
  expect(await told.textContent()).toMatch(/at 89\.6.°F ambient/);
  expect(((await told.textContent()) ?? "").replace(/40.°F, which is 4\.4.°C/g, "")).not.toMatch(/°C|\d.K\b/);
  await page.getByLabel("Celsius").check();
  await told.getByText("temperature, °C").first().waitFor();
});

test("every drawing of a letter is handed out as an SVG and a PNG file of its own", { timeout: 60_000 }, async () => {
  const dark = { colorScheme: "dark" } as const;
  await page.emulateMedia(dark);
  for (const [address, ready, title] of [
    [`/fridge/${fridge}/before-and-after`, "text=On gas the fridge", /below ambient/],
    [`/fridge/${fridge}/hot-days`, "text=/this fridge (holds|does not hold) 8/", /below ambient/i],
  ] as const) {
    await page.goto(bench.base + address);
    await page.locator(ready).first().waitFor();
    const fileBehind = async (ending: string) => {
      const [download] = await Promise.all([
        page.waitForEvent("download"),
        page
          .getByRole("button", { name: new RegExp(`^${ending}: `) })
          .last()
          .click(),
      ]);
      expect(download.suggestedFilename()).toMatch(new RegExp(`\\.${ending.toLowerCase()}$`));
      return readFileSync(await download.path());
    };
    const svg = (await fileBehind("SVG")).toString();
    expect(svg).toMatch(/^<svg [^>]*xmlns="http:\/\/www.w3.org\/2000\/svg"/);
    expect(svg).toMatch(title);
    // By itself it has no style sheet: on light paper, whatever the reader's.
    expect(svg).not.toMatch(/class=/);
    expect(svg).toContain('fill="#fffdf8"');
    // PNG specification, 5.2: its signature; 11.2.2: width and height, big-endian.
    const png = await fileBehind("PNG");
    expect([...png.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
    expect(png.readUInt32BE(16)).toBe(2 * 720);
  }
});

test("readings set aside are crosses on the run's curve, told in words and listed in a table", {
  timeout: 60_000,
}, async () => {
  const whole = readLog(readFileSync(log), { file: "faults.csv" });
  const cabinet = whole.columns.cabinet?.slice() ?? new Float64Array(0);
  cabinet[300] = 85;
  cabinet.fill(-127, 700, 720);
  const [startedUnixMs, utcOffsetMinutes] = [whole.unixMs[0], whole.utcOffsetMinutes];
  const origin = { fridgeId: fridge, origin: "file", purpose: "test", startedUnixMs, utcOffsetMinutes } as const;
  const { id } = await bench.store.runs.open({ ...origin, name: "with faults" });
  const into = bench.store.readings.import(id);
  into.add({ unixMs: whole.unixMs, columns: { ...whole.columns, cabinet }, sourceCodes: whole.sourceCodes });
  await into.finish();
  await bench.store.runs.close(id, whole.unixMs[whole.unixMs.length - 1]);
  await page.goto(`${bench.base}/run/${id}`);
  await page.getByRole("img", { name: /Crosses mark readings set aside\./ }).waitFor();
  await page.locator(".key", { hasText: "set aside" }).first().waitFor();
  await page.getByText("21 readings set aside").click();
  const rows = await page.locator("details.long tbody tr").allTextContents();
  expect(rows).toHaveLength(2);
  expect(rows[0]).toMatch(/26.May.02:00.*cabinet, 85\.0.°C.*power-on value/);
  expect(rows[1]).toMatch(/08:40 to 08:59.*cabinet, 20 readings, −127\.0.°C.*disconnected/);
  // Pointed at by keys, a cross says what it marks.
  await page.getByRole("region", { name: /^Readings of with faults/ }).focus();
  const line = page.locator(".reading-line").first();
  for (let i = 0; i < 60 && !/Set aside/.test((await line.textContent()) ?? ""); i++)
    await page.keyboard.press("Shift+ArrowRight");
  expect(await line.textContent()).toMatch(/× Set aside: cabinet \d+.May.\d\d:\d\d, (85|−127)\.0.°C\./);
});

test("a forecast file chosen on the page answers for the trip, and stays there to be changed", {
  timeout: 60_000,
}, async () => {
  await page.goto(`${bench.base}/fridge/${fridge}/hot-days`);
  await page.locator("text=/this fridge (holds|does not hold) 8/").waitFor();
  await page.getByText("Or a trip: typed, pasted, or from a file").click();
  const file = ["time,ambient,source,sun,driving"];
  for (let hour = 0; hour <= 12; hour++)
    file.push(
      `2026-07-18T${String(8 + hour).padStart(2, "0")}:00:00+02:00,${24 + hour},${hour < 3 ? "mains" : "gas"},no,no`,
    );
  await page.locator('input[type="file"]').setInputFiles({
    ...{ name: "trip.csv", mimeType: "text/csv", buffer: Buffer.from(file.join("\n")) },
  });
  await page.getByText("13 lines understood.").waitFor();
  await page.getByRole("heading", { name: "The trip, hour by hour" }).waitFor();
  expect(await page.getByLabel("The trip", { exact: true }).inputValue()).toContain(
    "2026-07-18T08:00:00+02:00,24,mains",
  );
});

test("the example of a trip is answered at once, on sources that the fridge has shown, in the reader's degrees", {
  timeout: 60_000,
}, async () => {
  await page.goto(`${bench.base}/fridge/${fridge}/hot-days`);
  await page.getByLabel("Fahrenheit").check();
  await page.getByText("Or a trip: typed, pasted, or from a file").click();
  await page.getByRole("button", { name: "Show me an example" }).click();
  await page.getByRole("heading", { name: "The trip, hour by hour" }).waitFor();
  const text = await page.getByLabel("The trip", { exact: true }).inputValue();
  expect(text).toMatch(/09:00, 79 °F, off, driving/);
  expect(await page.getByText("so nothing can be said of it").count()).toBe(0);
  await page.getByLabel("Celsius").check();
});

test("the plan says in which order the sources were ticked, and without one it waits for nothing", {
  timeout: 60_000,
}, async () => {
  await page.goto(`${bench.base}/fridge/${fridge}/before-you-start`);
  await page.getByText("Hour by hour").waitFor();
  await page.getByLabel("on mains (first)").uncheck();
  await page.getByLabel("on gas (first)").waitFor();
  await page.getByLabel("on mains", { exact: true }).check();
  await page.getByLabel("on mains (second)").waitFor();
  await page.getByLabel("on mains (second)").uncheck();
  await page.getByLabel("on gas (first)").uncheck();
  await page.getByText("Tick one source at least.").waitFor();
  expect(await page.locator("main").textContent()).not.toContain("One moment");
});

test("on a phone the known-good runs stand side by side in a table that need not be scrolled", {
  timeout: 60_000,
}, async () => {
  await page.setViewportSize({ width: 360, height: 780 });
  await page.goto(`${bench.base}/fridge/${fridge}`);
  await page.getByText("How far they differ among themselves").click();
  const table = page.getByRole("region", { name: "How far they differ among themselves" });
  await table.getByRole("rowheader", { name: /known-good-1 on gas/ }).waitFor();
  const [inner, outer] = await table.evaluate(({ scrollWidth, clientWidth }) => [scrollWidth, clientWidth]);
  expect(inner).toBeLessThanOrEqual(outer);
  await page.setViewportSize({ width: 1200, height: 900 });
});

test("in a row fields and their button stand on one line, and a day with its clock is not cut off", {
  timeout: 60_000,
}, async () => {
  await page.setViewportSize({ width: 1200, height: 900 });
  await page.goto(`${bench.base}/run/${runs["after-the-winter"]}`);
  await page.getByText("Leave readings out").click();
  const row = page.locator("details", { hasText: "Leave readings out" }).locator(".row");
  const boxOf = async (place: Locator) => (await place.boundingBox()) ?? { y: 0, height: 0, width: 0 };
  const because = await boxOf(row.getByLabel("Because"));
  const button = await boxOf(row.getByRole("button"));
  expect(button.y + button.height).toBeCloseTo(because.y + because.height, 0);
  for (const clock of await row.locator('input[type="datetime-local"]').all())
    expect((await boxOf(clock)).width).toBeGreaterThan(240);
});

test("the plan is printed on one sheet that says which fridge it is for", { timeout: 60_000 }, async () => {
  await page.goto(`${bench.base}/fridge/${fridge}/before-you-start`);
  await page.getByText("Hour by hour").waitFor();
  const printed = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
  expect(printed.match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
  await page.emulateMedia({ media: "print" });
  expect(await page.getByRole("link", { name: "bay-5" }).isVisible()).toBe(true);
  expect(await page.getByRole("link", { name: "All fridges" }).isVisible()).toBe(false);
  await page.emulateMedia({ media: null });
});

test("what is printed from dark paper is drawn in the inks of light paper, and the screen stays dark", {
  timeout: 60_000,
}, async () => {
  await page.emulateMedia({ colorScheme: "dark" });
  await page.goto(`${bench.base}/run/${runs["after-the-winter"]}`);
  await page.getByText("To take along").waitFor();
  const drawn = () =>
    page.evaluate<readonly string[]>(`(() => {
      const canvas = document.querySelector("canvas");
      const { data } = canvas.getContext("2d").getImageData(0, 0, canvas.width, canvas.height);
      const hex = (at) => [0, 1, 2].map((i) => data[at + i].toString(16).padStart(2, "0")).join("");
      const found = new Set();
      for (let at = 0; at < data.length; at += 4) if (data[at + 3] === 255) found.add("#" + hex(at));
      return [...found];
    })()`);
  await expect.poll(drawn).toContain(inks.cabinet.dark);
  await page.evaluate('dispatchEvent(new Event("beforeprint"))');
  expect(await drawn()).toContain(inks.cabinet.light);
  expect(await drawn()).not.toContain(inks.cabinet.dark);
  await page.evaluate('dispatchEvent(new Event("afterprint"))');
  await expect.poll(drawn).toContain(inks.cabinet.dark);
  await page.emulateMedia({ colorScheme: null });
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
    await expectSound(visitor, "sign in");
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
