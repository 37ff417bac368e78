// The page as a browser shows it. axe-core 4 checks it against its rules for WCAG 2.2 A and AA.

import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { analysisLetter } from "../../src/report/analysis/analysis-page.ts";
import { comparisonLetter } from "../../src/report/comparison/index.ts";
import { lettersPage } from "../../src/report/page/index.ts";
import { launchBrowser } from "../browser/browser.ts";
import { comparisonContext, serviced } from "./comparison-fixture.ts";
import { context, nothingHeated, weakOnGas } from "./fixture.ts";
import { a4, nothingWrong, printed, seenAt } from "./page-seen.ts";

// Two stretches are enough to hold every kind of element; axe looks at each of them.
const short = { ...weakOnGas, sources: weakOnGas.sources.slice(0, 1), stretches: weakOnGas.stretches.slice(0, 2) };
const page = lettersPage([
  analysisLetter({ title: "Larch, before service", analysis: short, context }),
  analysisLetter({ title: "Alder", analysis: nothingHeated, context }),
  comparisonLetter({
    title: "Larch, serviced",
    comparison: { ...serviced, sources: serviced.sources.slice(0, 1) },
    context: comparisonContext,
  }),
]);

describe("the page in a browser", { timeout: 60_000 }, () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launchBrowser();
  }, 120_000);
  afterAll(() => browser.close());

  for (const colorScheme of ["light", "dark"] as const) {
    for (const width of [360, 1200]) {
      test(`has no axe violation in ${colorScheme} at ${width} px, fits, and asks the network for nothing`, async () => {
        expect(await seenAt(browser, page, width, { colorScheme })).toEqual(nothingWrong);
      });
    }
  }

  test("on a telephone the first thing to check stands within three screens, caution and all", async () => {
    const tab = await browser.newPage({ viewport: { width: 360, height: 800 } });
    await tab.setContent(page);
    const box = await tab.locator(".checks > li").first().boundingBox();
    expect((box?.y ?? 0) + (box?.height ?? Number.POSITIVE_INFINITY)).toBeLessThan(3 * 800);
    await tab.close();
  });

  test("the shares of the causes end under the end of their heading", async () => {
    const tab = await browser.newPage({ viewport: { width: 1200, height: 800 } });
    await tab.setContent(page);
    const ends = await tab.evaluate<readonly number[]>(`
      [...document.querySelectorAll(".causes tr > :last-child")].slice(0, 2).map((cell) => {
        const words = document.createRange();
        words.selectNodeContents(cell);
        return Math.round(words.getBoundingClientRect().right);
      })`);
    expect(ends).toHaveLength(2);
    expect(ends[0]).toBe(ends[1]);
    await tab.close();
  });

  test("the numbers of a stretch are folded away on a screen and stand open in print", async () => {
    const tab = await browser.newPage();
    await tab.setContent(page);
    const numbers = tab.locator("table.numbers").first();
    const isSeen = () => numbers.evaluate((table) => table.checkVisibility({ contentVisibilityAuto: true }));
    expect(await isSeen()).toBe(false);
    await tab.emulateMedia({ media: "print" });
    expect(await isSeen()).toBe(true);
    expect((await numbers.boundingBox())?.height).toBeGreaterThan(50);
    await tab.close();
  });

  test("prints on A4, each letter from a page of its own, with every drawing whole", async () => {
    expect(await printed(browser, page)).toMatchObject(a4);
    const tab = await browser.newPage();
    await tab.setContent(page);
    await tab.emulateMedia({ media: "print" });
    const styles = (selector: string, name: string) =>
      tab.evaluate(`[...document.querySelectorAll("${selector}")].map((element) => getComputedStyle(element).${name})`);
    expect(await styles("article", "breakBefore")).toEqual(["auto", "page", "page"]);
    expect(new Set((await styles("figure, .caution", "breakInside")) as string[])).toEqual(new Set(["avoid"]));
    await tab.close();
  });
});
