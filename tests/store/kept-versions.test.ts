// Stores written by every version so far open with everything that was in them.

import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { openStore } from "../../src/store/index.ts";
import { storeVersion } from "../../src/store/migrations/index.ts";
import { expectAll, fill } from "./kept/kept-content.ts";
import { pathOfKept, unpackKept } from "./kept/kept-files.ts";
import { StoreFolder } from "./store-folder.ts";

/** Makes the file of a new version, once. */
const keepStore = fileURLToPath(new URL("./kept/keep-store.ts", import.meta.url));

describe("a store", () => {
  let folder: StoreFolder;
  beforeEach(() => {
    folder = new StoreFolder();
  });
  afterEach(() => folder.remove());

  test("of today holds a little of everything", async () => {
    const store = await openStore(folder.file());
    await fill(store);
    await store.close();
    await using again = await openStore(folder.file());
    await expectAll(again, storeVersion);
  });

  for (let version = 1; version <= storeVersion; version++) {
    test(`written by version ${version} opens with all that was in it`, async () => {
      expect(existsSync(pathOfKept(version)), `keep a store of version ${version} with node ${keepStore}`).toBe(true);
      unpackKept(version, folder.file());
      await using store = await openStore(folder.file());
      await expectAll(store, version);
    });
  }
});
