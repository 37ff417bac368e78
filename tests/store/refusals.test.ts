// What the store refuses is said in one sentence: what was wrong, and what to do.

import { describe, expect, test } from "vitest";
import { handOf, say, words } from "../../src/report/index.ts";
import type { BadInputSaying } from "../../src/schema/index.ts";

const file = "workshop.coldfall";

const refusals: readonly (readonly [BadInputSaying, string])[] = [
  [
    { code: "no-such-record", kind: "fridge", id: "Bay 7", known: ["Bay 5", "Bay 6"] },
    'no fridge "Bay 7" in the store; there are "Bay 5", "Bay 6"',
  ],
  [
    { code: "no-such-record", kind: "fridge", id: "Bay 7", known: [] },
    'no fridge is kept yet, so add one first with "coldfall fridges add NAME"',
  ],
  [{ code: "no-such-record", kind: "run", id: "2026-01" }, 'no run "2026-01" in the store; "coldfall runs" lists'],
  [
    { code: "not-one-record", kind: "run", id: "2026", known: ["2026-06-04-k7qx3m", "2026-06-05-aaaaaa"] },
    'More than one run begins with "2026": 2026-06-04-k7qx3m, 2026-06-05-aaaaaa',
  ],
  [{ code: "name-taken", kind: "fridge", name: "Bay 5" }, 'a fridge named "Bay 5" already; give this one another name'],
  [{ code: "record-in-use", kind: "probe", id: "28-1", runs: 1 }, "one run holds readings of it"],
  [{ code: "record-in-use", kind: "probe", id: "28-1", runs: 3 }, "3 runs hold readings of it"],
  [{ code: "store-newer", file, version: 9, known: 1 }, "store version 9; this one knows 1 at most"],
  [{ code: "not-a-store", file }, "is not a store of coldfall, so it was left alone"],
  [{ code: "store-busy", file }, "another program"],
  [{ code: "store-disk-full", file }, "is full; nothing kept so far is lost, so free some space"],
  [
    { code: "store-unusable", file, reason: "disk I/O error" },
    "cannot be used as a store: disk I/O error; check the disk",
  ],
  [
    {
      code: "store-damaged",
      file,
      run: "r",
      position: "cabinet",
      from: "2026-06-04T07:00:00.000Z",
      to: "2026-06-04T07:10:00.000Z",
    },
    "the cabinet readings of run r from 2026-06-04T07:00:00.000Z to 2026-06-04T07:10:00.000Z are damaged and were not used; restore a backup",
  ],
];

describe("a refusal of the store", () => {
  for (const [saying, part] of refusals) {
    test(`says "${part}"`, () => {
      const sentence = say(words("en").badInput, saying, handOf("en", 0));
      expect(sentence).toContain(part);
      expect(sentence).toMatch(/^[A-Z"].*[^.]\.$/);
      expect(sentence).not.toMatch(/undefined|\. /);
    });
  }
});
