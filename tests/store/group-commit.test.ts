// Batches that come close together share a commit; none waits longer than was said.

import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { BadInput } from "../../src/schema/index.ts";
import { GroupCommit } from "../../src/store/group-commit.ts";

describe("a group commit", () => {
  const commits: { readonly at: number; readonly batches: readonly number[] }[] = [];
  const doubling = async (batches: readonly number[]) => {
    commits.push({ at: performance.now(), batches });
    if (batches.includes(13)) throw new Error("unlucky");
    return batches.map((batch) => ({ answer: 2 * batch }));
  };

  beforeEach(() => {
    commits.length = 0;
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  test("commits a lone batch at once", async () => {
    const group = new GroupCommit(doubling, 100);
    const answer = group.add(1);
    await vi.advanceTimersByTimeAsync(1);
    expect(await answer).toBe(2);
    expect(commits).toHaveLength(1);
  });

  test("lets batches of one turn share a commit and answers each", async () => {
    const group = new GroupCommit(doubling, 100);
    const answers = Promise.all([1, 2, 3].map((batch) => group.add(batch)));
    await vi.advanceTimersByTimeAsync(1);
    expect(await answers).toEqual([2, 4, 6]);
    expect(commits.map(({ batches }) => batches)).toEqual([[1, 2, 3]]);
  });

  test("gathers what comes within the wait, and lets nobody wait longer", async () => {
    const group = new GroupCommit(doubling, 100);
    const waits: Promise<number>[] = [];
    // 200 boards, one batch a second each, evenly.
    for (let i = 0; i < 200; i++) {
      const added = performance.now();
      waits.push(group.add(i + 100).then(() => performance.now() - added));
      await vi.advanceTimersByTimeAsync(5);
    }
    await vi.advanceTimersByTimeAsync(100);
    expect(Math.max(...(await Promise.all(waits)))).toBeLessThanOrEqual(100);
    expect(commits.length).toBeLessThanOrEqual(11);
    expect(commits.flatMap(({ batches }) => batches)).toEqual(Array.from({ length: 200 }, (_, i) => i + 100));
  });

  test("does not wait when a good many have gathered", async () => {
    const group = new GroupCommit(doubling, 100);
    const first = group.add(1);
    await vi.advanceTimersByTimeAsync(1);
    await first;
    const flood = Promise.all(Array.from({ length: 300 }, (_, i) => group.add(i + 100)));
    await vi.advanceTimersByTimeAsync(2);
    expect(await flood).toHaveLength(300);
    expect(commits).toHaveLength(2);
  });

  test("fails the batch that cannot be committed and keeps the others", async () => {
    const group = new GroupCommit(doubling, 100);
    const answers = Promise.allSettled([1, 13, 3].map((batch) => group.add(batch)));
    await vi.advanceTimersByTimeAsync(1);
    expect(await answers).toMatchObject([
      { status: "fulfilled", value: 2 },
      { status: "rejected", reason: { message: "unlucky" } },
      { status: "fulfilled", value: 6 },
    ]);
  });

  for (const code of ["store-busy", "store-disk-full"] as const) {
    test(`asks a store that answers ${code} once, whatever the number of batches`, async () => {
      let attempts = 0;
      const group = new GroupCommit<number, number>(async () => {
        attempts++;
        throw new BadInput({ code, file: "bench.coldfall" });
      }, 100);
      const answers = Promise.allSettled(Array.from({ length: 200 }, (_, batch) => group.add(batch)));
      await vi.advanceTimersByTimeAsync(1);
      expect(new Set((await answers).map((answer) => answer.status === "rejected" && answer.reason.code))).toEqual(
        new Set([code]),
      );
      expect(attempts).toBe(1);
    });
  }

  test("refuses what came behind a batch that a full disk refused, and takes what comes later", async () => {
    const full = new BadInput({ code: "store-disk-full", file: "workshop.coldfall" });
    let isFull = true;
    const group = new GroupCommit(async (batches: readonly number[]) => {
      const wasFull = isFull;
      await new Promise((resolve) => setTimeout(resolve, 10));
      if (wasFull) throw full;
      return batches.map((batch) => ({ answer: 2 * batch }));
    }, 0);
    const first = group.add(1).catch((error: unknown) => error);
    await vi.advanceTimersByTimeAsync(5);
    isFull = false;
    const behind = group.add(2).catch((error: unknown) => error);
    await vi.advanceTimersByTimeAsync(50);
    expect(await Promise.all([first, behind])).toEqual([full, full]);
    const later = group.add(3);
    await vi.advanceTimersByTimeAsync(50);
    expect(await later).toBe(6);
  });

  test("says when nothing is under way", async () => {
    const group = new GroupCommit(doubling, 100);
    let isDone = false;
    const answer = group.add(1).then(() => {
      isDone = true;
    });
    const drained = group.drained().then(() => isDone);
    await vi.advanceTimersByTimeAsync(200);
    await answer;
    expect(await drained).toBe(true);
  });
});
