import { fc, test } from "@fast-check/vitest";
import { expect } from "vitest";
import { BoardLines, type HeardLine } from "../../src/ingest/board-lines.ts";
import { longestLine } from "../../src/ingest/probe-line.ts";
import { probeLineText, withChecksum } from "./probe-line-text.ts";

const lineOf = (sequence: number, boot = 1, boardId = "b1") =>
  probeLineText({
    type: "reading",
    boardId,
    boot,
    sequence,
    uptimeMs: sequence * 1000,
    probeId: "28AA",
    value: sequence % 40,
    unit: "Cel",
  });
const bytesOf = (...lines: readonly string[]) => Buffer.from(lines.map((line) => `${line}\n`).join(""), "latin1");
const sequences = (heard: readonly HeardLine[]) =>
  heard.flatMap((line) => (line.outcome === "good" && !line.isRepeat ? [line.line.sequence] : []));

test.prop([fc.array(fc.integer({ min: 1, max: 90 }), { minLength: 1, maxLength: 60 }), fc.boolean()])(
  "lines come out whole and in order, however the bytes are cut",
  (pieces, hasReturns) => {
    const bytes = Buffer.from(
      Array.from({ length: 30 }, (_, i) => `${lineOf(i + 1)}${hasReturns ? "\r\n" : "\n"}`).join(""),
      "latin1",
    );
    const lines = new BoardLines();
    const heard: HeardLine[] = [];
    let from = 0;
    for (let i = 0; from < bytes.length; i++) {
      heard.push(...lines.push(bytes.subarray(from, from + pieces[i % pieces.length])));
      from += pieces[i % pieces.length];
    }
    expect(sequences(heard)).toEqual(Array.from({ length: 30 }, (_, i) => i + 1));
    expect(lines.counts).toMatchObject({ good: 30, damaged: 0, missed: 0, repeated: 0 });
  },
);

test("of 10,000 lines cut at random, with noise and damage between them, every good one comes out once and every bad one is counted", () => {
  // A fixed pattern instead of chance, so that a failure can be repeated.
  const parts: Buffer[] = [];
  const good: number[] = [];
  let damaged = 0;
  for (let sequence = 1; sequence <= 10_000; sequence++) {
    const line = Buffer.from(`${lineOf(sequence)}\n`, "latin1");
    if (sequence % 17 === 3) {
      line[(sequence * 7) % (line.length - 1)] ^= 0x80;
      damaged++;
    } else if (sequence % 23 === 5) {
      parts.push(Buffer.from([0, 255, 10]));
      damaged++;
      good.push(sequence);
    } else {
      good.push(sequence);
    }
    parts.push(line);
  }
  const bytes = Buffer.concat(parts);
  const lines = new BoardLines();
  const heard: HeardLine[] = [];
  for (let from = 0, i = 0; from < bytes.length; i++) {
    const length = 1 + ((i * 7919) % 131);
    heard.push(...lines.push(bytes.subarray(from, from + length)));
    from += length;
  }
  expect(sequences(heard)).toEqual(good);
  expect(lines.counts).toMatchObject({ good: good.length, damaged, missed: 10_000 - good.length, repeated: 0 });
});

test("a gap is counted as missed, and no longer once the lines have come again", () => {
  const lines = new BoardLines();
  const [, second] = lines.push(bytesOf(lineOf(5), lineOf(9)));
  expect(second).toMatchObject({ isRepeat: false, missedBefore: 3 });
  expect(lines.counts.missed).toBe(3);
  lines.push(bytesOf(lineOf(7)));
  expect(lines.counts.missed).toBe(2);
  lines.push(bytesOf(lineOf(8), lineOf(6)));
  expect(lines.counts).toMatchObject({ missed: 0, good: 5 });
});

test("a line that comes twice is a repeat, whenever it comes", () => {
  const lines = new BoardLines();
  const heard = lines.push(bytesOf(lineOf(1), lineOf(2), lineOf(1), lineOf(2), lineOf(3)));
  expect(heard.map((line) => line.outcome === "good" && line.isRepeat)).toEqual([false, false, true, true, false]);
  expect(lines.counts).toMatchObject({ good: 3, repeated: 2, missed: 0 });
});

test.prop([fc.array(fc.integer({ min: 1, max: 40 }), { maxLength: 80 })])(
  "whatever the order of arrival, new, repeated and missed lines add up",
  (order) => {
    const lines = new BoardLines();
    for (const sequence of order) lines.push(bytesOf(lineOf(sequence)));
    const different = new Set(order);
    const span = order.length === 0 ? 0 : Math.max(...order) - Math.min(...order) + 1;
    expect(lines.counts).toMatchObject({
      good: different.size,
      repeated: order.length - different.size,
      missed: span - different.size,
    });
  },
);

test("a restart begins the count anew, and its first lines are missed when they do not come", () => {
  const lines = new BoardLines();
  lines.push(bytesOf(lineOf(1), lineOf(2)));
  const [restarted] = lines.push(bytesOf(lineOf(3, 2)));
  expect(restarted).toMatchObject({ isRepeat: false });
  expect(lines.counts.missed).toBe(2);
});

test("a recording that goes on knows from the last line kept what is missing and what is a repeat", () => {
  const lines = new BoardLines([{ boardId: "b1", boot: 4, sequence: 100 }]);
  lines.push(bytesOf(lineOf(104, 4), lineOf(99, 4)));
  expect(lines.counts).toMatchObject({ good: 1, repeated: 1, missed: 3 });
});

test("two boards on one line are counted apart", () => {
  const lines = new BoardLines();
  lines.push(bytesOf(lineOf(7, 1, "b1"), lineOf(90, 1, "b2"), lineOf(8, 1, "b1")));
  expect(lines.counts).toMatchObject({ good: 3, missed: 0 });
});

test("a line of an unknown type is skipped, and its number is not missed", () => {
  const lines = new BoardLines();
  const heard = lines.push(bytesOf(lineOf(1), withChecksum("humidity b1 1 2 2000 p 55"), lineOf(3)));
  expect(heard[1]).toMatchObject({ outcome: "unknown-type", type: "humidity" });
  expect(lines.counts).toMatchObject({ good: 2, unknownType: 1, missed: 0 });
});

test("endless noise is one damaged line, and the next good line is read", () => {
  const lines = new BoardLines();
  for (let i = 0; i < 200; i++) lines.push(Buffer.alloc(1000, 0x55));
  const heard = lines.push(Buffer.concat([Buffer.from("\n"), bytesOf(lineOf(1))]));
  expect(heard[0]).toMatchObject({ outcome: "damaged", why: "too-long" });
  expect(sequences(heard)).toEqual([1]);
});

test("a line of exactly the longest length is read, and one byte more is too long", () => {
  const filled = (length: number) => {
    const body = "heard b1 1 1 1 ";
    return withChecksum(body + "x".repeat(length - body.length - 5));
  };
  const lines = new BoardLines();
  const heard = lines.push(bytesOf(filled(longestLine - 1), filled(longestLine)));
  expect(heard.map(({ outcome }) => outcome)).toEqual(["good", "damaged"]);
  // Cut at the longest length, this would be a good line with its carriage return.
  expect(lines.push(bytesOf(`${filled(longestLine - 1)}\rnoise`))).toMatchObject([
    { outcome: "damaged", why: "too-long" },
  ]);
});

test("a port that ends in the middle of a line leaves a damaged line, and a file may lack its last line end", () => {
  const cut = new BoardLines();
  cut.push(bytesOf(lineOf(1)).subarray(0, 20));
  expect(cut.end()).toMatchObject([{ outcome: "damaged" }]);
  const whole = new BoardLines();
  whole.push(Buffer.from(lineOf(1), "latin1"));
  expect(sequences(whole.end())).toEqual([1]);
  expect(whole.end()).toEqual([]);
});

test("what is shown of a damaged line is printable and short", () => {
  const [heard] = new BoardLines().push(Buffer.concat([Buffer.alloc(300, 7), Buffer.from("\n")]));
  expect(heard).toMatchObject({ outcome: "damaged", why: "not-text", text: "?".repeat(80) });
});
