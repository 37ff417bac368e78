import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { layerViolations } from "../layers.ts";

// A small project in which every floor keeps to the rule; each test plants one fault in it.
const lawful = {
  "src/schema/index.ts": 'export { inner } from "./inner.ts";\n',
  "src/schema/inner.ts": "export const inner = 1;\n",
  "src/science/index.ts":
    'import { mean } from "simple-statistics";\nimport { inner } from "../schema/index.ts";\nexport const science = mean([inner]);\nexport const instant = new Date(inner);\n',
  "src/simulate/index.ts": 'export { inner } from "../schema/index.ts";\n',
  "src/ingest/index.ts":
    'import { readFileSync } from "node:fs";\nexport { science } from "../science/index.ts";\nexport const read = readFileSync;\n',
  "src/store/index.ts": 'export { science } from "../science/index.ts";\n',
  "src/report/index.ts": 'export { read } from "../ingest/index.ts";\nexport { science } from "../store/index.ts";\n',
  "src/cli/start.ts": 'import { science } from "../report/index.ts";\nexport const cli = science;\n',
  "web/page.ts": 'export { science } from "../src/science/index.ts";\n',
};

let root = "";
beforeEach(() => {
  root = mkdtempSync(path.join(tmpdir(), "coldfall-layers-"));
  for (const [file, text] of Object.entries(lawful)) plant(file, text);
  symlinkSync(path.join(import.meta.dirname, "../../node_modules"), path.join(root, "node_modules"), "junction");
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

const plant = (file: string, text: string) => {
  mkdirSync(path.dirname(path.join(root, file)), { recursive: true });
  writeFileSync(path.join(root, file), text);
};
const violations = () => layerViolations(root, 9);

test("a project whose imports all point down passes", async () => {
  expect(await violations()).toEqual([]);
});

const faults: readonly (readonly [what: string, file: string, text: string, rule: RegExp])[] = [
  [
    "science importing from ingest",
    "src/science/up.ts",
    'import "../ingest/index.ts";',
    /src\/science imports only what lies below it/,
  ],
  [
    "a type taken from above",
    "src/science/up.ts",
    'import type { cli } from "../cli/start.ts";\nexport type Cli = typeof cli;',
    /src\/science imports only what lies below it/,
  ],
  [
    "ingest importing from store",
    "src/ingest/side.ts",
    'import "../store/index.ts";',
    /src\/ingest imports only what lies below it/,
  ],
  [
    "store importing from ingest",
    "src/store/side.ts",
    'import "../ingest/index.ts";',
    /src\/store imports only what lies below it/,
  ],
  [
    "report importing from a face",
    "src/report/up.ts",
    'import "../cli/start.ts";',
    /src\/report imports only what lies below it/,
  ],
  [
    "the simulator importing from science",
    "src/simulate/fit.ts",
    'import "../science/index.ts";',
    /src\/simulate imports only what lies below it/,
  ],
  [
    "a page importing all of the report",
    "web/report.ts",
    'import "../src/report/index.ts";',
    /pages take from src\/report only what is made for them/,
  ],
  [
    "the program importing from the tests",
    "src/cli/test.ts",
    'import "../../tests/help.ts";',
    /src\/cli imports only what lies below it/,
  ],
  [
    "a floor reached past its doors",
    "src/report/past.ts",
    'export { inner } from "../schema/inner.ts";',
    /use src\/schema through a door of it/,
  ],
  [
    "science reading a file",
    "src/science/file.ts",
    'import { readFileSync } from "node:fs";\nexport const read = readFileSync;',
    /src\/science uses no package but/,
  ],
  [
    "science using another package",
    "src/science/words.ts",
    'import color from "picocolors";\nexport const red = color.red;',
    /src\/science uses no package but/,
  ],
  [
    "the simulator using a package",
    "src/simulate/mean.ts",
    'export { mean } from "simple-statistics";',
    /src\/simulate uses no package but its own files/,
  ],
  [
    "files that need each other to load",
    "src/store/a.ts",
    'import { b } from "./b.ts";\nexport const a = () => b;',
    /circle/,
  ],
  ["an import that is not there", "src/store/lost.ts", 'import "./nowhere.ts";', /every import is found/],
  ["science asking the clock", "src/science/clock.ts", "export const now = () => Date.now();", /may not use Date\.now/],
  [
    "science asking the clock by a bare Date",
    "src/science/clock.ts",
    "export const now = () => new Date();",
    /may not use new Date\(\)/,
  ],
  [
    "the simulator drawing a number of its own",
    "src/simulate/dice.ts",
    "export const draw = () => Math.random();",
    /may not use Math\.random/,
  ],
];
for (const [what, file, text, rule] of faults) {
  test(`${what} is a violation`, async () => {
    plant("tests/help.ts", "export {};\n");
    plant("src/store/b.ts", 'import { a } from "./a.ts";\nexport const b = () => a;\n');
    if (!file.endsWith("/a.ts")) plant("src/store/a.ts", "export const a = 1;\n");
    plant(file, text);
    expect(await violations()).toContainEqual(expect.stringMatching(rule));
  });
}

test("a check that sees too few files fails instead of passing", async () => {
  expect(await layerViolations(root)).toEqual([expect.stringMatching(/only \d+ files found .* at least 30/)]);
});
