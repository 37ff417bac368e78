// Twenty kills; the study of 200 is `npm run bench kill-study`.

import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { killStudy } from "./kill-study.ts";

test("killed at random instants while recording and importing, the store holds every acknowledged reading and goes on", async () => {
  const folder = mkdtempSync(join(tmpdir(), "coldfall-kills-"));
  try {
    const counts = await killStudy(folder, 20, 1);
    expect(counts).toMatchObject({ kills: 20, lost: 0, damaged: 0, halfImported: 0 });
    // Kills before the first write or after the last prove nothing.
    expect(counts.amidWriting).toBeGreaterThanOrEqual(16);
  } finally {
    rmSync(folder, { recursive: true });
  }
}, 180_000);
