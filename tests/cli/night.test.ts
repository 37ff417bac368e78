// What a recorder says of its board, where messages are lines and where a picture is redrawn.

import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { Night } from "../../src/cli/recording/night.ts";
import type { Terminal } from "../../src/cli/terminal.ts";
import { msPerMinute } from "../../src/schema/index.ts";
import type { DayHours } from "../../src/science/plan/index.ts";
import { openStore, type Store } from "../../src/store/index.ts";
import type { Arrival } from "../../src/workshop/recording/index.ts";

let folder = "";
let store: Store;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-night-"));
  store = await openStore(join(folder, "workshop.coldfall"), { groupWaitMs: 1 });
});
afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

const begunMs = Date.parse("2026-06-04T20:00:00Z");
const at = (minutes: number) => begunMs + minutes * msPerMinute;
const reading = (minutes: number): Arrival => ({
  kind: "readings",
  readings: [{ position: "cabinet", unixMs: at(minutes), raw: 5, boardId: "b1" }],
});
const pulledOut = (minutes: number): readonly Arrival[] => [
  { kind: "happened", event: { kind: "board-unplugged", fromUnixMs: at(minutes), boardId: "b1" } },
  { kind: "quiet", unixMs: at(minutes) },
];

/** All that is told while these arrive. */
async function told(
  arrivals: readonly Arrival[],
  {
    isWatched = false,
    language = "en" as "en" | "de",
    quiet = undefined as DayHours | undefined,
    webhook = undefined as string | undefined,
  } = {},
) {
  const fridge = await store.fridges.add({ name: `Larch ${language}` });
  const wanted = { fridgeId: fridge.id, purpose: "test", origin: "board", startedUnixMs: begunMs } as const;
  const run = await store.runs.open({ ...wanted, utcOffsetMinutes: 120 });
  const pieces: string[] = [];
  let drawn = 0;
  const terminal: Terminal = {
    print: () => {},
    tell: (text) => void pieces.push(text),
    hasColour: false,
    width: 100,
    isWatched,
    // Each look is a second later, so that each picture is drawn.
    now: () => 1000 * drawn++,
    nowUnixMs: () => begunMs,
  };
  const night = await Night.begin(
    store,
    run,
    fridge,
    begunMs,
    { language, store: join(folder, "workshop.coldfall"), ...(quiet && { quiet }), ...(webhook && { webhook }) },
    terminal,
  );
  for (const arrival of arrivals) await night.see(arrival);
  await night.end();
  return pieces;
}

test("a board that is pulled out is told at once with what to do, and so is its coming back", async () => {
  const lines = await told([reading(1), ...pulledOut(2), reading(4), reading(5)]);
  const ofBoard = lines.filter((line) => /probe board/.test(line));
  expect(ofBoard).toEqual([
    expect.stringMatching(/^4 June 22:02: the probe board was unplugged.*What came is kept\. Plug it in again.*\n$/),
    "4 June 22:04: the probe board is back.\n",
  ]);
  expect((await told([reading(1), ...pulledOut(2)], { language: "de" })).join("")).toMatch(/Stecken Sie sie wieder an/);
});

test("on a picture that is redrawn it stands on top until the board is back", async () => {
  const pictures = await told([reading(1), ...pulledOut(2), reading(4)], { isWatched: true });
  const isTold = pictures.map((picture) => /probe board was unplugged/.test(picture));
  expect(isTold.at(0)).toBe(false);
  expect(isTold).toContain(true);
  expect(isTold.at(-1)).toBe(false);
});

test("an alarm held back for the night is told to whoever ends the recording before the morning", async () => {
  const silent: Arrival = { kind: "quiet", unixMs: at(30) };
  const quiet = { fromHour: 22, toHour: 6 };
  const lines = await told([reading(1), silent], { quiet });
  const alarms = lines.filter((line) => /board silent/.test(line));
  expect(alarms).toEqual([expect.stringMatching(/^4 June 22:30, board silent: Board b1 has said nothing since 22:01/)]);
  expect(lines.at(-1)).toBe(alarms[0]);
});

test("an alarm that cannot be sent is told once, with the address and what went wrong", async () => {
  // Nothing listens at the discard port of this machine.
  const lines = await told([reading(1), { kind: "quiet", unixMs: at(30) }], { webhook: "http://127.0.0.1:9/alarms" });
  expect(lines.filter((line) => /could not be sent/.test(line))).toEqual([
    expect.stringMatching(/^An alarm could not be sent to 127\.0\.0\.1:9 \(.+\)\. It is kept and tried again/),
  ]);
});
