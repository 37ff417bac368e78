// Alarms, and the messages that carry them out of the house.

import { describe, expect, test } from "vitest";
import { minute, type StoreBench, start } from "./store-bench.ts";

/** Tests of any store. */
export function alarmsInStore(bench: StoreBench): void {
  describe("alarms", () => {
    const alarm = {
      kind: "cabinet-warm",
      position: "cabinet",
      raisedUnixMs: start,
      reason: { code: "warm", hours: 2 },
    } as const;

    test("latch: raised again before anyone looked they are the same one, also when their cause was over meanwhile", async () => {
      const { alarm: first, isNew } = await bench.store.alarms.raise({ ...alarm, runId: bench.run.id });
      await bench.store.alarms.clear(first.id, start + minute);
      const again = await bench.store.alarms.raise({ ...alarm, runId: bench.run.id, raisedUnixMs: start + 2 * minute });
      expect([isNew, again]).toEqual([true, { isNew: false, alarm: first }]);
    });

    test("another event of a kind is another alarm once the last is over, and the same one while that lasts", async () => {
      const again = { ...alarm, runId: bench.run.id, raisedUnixMs: start + 2 * minute, isAnother: true };
      const { alarm: first } = await bench.store.alarms.raise({ ...alarm, runId: bench.run.id });
      expect(await bench.store.alarms.raise(again)).toEqual({ isNew: false, alarm: first });
      await bench.store.alarms.clear(first.id, start + minute);
      expect((await bench.store.alarms.raise(again)).isNew).toBe(true);
      expect(await bench.store.alarms.list({ runId: bench.run.id })).toMatchObject([
        { raisedUnixMs: start + 2 * minute, clearedUnixMs: null },
        { id: first.id, clearedUnixMs: start + minute },
      ]);
    });

    test("acknowledged twice: who saw it first stays", async () => {
      const { alarm: raised } = await bench.store.alarms.raise({ ...alarm, runId: bench.run.id });
      await bench.store.alarms.acknowledge(raised.id, start + minute, "Kim");
      const again = await bench.store.alarms.acknowledge(raised.id, start + 2 * minute, "Lee");
      expect(again).toMatchObject({ acknowledgedUnixMs: start + minute, acknowledgedBy: "Kim" });
      await expect(bench.store.alarms.acknowledge("nope", start)).rejects.toMatchObject({ code: "no-such-record" });
    });

    test("of one kind about another source, probe or board are another", async () => {
      const about = (subject: string) =>
        bench.store.alarms.raise({ ...alarm, runId: bench.run.id, reason: { ...alarm.reason, subject } });
      const raised = [await about("mains"), await about("gas"), await about("mains")];
      expect(raised.map(({ isNew }) => isNew)).toEqual([true, true, false]);
      expect(await bench.store.alarms.list({ runId: bench.run.id })).toHaveLength(2);
    });

    test("once acknowledged make room for a new one", async () => {
      const { alarm: first } = await bench.store.alarms.raise({ ...alarm, runId: bench.run.id });
      await bench.store.alarms.acknowledge(first.id, start + 1, "Kim");
      const next = await bench.store.alarms.raise({ ...alarm, runId: bench.run.id, raisedUnixMs: start + 2 });
      expect(next.isNew).toBe(true);
      expect(await bench.store.alarms.list({ runId: bench.run.id, isAcknowledged: false })).toEqual([next.alarm]);
      expect(await bench.store.alarms.list()).toMatchObject([
        { id: next.alarm.id },
        { id: first.id, acknowledgedUnixMs: start + 1, acknowledgedBy: "Kim", reason: alarm.reason },
      ]);
    });
  });

  test("the alarms of a deleted run wait for nobody, and are there again when it is restored", async () => {
    const alarm = { kind: "board-silent", raisedUnixMs: start, reason: { code: "x" } };
    await bench.store.alarms.raise({ ...alarm, runId: bench.run.id });
    await bench.store.runs.delete(bench.run.id);
    expect(await bench.store.alarms.list()).toEqual([]);
    await bench.store.runs.restore(bench.run.id);
    expect(await bench.store.alarms.list()).toHaveLength(1);
  });

  test("messages wait in the outbox, over a restart, until they are settled", async () => {
    const first = await bench.store.outbox.add({ target: "http://127.0.0.1:1/", body: { a: 1 }, madeUnixMs: start });
    await bench.store.outbox.add({ target: "http://127.0.0.1:1/", body: { a: 2 }, madeUnixMs: start + 1 });
    await bench.store.outbox.postpone(first.id, start + minute, "no answer");
    await bench.reopened();
    expect(await bench.store.outbox.due(start + 1)).toMatchObject([{ body: { a: 2 }, attempts: 0 }]);
    expect(await bench.store.outbox.due(start + minute)).toMatchObject([
      { body: { a: 1 }, attempts: 1, lastError: "no answer" },
      { body: { a: 2 } },
    ]);
    await bench.store.outbox.settle(first.id);
    expect(await bench.store.outbox.due(start + minute)).toHaveLength(1);
  });
}
