// The notes a builder reads, held against the program: examples that parse, words that are all there, links that lead somewhere.

import { existsSync, globSync, readFileSync } from "node:fs";
import path from "node:path";
import { expect, test } from "vitest";
import { commandWords, longestCommandSeconds } from "../../src/ingest/board-command.ts";
import {
  helloReasons,
  lineUnits,
  longestLine,
  memoryStates,
  parseProbeLine,
  probeFaults,
} from "../../src/ingest/probe-line.ts";
import { positions } from "../../src/schema/index.ts";
import { lineFormatVersion } from "../ingest/probe-line-text.ts";

const notes = path.join(import.meta.dirname, "../../firmware-notes");
const format = readFileSync(path.join(notes, "line-format.md"), "utf8");

test("every example line of the line format is a good line, one of each type", () => {
  const examples = format
    .split("\n")
    .filter((line) => line.startsWith("    "))
    .map((line) => line.trim());
  const read = examples.map(parseProbeLine);
  expect(read.map(({ outcome }) => outcome)).toEqual(examples.map(() => "good"));
  const types = read.map((line) => line.outcome === "good" && line.line.type);
  expect(types).toEqual(["hello", "memory", "reading", "fault", "reading", "heard"]);
});

test("the line format names every word that the program knows, and the same limits", () => {
  const commands = [
    commandWords({ ask: "identify" }),
    ...(["interval", "light"] as const).map((ask) => commandWords({ ask, seconds: 1 }).split(" ")[0]),
    commandWords({ ask: "resend", fromSequence: 1 }).split(" ")[0],
    commandWords({ ask: "read-out" }),
    commandWords({ ask: "erase" }),
    "keep 0` or `keep 1",
  ];
  for (const word of [...positions, ...probeFaults, ...helloReasons, ...lineUnits, ...memoryStates])
    expect(format).toContain(`\`${word}\``);
  for (const command of commands) expect(format).toMatch(new RegExp(`\\| \`${command}( [A-Z]+)?\` \\|`));
  expect(format).toContain(`At most ${longestLine} bytes`);
  expect(format).toContain(`to ${longestCommandSeconds} s`);
  expect(format).toContain(`version ${lineFormatVersion}`);
});

test("every link in the notes leads to a file that is there", () => {
  for (const file of globSync("*.md", { cwd: notes })) {
    const links = [...readFileSync(path.join(notes, file), "utf8").matchAll(/\]\(([^)#]+)\)/g)].map(([, link]) => link);
    for (const link of links) expect(existsSync(path.join(notes, link)), `${file}: ${link}`).toBe(true);
  }
});

test("notes that send a hand near mains, gas or the cooling unit carry a caution", () => {
  for (const file of ["README.md", "parts-and-wiring.md", "placement.md", "time.md", "first-use.md"]) {
    const text = readFileSync(path.join(notes, file), "utf8");
    expect(text, file).toMatch(/> \*\*(Caution|Before anything else)/);
  }
  const placement = readFileSync(path.join(notes, "placement.md"), "utf8");
  for (const word of ["carbon monoxide", "mains", "ammonia", "gas off"]) expect(placement).toContain(word);
});
