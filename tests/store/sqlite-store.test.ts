// The embedded store does what every store must do.

import { openStore } from "../../src/store/index.ts";
import { anyStore } from "./any-store/any-store.ts";
import { StoreFolder } from "./store-folder.ts";

anyStore("a store in one file", () => {
  const folder = new StoreFolder();
  return {
    open: () => openStore(folder.file(), { groupWaitMs: 5 }),
    remove: async () => folder.remove(),
  };
});
