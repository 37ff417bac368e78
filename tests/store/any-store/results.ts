// What is found and what it is held against: results, baselines, settings.

import { describe, expect, test } from "vitest";
import { refusal, type StoreBench, someDocument, start } from "./store-bench.ts";

/** Tests of any store. */
export function resultsInStore(bench: StoreBench): void {
  describe("results", () => {
    const add = (marker: string, madeUnixMs: number, runIds: readonly string[]) =>
      bench.store.results.add({
        kind: "analysis",
        fridgeId: bench.fridgeId,
        runIds,
        method: "1",
        madeUnixMs,
        document: someDocument(marker),
      });

    test("are found newest first, of a fridge and of a run", async () => {
      const other = await bench.openRun();
      const a = await add("a", start, [bench.run.id]);
      const c = await add("c", start + 2, [other.id, bench.run.id]);
      await add("b", start + 1, [other.id]);
      expect(await bench.store.results.newest({ fridgeId: bench.fridgeId })).toEqual(c);
      expect((await bench.store.results.list({ runId: bench.run.id })).map(({ id }) => id)).toEqual([c.id, a.id]);
      expect(await bench.store.results.newest({ fridgeId: bench.fridgeId }, "comparison")).toBeNull();
      await bench.store.results.remove(c.id);
      expect(await bench.store.results.newest({ runId: bench.run.id })).toEqual(a);
    });

    test("go out of sight with a run they rest on, and for good when that is compacted away", async () => {
      const other = await bench.openRun();
      const kept = await add("kept", start, [other.id]);
      const gone = await add("gone", start + 1, [other.id, bench.run.id]);
      await bench.store.runs.delete(bench.run.id);
      expect(await bench.store.results.newest({ fridgeId: bench.fridgeId })).toEqual(kept);
      await bench.store.runs.restore(bench.run.id);
      expect(await bench.store.results.newest({ fridgeId: bench.fridgeId })).toEqual(gone);
      await bench.store.runs.delete(bench.run.id);
      await bench.store.care.compact();
      expect(await refusal(bench.store.results.get(gone.id))).toMatchObject({ code: "no-such-record" });
      expect(await bench.store.results.get(kept.id)).toEqual(kept);
    });
  });

  test("baselines are listed newest first", async () => {
    await bench.store.baselines.add({
      fridgeId: bench.fridgeId,
      kind: "own",
      madeUnixMs: start,
      runIds: [bench.run.id],
    });
    const newer = await bench.store.baselines.add({
      fridgeId: bench.fridgeId,
      kind: "kind",
      madeUnixMs: start + 1,
      runIds: [],
      notes: "n",
    });
    expect((await bench.store.baselines.list(bench.fridgeId)).map(({ kind }) => kind)).toEqual(["kind", "own"]);
    await bench.store.baselines.remove(newer.id);
    expect(await bench.store.baselines.list(bench.fridgeId)).toMatchObject([{ kind: "own", runIds: [bench.run.id] }]);
  });

  test("settings are the workshop's or a fridge's", async () => {
    await bench.store.settings.set("log-mapping", { time: "Zeit" }, bench.fridgeId);
    await bench.store.settings.set("log-mapping", 1);
    await bench.store.settings.set("log-mapping", 2);
    expect(await bench.store.settings.get("log-mapping", bench.fridgeId)).toEqual({ time: "Zeit" });
    expect(await bench.store.settings.get("log-mapping")).toBe(2);
    await bench.store.settings.set("log-mapping", undefined);
    expect(await bench.store.settings.get("log-mapping")).toBeUndefined();
  });
}
