// A log recorded into the bench's store as if a board sent it now, with the recorder's own watch over it, at any speed.

import { readFileSync } from "node:fs";
import { readLog } from "../../src/ingest/index.ts";
import type { Recording } from "../../src/schema/index.ts";
import { usualAlarmLimits } from "../../src/science/live/index.ts";
import type { Run, Store } from "../../src/store/index.ts";
import { fridgeBaseline } from "../../src/workshop/fridge-baseline.ts";
import { NightWatch, recordRun, replay } from "../../src/workshop/recording/index.ts";

export interface ReplayedNight {
  readonly run: Run;
  /** Resolves when the part asked for is in the store, and watched over. */
  readonly done: Promise<void>;
  readonly stop: () => void;
}

/**
 * Opens a run and records the log's first hours into it.
 *
 * @param log file, or a recording
 * @param speed how many times faster than the log
 */
export async function replayNight(
  store: Store,
  fridgeId: string,
  log: string | Recording,
  { hours, speed }: { readonly hours: number; readonly speed: number },
): Promise<ReplayedNight> {
  const whole = typeof log === "string" ? readLog(readFileSync(log), { file: log }) : log;
  const part = firstHours(whole, hours);
  const run = await store.runs.open({
    fridgeId,
    origin: "replay",
    purpose: "test",
    startedUnixMs: part.unixMs[0],
    utcOffsetMinutes: part.utcOffsetMinutes,
    name: "tonight",
  });
  const watch = await NightWatch.begin(store, run, {
    limits: { ...usualAlarmLimits, utcOffsetMinutes: run.utcOffsetMinutes },
    baseline: await fridgeBaseline(store, fridgeId, [run.id]),
    lookEveryMs: 15 * 60_000,
    freeMegabytes: () => null,
    whenRaised: () => {},
  });
  const stop = new AbortController();
  const clock = {
    now: () => performance.now(),
    wait: (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms)),
  };
  const arrivals = replay(part, { speed, clock, signal: stop.signal });
  const done = recordRun(arrivals, store, run.id, (arrival) => watch.see(arrival)).then(() => undefined);
  return { run, done, stop: () => stop.abort() };
}

function firstHours(log: Recording, hours: number): Recording {
  const until = log.unixMs[0] + hours * 3_600_000;
  const found = log.unixMs.findIndex((unixMs) => unixMs > until);
  const rows = found < 0 ? log.unixMs.length : found;
  return {
    ...log,
    unixMs: log.unixMs.subarray(0, rows),
    columns: Object.fromEntries(Object.entries(log.columns).map(([at, values]) => [at, values.subarray(0, rows)])),
    sourceCodes: log.sourceCodes?.subarray(0, rows) ?? null,
  };
}
