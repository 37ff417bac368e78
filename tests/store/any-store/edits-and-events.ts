// What people change about how a run is read, and what happened during it.

import { describe, expect, test } from "vitest";
import type { Edit } from "../../../src/store/index.ts";
import { minute, refusal, type StoreBench, start } from "./store-bench.ts";

/** Tests of any store. */
export function editsInStore(bench: StoreBench): void {
  describe("edits", () => {
    const gas: Edit = { kind: "source", unixMs: start, source: "gas" };
    const mains: Edit = { kind: "source", unixMs: start + minute, source: "mains", how: "later" };
    const sources = async () => (await bench.store.edits.current(bench.run.id)).sourceMarks.map(({ source }) => source);

    test("replace and remove earlier ones, and the history keeps all", async () => {
      const first = await bench.store.edits.make(bench.run.id, gas, { unixMs: start, by: "Kim" });
      const second = await bench.store.edits.make(bench.run.id, mains);
      await bench.store.edits.make(bench.run.id, { kind: "replace", number: second, by: { ...mains, source: "dc12" } });
      expect(await sources()).toEqual(["gas", "dc12"]);
      await bench.store.edits.make(bench.run.id, { kind: "remove", number: first });
      expect(await sources()).toEqual(["dc12"]);
      const history = await bench.store.edits.history(bench.run.id);
      expect(history).toHaveLength(4);
      expect(history[0]).toEqual({ number: 1, madeUnixMs: start, madeBy: "Kim", step: gas, isUndone: false });
    });

    test("are undone from the last to the first and brought back the other way", async () => {
      await bench.store.edits.make(bench.run.id, gas);
      await bench.store.edits.make(bench.run.id, mains);
      await bench.store.edits.make(bench.run.id, { kind: "remove", number: 1 });
      expect(await sources()).toEqual(["mains"]);
      await bench.store.edits.undo(bench.run.id);
      expect(await sources()).toEqual(["gas", "mains"]);
      await bench.store.edits.undo(bench.run.id);
      expect(await sources()).toEqual(["gas"]);
      expect(await bench.store.edits.redo(bench.run.id)).toBe(true);
      expect(await sources()).toEqual(["gas", "mains"]);
      expect(await bench.store.edits.current(bench.run.id)).toMatchObject({ canUndo: true, canRedo: true });
    });

    test("made together are undone and brought back together, and each can be replaced and removed", async () => {
      await bench.store.edits.make(bench.run.id, { kind: "note", unixMs: start, text: "shut" });
      expect(await bench.store.edits.make(bench.run.id, { kind: "together", edits: [gas, mains] })).toBe(2);
      expect(await sources()).toEqual(["gas", "mains"]);
      await bench.store.edits.undo(bench.run.id);
      expect(await bench.store.edits.current(bench.run.id)).toMatchObject({
        sourceMarks: [],
        notes: [{ text: "shut" }],
      });
      await bench.store.edits.redo(bench.run.id);
      expect(await sources()).toEqual(["gas", "mains"]);
      expect(await bench.store.edits.make(bench.run.id, { kind: "remove", number: 3 })).toBe(4);
      expect(await sources()).toEqual(["gas"]);
      await bench.store.edits.make(bench.run.id, { kind: "replace", number: 2, by: { ...gas, source: "dc12" } });
      expect(await sources()).toEqual(["dc12"]);
    });

    test("made after an undo end the redoing", async () => {
      await bench.store.edits.make(bench.run.id, gas);
      await bench.store.edits.undo(bench.run.id);
      expect(await bench.store.edits.undo(bench.run.id)).toBe(false);
      await bench.store.edits.make(bench.run.id, mains);
      expect(await bench.store.edits.redo(bench.run.id)).toBe(false);
      expect(await sources()).toEqual(["mains"]);
      expect(await bench.store.edits.current(bench.run.id)).toMatchObject({ canUndo: true, canRedo: false });
    });

    test("of an edit that does not stand are refused", async () => {
      await bench.store.edits.make(bench.run.id, gas);
      await bench.store.edits.make(bench.run.id, { kind: "remove", number: 1 });
      for (const number of [1, 2, 9]) {
        expect(await refusal(bench.store.edits.make(bench.run.id, { kind: "remove", number }))).toMatchObject({
          code: "no-such-record",
          saying: { kind: "edit", id: `${number}` },
        });
      }
    });
  });

  test("events are listed in order of time and can be told more about", async () => {
    const late = await bench.store.events.add(bench.run.id, {
      kind: "gap",
      fromUnixMs: start + minute,
      details: { lines: 3 },
    });
    await bench.store.events.add(bench.run.id, {
      kind: "probe-lost",
      fromUnixMs: start,
      position: "cabinet",
      boardId: "b",
    });
    await bench.store.events.edit(late, { toUnixMs: start + 2 * minute });
    expect(await bench.store.events.list(bench.run.id)).toMatchObject([
      { kind: "probe-lost", position: "cabinet", boardId: "b" },
      { kind: "gap", fromUnixMs: start + minute, toUnixMs: start + 2 * minute, details: { lines: 3 } },
    ]);
    expect(await refusal(bench.store.events.edit("nothing", {}))).toMatchObject({ code: "no-such-record" });
  });
}
