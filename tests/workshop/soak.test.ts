import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { soak } from "./soak-study.ts";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-soak-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

// The bench of the same name does a week.
test("two hours at a reading a second from three probes go through recording and the night's watch without a loss", async () => {
  const { sent, stored, missing, damaged, heap } = await soak(folder, 2, 11);
  expect(sent).toBeGreaterThan(21_000);
  expect({ stored, missing, damaged }).toEqual({ stored: sent, missing: 0, damaged: 0 });
  expect(heap.length).toBeGreaterThan(15);
}, 30_000);
