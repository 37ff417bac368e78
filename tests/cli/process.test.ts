// The command as a process: exit codes, streams, pipes. Few, as each costs a start of Node.

import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { pullDownLog } from "./pull-down-log.ts";

const entry = join(import.meta.dirname, "../../src/cli/coldfall.ts");
let folder = "";

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-process-"));
  writeFileSync(join(folder, "night.csv"), pullDownLog({ strength: 0.7, day: 1 }));
});
afterAll(() => rmSync(folder, { recursive: true }));

const run = (command: string, env: Record<string, string> = {}) =>
  spawnSync("sh", ["-c", command], {
    cwd: folder,
    encoding: "utf8",
    env: { ...process.env, COLDFALL: `${process.execPath} ${entry}`, ...env },
  });

test("a result goes to standard output, nothing to standard error, and the exit code is 0", () => {
  const { status, stdout, stderr } = run("$COLDFALL analyse night.csv");
  expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
  expect(stdout).toMatch(/On mains/);
});

test("bad input gives one sentence on standard error, nothing on standard output, no file, and exit code 2", () => {
  const { status, stdout, stderr } = run("$COLDFALL analyse none.csv --json --html out.html");
  expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
  expect(stderr).toBe('There is no file "none.csv"; check the name and the folder.\n');
  expect(readdirSync(folder)).toEqual(["night.csv"]);
});

test("a reader that has seen enough ends the command quietly", () => {
  const { stderr } = run("$COLDFALL analyse night.csv --json | head -c 10");
  expect(stderr).toBe("");
});

test("no colour goes into a pipe, even when a terminal would get it", () => {
  const { stdout } = run("$COLDFALL analyse night.csv", { TERM: "xterm-256color", FORCE_COLOR: "1" });
  expect(stdout).not.toContain("\u001b");
});

test("bash completes commands, options and limited values once it has read the script", () => {
  const asked = (line: string) =>
    `COMP_WORDS=(${line}); COMP_CWORD=$(( \${#COMP_WORDS[@]} - 1 )); _coldfall; echo "\${COMPREPLY[@]}"`;
  const script = [
    'eval "$($COLDFALL completion bash)"',
    asked("coldfall si"),
    asked("coldfall analyse --known"),
    asked("coldfall schema run"),
    asked("coldfall baseline --he"),
  ].join("\n");
  const { stdout } = spawnSync("bash", ["-c", script], {
    cwd: folder,
    encoding: "utf8",
    env: { ...process.env, COLDFALL: `${process.execPath} ${entry}` },
  });
  expect(stdout).toBe("simulate\n--known-good\nrun-sheet\n--help\n");
});
