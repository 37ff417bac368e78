import { expect, test } from "vitest";
import { typedInstant } from "../../src/cli/option-values.ts";

test("an instant typed by hand may leave the seconds out, and nothing else", () => {
  const whole = typedInstant("2026-06-04T19:00:00+02:00");
  expect(whole.unixMs).toBe(Date.UTC(2026, 5, 4, 17));
  for (const text of ["2026-06-04T19:00+02:00", " 2026-06-04 19:00+02:00 "]) expect(typedInstant(text)).toEqual(whole);
  expect(typedInstant("2026-06-04T17:00Z").unixMs).toBe(whole.unixMs);
  for (const text of ["19:00", "2026-06-04T19:00", "2026-06-04T19+02:00", "2026-06-04"])
    expect(typedInstant(text).unixMs).toBeNaN();
});
