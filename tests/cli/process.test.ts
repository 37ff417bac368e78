// The command as a process: exit codes, streams, pipes. Few, as each costs a start of Node.

import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { pullDownLog } from "./pull-down-log.ts";

const entry = join(import.meta.dirname, "../../src/cli/coldfall.js");
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

// Other systems take no such names.
test.runIf(process.platform === "linux")("a file whose name is no UTF-8 is told to be renamed", () => {
  const { status, stderr } = run(
    "cp night.csv \"$(printf 'n\\344cht.csv')\"; $COLDFALL analyse n?cht.csv; code=$?; rm n?cht.csv; exit $code",
  );
  expect(status).toBe(2);
  expect(stderr).toMatch(/its name holds characters that cannot be read, so rename the file with plain letters\.\n$/);
});

test("a reader that has seen enough ends the command quietly", () => {
  const { stderr } = run("$COLDFALL analyse night.csv --json | head -c 10");
  expect(stderr).toBe("");
});

test.skipIf(!existsSync("/dev/full"))(
  "a result that finds the disk full is told in one sentence, with exit code 2",
  () => {
    for (const [language, sentence] of [
      ["en", '"stdout" could not be written: the disk is full; free some space.\n'],
      ["de", /^„stdout“ .*\n$/],
    ] as const) {
      const { status, stderr } = run(`$COLDFALL analyse night.csv --json --language ${language} > /dev/full`);
      expect(status).toBe(2);
      expect(stderr).toMatch(sentence);
      expect(stderr.split("\n")).toHaveLength(2);
    }
    expect(run("$COLDFALL analyse none.csv 2> /dev/full").status).toBe(2);
  },
);

test("no colour goes into a pipe, even when a terminal would get it", () => {
  const { stdout } = run("$COLDFALL analyse night.csv", { TERM: "xterm-256color", FORCE_COLOR: "1" });
  expect(stdout).not.toContain("\u001b");
});

test("a command loads what it uses: judging a log needs no simulator, no service, no live side, no plan, no page", () => {
  const { status, stderr } = run(
    `${process.execPath} --import ${join(import.meta.dirname, "print-loaded.js")} ${entry} analyse night.csv`,
  );
  const loaded = stderr.split("\n").flatMap((url) => url.split("/src/")[1] ?? []);
  expect(status).toBe(0);
  expect(loaded).toContain("science/analyse.ts");
  const idle =
    /^(simulate|server|schema\/(api|documents)|science\/(live|plan|before-after)|workshop\/recording|cli\/recording)\//;
  expect(loaded.filter((file) => idle.test(file))).toEqual([]);
});

/** How each shell is asked, from a script, what it would offer for a line. */
const asked: Readonly<Record<string, (line: string) => string>> = {
  bash: (line) => `COMP_WORDS=(${line}); COMP_CWORD=$(( \${#COMP_WORDS[@]} - 1 )); _coldfall; echo "\${COMPREPLY[@]}"`,
  // zsh filters by the beginning itself, after the function; sh's arrays, as its bashcompinit calls it.
  zsh: (line) =>
    `(emulate -L sh; COMP_WORDS=(${line}); COMP_CWORD=$(( \${#COMP_WORDS[@]} - 1 )); _coldfall; echo "\${COMPREPLY[@]}")`,
  fish: (line) => `complete -C "${line}"`,
};
const learnt: Readonly<Record<string, string>> = {
  bash: 'eval "$($COLDFALL completion bash)"',
  zsh: 'autoload -U +X compinit && compinit -u; eval "$(eval $COLDFALL completion zsh)"',
  fish: "eval $COLDFALL completion fish | source",
};
const has = (shell: string) => spawnSync(shell, ["-c", "exit 0"]).status === 0;

// zsh and fish are asked on machines that have them; bash everywhere.
for (const shell of ["bash", ...["zsh", "fish"].filter(has)]) {
  test(`${shell} completes commands, their parts, options and limited values once it has read the script`, () => {
    const lines = ["coldfall si", "coldfall analyse --known", "coldfall schema run-", "coldfall runs ed"];
    const { stdout, stderr } = spawnSync(shell, ["-c", [learnt[shell], ...lines.map(asked[shell])].join("\n")], {
      cwd: folder,
      encoding: "utf8",
      env: { ...process.env, COLDFALL: `${process.execPath} ${entry}` },
    });
    expect(stderr).toBe("");
    const answers = stdout.trimEnd().split("\n");
    expect(answers).toHaveLength(lines.length);
    for (const [index, word] of ["simulate", "--known-good", "run-sheet", "edit"].entries()) {
      expect(answers[index].split(/\s+/)).toContain(word);
    }
    // Nothing of one command is offered for another.
    expect(answers[3]).not.toContain("--known-good");
  });
}
