// The service of the load study, in a process of its own.

import { dirname, join } from "node:path";
import { createServer } from "../../../src/server/index.ts";
import { openStore } from "../../../src/store/index.ts";
import type { ProcessNews } from "../board-load-study.ts";

const [storeFile] = process.argv.slice(2);
const tell = (news: ProcessNews) => process.send?.(news);

const store = await openStore(storeFile);
const service = createServer({
  store,
  storeFile,
  version: "load",
  hosts: ["127.0.0.1"],
  passwords: null,
  uploadFolder: join(dirname(storeFile), "uploads"),
});
process.on("message", async (question) => {
  if (question === "worked") {
    const { user, system } = process.cpuUsage();
    tell({ kind: "worked", cpuMs: (user + system) / 1000 });
  }
  if (question !== "stop") return;
  await service.close();
  await store.close();
  process.disconnect();
});
tell({ kind: "ready", port: await service.listen(0, "127.0.0.1") });
