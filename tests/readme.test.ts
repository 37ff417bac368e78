// The README shows what the program prints; this holds the two together.

import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { coldfall } from "./cli/recorded-terminal.ts";

const readme = readFileSync(fileURLToPath(new URL("../README.md", import.meta.url)), "utf8");

/** What stands between a fence's ``` lines after a marker. */
function fenceAfter(marker: string): string {
  const [, text] = new RegExp(`${marker}\\n+\`\`\`\\w*\\n([^]*?)\`\`\``).exec(readme) ?? [];
  if (text === undefined) throw new Error(`no fenced block after ${marker}`);
  return text;
}

test("the example in the README begins exactly as the program's output does", async () => {
  const [, command] = /`npm run --silent coldfall -- (analyse sample-logs\/bay-5\/[^`]*)`/.exec(readme) ?? [];
  const { exitCode, printed } = await coldfall((command ?? "").split(/\s+/));
  expect(exitCode).toBe(0);
  const shown = fenceAfter("<!-- example: begin -->");
  expect(shown.split("\n").length).toBeGreaterThan(20);
  expect(printed.slice(0, shown.length)).toBe(shown);
});

test("the README opens with the job, then the cautions, then the two commands", () => {
  const places = [
    "judges three-way absorption fridges",
    "**Cautions.**",
    "npm ci && npm start",
    "npm ci && npm test",
    "## On your own log",
  ].map((text) => readme.indexOf(text));
  expect(places.every((place) => place >= 0)).toBe(true);
  expect(places).toEqual([...places].sort((a, b) => a - b));
  for (const danger of [
    "Mains voltage",
    "LPG",
    "carbon monoxide",
    "Ammonia",
    "licensed gas and electrical fitters decide",
  ]) {
    expect(readme.slice(0, readme.indexOf("## Two commands"))).toContain(danger);
  }
});
