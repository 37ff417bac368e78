// A page that stands by itself, as a browser shows and prints it: what every report's page is held against.

import { AxeBuilder } from "@axe-core/playwright";
import type { Browser, BrowserContextOptions } from "playwright-core";

/** What is to be found on a page that can be read by everyone, on a screen so wide. */
export const nothingWrong = { violations: [], isTooWide: false, asked: [] } as const;

/**
 * Opens every folded part and looks at all of it.
 *
 * @returns axe-core's violations of WCAG 2.2 A and AA, whether the page is wider than the screen, and what it asked the network for
 * @throws Error when axe found next to nothing to look at: then it proves nothing
 */
export async function seenAt(browser: Browser, html: string, width: number, options: BrowserContextOptions = {}) {
  const viewer = await browser.newContext({ viewport: { width, height: 900 }, ...options });
  const tab = await viewer.newPage();
  const asked: string[] = [];
  tab.on("request", (request) => asked.push(request.url()));
  await tab.setContent(html);
  for (const details of await tab.locator("details > summary").all()) await details.click();
  const { violations, passes } = await new AxeBuilder({ page: tab }).analyze();
  if (passes.length <= 10) throw new Error(`axe found only ${passes.length} rules to check`);
  const isTooWide = (await tab.evaluate<number>("document.documentElement.scrollWidth")) > width;
  await viewer.close();
  return { violations: violations.map(({ id, nodes }) => `${id}: ${nodes[0].html}`), isTooWide, asked };
}

/** A4 is 210 mm by 297 mm (ISO 216), here in points of 1/72 inch; the browser rounds to 1/100. */
export const a4 = { width: 595, height: 842 } as const;

/** Size of the paper, whole points, and how many sheets a page takes in print. */
export async function printed(browser: Browser, html: string) {
  const tab = await browser.newPage();
  await tab.setContent(html);
  const pdf = (await tab.pdf({ preferCSSPageSize: true })).toString("latin1");
  await tab.close();
  const [, width, height] = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(pdf) ?? [];
  const sheets = pdf.match(/\/Type \/Page\b/g)?.length ?? 0;
  return { width: Math.round(Number(width)), height: Math.round(Number(height)), sheets };
}
