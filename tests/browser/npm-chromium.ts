// Chromium from npm, for Linux x64 machines without a browser (a bare container, as root, without apt). The package
// is made for a cloud function; three cures make it work on plain Linux, each at its place below. It is installed
// from npm-chromium/ (own lock file) into .cache/ when first needed, never by the project's own "npm ci".

import { execFile } from "node:child_process";
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync } from "node:fs";
import path from "node:path";
import { promisify } from "node:util";
import type { LaunchOptions } from "playwright-core";

const run = promisify(execFile);
const root = path.join(import.meta.dirname, "../..");
const recipe = path.join(import.meta.dirname, "npm-chromium");
const cache = path.join(root, ".cache");

/** Launch options for the npm Chromium, installed first where it is not; null on any machine but Linux x64. */
export async function npmChromium(): Promise<LaunchOptions | null> {
  if (process.platform !== "linux" || process.arch !== "x64") return null;
  const home = path.join(cache, `chromium-${version()}`);
  if (!existsSync(home)) await install(home);
  const unpacked = path.join(home, "unpacked");
  return {
    executablePath: path.join(unpacked, "chromium"),
    env: {
      ...process.env,
      // First cure: the libraries that a bare Debian lacks (nss, nspr, expat) come in the package, but unused.
      LD_LIBRARY_PATH: path.join(unpacked, "al2023", "lib"),
      // Second cure: the package's fonts lack ticks and arrows, and vanish when it is unpacked elsewhere.
      FONTCONFIG_FILE: path.join(recipe, "fonts.conf"),
    },
  };
}

const version = (): string =>
  JSON.parse(readFileSync(path.join(recipe, "package.json"), "utf8")).dependencies["@sparticuz/chromium"];

/** Made ready beside its place and then renamed, so that a second test process never finds half a browser. */
async function install(home: string): Promise<void> {
  mkdirSync(cache, { recursive: true });
  const place = mkdtempSync(`${home}-`);
  try {
    cpSync(recipe, place, { recursive: true });
    await run("npm", ["ci", "--ignore-scripts", "--prefer-offline", "--no-audit", "--no-fund"], { cwd: place });
    await unpack(place);
    renameSync(place, home);
  } catch (problem) {
    // Another process may have been first; its browser is as good.
    if (!existsSync(home)) throw problem;
  } finally {
    rmSync(place, { recursive: true, force: true });
  }
}

/** Third cure: it unpacks into the temporary folder and trusts what lies there, so it gets one of its own. */
async function unpack(place: string): Promise<void> {
  const unpacked = path.join(place, "unpacked");
  mkdirSync(unpacked);
  const program = `
    import chromium, { inflate } from "@sparticuz/chromium";
    await inflate("node_modules/@sparticuz/chromium/bin/al2023.tar.br");
    await chromium.executablePath();`;
  await run(process.execPath, ["--input-type=module", "--eval", program], {
    cwd: place,
    env: { ...process.env, TMPDIR: unpacked },
  });
}
