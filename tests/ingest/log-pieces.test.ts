// Read piece by piece, a log is what it is when read whole.

import { fc, test } from "@fast-check/vitest";
import { describe, expect, test as plainTest } from "vitest";
import type { LogPiece } from "../../src/ingest/log-columns.ts";
import { readLogPieces } from "../../src/ingest/log-pieces.ts";
import { BadInput, type LogMapping, type Position } from "../../src/schema/index.ts";
import { bytesOf, listed, nativeLog, read } from "./log-texts.ts";

function* cut(bytes: Uint8Array, sizes: readonly number[]): Generator<Uint8Array> {
  // The chunks share one buffer, as a file's do.
  const shared = new Uint8Array(Math.max(...sizes, 1));
  for (let at = 0, turn = 0; at < bytes.length; turn++) {
    const chunk = bytes.subarray(at, at + sizes[turn % sizes.length]);
    shared.set(chunk);
    yield shared.subarray(0, chunk.length);
    at += chunk.length;
  }
}

function readInPieces(bytes: Uint8Array, sizes: readonly number[], mapping?: LogMapping) {
  const pieces: LogPiece[] = [];
  const end = readLogPieces(cut(bytes, sizes), {
    file: "night.csv",
    hasQuotes: bytes.includes(0x22),
    take: (piece) => pieces.push(structuredClone(piece)),
    ...(mapping === undefined ? {} : { mapping }),
  });
  const joined = (part: (piece: LogPiece) => ArrayLike<number> | null | undefined) =>
    pieces.flatMap((piece) => listed(part(piece)));
  const names = Object.keys(pieces[0]?.columns ?? {}) as Position[];
  return {
    unixMs: joined(({ unixMs }) => unixMs),
    columns: Object.fromEntries(names.map((name) => [name, joined(({ columns }) => columns[name])])),
    codes: joined(({ sourceCodes }) => sourceCodes),
    ...end,
  };
}

function readWhole(bytes: Uint8Array, mapping?: LogMapping) {
  const { unixMs, columns, sourceCodes, utcOffsetMinutes, unreadable, ignoredColumns } = read(bytes, mapping);
  return {
    unixMs: listed(unixMs),
    columns: Object.fromEntries(Object.entries(columns).map(([name, values]) => [name, listed(values)])),
    codes: listed(sourceCodes),
    utcOffsetMinutes,
    unreadable,
    ignoredColumns,
  };
}

/** What comes of it: the log, or the code it is refused with. */
function outcome<Result>(attempt: () => Result): Result | string {
  try {
    return attempt();
  } catch (error) {
    if (error instanceof BadInput) return error.code;
    throw error;
  }
}

const row = fc
  .tuple(
    fc.integer({ min: 0, max: 86_399 }),
    fc.constantFrom("1", "-4.5", "", "err", "26.9375", '"7"', '"a\nb"'),
    fc.constantFrom("off", "gas", ""),
  )
  .map(
    ([second, cell, source]) => `${new Date(Date.UTC(2026, 5, 4) + second * 1000).toISOString()},${cell},2,3,${source}`,
  );
const rows = fc.array(fc.oneof({ weight: 9, arbitrary: row }, fc.constantFrom("", "half,a,row", "2026-06-04T07:0")), {
  minLength: 1,
  maxLength: 30,
});
const sizes = fc.array(fc.integer({ min: 1, max: 90 }), { minLength: 1, maxLength: 5 });

describe("cut anywhere", () => {
  test.prop([rows, sizes, fc.constantFrom("\n", "\r\n"), fc.boolean()], { numRuns: 300 })(
    "our own format",
    (lines, cuts, lineEnd, isMarked) => {
      const bytes = bytesOf((isMarked ? "\uFEFF" : "") + nativeLog(...lines).replaceAll("\n", lineEnd));
      // A mark cut in two is no mark; a file's first chunk is never that small.
      const sized = [Math.max(cuts[0], 70), ...cuts];
      const whole = outcome(() => readWhole(bytes));
      if (whole !== "two-readings") expect(outcome(() => readInPieces(bytes, sized))).toEqual(whole);
    },
  );

  const mapping: LogMapping = {
    format: "coldfall-log-mapping-2",
    time: "Zeit",
    timeZone: "Europe/Berlin",
    separator: ";",
    decimal: ",",
    positions: { evaporator: "Rippen", cabinet: "Kühlschrank" },
  };
  const mappedRow = fc
    .tuple(fc.integer({ min: 0, max: 1439 }), fc.constantFrom("4,5", "-1", "", "--", '"2,5"', '"x\ny"'))
    .map(
      ([minute, cell]) =>
        `2026-06-04 ${String(Math.floor(minute / 60)).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")};${cell};1,5`,
    );
  test.prop(
    [
      fc.array(mappedRow, { minLength: 1, maxLength: 20 }),
      sizes,
      fc.constantFrom("\n", "\r\n", "\r"),
      fc.constantFrom("utf-8", "utf-16le"),
    ],
    { numRuns: 300 },
  )("another logger's", (lines, cuts, lineEnd, encoding) => {
    const text = ["Logger", "Zeit;Rippen;Kühlschrank", "# remark", ...lines, ""].join("\n").replaceAll("\n", lineEnd);
    const bytes = encoding === "utf-8" ? bytesOf(text) : Buffer.from(`\uFEFF${text}`, "utf16le");
    const sized = [Math.max(cuts[0], 40), ...cuts];
    expect(outcome(() => readInPieces(bytes, sized, mapping))).toEqual(outcome(() => readWhole(bytes, mapping)));
  });
});

plainTest("a file with no line end is refused before it fills the memory", () => {
  function* endless() {
    for (let turn = 0; ; turn++) yield bytesOf(turn === 0 ? nativeLog() : "1".repeat(1024 * 1024));
  }
  const options = { file: "a.csv", take: () => {} };
  expect(outcome(() => readLogPieces(endless(), { ...options, hasQuotes: false }))).toBe("nothing-readable");
  expect(outcome(() => readLogPieces(endless(), { ...options, hasQuotes: true }))).toBe("nothing-readable");
});
