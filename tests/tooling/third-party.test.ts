import { readFileSync } from "node:fs";
import path from "node:path";
import { expect, test } from "vitest";

const root = path.join(import.meta.dirname, "../..");
const read = (file: string) => readFileSync(path.join(root, file), "utf8");
const manifest = JSON.parse(read("package.json"));
const notices = read("THIRD-PARTY.md");

test("every package the program needs stands in THIRD-PARTY.md with the licence that the package names", () => {
  const needed = Object.keys(manifest.dependencies);
  expect(needed.length).toBeGreaterThan(5);
  for (const name of needed) {
    const { license } = JSON.parse(read(`node_modules/${name}/package.json`));
    const row = notices.split("\n").find((line) => new RegExp(`^\\| ${name}[ ,]`).test(line));
    expect(row, `${name} is missing`).toContain(license);
  }
});

test("every package that only the tests need is named there too", () => {
  const text = notices.replaceAll("\\*", "*");
  for (const name of Object.keys(manifest.devDependencies)) {
    const family = name.startsWith("@types/") ? "@types/*" : name;
    expect(text, `${name} is missing`).toContain(family);
  }
});
