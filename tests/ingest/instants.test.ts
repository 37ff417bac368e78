import { fc, test } from "@fast-check/vitest";
import { describe, expect, test as plainTest } from "vitest";
import { instantOf } from "../../src/ingest/index.ts";
import reference from "../reference/text-formats.json" with { type: "json" };

// Source: RFC 3339 (2002), section 5.8; see tests/reference/README.md.
describe("RFC 3339", () => {
  for (const { text, ...expected } of reference.rfc3339.valid) {
    if (expected.epochSeconds !== undefined) {
      plainTest(`${text} is ${expected.epochSeconds} s`, () => {
        expect(instantOf(text).unixMs).toBe(Math.round(expected.epochSeconds * 1000));
      });
    } else {
      plainTest(`${text} is a leap second: the first instant of the next UTC day stands for it`, () => {
        expect(instantOf(text).unixMs).toBe(Date.parse("1991-01-01T00:00:00Z"));
      });
    }
  }

  for (const text of reference.rfc3339.invalid) {
    plainTest(`${text} is no instant`, () => {
      expect(instantOf(text).unixMs).toBeNaN();
    });
  }
});

for (const [text, offset] of [
  ["2026-06-04T07:00:00Z", 0],
  ["2026-06-04T07:00:00-00:00", 0],
  ["2026-06-04T07:00:00+02:00", 120],
  ["2026-06-04T07:00:00.125-03:30", -210],
] as const) {
  plainTest(`${text} is written ${offset} min ahead of UTC`, () => {
    expect(instantOf(text).utcOffsetMinutes).toBe(offset);
  });
}

for (const text of [
  "2026-06-04T07:00:60Z", // a leap second is the last second of a UTC day
  "2026-02-29T07:00:00Z",
  "1900-02-29T07:00:00Z",
  "2026-06-04T07:60:00Z",
  "2026-06-04T07:00:00+24:00",
  "2026-06-04T07:00:00Z ",
  "2026-06-04T07:00:00ZZ",
  "2026-06-04_07:00:00Z",
  "2026-0x-04T07:00:00Z",
  "",
]) {
  plainTest(`"${text}" is no instant`, () => {
    expect(instantOf(text).unixMs).toBeNaN();
  });
}

plainTest("a year that 400 divides has its leap day", () => {
  expect(instantOf("2000-02-29T00:00:00Z").unixMs).toBe(Date.UTC(2000, 1, 29));
});

plainTest("letters may be small, and a space may stand for the T", () => {
  expect(instantOf("2026-06-04 07:00:00z").unixMs).toBe(Date.UTC(2026, 5, 4, 7));
});

test.prop([
  fc.date({ min: new Date("0001-01-01T00:00:00Z"), max: new Date("9999-12-31T23:59:59.999Z"), noInvalidDate: true }),
])("every instant that the language's own calendar writes is read as that instant", (date) => {
  expect(instantOf(date.toISOString()).unixMs).toBe(date.getTime());
});
