import { AxeBuilder } from "@axe-core/playwright";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import { launchBrowser } from "./browser.ts";

let browser: Browser;
// A first run may have to fetch and unpack the browser.
beforeAll(async () => {
  browser = await launchBrowser();
}, 180_000);
afterAll(() => browser?.close());

const pageWith = async (body: string) => {
  const context = await browser.newContext({ viewport: { width: 400, height: 200 } });
  const page = await context.newPage();
  const html = `<!doctype html><html lang="en"><meta charset="utf-8"><title>A page</title><main><h1>A page</h1>${body}</main></html>`;
  await page.goto(`data:text/html;charset=utf-8,${encodeURIComponent(html)}`);
  return page;
};
const faultsOf = async (page: Awaited<ReturnType<typeof pageWith>>) =>
  (await new AxeBuilder({ page }).analyze()).violations.map((violation) => violation.id);

test("a page can be seen: its picture is a PNG of the size asked for, and text leaves marks in it", async () => {
  const page = await pageWith('<p id="words">21 °C ± 0.5 K → ✓ ⣿</p>');
  const picture = await page.screenshot();
  expect(picture.subarray(1, 4).toString("latin1")).toBe("PNG");
  expect([picture.readUInt32BE(16), picture.readUInt32BE(20)]).toEqual([400, 200]);
  const written = await page.locator("#words").screenshot();
  await page.locator("#words").evaluate((element) => {
    (element as unknown as { style: { color: string } }).style.color = "transparent";
  });
  const blank = await page.locator("#words").screenshot();
  // Without fonts all text is blank, and nothing says so.
  expect(written.equals(blank)).toBe(false);
});

test("axe finds a button without a name and a picture without words, and nothing in a sound page", async () => {
  const faulty = await faultsOf(
    await pageWith('<button></button><img src="data:image/gif;base64,R0lGODlhAQABAAAAACw=">'),
  );
  expect(faulty).toEqual(expect.arrayContaining(["button-name", "image-alt"]));
  expect(await faultsOf(await pageWith("<button>Print</button>"))).toEqual([]);
});

test("closing one page's context leaves the browser running", async () => {
  const page = await pageWith("");
  await page.context().close();
  expect(browser.isConnected()).toBe(true);
  expect(await (await pageWith("")).title()).toBe("A page");
});

test("where no browser is found the tests fail and say what to install", async () => {
  await expect(launchBrowser([() => null])).rejects.toThrow(/apt-get install chromium.*CHROMIUM_PATH/);
  await expect(launchBrowser([() => ({ executablePath: "/nowhere/chromium" })])).rejects.toThrow("/nowhere/chromium");
});

test("a browser named in CHROMIUM_PATH that does not start is reported, not replaced by another", async () => {
  vi.stubEnv("CHROMIUM_PATH", "/nowhere/named");
  await expect(launchBrowser()).rejects.toThrow("/nowhere/named");
  vi.unstubAllEnvs();
});
