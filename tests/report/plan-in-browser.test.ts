// The printed plan goes to the fridge as one sheet of paper.

import { AxeBuilder } from "@axe-core/playwright";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { planPage } from "../../src/report/plan/index.ts";
import { planRun } from "../../src/science/plan/index.ts";
import { launchBrowser } from "../browser/browser.ts";

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
    const tab = await browser.newPage();
    await tab.setContent(page);
    const pdf = (await tab.pdf({ preferCSSPageSize: true })).toString("latin1");
    const [, width, height] = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(pdf) ?? [];
    // A4 is 210 mm by 297 mm (ISO 216), in points of 1/72 inch.
    expect(Number(width)).toBeCloseTo(595.28, 0);
    expect(Number(height)).toBeCloseTo(841.89, 0);
    expect(pdf.match(/\/Type \/Page\b/g)).toHaveLength(1);
    await tab.close();
  });

  for (const width of [360, 1200]) {
    test(`has no axe violation at ${width} px and fits`, async () => {
      const context = await browser.newContext({ viewport: { width, height: 900 } });
      const tab = await context.newPage();
      await tab.setContent(page);
      const { violations, passes } = await new AxeBuilder({ page: tab }).analyze();
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0].html}`)).toEqual([]);
      expect(passes.length).toBeGreaterThan(10);
      expect(await tab.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(width);
      await context.close();
    });
  }
});
