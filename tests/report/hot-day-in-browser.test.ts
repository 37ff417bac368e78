// The hot-day page as a browser shows it. axe-core 4 checks it against its rules for WCAG 2.2 A and AA.

import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { hotDayPage } from "../../src/report/hot-day/index.ts";
import { launchBrowser } from "../browser/browser.ts";
import { predictions } from "./hot-day-fixture.ts";
import { nothingWrong, seenAt } from "./page-seen.ts";

describe("the hot-day page in a browser", { timeout: 60_000 }, () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launchBrowser();
  }, 120_000);
  afterAll(() => browser.close());

  for (const name of ["through a trip", "through a trip that begins on such a source"] as const) {
    const page = hotDayPage({ title: "Hot day", ...predictions[name] });
    for (const [colorScheme, width] of [
      ["light", 360],
      ["dark", 1200],
    ] as const) {
      test(`${name}, has no axe violation in ${colorScheme} at ${width} px, fits, and asks the network for nothing`, async () => {
        expect(await seenAt(browser, page, width, { colorScheme })).toEqual(nothingWrong);
      });
    }
  }

  test("draws the trip and the depths, each with title, description and table", async () => {
    const tab = await browser.newPage();
    await tab.setContent(hotDayPage({ title: "Hot day", ...predictions["through a trip"] }));
    expect(await tab.locator("figure").count()).toBe(2);
    for (const figure of await tab.locator("figure").all()) {
      expect(await figure.locator("svg > title").first().textContent()).not.toBe("");
      expect(await figure.locator("svg > desc").first().textContent()).toMatch(/°C/);
      expect(await figure.locator("details table tbody tr").count()).toBeGreaterThan(10);
    }
    await tab.close();
  });
});
