import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import path from "node:path";
import { expect, test } from "vitest";
import { nodeTooOld } from "../../src/cli/node-version.js";

const root = path.join(import.meta.dirname, "../..");
const check = "./src/cli/node-version.js";
const manifest = JSON.parse(readFileSync(path.join(root, "package.json"), "utf8"));

/** Runs `args` in a Node that says it is version `says`. */
const nodeSaying = (says: string, ...args: string[]) => {
  const disguise = `Object.defineProperty(process, "versions", { value: { ...process.versions, node: "${says}" } });`;
  return spawnSync(process.execPath, ["--import", `data:text/javascript,${encodeURIComponent(disguise)}`, ...args], {
    cwd: root,
    encoding: "utf8",
  });
};

test("Node 24 and newer serve", () => {
  expect(nodeTooOld("24.0.0")).toBeNull();
  expect(nodeTooOld("26.10.0")).toBeNull();
});

for (const version of ["20.20.2", "22.23.3", "9.11.2"]) {
  test(`on Node ${version} the program ends before it starts and says what to install`, () => {
    const run = nodeSaying(version, "--import", check, "--eval", "console.log('started')");
    expect(run.stdout).toBe("");
    expect(run.stderr).toMatch(new RegExp(`needs Node 24 or newer, and this is Node ${version}`));
    expect(run.stderr).toMatch(/npm ci.*https:\/\/nodejs\.org/);
    expect(run.status).toBe(1);
  });
}

test("on this Node the check lets the program run", () => {
  const run = nodeSaying(process.versions.node, "--import", check, "--eval", "console.log('started')");
  expect(run.stdout).toBe("started\n");
});

test("the check is JavaScript that a much older Node can read: no syntax later than 2019", () => {
  const text = readFileSync(path.join(root, check), "utf8").replace(/\/\/.*|\/\*[\s\S]*?\*\//g, "");
  expect(text).not.toMatch(/\?\.|\?\?|await|#|\bimport\b/);
});

test("every script that starts one of our programs checks its Node first", () => {
  const scripts: Record<string, string> = manifest.scripts;
  const starting = Object.values(scripts).filter((script) => /\.ts\b/.test(script));
  expect(starting.length).toBeGreaterThanOrEqual(3);
  for (const script of starting) expect(script).toContain(`node --import ${check} `);
  expect(scripts.test.startsWith(`node ${check} && `)).toBe(true);
});

test("the installed command checks its Node first", () => {
  const first = readFileSync(path.join(root, "src/cli/coldfall.js"), "utf8").match(/^import .*$/m);
  expect(first?.[0]).toBe('import "./node-version.js";');
});

test("the pinned Node is one version for each kind of machine, all of the major that is asked for", () => {
  const pinned: Record<string, string> = manifest.optionalDependencies;
  for (const version of Object.values(pinned)) expect(version).toMatch(/^24\.\d+\.\d+$/);
  const locked = JSON.parse(readFileSync(path.join(root, "package-lock.json"), "utf8")).packages;
  for (const name of Object.keys(pinned)) expect(locked[`node_modules/${name}`].integrity).toMatch(/^sha512-/);
});
