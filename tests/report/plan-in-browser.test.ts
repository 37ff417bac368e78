// The printed plan goes to the fridge as one sheet of paper.

import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { planPage } from "../../src/report/plan/index.ts";
import { planRun } from "../../src/science/plan/index.ts";
import { launchBrowser } from "../browser/browser.ts";
import { a4, nothingWrong, printed, seenAt } from "./page-seen.ts";

const planned = planRun({
  startMs: Date.parse("2026-06-04T13:00:00Z"),
  sources: ["mains", "gas", "dc12"],
  utcOffsetMinutes: 0,
});
if (planned.outcome === "refused") throw new Error(planned.reason.code);
const page = planPage(planned.plan, "en");

describe("the plan in a browser", { timeout: 60_000 }, () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launchBrowser();
  }, 120_000);
  afterAll(() => browser.close());

  test("three sources with all cautions and the checklist print on one page of A4", async () => {
    expect(await printed(browser, page)).toEqual({ ...a4, sheets: 1 });
  });

  for (const width of [360, 1200]) {
    test(`has no axe violation at ${width} px and fits`, async () => {
      expect(await seenAt(browser, page, width)).toEqual(nothingWrong);
    });
  }
});
