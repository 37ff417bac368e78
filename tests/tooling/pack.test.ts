import { execFile } from "node:child_process";
import { globSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { promisify } from "node:util";
import { afterAll, beforeAll, expect, test } from "vitest";

const run = promisify(execFile);
const root = path.join(import.meta.dirname, "../..");
const { version, exports: entries } = JSON.parse(readFileSync(path.join(root, "package.json"), "utf8"));

let empty = "";
let installed = "";

/** npm in `folder`, with the Node of this test first on the path. */
const npm = (folder: string, ...args: string[]) =>
  run("npm", args, {
    cwd: folder,
    env: { ...process.env, PATH: `${path.dirname(process.execPath)}${path.delimiter}${process.env.PATH}` },
    shell: process.platform === "win32",
  });

beforeAll(async () => {
  empty = mkdtempSync(path.join(tmpdir(), "coldfall-pack-"));
  await npm(root, "pack", "--silent", "--pack-destination", empty);
  const [tarball] = globSync("*.tgz", { cwd: empty });
  writeFileSync(path.join(empty, "package.json"), '{ "name": "someone-elses", "private": true, "type": "module" }');
  // The pinned Node is left out: this test brings its own.
  const quietly = ["--prefer-offline", "--ignore-scripts", "--omit=optional", "--no-audit", "--no-fund"];
  await npm(empty, "install", ...quietly, `./${tarball}`);
  installed = path.join(empty, "node_modules/coldfall");
}, 180_000);
afterAll(() => rmSync(empty, { recursive: true, force: true }));

test("the package holds JavaScript and types, and no TypeScript to be stripped", () => {
  const files = globSync("**/*", { cwd: installed });
  expect(files.filter((file) => /(?<!\.d)\.ts$/.test(file))).toEqual([]);
  expect(files).toContain(path.normalize("dist/cli/coldfall.js"));
  expect(files).toContain("LICENSE");
  expect(files).toContain(path.normalize("dist/web/index.html"));
  // The pages are bundles for a browser, which nobody imports.
  const isPage = (file: string) => file.startsWith(path.normalize("dist/web/"));
  const scripts = files.filter((file) => file.startsWith("dist") && file.endsWith(".js") && !isPage(file));
  expect(scripts.length).toBeGreaterThan(20);
  for (const script of scripts) {
    expect(files, `${script} has no types`).toContain(script.replace(/\.js$/, ".d.ts"));
    expect(readFileSync(path.join(installed, script), "utf8")).not.toMatch(/from "\.[^"]*\.ts"/);
  }
});

test("what other programs may import can be imported, and has types", async () => {
  const importable = Object.entries<{ types: string; default: string } | string>(entries).filter(
    ([, entry]) => typeof entry !== "string",
  );
  expect(importable.length).toBeGreaterThan(0);
  for (const [name, entry] of importable) {
    const { types, default: script } = entry as { types: string; default: string };
    expect(readFileSync(path.join(installed, types), "utf8")).toMatch(/export/);
    expect(types.replace(/\.d\.ts$/, "")).toBe(script.replace(/\.js$/, ""));
    const program = `console.log(Object.keys(await import("coldfall${name.slice(1)}")).length)`;
    const { stdout } = await run(process.execPath, ["--input-type=module", "--eval", program], { cwd: empty });
    expect(Number(stdout), `coldfall${name.slice(1)} exports nothing`).toBeGreaterThan(0);
  }
});

test("the installed command says its version and its help", async () => {
  const told = await npm(empty, "exec", "--offline", "--", "coldfall", "--version");
  expect(told.stdout.trim()).toBe(version);
  const help = await npm(empty, "exec", "--offline", "--", "coldfall", "--help");
  expect(help.stdout).toMatch(/analyse/);
  expect(help.stderr).toBe("");
});
