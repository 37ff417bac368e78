// The attacks that a browser carries out, in a real one. Each fails, and succeeds once its defence is switched off. Numbers
// as in attacks.test.ts.

import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, onTestFinished, test } from "vitest";
import { launchBrowser } from "../browser/browser.ts";
import { type Running, running } from "./service.ts";

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
}, 180_000);
afterAll(() => browser?.close());

async function pageAt(address: string): Promise<Page> {
  const page = await (await browser.newContext()).newPage();
  onTestFinished(() => page.context().close());
  await page.goto(address);
  return page;
}

/** A page as it would be if somebody's words had slipped into it as markup. */
function pagesWith(body: string): string {
  const pages = mkdtempSync(join(tmpdir(), "coldfall-pages-"));
  onTestFinished(() => rmSync(pages, { recursive: true, force: true }));
  writeFileSync(join(pages, "index.html"), `<!doctype html><title>bench</title>${body}`);
  return pages;
}

/** A page of somebody else, under another name. */
async function foreignPage(body: string): Promise<string> {
  const server = createServer((_request, response) => {
    response.setHeader("Content-Type", "text/html");
    response.end(`<!doctype html><title>elsewhere</title>${body}`);
  });
  await new Promise<void>((listening) => server.listen(0, "127.0.0.1", listening));
  onTestFinished(() => void server.close());
  return `http://localhost:${(server.address() as { readonly port: number }).port}/`;
}

// ASVS 3.4.3
test("a script that slipped into a page does not run; without the policy it does", async () => {
  const pages = pagesWith(
    '<script>document.title = "taken over"</script><img src="/none" onerror="document.title = \'taken over\'">',
  );
  const isTakenOver = async ({ base }: Running) => {
    const page = await pageAt(base);
    await page.waitForLoadState("networkidle");
    return (await page.title()) === "taken over";
  };
  expect(await isTakenOver(await running({ pages }))).toBe(false);
  expect(await isTakenOver(await running({ pages, defencesOff: ["content-policy"] }))).toBe(true);
});

// ASVS 3.4.6
test("the bench cannot be shown in a frame of a foreign page; without the policy it can", async () => {
  const isFramed = async ({ base }: Running) => {
    const page = await pageAt(await foreignPage(`<iframe src="${base}/"></iframe>`));
    await page.waitForLoadState("networkidle");
    const frame = page.frames().find((each) => each !== page.mainFrame());
    return (await frame?.title().catch(() => "")) === "bench";
  };
  const pages = pagesWith("");
  // Sec-Fetch-Site would stop it too; here only the policy is looked at.
  expect(await isFramed(await running({ pages, defencesOff: ["same-origin"] }))).toBe(false);
  expect(await isFramed(await running({ pages, defencesOff: ["same-origin", "content-policy"] }))).toBe(true);
});

// ASVS 3.5.1
test("a form of a foreign page ends no run; without the check of the origin it does", async () => {
  const ends = async ({ base, store }: Running) => {
    const { id: fridgeId } = await store.fridges.add({ name: "Larch" });
    const run = { fridgeId, startedUnixMs: 0, purpose: "test", origin: "board", utcOffsetMinutes: 0 } as const;
    const { id } = await store.runs.open(run);
    const form = `<form method="post" action="${base}/api/runs/${id}/end"><button>win a fridge</button></form>`;
    const page = await pageAt(await foreignPage(form));
    await Promise.all([page.waitForResponse((response) => response.url().startsWith(base)), page.click("button")]);
    return (await store.runs.get(id)).endedUnixMs !== null;
  };
  expect(await ends(await running())).toBe(false);
  expect(await ends(await running({ defencesOff: ["same-origin"] }))).toBe(true);
});
