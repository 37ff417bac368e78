// What only the embedded store can be asked: its file, its write-ahead log, its syncs.

import { execFile, execFileSync, spawnSync } from "node:child_process";
import { copyFileSync, existsSync, readFileSync, statSync, truncateSync, writeFileSync } from "node:fs";
import { DatabaseSync } from "node:sqlite";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { sql } from "kysely";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { handOf, say, words } from "../../src/report/index.ts";
import { BadInput } from "../../src/schema/index.ts";
import { openStore, type Store } from "../../src/store/index.ts";
import { keptStore } from "../../src/store/kept-store.ts";
import { storeVersion } from "../../src/store/migrations/index.ts";
import { openSqlite } from "../../src/store/sqlite-engine.ts";
import { StoreFolder } from "./store-folder.ts";

const recordingProcess = fileURLToPath(new URL("./recording-process.ts", import.meta.url));
const run = promisify(execFile);

const reading = (i: number) => ({ position: "cabinet", unixMs: i * 1000, raw: i / 16 }) as const;

async function openRun(store: Store): Promise<string> {
  const { id: fridgeId } = await store.fridges.add({ name: "Bay 5" });
  const opened = await store.runs.open({
    fridgeId,
    startedUnixMs: 0,
    purpose: "test",
    origin: "board",
    utcOffsetMinutes: 0,
  });
  return opened.id;
}

/** Why it was refused, in the code and in words. */
async function refusal(promise: Promise<unknown>): Promise<{ code: string; sentence: string }> {
  const error = await promise.then(
    () => null,
    (thrown: unknown) => thrown,
  );
  if (!(error instanceof BadInput)) throw new Error("should have been refused as bad input", { cause: error });
  return { code: error.code, sentence: say(words("en").badInput, error.saying, handOf("en", 0)) };
}

const instantsOf = async (store: Store, runId: string) => [...(await store.readings.series(runId, "cabinet")).unixMs];
const firstSeconds = (count: number) => Array.from({ length: count }, (_, i) => i * 1000);

let folder: StoreFolder;
let file: string;

beforeEach(() => {
  folder = new StoreFolder();
  file = folder.file();
});
afterEach(() => folder.remove());

describe("a store file", () => {
  test("is made with its folders", async () => {
    const deep = folder.file("new/folder/workshop.coldfall");
    await (await openStore(deep)).close();
    expect(existsSync(deep)).toBe(true);
  });

  test("written by a newer coldfall is refused in one sentence and left alone", async () => {
    await (await openStore(file)).close();
    const database = new DatabaseSync(file);
    database.exec(`update store_version set version = ${storeVersion + 1}`);
    database.close();
    const before = readFileSync(file);
    const { code, sentence } = await refusal(openStore(file));
    expect(code).toBe("store-newer");
    expect(sentence).toContain(`store version ${storeVersion + 1}; this one knows ${storeVersion} at most`);
    expect(readFileSync(file)).toEqual(before);
  });

  for (const [what, begin] of [
    ["an empty file", () => writeFileSync(file, "")],
    [
      "a database without tables, as a power cut can leave a new store",
      () => {
        const database = new DatabaseSync(file);
        database.exec("pragma journal_mode = wal");
        database.close();
      },
    ],
  ] as const) {
    test(`begun in ${what} is a store, whatever is kept in it`, async () => {
      begin();
      const store = await openStore(file);
      await store.fridges.add({ name: "Bay 5" });
      await store.close();
      const again = await openStore(file);
      expect((await again.fridges.list()).map(({ name }) => name)).toEqual(["Bay 5"]);
      await again.close();
    });
  }

  for (const [what, make] of [
    ["a text", () => writeFileSync(file, "time,cabinet\n".repeat(100))],
    [
      "another program's database",
      () => {
        const database = new DatabaseSync(file);
        database.exec("create table notes (text text)");
        database.close();
      },
    ],
  ] as const) {
    test(`that is ${what} is refused and left alone`, async () => {
      make();
      const before = readFileSync(file);
      expect(await refusal(openStore(file))).toMatchObject({ code: "not-a-store" });
      expect(readFileSync(file)).toEqual(before);
    });
  }

  test("that cannot be made is refused with the reason", async () => {
    writeFileSync(folder.file("plain"), "");
    const { code, sentence } = await refusal(openStore(folder.file("plain/workshop.coldfall")));
    expect(code).toBe("cannot-write");
    expect(sentence).toMatch(/part of the path is a file|already/);
  });
});

describe("durability", () => {
  test("waits for the disk at every commit, one commit for batches handed in together", async () => {
    let commits = 0;
    const engine = openSqlite(file, { committed: () => commits++ });
    const store = await keptStore(engine);
    const levels = await sql<{ synchronous: number }>`pragma synchronous`.execute(engine.tables);
    const journal = await sql<{ journal_mode: string }>`pragma journal_mode`.execute(engine.tables);
    // 2 is FULL: sqlite.org, "PRAGMA synchronous".
    expect([levels.rows, journal.rows]).toEqual([[{ synchronous: 2 }], [{ journal_mode: "wal" }]]);

    const runId = await openRun(store);
    commits = 0;
    await store.readings.append(runId, [reading(0)]);
    expect(commits).toBe(1);
    await Promise.all(firstSeconds(40).map((_, i) => store.readings.append(runId, [reading(i + 1)])));
    expect(commits).toBe(2);
    await store.readings.series(runId, "cabinet");
    expect(commits).toBe(2);
    await store.close();
  });

  // The system itself is asked where it can be: a kill cannot show a missing sync.
  if (spawnSync("strace", ["-e", "trace=none", "true"]).status === 0) {
    test("costs one sync of the write-ahead log for each acknowledged batch", async () => {
      const store = await openStore(file);
      const runId = await openRun(store);
      await store.close();
      const syncs = (batches: number, from: number) => {
        const trace = folder.file(`trace-${from}`);
        const args = ["-f", "-o", trace, "-e", "trace=fsync,fdatasync", process.execPath, recordingProcess];
        execFileSync("strace", [...args, file, runId, `${batches}`, `${from}`]);
        return readFileSync(trace, "utf8").match(/f(?:data)?sync\(\d+\) *= 0|sync resumed>\) *= 0/g)?.length ?? 0;
      };
      // Opening and closing sync too, the same number of times however many batches lie between.
      const [few, many] = [syncs(5, 0), syncs(45, 1000)];
      expect(many - few).toBe(40);
    }, 60_000);
  }

  test("a full disk is said, keeps what was kept, and recording goes on when there is room", async () => {
    const engine = openSqlite(file);
    const store = await keptStore(engine);
    const runId = await openRun(store);
    await store.readings.append(
      runId,
      firstSeconds(100).map((_, i) => reading(i)),
    );
    const pages = await sql<{ page_count: number }>`pragma page_count`.execute(engine.tables);
    await sql`pragma max_page_count = ${sql.lit(pages.rows[0].page_count)}`.execute(engine.tables);
    const flood = Array.from({ length: 3000 }, (_, i) => reading(100 + i));
    const { code, sentence } = await refusal(store.readings.append(runId, flood));
    expect(code).toBe("store-disk-full");
    expect(sentence).toContain("nothing kept so far is lost");
    expect(await instantsOf(store, runId)).toEqual(firstSeconds(100));
    await sql`pragma max_page_count = 1000000`.execute(engine.tables);
    expect(await store.readings.append(runId, flood)).toMatchObject({ stored: 3000 });
    await store.close();
  });
});

test("a disk found full by a change that SQLite takes back by itself is said as such, and the store goes on", async () => {
  const engine = openSqlite(file);
  const store = await keptStore(engine);
  const runId = await openRun(store);
  const pages = await sql<{ page_count: number }>`pragma page_count`.execute(engine.tables);
  await sql`pragma max_page_count = ${sql.lit(pages.rows[0].page_count)}`.execute(engine.tables);
  const event = { kind: "noted", fromUnixMs: 0, details: { text: "x".repeat(1e6) } } as const;
  expect(await refusal(store.events.add(runId, event))).toMatchObject({ code: "store-disk-full" });
  await sql`pragma max_page_count = 1000000`.execute(engine.tables);
  await store.events.add(runId, event);
  expect(await store.events.list(runId)).toHaveLength(1);
  await store.close();
});

describe("a write-ahead log cut off or scrambled at its end, as by a power cut", () => {
  /** The store's files as they lie on the disk while it is open, with 60 commits in the log. */
  async function filesInUse(): Promise<{ readonly runId: string; readonly logBytes: number }> {
    const first = await openStore(file);
    const runId = await openRun(first);
    await first.close();
    const store = await openStore(file, { groupWaitMs: 0 });
    for (let i = 0; i < 60; i++) await store.readings.append(runId, [reading(i)]);
    for (const end of ["", "-wal"]) copyFileSync(`${file}${end}`, `${folder.file("torn")}${end}`);
    await store.close();
    return { runId, logBytes: statSync(`${folder.file("torn")}-wal`).size };
  }

  /** A commit of one reading writes a few pages; so many bytes are surely more than one commit and less than five. */
  const tail = 20_000;

  for (const [what, spoil] of [
    ["cut off in the middle of a page", (log: string, bytes: number) => truncateSync(log, bytes - tail + 1234)],
    [
      "scrambled",
      (log: string, bytes: number) => {
        const content = readFileSync(log);
        for (let i = bytes - tail; i < bytes; i++) content[i] ^= ((i * 31) % 256) | 1;
        writeFileSync(log, content);
      },
    ],
    ["empty", (log: string) => truncateSync(log, 0)],
    ["left whole", () => {}],
  ] as const) {
    test(`${what}: the store opens, holds every commit before, whole, and goes on`, async () => {
      const { runId, logBytes } = await filesInUse();
      expect(logBytes).toBeGreaterThan(3 * tail);
      spoil(`${folder.file("torn")}-wal`, logBytes);
      const store = await openStore(folder.file("torn"));
      const kept = await instantsOf(store, runId);
      expect(kept).toEqual(firstSeconds(kept.length));
      expect(kept.length).toBeGreaterThanOrEqual(what === "empty" ? 0 : what === "left whole" ? 60 : 50);
      expect((await store.care.check()).damage).toEqual([]);
      const again = firstSeconds(60).map((_, i) => reading(i));
      expect(await store.readings.append(runId, again)).toMatchObject({
        stored: 60 - kept.length,
        repeated: kept.length,
      });
      await store.close();
    });
  }
});

describe("damage", () => {
  async function withScrambledBlock(): Promise<string> {
    const store = await openStore(file);
    const runId = await openRun(store);
    const boiler = { position: "boiler", unixMs: 0, raw: 180 } as const;
    const seconds = firstSeconds(200).map((_, i) => reading(i));
    await store.readings.append(runId, [...seconds.slice(0, 100), boiler]);
    await store.runs.close(runId, 100_000);
    await store.readings.append(runId, seconds.slice(100));
    await store.runs.close(runId, 200_000);
    await store.close();
    const database = new DatabaseSync(file);
    const { payload } = database
      .prepare("select payload from blocks where series = 'cabinet' and from_ms = 0")
      .get() as {
      payload: Uint8Array;
    };
    payload[payload.length >> 1] ^= 1;
    database.prepare("update blocks set payload = ? where series = 'cabinet' and from_ms = 0").run(payload);
    database.close();
    return runId;
  }

  test("to a block is found by its checksum and named by the check", async () => {
    const runId = await withScrambledBlock();
    await using store = await openStore(file);
    expect(await store.care.check()).toEqual({
      runs: 1,
      blocks: 3,
      readings: 201,
      damage: [{ kind: "block", runId, position: "cabinet", fromUnixMs: 0, toUnixMs: 99_000, readings: 100 }],
    });
  });

  test("to a block is never read as readings, and the rest stays readable", async () => {
    const runId = await withScrambledBlock();
    await using store = await openStore(file);
    const { code, sentence } = await refusal(store.readings.recording(runId));
    expect(code).toBe("store-damaged");
    expect(sentence).toContain(`the cabinet readings of run ${runId} from 1970-01-01T00:00:00.000Z to`);
    expect((await store.readings.series(runId, "boiler")).values).toEqual(Float64Array.of(180));
    expect(await store.care.compact()).toMatchObject({ blocksBefore: 3, blocksAfter: 3 });
  });

  test("to the database's own pages is reported by the check", async () => {
    await withScrambledBlock();
    const content = readFileSync(file);
    // The name as it is compared stands in the table and in its index; changed in one place only, they no longer agree.
    content.write("x", content.indexOf("bay 5"));
    writeFileSync(file, content);
    await using store = await openStore(file);
    const { damage } = await store.care.check();
    expect(damage.some(({ kind }) => kind === "database")).toBe(true);
  });
});

describe("a backup", () => {
  test("made while recording goes on is whole and opens elsewhere", async () => {
    const store = await openStore(file, { groupWaitMs: 0 });
    const runId = await openRun(store);
    for (let i = 0; i < 20; i++) await store.readings.append(runId, [reading(i)]);
    const copying = store.care.backup(folder.file("elsewhere"));
    for (let i = 20; i < 60; i++) await store.readings.append(runId, [reading(i)]);
    await copying;
    expect(await instantsOf(store, runId)).toEqual(firstSeconds(60));
    await store.close();

    const copy = await openStore(folder.file("elsewhere"));
    const kept = await instantsOf(copy, runId);
    expect(kept.length).toBeGreaterThanOrEqual(20);
    expect(kept).toEqual(firstSeconds(kept.length));
    expect((await copy.care.check()).damage).toEqual([]);
    await copy.close();
  });

  test("does not overwrite a file", async () => {
    const store = await openStore(file);
    writeFileSync(folder.file("taken"), "mine");
    expect(await refusal(store.care.backup(folder.file("taken")))).toMatchObject({ code: "cannot-write" });
    expect(readFileSync(folder.file("taken"), "utf8")).toBe("mine");
    await store.close();
  });

  test("into a folder that is not there is refused", async () => {
    const store = await openStore(file);
    expect((await refusal(store.care.backup(folder.file("none/copy")))).code).toMatch(/cannot-write|store-unusable/);
    await store.close();
  });
});

describe("one store opened twice", () => {
  test("by two processes keeps what both record", async () => {
    const store = await openStore(file);
    const runId = await openRun(store);
    await Promise.all(
      [0, 1000].map((from) => run(process.execPath, [recordingProcess, file, runId, "150", `${from}`])),
    );
    const expected = [...firstSeconds(150), ...firstSeconds(150).map((ms) => ms + 1_000_000)];
    expect(await instantsOf(store, runId)).toEqual(expected);
    await store.close();
  }, 60_000);

  test("by one process does not lock it up", async () => {
    const [one, other] = [await openStore(file, { groupWaitMs: 0 }), await openStore(file, { groupWaitMs: 0 })];
    const from = performance.now();
    const adding = firstSeconds(40).map((_, i) => (i % 2 ? one : other).fridges.add({ name: `Bay ${i}` }));
    await Promise.all(adding);
    expect(performance.now() - from).toBeLessThan(5000);
    expect(await one.fridges.list()).toHaveLength(40);
    await Promise.all([one.close(), other.close()]);
  });

  test("anew by two at once is made once", async () => {
    const stores = await Promise.all([openStore(file), openStore(file), openStore(file)]);
    await stores[0].fridges.add({ name: "Bay 5" });
    expect(await stores[2].fridges.list()).toMatchObject([{ name: "Bay 5" }]);
    for (const store of stores) await store.close();
  });
});
