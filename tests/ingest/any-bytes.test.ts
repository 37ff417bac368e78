// Whatever the bytes: a recording or a refusal, nothing else; and no reading that is not in the file.

import { fc, test } from "@fast-check/vitest";
import { describe, expect, test as plainTest } from "vitest";
import { nativeLogText } from "../../src/ingest/index.ts";
import { readBaseline, readLogMapping, readRunSheet } from "../../src/ingest/json-files/index.ts";
import { BadInput, energySources, positions, type Recording } from "../../src/schema/index.ts";
import { bytesOf, listed, read, refusal, threeRows } from "./log-texts.ts";

/** The recording, or nothing when the bytes are refused; any other error fails the test. */
function readOrRefuse(bytes: Uint8Array): Recording | undefined {
  try {
    return read(bytes);
  } catch (error) {
    if (error instanceof BadInput) return undefined;
    throw error;
  }
}

/** Every finite reading must stand as a number somewhere in the text. */
function expectNothingInvented(recording: Recording, text: string): void {
  const written = new Set((text.match(/[+-]?[\d.]+(?:[eE][+-]?\d+)?/g) ?? []).map(Number));
  for (const position of positions) {
    for (const value of recording.columns[position] ?? []) {
      if (!Number.isNaN(value)) expect(written).toContain(value);
    }
  }
}

function expectEqualLengths(recording: Recording): void {
  const { unixMs, columns, sourceCodes } = recording;
  const lengths = [...Object.values(columns), ...(sourceCodes ? [sourceCodes] : [])].map((column) => column.length);
  expect(new Set(lengths)).toEqual(new Set([unixMs.length]));
  expect(listed(unixMs).every(Number.isFinite)).toBe(true);
}

const celsius = fc.integer({ min: -4000, max: 9000 }).map((hundredths) => `${hundredths / 100}`);
const cell = fc.oneof(
  { weight: 8, arbitrary: celsius },
  fc.constantFrom("", " ", "err", "NaN", "85.0", "-127", "1e3", "4,3", '"4.5"', '"', "Infinity", "0x1", "26.9375.1"),
);
const time = fc.oneof(
  {
    weight: 8,
    arbitrary: fc.integer({ min: 0, max: 86_399 }).map((s) => new Date(Date.UTC(2026, 5, 4) + s * 1000).toISOString()),
  },
  fc.constantFrom("", "yesterday", "2026-06-04", "04/06/2026 07:00", "2026-06-04T07:00:00"),
);
const source = fc.constantFrom("gas", "mains", "dc12", "off", "", "ma");
const row = fc.tuple(time, cell, cell, cell, source).map((cells) => cells.join(","));
const log = fc
  .tuple(
    fc.constantFrom("time,evaporator,cabinet,ambient,source", "\uFEFFtime,evaporator,cabinet,ambient,source"),
    fc.array(fc.oneof({ weight: 9, arbitrary: row }, fc.string({ maxLength: 30 })), { maxLength: 12 }),
    fc.constantFrom("\n", "\r\n", "\r"),
  )
  .map(([header, rows, lineEnd]) => [header, ...rows, ""].join(lineEnd));

const flip = (bytes: Uint8Array, flips: readonly [number, number][]) => {
  const changed = Uint8Array.from(bytes);
  for (const [at, byte] of flips) changed[at % changed.length] = byte;
  return changed;
};

describe("reading a log never does anything but read or refuse", () => {
  test.prop([fc.uint8Array({ maxLength: 400 })])("given any bytes", (bytes) => {
    const recording = readOrRefuse(bytes);
    if (recording) expectEqualLengths(recording);
  });

  test.prop([fc.uint8Array({ maxLength: 200 })])("given any bytes below a good header", (bytes) => {
    const recording = readOrRefuse(Buffer.concat([bytesOf(threeRows), bytes]));
    if (recording) expectEqualLengths(recording);
  });

  test.prop([log], { numRuns: 500 })("given rows with every kind of oddity; and no reading is invented", (text) => {
    const recording = readOrRefuse(bytesOf(text));
    if (!recording) return;
    expectEqualLengths(recording);
    expectNothingInvented(recording, text);
  });

  test.prop([log, fc.nat()])("given a log cut off anywhere; and no reading is invented", (text, at) => {
    const cut = bytesOf(text).subarray(0, at % (text.length + 1));
    const recording = readOrRefuse(cut);
    if (recording) expectNothingInvented(recording, new TextDecoder().decode(cut));
  });

  test.prop([fc.array(fc.tuple(fc.nat(), fc.nat({ max: 255 })), { minLength: 1, maxLength: 6 })], { numRuns: 500 })(
    "given a good log with a few bytes changed; and no reading is invented",
    (flips) => {
      const bytes = flip(bytesOf(threeRows), flips);
      const recording = readOrRefuse(bytes);
      if (!recording) return;
      expectEqualLengths(recording);
      expectNothingInvented(recording, new TextDecoder().decode(bytes));
    },
  );
});

test.prop([log])("quotes around every cell change nothing but the way of reading", (text) => {
  fc.pre(!text.includes('"'));
  const quoted = text.replaceAll(/[^,\r\n\uFEFF]+/g, '"$&"');
  expect(readOrRefuse(bytesOf(quoted))).toEqual(readOrRefuse(bytesOf(text)));
});

test.prop([log, fc.nat()])("a row more changes nothing in the rows before it", (text, seconds) => {
  const before = readOrRefuse(bytesOf(text));
  fc.pre(before !== undefined && /[\r\n]$/.test(text) && !text.includes('"'));
  const instant = new Date(Date.UTC(2026, 5, 5) + (seconds % 86_400) * 1000).toISOString();
  const after = readOrRefuse(bytesOf(`${text}${instant},1,2,3,off\n`));
  expect(listed(after?.unixMs).slice(0, -1)).toEqual(listed(before?.unixMs));
  expect(listed(after?.columns.cabinet).slice(0, -1)).toEqual(listed(before?.columns.cabinet));
});

const reading = fc.oneof(fc.double({ noDefaultInfinity: true }), fc.constant(Number.NaN)).map((value) => value + 0);
const recording = fc
  .tuple(
    fc.array(
      fc.tuple(
        fc.integer({ min: 0, max: 253_000_000_000_000 }),
        fc.tuple(reading, reading, reading),
        fc.nat({ max: energySources.length }),
      ),
      { minLength: 1, maxLength: 20 },
    ),
    fc.integer({ min: -14 * 60, max: 14 * 60 }),
    fc.boolean(),
  )
  .filter(([rows]) => rows.some(([, values]) => values.some(Number.isFinite)))
  .map(
    ([rows, utcOffsetMinutes, hasSource]): Recording => ({
      name: "night.csv",
      unixMs: Float64Array.from(rows, ([unixMs]) => unixMs),
      utcOffsetMinutes,
      columns: {
        evaporator: Float64Array.from(rows, ([, [value]]) => value),
        cabinet: Float64Array.from(rows, ([, [, value]]) => value),
        ventOut: Float64Array.from(rows, ([, [, , value]]) => value),
      },
      sourceCodes: hasSource ? Uint8Array.from(rows, ([, , code]) => code) : null,
      sourceMarks: [],
      sheet: null,
      unreadable: [],
      ignoredColumns: [],
    }),
  );

/** Readings none of which any place of a fridge can have, and that change as a probe's do. */
function lookLikeOhms(values: Float64Array): boolean {
  const there = values.filter((value) => !Number.isNaN(value));
  return there.every((value) => value > 700) && there.some((value) => value !== there[0]);
}

test.prop([recording])("a recording written as a log is read back exactly, but for one in ohms", (written) => {
  const text = nativeLogText(written);
  if (Object.values(written.columns).some(lookLikeOhms))
    expect(refusal(() => read(text))).toMatchObject({ code: "looks-like-ohms" });
  else expect(read(text)).toEqual(written);
});

describe("reading a companion file never does anything but read or refuse", () => {
  for (const [what, readIt] of [
    ["run sheet", readRunSheet],
    ["log mapping", readLogMapping],
    ["baseline", readBaseline],
  ] as const) {
    const format = {
      "run sheet": "coldfall-run-sheet-1",
      "log mapping": "coldfall-log-mapping-1",
      baseline: "coldfall-baseline-1",
    }[what];
    const almost = fc.record(
      {
        format: fc.constant(format),
        runs: fc.jsonValue(),
        positions: fc.jsonValue(),
        time: fc.jsonValue(),
        load: fc.jsonValue(),
      },
      { requiredKeys: [] },
    );
    test.prop([fc.oneof(fc.jsonValue(), almost).map((value) => JSON.stringify(value))])(`a ${what}`, (text) => {
      try {
        readIt(bytesOf(text), "some.json");
      } catch (error) {
        expect(error).toBeInstanceOf(BadInput);
      }
    });
  }
});

plainTest("a quote that never closes in a long file ends in a refusal or a recording, not in a hang", () => {
  const rows = "2026-06-04T07:00:00Z,1,2,3,off\n".repeat(20_000);
  const startedMs = performance.now();
  readOrRefuse(bytesOf(`time,evaporator,cabinet,ambient,source\n2026-06-04T07:00:00Z,"1,2,3,off\n${rows}`));
  readOrRefuse(bytesOf(`time,evaporator,cabinet,ambient,source\n${rows.replaceAll(",1,", ',"1,')}`));
  expect(performance.now() - startedMs).toBeLessThan(5_000);
});
