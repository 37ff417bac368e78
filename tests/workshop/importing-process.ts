// A process of its own that brings a log into a store, to be killed: node importing-process.ts FILE LOG. Writes "began" when
// it begins to write and "done" when all is durable.

import { lookOver, wayToRead } from "../../src/ingest/index.ts";
import { openStore } from "../../src/store/index.ts";
import { importLog } from "../../src/workshop/import-log.ts";

const [file, logFile] = process.argv.slice(2);
const store = await openStore(file);
const [fridge = await store.fridges.add({ name: "Larch" })] = await store.fridges.list();
const log = lookOver(logFile);
const found = wayToRead(log);
process.stdout.write("began\n");
if (found.way === null) throw new Error("the log is not understood");
await importLog(store, log, found.way, { fridge });
process.stdout.write("done\n");
await store.close();
