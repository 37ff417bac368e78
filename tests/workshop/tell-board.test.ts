// A board told something over a real pair of ports: its light, its interval.

import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { listenToPort } from "../../src/ingest/index.ts";
import { tellBoard } from "../../src/workshop/recording/index.ts";
import { coldfall } from "../cli/recorded-terminal.ts";
import { probeLineText } from "../ingest/probe-line-text.ts";
import { type PtyPair, ptyPair } from "./pty-pair.ts";

let board: PtyPair;
let answering: NodeJS.Timeout | undefined;
beforeEach(async () => {
  board = await ptyPair();
});
afterEach(async () => {
  clearInterval(answering);
  await board.unplug();
});

/** Answers each command as a board does. @param answer what it says to a command; null says nothing */
function answer(answerTo: (command: string) => readonly string[]): void {
  let taken = 0;
  answering = setInterval(() => {
    const commands = board.heard().split("\n").slice(0, -1);
    for (const command of commands.slice(taken)) for (const line of answerTo(command)) void board.say(`${line}\n`);
    taken = commands.length;
  }, 10);
}

let sequence = 1;
const head = () => ({ boardId: "larch-board", boot: 3, sequence: sequence++, uptimeMs: 100 * sequence });
const hello = () =>
  probeLineText({
    type: "hello",
    ...head(),
    formatVersion: 1,
    firmware: "1.0.0",
    reason: "asked",
    intervalSeconds: 10,
    probes: [],
  });
const heard = (type: "heard" | "refused", command: string) => probeLineText({ type, ...head(), command });

test("the light is asked for and the board's repetition is told as done", async () => {
  answer((command) => (command === "identify" ? [heard("heard", command), hello()] : [heard("heard", command)]));
  const { exitCode, printed } = await coldfall(["boards", "light", board.path, "--seconds", "7"]);
  expect({ exitCode, printed }).toEqual({ exitCode: 0, printed: "Board larch-board flashes for 7 s.\n" });
  expect(board.heard()).toMatch(/light 7\n/);
});

test("a new interval is told in a sentence, and a board that refuses is believed", async () => {
  answer((command) => (command === "identify" ? [hello()] : [heard("refused", command)]));
  const { exitCode, printed } = await coldfall(["boards", "interval", board.path, "--seconds", "10"]);
  expect({ exitCode, printed }).toMatchObject({ exitCode: 0, printed: expect.stringMatching(/larch-board refuses/) });
});

test("a command that came back damaged is said again until it comes back whole", async () => {
  let times = 0;
  answer((command) => {
    if (command === "identify") return [hello()];
    times += 1;
    return [times === 1 ? heard("heard", "interval 70").replace("70", "90") : heard("heard", command)];
  });
  const stop = new AbortController();
  const port = await listenToPort(board.path, { signal: stop.signal });
  expect(await tellBoard(port, { ask: "interval", seconds: 30 }, stop)).toMatchObject({
    outcome: "heard",
    boardId: "larch-board",
    ended: null,
  });
  expect(board.heard().match(/interval 30\n/g)).toHaveLength(2);
}, 15_000);

test("a port on which nobody says hello is given up", async () => {
  const stop = new AbortController();
  const port = await listenToPort(board.path, { signal: stop.signal });
  expect(await tellBoard(port, { ask: "light", seconds: 1 }, stop, { helloMs: 300 })).toEqual({ outcome: "no-board" });
});

test("a board pulled out before it says hello ends the question with the reason", async () => {
  const stop = new AbortController();
  const port = await listenToPort(board.path, { signal: stop.signal });
  const telling = tellBoard(port, { ask: "light", seconds: 1 }, stop);
  while (!board.heard().includes("identify")) await new Promise((resolve) => setTimeout(resolve, 5));
  await board.unplug();
  expect(await telling).toMatchObject({ outcome: "cannot-open" });
});

const memory = (state: "keeping" | "resting" | "sent" | "erasing" | "erased", usedBytes: number) =>
  probeLineText({ type: "memory", ...head(), state, usedBytes, sizeBytes: 16_777_216 });
const keptLines = [1, 2, 3].map((round) =>
  probeLineText({
    type: "reading",
    boardId: "larch-board",
    boot: 2,
    sequence: round,
    uptimeMs: 10_000 * round,
    probeId: "28-01",
    value: 4.25,
    unit: "Cel",
  }),
);

test("a board is told to keep its lines, and how much room there is stands in a sentence", async () => {
  answer((command) => (command === "identify" ? [hello()] : [heard("heard", command), memory("keeping", 1_677_721)]));
  const { exitCode, printed } = await coldfall(["boards", "keep", board.path]);
  expect({ exitCode, printed }).toMatchObject({
    exitCode: 0,
    printed: expect.stringMatching(/larch-board keeps its lines.*10\s%/),
  });
  expect(board.heard()).toMatch(/keep 1\n/);
});

test("what a board kept is read out into a file, every line as it was, and how to bring it in is said with the instant", async () => {
  const folder = mkdtempSync(join(tmpdir(), "coldfall-read-out-"));
  try {
    const torn = keptLines[1].slice(0, 30);
    answer((command) =>
      command === "identify"
        ? [keptLines[0], hello()]
        : [heard("heard", command), ...keptLines, torn, memory("sent", 20_000)],
    );
    const file = join(folder, "alone.txt");
    const { exitCode, printed } = await coldfall(["boards", "read-out", board.path, "--out", file]);
    expect({ exitCode, printed }).toMatchObject({
      exitCode: 0,
      printed: expect.stringMatching(
        /6 lines.*coldfall import .*alone\.txt --fridge NAME --read-out 2026-06-20T12:00:00/s,
      ),
    });
    const lines = readFileSync(file, "latin1").split("\n");
    expect(lines[0]).toMatch(/^heard /);
    expect(lines.slice(1, 5)).toEqual([...keptLines, torn]);
    expect(lines[5]).toMatch(/^memory .* sent /);
  } finally {
    rmSync(folder, { recursive: true });
  }
});

test("erasing is waited for, and a board without a memory is believed when it refuses", async () => {
  answer((command) =>
    command === "identify"
      ? [hello()]
      : command === "erase"
        ? [heard("heard", command), memory("erasing", 20_000), memory("erased", 0)]
        : [heard("refused", command)],
  );
  const erased = await coldfall(["boards", "erase", board.path]);
  expect(erased).toMatchObject({
    exitCode: 0,
    printed: expect.stringMatching(/memory of board larch-board is empty/i),
  });
  const refused = await coldfall(["boards", "keep", board.path, "--off"]);
  expect(refused).toMatchObject({ exitCode: 2, told: expect.stringMatching(/has no memory/) });
});

test("a read-out that breaks off in the middle is told, and leaves no file", async () => {
  const folder = mkdtempSync(join(tmpdir(), "coldfall-read-out-"));
  try {
    answer((command) => (command === "identify" ? [hello()] : [heard("heard", command), ...keptLines]));
    const file = join(folder, "alone.txt");
    const reading = coldfall(["boards", "read-out", board.path, "--out", file]);
    while (!board.heard().includes("read-out")) await new Promise((resolve) => setTimeout(resolve, 5));
    await new Promise((resolve) => setTimeout(resolve, 100));
    await board.unplug();
    expect(await reading).toMatchObject({ exitCode: 2, told: expect.stringMatching(/did not finish/) });
    expect(() => readFileSync(file)).toThrow();
  } finally {
    rmSync(folder, { recursive: true });
  }
});
