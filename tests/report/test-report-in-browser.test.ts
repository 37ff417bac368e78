// The test report's page in a browser: two sheets of A4 in print, readable on a telephone.

import { AxeBuilder } from "@axe-core/playwright";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { testReportPage } from "../../src/report/test-report/index.ts";
import { launchBrowser } from "../browser/browser.ts";
import { context, weakOnGas } from "./fixture.ts";

const page = testReportPage({
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
});

describe("the test report in a browser", { timeout: 60_000 }, () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launchBrowser();
  }, 120_000);
  afterAll(() => browser.close());

  test("three sources with causes, checks and cautions print on two pages of A4", async () => {
    const tab = await browser.newPage();
    await tab.setContent(page);
    const pdf = (await tab.pdf({ preferCSSPageSize: true })).toString("latin1");
    const [, width, height] = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(pdf) ?? [];
    // A4 is 210 mm by 297 mm (ISO 216), in points of 1/72 inch.
    expect(Number(width)).toBeCloseTo(595.28, 0);
    expect(Number(height)).toBeCloseTo(841.89, 0);
    expect(pdf.match(/\/Type \/Page\b/g)).toHaveLength(2);
    await tab.close();
  });

  for (const colorScheme of ["light", "dark"] as const) {
    for (const width of [360, 1200]) {
      test(`has no axe violation on ${colorScheme} paper at ${width} px and fits`, async () => {
        const viewer = await browser.newContext({ colorScheme, viewport: { width, height: 900 } });
        const tab = await viewer.newPage();
        await tab.setContent(page);
        const { violations, passes } = await new AxeBuilder({ page: tab }).analyze();
        expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0].html}`)).toEqual([]);
        expect(passes.length).toBeGreaterThan(10);
        expect(await tab.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(width);
        await viewer.close();
      });
    }
  }
});
