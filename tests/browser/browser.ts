// The browser of the tests that look at a page. Every such test calls launchBrowser(); which browser that is, is
// decided here alone: the one you name, one the machine has, and on Linux x64 else one from npm (npm-chromium.ts).

import { existsSync } from "node:fs";
import path from "node:path";
import { type Browser, chromium, type LaunchOptions } from "playwright-core";
import { npmChromium } from "./npm-chromium.ts";

/** A place to look: launch options when something is there, null when not. */
type Finder = () => LaunchOptions | null | Promise<LaunchOptions | null>;

const named: Finder = () => {
  const executablePath = process.env.CHROMIUM_PATH;
  return executablePath ? { executablePath } : null;
};

const onPath: Finder = () => {
  const folders = (process.env.PATH ?? "").split(path.delimiter);
  const names = ["chromium", "chromium-browser", "google-chrome"];
  const executablePath = names.flatMap((name) => folders.map((folder) => path.join(folder, name))).find(existsSync);
  return executablePath ? { executablePath } : null;
};

const finders: readonly Finder[] = [
  named,
  () => ({ channel: "chrome" }),
  () => ({ channel: "msedge" }),
  onPath,
  npmChromium,
];

/**
 * Starts a headless browser, without sandbox: it loads our own pages only. Close it when done.
 *
 * @throws when none is found, with what to install and what each place answered; never skips.
 */
export async function launchBrowser(places: readonly Finder[] = finders): Promise<Browser> {
  const answers: string[] = [];
  for (const place of places) {
    const found = await place();
    if (found === null) continue;
    try {
      return await chromium.launch(found);
    } catch (problem) {
      const [firstLine] = String(problem).split("\n");
      answers.push(`${found.executablePath ?? found.channel}: ${firstLine}`);
      // The one that was asked for is broken: another in its place would hide that.
      if (place === named) break;
    }
  }
  throw new Error(
    "no browser for the tests: install Chrome, Edge or Chromium (Debian, as root: apt-get install chromium), " +
      `or name one in CHROMIUM_PATH.\n${answers.join("\n")}`,
  );
}
