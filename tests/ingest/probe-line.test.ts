import { readFileSync } from "node:fs";
import path from "node:path";
import { fc, test } from "@fast-check/vitest";
import { expect } from "vitest";
import { commandText, commandWords } from "../../src/ingest/board-command.ts";
import {
  helloReasons,
  lineUnits,
  longestLine,
  type ProbeLine,
  parseProbeLine,
  probeFaults,
} from "../../src/ingest/probe-line.ts";
import { lineChecksum } from "../../src/ingest/probe-line-checksum.ts";
import { positions } from "../../src/schema/index.ts";
import { probeLineText, withChecksum } from "./probe-line-text.ts";

const reading: ProbeLine = {
  type: "reading",
  boardId: "b00020418",
  boot: 12,
  sequence: 5,
  uptimeMs: 10_000,
  probeId: "2817040200000186",
  value: 4.3125,
  unit: "Cel",
};

// Catalogue of parametrised CRC algorithms; the copy says how it was obtained.
test("the checksum is CRC-16/CCITT-FALSE by the catalogue's check value", () => {
  const { rows } = JSON.parse(readFileSync(path.join(import.meta.dirname, "../reference/checksums.json"), "utf8"));
  const { check } = rows.find(({ name }: { name: string }) => name.startsWith("CRC-16/CCITT-FALSE"));
  expect(lineChecksum("123456789")).toBe(check);
});

const id = fc.stringMatching(/^[0-9A-Za-z.-]{1,32}$/);
const count = fc.nat({ max: 2 ** 32 - 1 });
const head = { boardId: id, boot: count, sequence: count, uptimeMs: fc.nat({ max: 1e12 }) };
const value = fc.integer({ min: -2000 * 16, max: 2000 * 16 }).map((steps) => steps / 16);
const unit = fc.constantFrom(...lineUnits);
const listed = fc.record({
  probeId: id,
  role: fc.constantFrom(null, ...positions),
  unit,
  resolution: fc.constantFrom(0.0625, 0.5, 1, 0.001),
});
const anyLine: fc.Arbitrary<ProbeLine> = fc.oneof(
  fc.record({ type: fc.constant("reading" as const), ...head, probeId: id, value, unit }),
  fc.record({ type: fc.constant("fault" as const), ...head, probeId: id, fault: fc.constantFrom(...probeFaults) }),
  fc.record({
    type: fc.constant("hello" as const),
    ...head,
    formatVersion: fc.constant(1),
    firmware: id,
    reason: fc.constantFrom(...helloReasons),
    intervalSeconds: fc.integer({ min: 1, max: 3600 }),
    probes: fc.array(listed, { maxLength: 4 }),
  }),
  fc.record({
    type: fc.constantFrom("heard" as const, "refused" as const),
    ...head,
    command: fc.constantFrom("identify", "interval 10"),
  }),
);

test.prop([anyLine])("every line that is written is read back word for word", (line) => {
  expect(parseProbeLine(probeLineText(line))).toEqual({ outcome: "good", line });
});

test.prop([anyLine, fc.nat(), fc.integer({ min: 0x20, max: 0x7e })])(
  "a line with any one character changed is damaged",
  (line, place, code) => {
    const text = probeLineText(line);
    const at = place % text.length;
    const changed = text.slice(0, at) + String.fromCharCode(code) + text.slice(at + 1);
    fc.pre(changed !== text);
    expect(parseProbeLine(changed).outcome).toBe("damaged");
  },
);

test.prop([fc.string({ unit: "binary", maxLength: 700 })])("any text at all is read without a fault", (text) => {
  expect(parseProbeLine(text).outcome).toMatch(/^(good|unknown-type|damaged)$/);
});

test("a line cut short anywhere is damaged, however believable its number", () => {
  const text = probeLineText(reading);
  for (let length = 0; length < text.length; length++) {
    expect(parseProbeLine(text.slice(0, length)).outcome).toBe("damaged");
  }
});

for (const [what, text, why] of [
  ["no checksum", "reading b1 1 1 1 p 4 Cel", "no-checksum"],
  ["a checksum in lower case", "reading b1 1 1 1 p 4 Cel 0a0b", "no-checksum"],
  ["another checksum", "reading b1 1 1 1 p 4 Cel 0000", "checksum-differs"],
  ["a byte that is no ASCII", "reading b1 1 1 1 p 4\u00b0 Cel 0000", "not-text"],
  ["too many characters", "x".repeat(longestLine), "too-long"],
  ["a decimal comma", withChecksum("reading b1 1 1 1 p 4,5 Cel"), "fields"],
  ["an exponent", withChecksum("reading b1 1 1 1 p 4e1 Cel"), "fields"],
  ["no value", withChecksum("reading b1 1 1 1 p  Cel"), "fields"],
  ["a unit that is not ours", withChecksum("reading b1 1 1 1 p 4 degF"), "fields"],
  ["a negative sequence", withChecksum("reading b1 1 -1 1 p 4 Cel"), "fields"],
  ["a sequence in hexadecimal", withChecksum("reading b1 1 0x1 1 p 4 Cel"), "fields"],
  ["an uptime with decimals", withChecksum("reading b1 1 1 1.5 p 4 Cel"), "fields"],
  ["a head that is cut", withChecksum("reading b1 1 1"), "fields"],
  ["a type in capitals", withChecksum("READING b1 1 1 1 p 4 Cel"), "fields"],
  ["a hello with a broken probe", withChecksum("hello b1 1 1 1 1 1.0 power-on 10 p,cabinet,Cel"), "fields"],
] as const) {
  test(`a line with ${what} is damaged: ${why}`, () => {
    expect(parseProbeLine(text)).toEqual({ outcome: "damaged", why });
  });
}

test("a type of a later format is whole but unknown, its head readable; so is a name that every object has", () => {
  for (const type of ["humidity", "constructor"]) {
    expect(parseProbeLine(withChecksum(`${type} b1 3 7 900 p 55 %RH`))).toEqual({
      outcome: "unknown-type",
      type,
      head: { boardId: "b1", boot: 3, sequence: 7, uptimeMs: 900 },
    });
  }
});

test("fields that a later format puts behind the known ones are left alone", () => {
  const { line } = parseProbeLine(withChecksum("reading b1 3 7 900 p 5.5 Cel settled")) as { line: ProbeLine };
  expect(line).toMatchObject({ type: "reading", value: 5.5 });
});

test("words that this version does not know are told as other, and an unknown role as none", () => {
  const read = (text: string) => (parseProbeLine(withChecksum(text)) as { line: ProbeLine }).line;
  expect(read("fault b1 1 1 1 p frozen")).toMatchObject({ fault: "other" });
  expect(read("hello b1 1 1 1 2 1.0 lightning 10 p,larder,Cel,0.5")).toMatchObject({
    formatVersion: 2,
    reason: "other",
    probes: [{ role: null }],
  });
});

test("commands are words and a whole number, ended by a line feed", () => {
  expect(commandText({ ask: "identify" })).toBe("identify\n");
  expect(commandText({ ask: "interval", seconds: 10 })).toBe("interval 10\n");
  expect(commandText({ ask: "light", seconds: 0 })).toBe("light 0\n");
  expect(commandWords({ ask: "resend", fromSequence: 4_294_967_295 })).toBe("resend 4294967295");
});

test("a command that a board would refuse is not written", () => {
  for (const seconds of [0, 3601, 1.5, Number.NaN]) {
    expect(() => commandText({ ask: "interval", seconds })).toThrow(/1 to 3600 here, not/);
  }
  expect(() => commandText({ ask: "resend", fromSequence: -1 })).toThrow(RangeError);
});
