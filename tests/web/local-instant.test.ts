import { expect, test } from "vitest";
import { localInstant, typedInstant } from "../../web/parts/local-instant.ts";

test("what a field for date and time holds is an instant by this machine's clock, in summer and winter", () => {
  for (const typed of ["2026-06-04T21:30", "2026-12-04T21:30:15"]) {
    const text = localInstant(typed) ?? "";
    expect(text).toMatch(/^2026-(06|12)-04T21:30:(00|15)(Z|[+-]\d\d:\d\d)$/);
    expect(Date.parse(text)).toBe(new Date(typed).getTime());
  }
});

test("an empty or unfinished field is no instant", () => {
  expect(["", "2026-06-04", "tomorrow at nine o'clock"].map((typed) => localInstant(typed))).toEqual([
    null,
    null,
    null,
  ]);
});

test("a clock that is named counts instead of this machine's, and the field shows the same time again", () => {
  expect(localInstant("2026-06-04T21:30", 120)).toBe("2026-06-04T21:30:00+02:00");
  expect(localInstant("2026-06-04T21:30", 0)).toBe("2026-06-04T21:30:00Z");
  expect(typedInstant("2026-06-04T21:30:00+02:00", 120)).toBe("2026-06-04T21:30");
  expect(typedInstant("2026-06-04T21:30:00+02:00", 0)).toBe("2026-06-04T19:30");
  // A sheet may name no clock: the run's own was meant.
  expect(typedInstant("2026-06-04T21:30:15", 120)).toBe("2026-06-04T21:30");
});
