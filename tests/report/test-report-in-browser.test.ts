// The test report's page in a browser: two sheets of A4 in print, readable on a telephone.

import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type TestReport, testReportPage } from "../../src/report/test-report/index.ts";
import { launchBrowser } from "../browser/browser.ts";
import { context, weakOnGas } from "./fixture.ts";
import { a4, nothingWrong, printed, seenAt } from "./page-seen.ts";

const report: TestReport = {
  madeMs: Date.UTC(2026, 5, 6, 8),
  letterhead: "Bench two",
  fridge: { name: "Larch", kind: "90 litre" },
  runs: [
    {
      when: "run",
      id: "2026-06-04-k7qx3m",
      name: "june-service",
      startMs: Date.UTC(2026, 5, 4, 5),
      endMs: Date.UTC(2026, 5, 5, 1),
      sheet: { setting: "bench", vents: "open" },
      notes: "flue looked sooty",
      remarks: [],
    },
  ],
  analysis: weakOnGas,
  context,
  service: null,
};
const page = testReportPage(report);

describe("the test report in a browser", { timeout: 60_000 }, () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launchBrowser();
  }, 120_000);
  afterAll(() => browser.close());

  test("three sources with causes, checks and cautions print on two pages of A4", async () => {
    expect(await printed(browser, page)).toEqual({ ...a4, sheets: 2 });
  });

  test("in print a long name in the run sheet leaves half of its column to what it names", async () => {
    const tab = await browser.newPage({ viewport: { width: 680, height: 1000 } });
    await tab.emulateMedia({ media: "print" });
    const runs = [{ ...report.runs[0], sheet: { setting: "bench", gasChecked: true } as const }];
    await tab.setContent(testReportPage({ ...report, runs, context: { ...context, language: "de" } }));
    const share = await tab.evaluate(`(() => {
      const sheet = document.querySelector(".columns dl");
      return sheet.querySelector("dd").getBoundingClientRect().width / sheet.getBoundingClientRect().width;
    })()`);
    expect(share).toBeGreaterThan(0.5);
    await tab.close();
  });

  test("on a telephone a cause of two lines goes on under its words, not under its share", async () => {
    const tab = await browser.newPage({ viewport: { width: 360, height: 800 } });
    await tab.setContent(page);
    const lefts = await tab.evaluate<readonly (readonly number[])[]>(`
      [...document.querySelectorAll(".events li")].map((item) => {
        const words = document.createRange();
        words.selectNodeContents(item.lastChild);
        return [...words.getClientRects()].filter(({ width }) => width > 8).map(({ left }) => Math.round(left));
      })`);
    const parted = lefts.filter((lines) => lines.length > 1);
    expect(parted.length).toBeGreaterThan(0);
    for (const lines of parted) expect(new Set(lines).size).toBe(1);
    await tab.close();
  });

  for (const colorScheme of ["light", "dark"] as const) {
    for (const width of [360, 1200]) {
      test(`has no axe violation on ${colorScheme} paper at ${width} px and fits`, async () => {
        expect(await seenAt(browser, page, width, { colorScheme })).toEqual(nothingWrong);
      });
    }
  }
});
