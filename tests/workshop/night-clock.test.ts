// Quiet hours are those of the clock on the wall, also in the night in which it is changed. The changes of Europe/Berlin: the
// last Sundays of March and October at 01:00 UTC (Directive 2000/84/EC, articles 2 and 3; its transposition of 2026 from memory).

import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { msPerMinute } from "../../src/schema/index.ts";
import { usualAlarmLimits } from "../../src/science/live/index.ts";
import { openStore, type Store } from "../../src/store/index.ts";
import { NightWatch } from "../../src/workshop/recording/index.ts";
import { nightClock } from "../../src/workshop/recording/night-clock.ts";

let folder = "";
let store: Store;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-night-clock-"));
  store = await openStore(join(folder, "workshop.coldfall"), { groupWaitMs: 1 });
});
afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

/** When an alarm of a board that fell silent at one o'clock speaks, with quiet hours from 22 to 6. */
async function spokenAt(begun: string, zone: string, utcOffsetMinutes: number): Promise<string> {
  const startedUnixMs = Date.parse(begun);
  const fridge = await store.fridges.add({ name: "Larch" });
  const wanted = { fridgeId: fridge.id, purpose: "test", origin: "board", startedUnixMs } as const;
  const run = await store.runs.open({ ...wanted, utcOffsetMinutes });
  let nowMs = startedUnixMs;
  const spoken: number[] = [];
  const watch = await NightWatch.begin(store, run, {
    limits: { ...usualAlarmLimits, utcOffsetMinutes, heldBack: { fromHour: 22, toHour: 6 } },
    zone,
    baseline: { knownGood: [], baselineKind: "own" },
    lookEveryMs: 60 * msPerMinute,
    freeMegabytes: () => null,
    whenRaised: () => void spoken.push(nowMs),
  });
  const silentMs = startedUnixMs + 5 * 60 * msPerMinute;
  for (; nowMs < startedUnixMs + 14 * 60 * msPerMinute; nowMs += 10 * msPerMinute) {
    await watch.see(
      nowMs <= silentMs
        ? { kind: "readings", readings: [{ position: "cabinet", unixMs: nowMs, raw: 5, boardId: "b1" }] }
        : { kind: "quiet", unixMs: nowMs },
    );
  }
  expect(spoken.length).toBeGreaterThan(0);
  return new Date(spoken[0]).toISOString();
}

for (const [what, begun, utcOffsetMinutes, sixOClock] of [
  ["set back in the night of 25 October 2026", "2026-10-24T20:00:00+02:00", 120, "2026-10-25T06:00:00+01:00"],
  ["set forward in the night of 29 March 2026", "2026-03-28T20:00:00+01:00", 60, "2026-03-29T06:00:00+02:00"],
  ["left as it is", "2026-06-04T20:00:00+02:00", 120, "2026-06-05T06:00:00+02:00"],
] as const) {
  test(`a clock in Berlin that is ${what}: an alarm held back speaks at six on it`, async () => {
    expect(await spokenAt(begun, "Europe/Berlin", utcOffsetMinutes)).toBe(new Date(sixOClock).toISOString());
  });
}

test("a log from elsewhere keeps the clock that it says", async () => {
  expect(await spokenAt("2026-10-24T20:00:00Z", "Europe/Berlin", 0)).toBe("2026-10-25T06:00:00.000Z");
});

describe("the clock of a run", () => {
  const startedUnixMs = Date.parse("2026-10-24T20:00:00+02:00");
  const changeMs = Date.parse("2026-10-25T01:00:00Z");

  test("is changed at the minute", () => {
    const clock = nightClock({ startedUnixMs, utcOffsetMinutes: 120 }, "Europe/Berlin");
    expect([-1, 0, -1].map((ms) => clock(changeMs + ms))).toEqual([120, 60, 120]);
  });

  test("is that of any zone: half hours, and behind UTC", () => {
    const summer = Date.parse("2026-01-10T00:00:00Z");
    // From memory: Lord Howe is 11 h ahead in its summer and 10:30 in its winter; Newfoundland 3:30 and 2:30 behind.
    const howe = nightClock({ startedUnixMs: summer, utcOffsetMinutes: 660 }, "Australia/Lord_Howe");
    expect(howe(Date.parse("2026-07-01T00:00:00Z"))).toBe(630);
    const john = nightClock({ startedUnixMs: summer, utcOffsetMinutes: -210 }, "America/St_Johns");
    expect(john(Date.parse("2026-07-01T00:00:00Z"))).toBe(-150);
    expect(nightClock({ startedUnixMs: summer, utcOffsetMinutes: 0 }, "UTC")(summer)).toBe(0);
  });
});
