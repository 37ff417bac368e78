// What watching costs: with many boards the store may only be asked about what changed.

import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { LiveEvent } from "../../src/schema/api/index.ts";
import { LiveFeed } from "../../src/server/live-feed.ts";
import { StoreWatch, type WatchedShelves } from "../../src/server/store-watch.ts";

beforeEach(() => {
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout", "setInterval", "clearInterval", "performance"] });
});
afterEach(() => {
  vi.useRealTimers();
});

/** A store of so many open runs with one position each; it counts what it is asked. */
function manyRuns(count: number) {
  const readings = new Map(Array.from({ length: count }, (_, i) => [`run-${i}`, [{ unixMs: 1000, value: 20 }]]));
  const asked = { extents: 0, edits: 0, series: [] as string[] };
  const of = (id: string) => readings.get(id) ?? [];
  const store = {
    runs: {
      list: async () => ({ runs: [...readings.keys()].map((id) => ({ id, endedUnixMs: null })), next: null }),
      find: async (id: string) => ({ id, endedUnixMs: null }),
      extents: async (id: string) => {
        asked.extents++;
        const own = of(id);
        const [first, last] = [own[0], own[own.length - 1]];
        return [{ position: "cabinet", readings: own.length, firstUnixMs: first.unixMs, lastUnixMs: last.unixMs }];
      },
    },
    edits: {
      current: async () => {
        asked.edits++;
        return { sourceMarks: [] };
      },
    },
    alarms: { list: async () => [] },
    readings: {
      series: async (id: string, _position: string, { fromUnixMs = 0 }: { fromUnixMs?: number }) => {
        asked.series.push(id);
        const fresh = of(id).filter(({ unixMs }) => unixMs >= fromUnixMs);
        return {
          unixMs: Float64Array.from(fresh, ({ unixMs }) => unixMs),
          values: Float64Array.from(fresh, ({ value }) => value),
        };
      },
    },
  };
  const feed = new LiveFeed(1000);
  const told: LiveEvent[] = [];
  const view = () =>
    feed.view(null, ({ text }) => {
      const data = /^data: (.*)$/m.exec(text)?.[1] ?? "";
      told.push({ kind: /^event: (.*)$/m.exec(text)?.[1], data: JSON.parse(data) } as LiveEvent);
    });
  const { stop: leave } = view();
  const watch = new StoreWatch(store as unknown as WatchedShelves, feed, (error) => {
    throw error;
  });
  const add = (id: string, unixMs: number) => of(id).push({ unixMs, value: 21 });
  return { asked, told, watch, add, leave, view };
}

test("a pack to one of 200 runs asks for that run's new readings, and for nothing else", async () => {
  const { asked, told, watch, add } = manyRuns(200);
  await watch.start(1_000_000);
  Object.assign(asked, { extents: 0, edits: 0, series: [] });
  add("run-7", 2000);
  watch.grew("run-7");
  await vi.advanceTimersByTimeAsync(300);
  expect(asked).toEqual({ extents: 0, edits: 0, series: ["run-7"] });
  expect(told).toEqual([
    { kind: "readings", data: { runId: "run-7", position: "cabinet", unixMs: [2000], values: [21] } },
  ]);
  await watch.stop();
});

test("packs that come within a quarter of a second are looked at together, each run once, each reading told once", async () => {
  const { asked, told, watch, add } = manyRuns(50);
  await watch.start(1_000_000);
  Object.assign(asked, { series: [] });
  for (const at of [2000, 3000, 4000]) {
    for (let i = 0; i < 50; i++) {
      add(`run-${i}`, at);
      watch.grew(`run-${i}`);
    }
    await vi.advanceTimersByTimeAsync(50);
  }
  await vi.advanceTimersByTimeAsync(300);
  expect(asked.series).toHaveLength(50);
  const instants = told.flatMap((event) => (event.kind === "readings" ? event.data.unixMs : []));
  expect(instants).toHaveLength(150);
  await watch.stop();
});

test("runs that this service feeds are looked into in turn, one that another process feeds every time", async () => {
  const { asked, told, watch, add } = manyRuns(100);
  await watch.start(1000);
  for (let i = 1; i < 100; i++) watch.grew(`run-${i}`);
  await vi.advanceTimersByTimeAsync(300);
  Object.assign(asked, { extents: 0, edits: 0, series: [] });
  add("run-0", 2000);
  // What came here before the last whole round is found as well, though nobody spoke of it.
  add("run-50", 500);
  await vi.advanceTimersByTimeAsync(1000);
  expect(told.map((event) => "runId" in event.data && event.data.runId)).toContain("run-0");
  expect(asked.extents).toBeLessThanOrEqual(12);
  await vi.advanceTimersByTimeAsync(9000);
  expect(told).toContainEqual({ kind: "run-reread", data: { runId: "run-50" } });
  expect(asked.extents).toBeLessThanOrEqual(250);
  await watch.stop();
});

test("some minutes after the last viewer left the store is left alone, and who comes back is told to load anew", async () => {
  const { asked, told, watch, leave, view } = manyRuns(10);
  await watch.start(1000);
  leave();
  await vi.advanceTimersByTimeAsync(6 * 60_000);
  Object.assign(asked, { extents: 0 });
  await vi.advanceTimersByTimeAsync(10 * 60_000);
  expect(asked.extents).toBe(0);
  watch.grew("run-3");
  await vi.advanceTimersByTimeAsync(1000);
  expect(asked.extents).toBe(0);
  expect(told).toEqual([]);
  view();
  await watch.start(1000);
  expect(told).toEqual([{ kind: "missed", data: { reason: "too-long-ago" } }]);
  expect(asked.extents).toBe(10);
  await watch.stop();
});
