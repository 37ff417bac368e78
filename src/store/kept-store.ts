// The store over any SQL database that an engine stands for: all shelves over one set of tables.

import type { StoreEngine } from "./engine.ts";
import { migrate } from "./migrations/index.ts";
import { KeptAlarms } from "./shelves/kept-alarms.ts";
import { KeptBaselines } from "./shelves/kept-baselines.ts";
import { KeptBoards } from "./shelves/kept-boards.ts";
import { KeptEdits } from "./shelves/kept-edits.ts";
import { KeptEvents } from "./shelves/kept-events.ts";
import { KeptFridges } from "./shelves/kept-fridges.ts";
import { KeptOutbox } from "./shelves/kept-outbox.ts";
import { KeptProbes } from "./shelves/kept-probes.ts";
import { KeptReadings } from "./shelves/kept-readings.ts";
import { KeptResults } from "./shelves/kept-results.ts";
import { KeptRuns } from "./shelves/kept-runs.ts";
import { KeptSettings } from "./shelves/kept-settings.ts";
import { StoreCare } from "./shelves/store-care.ts";
import type { Store } from "./store.ts";
import { StoreDatabase } from "./store-database.ts";

/** How a store is opened. */
export interface OpenStoreOptions {
  /** The longest that a batch of live readings waits for others to share its commit, ms; 100 unless stated. */
  readonly groupWaitMs?: number;
}

/**
 * The store in the engine's database, brought to the newest version. The engine is closed with it, or when this fails.
 *
 * @throws BadInput "store-newer"
 */
export async function keptStore(engine: StoreEngine, { groupWaitMs = 100 }: OpenStoreOptions = {}): Promise<Store> {
  try {
    await migrate(engine);
  } catch (error) {
    await engine.close();
    throw engine.explain(error);
  }
  const database = new StoreDatabase(engine);
  const readings = new KeptReadings(database, groupWaitMs);
  const runs = new KeptRuns(database);
  const close = async () => {
    await runs.drained();
    await readings.drained();
    await engine.close();
  };
  const store: Store = {
    fridges: new KeptFridges(database, () => store),
    runs,
    readings,
    edits: new KeptEdits(database),
    events: new KeptEvents(database),
    results: new KeptResults(database),
    baselines: new KeptBaselines(database),
    probes: new KeptProbes(database),
    boards: new KeptBoards(database),
    alarms: new KeptAlarms(database),
    outbox: new KeptOutbox(database),
    settings: new KeptSettings(database),
    care: new StoreCare(database, engine),
    close,
    [Symbol.asyncDispose]: close,
  };
  return store;
}
