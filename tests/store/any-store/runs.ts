// Runs: opened, listed, changed, deleted and retired.

import { describe, expect, test } from "vitest";
import type { Store } from "../../../src/store/index.ts";
import { minute, readings, refusal, type StoreBench, start } from "./store-bench.ts";

/** Tests of any store. */
export function runsInStore(bench: StoreBench): void {
  describe("runs", () => {
    test("are named by their day and come back as opened", async () => {
      const sheet = { setting: "bench", tiltSidewaysDegrees: 1 } as const;
      const opened = await bench.openRun({
        name: "night.csv",
        origin: "file",
        sheet,
        plan: { steps: [1, 2] },
        notes: "hot",
      });
      expect(opened.id).toMatch(/^2026-06-04-[0-9a-z]{6}$/);
      await bench.reopened();
      expect(await bench.store.runs.get(opened.id)).toEqual({
        id: opened.id,
        fridgeId: bench.fridgeId,
        name: "night.csv",
        purpose: "test",
        origin: "file",
        startedUnixMs: start,
        endedUnixMs: null,
        utcOffsetMinutes: 120,
        sheet,
        plan: { steps: [1, 2] },
        notes: "hot",
        deletedUnixMs: null,
      });
    });

    test("are found by the beginning of an id that only one has", async () => {
      const other = await bench.openRun({ startedUnixMs: Date.UTC(2026, 6, 1) });
      expect(await bench.store.runs.get("2026-07")).toEqual(other);
      await bench.openRun({ startedUnixMs: Date.UTC(2026, 6, 1) });
      expect(await refusal(bench.store.runs.get("2026-07"))).toMatchObject({ code: "not-one-record" });
      expect(await refusal(bench.store.runs.get("2025"))).toMatchObject({ code: "no-such-record" });
      expect(await refusal(bench.store.runs.get("%"))).toMatchObject({ code: "no-such-record" });
    });

    test("are looked for by their whole id, and only one that is not there is null", async () => {
      expect(await bench.store.runs.find(bench.run.id)).toEqual(bench.run);
      expect(await bench.store.runs.find(bench.run.id.slice(0, -1))).toBeNull();
      await bench.store.runs.delete(bench.run.id);
      expect(await bench.store.runs.find(bench.run.id)).toBeNull();
      await bench.store.close();
      await expect(bench.store.runs.find(bench.run.id)).rejects.toThrow();
      await bench.reopened();
    });

    test("are listed newest first, page by page, each once", async () => {
      const ids = [bench.run.id];
      for (const day of [1, 2, 2, 3]) ids.push((await bench.openRun({ startedUnixMs: start + day * 86_400_000 })).id);
      const seen: string[] = [];
      let cursor: string | null | undefined;
      while (cursor !== null) {
        const page = await bench.store.runs.list({ limit: 2, ...(cursor && { cursor }) });
        expect(page.runs.length).toBeLessThanOrEqual(2);
        seen.push(...page.runs.map(({ id }) => id));
        cursor = page.next;
      }
      expect(seen).toHaveLength(5);
      expect(new Set(seen)).toEqual(new Set(ids));
      expect(seen.at(0)).toBe(ids[4]);
      expect(seen.at(-1)).toBe(bench.run.id);
    });

    test("are listed by fridge, purpose and whether they go on", async () => {
      const good = await bench.openRun({ purpose: "known-good" });
      const closed = await bench.store.runs.close((await bench.openRun()).id, start + minute);
      const idsOf = async (query: Parameters<Store["runs"]["list"]>[0]) =>
        (await bench.store.runs.list(query)).runs.map(({ id }) => id).sort();
      expect(await idsOf({ purpose: "known-good" })).toEqual([good.id]);
      expect(await idsOf({ isOpen: false })).toEqual([closed.id]);
      expect(await idsOf({ isOpen: true })).toEqual([bench.run.id, good.id].sort());
      expect(await idsOf({ fridgeId: "another" })).toEqual([]);
    });

    test("change in what is given, and can be taken up again", async () => {
      await bench.store.runs.close(bench.run.id, start + minute);
      expect(
        await bench.store.runs.edit(bench.run.id, { purpose: "known-good", sheet: { dial: "max" } }),
      ).toMatchObject({
        purpose: "known-good",
        sheet: { dial: "max" },
        endedUnixMs: start + minute,
      });
      expect(await bench.store.runs.edit(bench.run.id, { endedUnixMs: null })).toMatchObject({ endedUnixMs: null });
    });

    test("can be brought back after deleting, until the store is compacted", async () => {
      await bench.store.readings.append(bench.run.id, readings("cabinet", 5));
      await bench.store.runs.delete(bench.run.id);
      expect(await refusal(bench.store.runs.get(bench.run.id))).toMatchObject({ code: "no-such-record" });
      expect(await refusal(bench.store.readings.recording(bench.run.id))).toMatchObject({ code: "no-such-record" });
      expect((await bench.store.runs.list({ areDeleted: true })).runs).toMatchObject([{ id: bench.run.id }]);
      await bench.store.runs.restore(bench.run.id);
      expect((await bench.store.readings.recording(bench.run.id)).unixMs).toHaveLength(5);

      await bench.store.runs.delete(bench.run.id);
      expect(await bench.store.care.compact()).toMatchObject({ deletedRuns: 1 });
      expect(await refusal(bench.store.runs.restore(bench.run.id))).toMatchObject({ code: "no-such-record" });
      expect(await bench.store.care.check()).toEqual({ runs: 0, blocks: 0, readings: 0, damage: [] });
    });
  });

  test("runs past their time are retired, known-good ones and those of a baseline only when told", async () => {
    const ended = async (purpose: "test" | "known-good") =>
      bench.store.runs.close((await bench.openRun({ purpose })).id, start + minute);
    const [old, good, baseline] = [await ended("test"), await ended("known-good"), await ended("test")];
    await bench.store.baselines.add({
      fridgeId: bench.fridgeId,
      kind: "own",
      madeUnixMs: start,
      runIds: [baseline.id],
    });
    expect(await bench.store.care.retire(start + minute)).toEqual([]);
    expect(await bench.store.care.retire(start + 2 * minute)).toEqual([old.id]);
    expect((await bench.store.runs.list({ areDeleted: true })).runs.map(({ id }) => id)).toEqual([old.id]);
    const rest = await bench.store.care.retire(start + 2 * minute, { knownGoodToo: true });
    expect([...rest].sort()).toEqual([good.id, baseline.id].sort());
  });
}
