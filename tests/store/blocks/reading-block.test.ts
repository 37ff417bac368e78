// Sealed blocks give their readings back, and know when they were damaged.

import { fc, test } from "@fast-check/vitest";
import { describe, expect } from "vitest";
import { packBlock, type ReadingColumns, unpackBlock } from "../../../src/store/blocks/reading-block.ts";

const column = (count: number, value: (i: number) => number) =>
  Float64Array.from({ length: count }, (_, i) => value(i));

const night: ReadingColumns = {
  unixMs: column(600, (i) => 1.78e12 + i * 1000),
  raw: column(600, (i) => 20 - (i % 50) / 16),
  sequence: column(600, (i) => 3 * i),
  uptimeMs: column(600, (i) => 5000 + i * 1000 + (i % 3)),
  hostUnixMs: column(600, (i) => 1.78e12 + i * 1000 + ((i * 7) % 13)),
};

describe("a block", () => {
  test("gives every column back, and says which there never were", () => {
    expect(unpackBlock(packBlock(night))).toEqual(night);
    const bare = { ...night, sequence: null, hostUnixMs: null };
    expect(unpackBlock(packBlock(bare))).toEqual(bare);
  });

  test("leaves lines and clocks out when they are not wanted", () => {
    const { unixMs, raw } = night;
    expect(unpackBlock(packBlock(night), false)).toEqual({
      unixMs,
      raw,
      sequence: null,
      uptimeMs: null,
      hostUnixMs: null,
    });
  });

  const anyColumn = fc.float64Array({ minLength: 9, maxLength: 9, noNaN: true });
  test.prop([anyColumn, anyColumn, anyColumn, anyColumn])(
    "gives any numbers back",
    (unixMs, raw, uptimeMs, hostUnixMs) => {
      const readings = { unixMs, raw, uptimeMs, hostUnixMs, sequence: null };
      expect(unpackBlock(packBlock(readings))).toEqual(readings);
    },
  );

  test.prop([fc.nat(), fc.integer({ min: 1, max: 255 })])(
    "with any byte changed is known as damaged",
    (place, change) => {
      const { payload, checksum } = packBlock(night);
      const damaged = Uint8Array.from(payload);
      damaged[place % damaged.length] ^= change;
      expect(unpackBlock({ payload: damaged, checksum })).toBeNull();
    },
  );

  test("takes under a byte and a half a reading with all its clocks", () => {
    expect(packBlock(night).payload.length / 600).toBeLessThan(1.5);
  });
});
