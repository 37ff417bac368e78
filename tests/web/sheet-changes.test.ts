import { expect, test } from "vitest";
import { changedSheet, withChanges } from "../../web/parts/sheet-changes.ts";

test("what others wrote on a sheet meanwhile stays, and what was changed by hand wins", () => {
  const meanwhile = { load: "full", dial: "3", ratedWatts: { gas: 280 } } as const;
  expect(changedSheet(meanwhile, { dial: "4", tiltSidewaysDegrees: 1.5 })).toEqual({
    ...{ load: "full", dial: "4", ratedWatts: { gas: 280 }, tiltSidewaysDegrees: 1.5 },
  });
});

test("a field that was emptied is off the sheet, and spaces around a text are not kept", () => {
  const sheet = { dial: "3", notes: "rattles", load: "part" } as const;
  expect(changedSheet(sheet, { dial: " ", notes: " hums ", load: undefined })).toEqual({ notes: "hums" });
  expect(changedSheet(null, {})).toEqual({});
});

test("while it is typed a text is shown as it was typed", () => {
  expect(withChanges({ notes: "a" }, { notes: "a " })).toEqual({ notes: "a " });
});
