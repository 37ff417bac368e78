// What every store must do, whatever database is behind it. sqlite-store.test.ts runs it against the one built in; another
// backend joins by calling `anyStore` with a way to open it.

import { afterEach, beforeEach, describe } from "vitest";
import { alarmsInStore } from "./alarms.ts";
import { boardsInStore } from "./boards.ts";
import { editsInStore } from "./edits-and-events.ts";
import { fridgesInStore } from "./fridges.ts";
import { liveReadingsInStore } from "./live-readings.ts";
import { logsInStore } from "./logs-brought-in.ts";
import { readingBackFromStore } from "./reading-back.ts";
import { resultsInStore } from "./results.ts";
import { runsInStore } from "./runs.ts";
import { type Backend, StoreBench } from "./store-bench.ts";

/** @param what names the backend */
export function anyStore(what: string, newBackend: () => Backend): void {
  describe(what, () => {
    const bench = new StoreBench(newBackend);
    beforeEach(() => bench.open());
    afterEach(() => bench.remove());
    fridgesInStore(bench);
    runsInStore(bench);
    liveReadingsInStore(bench);
    logsInStore(bench);
    readingBackFromStore(bench);
    editsInStore(bench);
    resultsInStore(bench);
    boardsInStore(bench);
    alarmsInStore(bench);
  });
}
