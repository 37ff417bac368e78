// Keeps a store as the newest version writes it: node tests/store/kept/keep-store.ts, once, with the migration that makes the
// version. The kept file is never made anew, since then no test would open what users have.

import { openStore } from "../../../src/store/index.ts";
import { storeVersion } from "../../../src/store/migrations/index.ts";
import { StoreFolder } from "../store-folder.ts";
import { fill } from "./kept-content.ts";
import { keep } from "./kept-files.ts";

const folder = new StoreFolder();
const store = await openStore(folder.file());
await fill(store);
// Only for the size of the kept file.
await store.care.compact();
await store.close();
keep(storeVersion, folder.file());
folder.remove();
