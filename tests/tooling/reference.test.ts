import { globSync, readFileSync } from "node:fs";
import path from "node:path";
import { expect, test } from "vitest";

const folder = path.join(import.meta.dirname, "../reference");
const files = globSync("**/*.*", { cwd: folder }).filter((file) => file !== "README.md");

/** The list's rows by file: source and licence. */
const listed = new Map(
  [...readFileSync(path.join(folder, "README.md"), "utf8").matchAll(/^\| `([^`]+)` \| ([^|]+) \| ([^|]+) \|$/gm)].map(
    ([, file, source, licence]) => [file, { source: source.trim(), licence: licence.trim() }] as const,
  ),
);

test("every file of reference data is listed with its source and its licence", () => {
  expect(files.length).toBeGreaterThan(25);
  for (const file of files) {
    const row = listed.get(file.replaceAll(path.sep, "/"));
    expect(row, `${file} has no line in tests/reference/README.md`).toBeDefined();
    expect(row?.source.length, `${file} names no source`).toBeGreaterThan(20);
    expect(row?.licence, `${file} names no licence`).toMatch(/MIT|public domain|facts quoted with source|CC0|CC BY/);
  }
});

test("every file that the list names is there", () => {
  for (const file of listed.keys()) expect(files, `${file} is listed and missing`).toContain(path.normalize(file));
});

test("every block of reference data names its source inside the file too", () => {
  for (const file of files.filter((name) => name.endsWith(".json") && !name.endsWith("index.json"))) {
    const content: Record<string, unknown> = JSON.parse(readFileSync(path.join(folder, file), "utf8"));
    const blocks = "source" in content ? [["", content] as const] : Object.entries(content);
    for (const [name, block] of blocks) {
      expect(JSON.stringify(block), `${file} ${name} names no source`).toMatch(/"(source|about)":|common practice/);
    }
  }
});
