// A log brought in while the store fails on the way: brought in again, nothing of it is missing.

import { writeFileSync } from "node:fs";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { lookOver, wayToRead } from "../../src/ingest/index.ts";
import { BadInput } from "../../src/schema/index.ts";
import { openStore } from "../../src/store/index.ts";
import { importLog } from "../../src/workshop/import-log.ts";
import { type BoardProbe, boardStart } from "../cli/board-lines.ts";
import { StoreFolder } from "../store/store-folder.ts";

let folder: StoreFolder;
beforeEach(() => {
  folder = new StoreFolder();
});
afterEach(() => folder.remove());

const probes: readonly BoardProbe[] = [
  { probeId: "28AA", role: "evaporator", celsius: (seconds) => 20 - seconds / 600 },
  { probeId: "28BB", role: "cabinet", celsius: (seconds) => 22 - seconds / 1200 },
];
const start = (boot: number) => boardStart({ boot, rounds: 60, everySeconds: 60 }, probes);

for (const isNewRun of [true, false]) {
  test(`a board's file that failed on its way into ${isNewRun ? "a new run" : "a run that is there"} is whole when brought in again`, async () => {
    await using store = await openStore(folder.file());
    const fridge = await store.fridges.add({ name: "Larch" });
    const bringIn = async (name: string, text: string) => {
      writeFileSync(folder.file(name), text);
      const log = lookOver(folder.file(name));
      const readOut = { unixMs: Date.UTC(2026, 5, 7, 16), utcOffsetMinutes: 120 };
      const { way } = wayToRead(log, { readOut });
      if (way === null) throw new Error("the file is not understood");
      return importLog(store, log, way, { fridge });
    };
    if (!isNewRun) await bringIn("first.txt", start(2));
    vi.spyOn(store.events, "add").mockRejectedValueOnce(new BadInput({ code: "store-busy", file: folder.file() }));
    const whole = start(1) + start(2);
    await expect(bringIn("whole.txt", whole)).rejects.toMatchObject({ code: "store-busy" });
    const again = await bringIn("whole.txt", whole);
    expect(again.outcome).toBe("brought-in");
    const events = await store.events.list(again.run.id);
    expect(events.map(({ kind }) => kind)).toContain("board-restarted");
    expect((await store.readings.series(again.run.id, "cabinet")).unixMs).toHaveLength(120);
  });
}
