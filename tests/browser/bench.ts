// The bench as a browser meets it: pages built, a service on a store of its own.

import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import type { Browser, Page } from "playwright-core";
import { createServer } from "../../src/server/create-server.ts";
import type { PasswordHashes } from "../../src/server/sign-in.ts";
import { openStore, type Store } from "../../src/store/index.ts";
import { launchBrowser } from "./browser.ts";

const root = path.join(import.meta.dirname, "../..");
const pages = path.join(root, "dist/web");

export interface Bench {
  readonly base: string;
  readonly port: number;
  readonly store: Store;
  /** Ends the service and begins another at the same address, over the same store. */
  readonly restart: () => Promise<void>;
  /** Ends the service; the store stays until `close`. */
  readonly stop: () => Promise<void>;
  readonly close: () => Promise<void>;
}

/** Builds the pages where that was not done yet; after a change to them, "npm run pages" builds them anew. */
function buildPages(): void {
  if (existsSync(path.join(pages, "index.html"))) return;
  execFileSync(process.execPath, ["node_modules/vite/bin/vite.js", "build"], { cwd: root, stdio: "pipe" });
}

/**
 * A service with an empty store, in a temporary folder.
 *
 * @param passwords asked for by everyone; none unless given
 */
export async function startBench(passwords: PasswordHashes | null = null): Promise<Bench> {
  buildPages();
  const folder = mkdtempSync(path.join(tmpdir(), "coldfall-bench-"));
  const storeFile = path.join(folder, "store.coldfall");
  const store = await openStore(storeFile, { groupWaitMs: 1 });
  const begin = async (port: number) => {
    const service = createServer({
      store,
      storeFile,
      version: "0.0.0-test",
      hosts: ["127.0.0.1", "localhost"],
      passwords,
      uploadFolder: path.join(folder, "uploads"),
      pages,
      sampleLogs: path.join(root, "sample-logs"),
      limits: { requestsPerMinute: 100_000, watchMs: 200 },
    });
    return { service, port: await service.listen(port, "127.0.0.1") };
  };
  let running: Awaited<ReturnType<typeof begin>> | null = await begin(0);
  const { port } = running;
  const stop = async () => {
    await running?.service.close();
    running = null;
  };
  return {
    base: `http://127.0.0.1:${port}`,
    port,
    store,
    stop,
    restart: async () => {
      await stop();
      running = await begin(port);
    },
    close: async () => {
      await stop();
      await store.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** What a page must never say in the browser's console, with what it said so far. */
function complaintsOf(page: Page): readonly string[] {
  const complaints: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error") complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(String(error)));
  return complaints;
}

/** A bench on an empty store, and a page in a browser beside it, in the zone of the sample logs. */
export async function openBench(viewport: { readonly width: number; readonly height: number }): Promise<{
  readonly browser: Browser;
  readonly bench: Bench;
  readonly page: Page;
  readonly complaints: readonly string[];
}> {
  const [browser, bench] = await Promise.all([launchBrowser(), startBench()]);
  const context = await browser.newContext({ viewport, timezoneId: "Europe/Berlin" });
  const page = await context.newPage();
  page.setDefaultTimeout(20_000);
  return { browser, bench, page, complaints: complaintsOf(page) };
}
