import { expect, test } from "vitest";
import { localInstant } from "../../web/parts/local-instant.ts";

test("what a field for date and time holds is an instant by this machine's clock, in summer and winter", () => {
  for (const typed of ["2026-06-04T21:30", "2026-12-04T21:30:15"]) {
    const text = localInstant(typed) ?? "";
    expect(text).toMatch(/^2026-(06|12)-04T21:30:(00|15)(Z|[+-]\d\d:\d\d)$/);
    expect(Date.parse(text)).toBe(new Date(typed).getTime());
  }
});

test("an empty or unfinished field is no instant", () => {
  expect(["", "2026-06-04", "tomorrow at nine o'clock"].map(localInstant)).toEqual([null, null, null]);
});
