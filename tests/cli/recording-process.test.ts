// `coldfall record` as a process: how it stops, and what it says where nobody watches.

import { spawn, spawnSync } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { openStore } from "../../src/store/index.ts";
import { ptyPair } from "../workshop/pty-pair.ts";
import { boardStart } from "./board-lines.ts";
import { pullDownLog } from "./pull-down-log.ts";

const entry = join(import.meta.dirname, "../../src/cli/coldfall.js");
let folder = "";
const at = (name: string) => join(folder, name);
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-record-"));
  writeFileSync(at("night.csv"), pullDownLog({ strength: 1, day: 1 }));
});
afterAll(() => rmSync(folder, { recursive: true }));

const record = (...args: readonly string[]) => [
  entry,
  "record",
  "--fridge",
  "Larch",
  "--replay",
  at("night.csv"),
  ...args,
];

test("asked to stop by a service manager, recording ends within 2 s, says so, and the same command goes on", async () => {
  const child = spawn(process.execPath, record("--store", at("stop.coldfall")), { stdio: ["ignore", "pipe", "pipe"] });
  let [printed, told] = ["", ""];
  child.stdout.setEncoding("utf8").on("data", (text: string) => {
    printed += text;
  });
  child.stderr.setEncoding("utf8").on("data", (text: string) => {
    told += text;
  });
  while (!/Recording Larch[\s\S]*\n.*\n/.test(told)) await once(child.stderr, "data");
  const asked = performance.now();
  child.kill("SIGTERM");
  const [code] = await once(child, "close");
  expect(performance.now() - asked).toBeLessThan(2000);
  expect(code).toBe(0);
  expect(printed).toMatch(/^Stopped\. [1-9]\d* new readings are kept/);
  const again = spawnSync(process.execPath, record("--speed", "1e9", "--store", at("stop.coldfall")), {
    encoding: "utf8",
  });
  expect(again.stderr).toMatch(/^Going on with run/);
  expect(again.status).toBe(0);
}, 60_000);

test("with --structured every message is a JSON object on a line of its own", () => {
  const args = record("--speed", "1e9", "--structured", "--store", at("lines.coldfall"));
  const { stderr, status } = spawnSync(process.execPath, args, { encoding: "utf8" });
  expect(status).toBe(0);
  const lines = stderr.trimEnd().split("\n");
  expect(lines.length).toBeGreaterThan(2);
  for (const line of lines) {
    expect(JSON.parse(line)).toMatchObject({ time: expect.stringMatching(/^20/), message: expect.any(String) });
  }
}, 60_000);

test("a port that is not there is told at once, and once, with where the ports are listed; then it is waited for", async () => {
  const args = [entry, "record", "--fridge", "Larch", "--port", at("ttyNOPE"), "--store", at("port.coldfall")];
  const child = spawn(process.execPath, args, { stdio: ["ignore", "ignore", "pipe"] });
  let told = "";
  child.stderr.setEncoding("utf8").on("data", (text: string) => {
    told += text;
  });
  while (!/no port/.test(told)) await once(child.stderr, "data");
  // Longer than the pause between two attempts.
  await new Promise((resolve) => setTimeout(resolve, 2500));
  expect(child.exitCode).toBeNull();
  child.kill("SIGTERM");
  await once(child, "close");
  expect(told.split("\n").slice(1)).toEqual([
    `There is no port ${at("ttyNOPE")} yet; it is waited for, so plug the board in. "coldfall boards" lists the ports there are.`,
    "",
  ]);
}, 30_000);

test("the sources of a replayed log, about which nobody typed anything, are not said to be told by hand", () => {
  const inStore = ["--store", at("sources.coldfall")];
  const { stdout } = spawnSync(process.execPath, record("--speed", "1e9", ...inStore), { encoding: "utf8" });
  const run = /coldfall report (\S+?)"/.exec(stdout)?.[1] ?? "";
  const report = spawnSync(process.execPath, [entry, "report", run, ...inStore], { encoding: "utf8" });
  const printed = report.stdout.replaceAll(/\s+/g, " ");
  expect(printed).toMatch(/Noted: on mains from/);
  expect(printed).not.toMatch(/Told by hand/);
}, 60_000);

test("a port that another recorder listens to is told as such", async () => {
  const board = await ptyPair();
  const begun = (store: string) =>
    spawn(process.execPath, [entry, "record", "--fridge", "Larch", "--port", board.path, "--store", at(store)], {
      stdio: ["ignore", "ignore", "pipe"],
    });
  const first = begun("first.coldfall");
  while (!board.heard().includes("identify")) await new Promise((resolve) => setTimeout(resolve, 20));
  const second = begun("second.coldfall");
  let told = "";
  second.stderr.setEncoding("utf8").on("data", (text: string) => {
    told += text;
  });
  while (told.split("\n").length < 3) await once(second.stderr, "data");
  for (const child of [first, second]) child.kill("SIGTERM");
  await Promise.all([once(first, "close"), once(second, "close")]);
  await board.unplug();
  expect(told).toMatch(/is listened to by another program already, such as another recorder/);
}, 60_000);

test("a probe that the board places elsewhere than the store is told; and a run that is ended elsewhere is recorded no further", async () => {
  const board = await ptyPair();
  const file = at("over.coldfall");
  const before = await openStore(file);
  const { id: fridgeId } = await before.fridges.add({ name: "Larch" });
  await before.probes.put({ id: "28-c" });
  await before.probes.assign({ probeId: "28-c", fridgeId, boardId: "b1", position: "evaporator", sinceUnixMs: 0 });
  await before.close();
  const child = spawn(process.execPath, [entry, "record", "--fridge", "Larch", "--port", board.path, "--store", file], {
    stdio: ["ignore", "pipe", "pipe"],
  });
  let printed = "";
  child.stdout.setEncoding("utf8").on("data", (text: string) => {
    printed += text;
  });
  let told = "";
  child.stderr.setEncoding("utf8").on("data", (text: string) => {
    told += text;
  });
  while (!board.heard().includes("identify")) await new Promise((resolve) => setTimeout(resolve, 20));
  const lines = boardStart({ boot: 1, rounds: 200, everySeconds: 1 }, [
    { probeId: "28-c", role: "cabinet", celsius: () => 5 },
  ]).split("\n");
  await board.say(`${lines[0]}\n${lines[1]}\n`);
  while (!/Recording Larch/.test(told)) await once(child.stderr, "data");
  const store = await openStore(file);
  const [run] = (await store.runs.list()).runs;
  await store.runs.close(run.id, Date.now());
  await store.close();
  let next = 2;
  const saying = setInterval(() => void board.say(`${lines[next++]}\n`), 500);
  const [code] = await once(child, "close");
  clearInterval(saying);
  await board.unplug();
  expect(code).toBe(0);
  expect(told).toMatch(
    /board says that probe 28-c sits at cabinet.*; in the store it sits at evaporator, and that counts/,
  );
  expect(printed).toMatch(
    new RegExp(`^Run ${run.id} was ended or removed elsewhere.* recording stops here; .*readings are kept`),
  );
}, 60_000);
