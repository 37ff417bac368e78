// A board told something over a real pair of ports: its light, its interval.

import { afterEach, beforeEach, expect, test } from "vitest";
import { listenToPort } from "../../src/ingest/index.ts";
import { probeLineText } from "../../src/ingest/probe-line-text.ts";
import { tellBoard } from "../../src/workshop/index.ts";
import { coldfall } from "../cli/recorded-terminal.ts";
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
  expect(await tellBoard(port, { ask: "interval", seconds: 30 }, stop)).toEqual({
    outcome: "heard",
    boardId: "larch-board",
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
