import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import path from "node:path";
import { expect, test } from "vitest";

const root = path.join(import.meta.dirname, "../..");
const { version } = JSON.parse(readFileSync(path.join(root, "package.json"), "utf8"));

const coldfall = (...args: string[]) =>
  spawnSync("npm", ["run", "--silent", "coldfall", "--", ...args], {
    cwd: root,
    encoding: "utf8",
    shell: process.platform === "win32",
  });

test("npm run --silent coldfall passes arguments and output through, and adds nothing", () => {
  expect(coldfall("--version")).toMatchObject({ stdout: `${version}\n`, stderr: "", status: 0 });
});

test("npm run --silent coldfall passes exit code 2 through, with the one sentence on standard error", () => {
  const run = coldfall("analyse", "no such log.csv");
  expect(run).toMatchObject({ stdout: "", status: 2 });
  expect(run.stderr).toMatch(/^[^\n]*no such log\.csv[^\n]*\n$/);
});
