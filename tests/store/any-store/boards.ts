// Boards and their probes.

import { describe, expect, test } from "vitest";
import { fromBoard, minute, refusal, type StoreBench, start } from "./store-bench.ts";

/** Tests of any store. */
export function boardsInStore(bench: StoreBench): void {
  describe("probes", () => {
    test("keep what was said before and is not said again", async () => {
      await bench.store.probes.put({ id: "28-1", kind: "one-wire", resolutionKelvin: 0.0625 });
      await bench.store.probes.put({ id: "28-1", label: "red" });
      expect(await bench.store.probes.list()).toEqual([
        { id: "28-1", kind: "one-wire", resolutionKelvin: 0.0625, label: "red" },
      ]);
    });

    test("sit in one place of a fridge, and a place has one probe", async () => {
      await bench.store.probes.put({ id: "28-1" });
      await bench.store.probes.put({ id: "28-2" });
      const role = { fridgeId: bench.fridgeId, boardId: "b", position: "cabinet", sinceUnixMs: start } as const;
      await bench.store.probes.assign({ ...role, probeId: "28-1" });
      await bench.store.probes.assign({ ...role, probeId: "28-2", position: "ambient" });
      await bench.store.probes.assign({ ...role, probeId: "28-2" });
      expect(await bench.store.probes.roles(bench.fridgeId)).toEqual([{ ...role, probeId: "28-2" }]);
      await bench.store.probes.unassign("28-2", bench.fridgeId);
      expect(await bench.store.probes.roles()).toEqual([]);
    });

    test("with readings cannot be forgotten, others with all that belongs to them", async () => {
      await bench.store.probes.put({ id: "28-1" });
      await bench.store.probes.put({ id: "28-2" });
      await bench.store.readings.append(bench.run.id, fromBoard("cabinet", 1));
      expect(await refusal(bench.store.probes.remove("28-1"))).toMatchObject({
        code: "record-in-use",
        saying: { runs: 1 },
      });
      await bench.store.probes.remove("28-2");
      expect(await bench.store.probes.list()).toMatchObject([{ id: "28-1" }]);
    });
  });

  describe("boards", () => {
    test("are remembered with their last hello", async () => {
      await bench.store.boards.seen("b", { unixMs: start, hello: { version: 1 } });
      await bench.store.boards.edit("b", { label: "left bench" });
      expect(await bench.store.boards.seen("b", { unixMs: start + 5, fridgeId: bench.fridgeId })).toEqual({
        id: "b",
        label: "left bench",
        fridgeId: bench.fridgeId,
        hello: { version: 1 },
        firstSeenUnixMs: start,
        lastSeenUnixMs: start + 5,
        hasToken: false,
      });
      expect(await bench.store.boards.list()).toHaveLength(1);
      await bench.store.boards.remove("b");
      expect(await bench.store.boards.list()).toEqual([]);
    });

    test("are known by their newest token alone", async () => {
      const old = await bench.store.boards.issueToken("b");
      const token = await bench.store.boards.issueToken("b");
      expect(token).toMatch(/^[\w-]{43}$/);
      expect(await bench.store.boards.withToken(token)).toMatchObject({ id: "b", hasToken: true });
      expect(await bench.store.boards.withToken(old)).toBeNull();
      expect(await bench.store.boards.withToken("")).toBeNull();
    });

    test("are claimed by one at a time, until the claim is given up or runs out", async () => {
      const mine = { name: "b", holder: "first", untilUnixMs: start + minute };
      const theirs = { name: "b", holder: "second", untilUnixMs: start + 2 * minute };
      expect(await bench.store.boards.claim(mine, start)).toEqual(mine);
      expect(await bench.store.boards.claim(theirs, start + 1)).toEqual(mine);
      const longer = { ...mine, untilUnixMs: start + 3 * minute };
      expect(await bench.store.boards.claim(longer, start + 2)).toEqual(longer);
      await bench.store.boards.release("b", "second");
      expect(await bench.store.boards.claim(theirs, start + 3)).toEqual(longer);
      await bench.store.boards.release("b", "first");
      expect(await bench.store.boards.claim(theirs, start + 4)).toEqual(theirs);
      expect(await bench.store.boards.claim(longer, start + 2 * minute)).toEqual(longer);
    });
  });
}
