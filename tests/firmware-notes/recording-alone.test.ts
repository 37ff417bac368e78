// A thermocouple and a memory of the board's own, at the level of the pins: what the reference firmware measures and keeps,
// read by the program's own reader and brought into a store by its own import.

import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { expect, test } from "vitest";
import { type BoardCommand, commandText } from "../../src/ingest/board-command.ts";
import { BoardLines, type HeardLine } from "../../src/ingest/board-lines.ts";
import type { ProbeLine } from "../../src/ingest/probe-line.ts";
import { typeKCelsius, typeKMillivolts } from "../../src/science/sensors/type-k.ts";
import { openStore } from "../../src/store/index.ts";
import { coldfall } from "../cli/recorded-terminal.ts";
import { frontEndCouple, frontEndOwn } from "../reference/thermocouple-front-end.ts";
import { EmulatedBoard, startedBy } from "./emulated-board.ts";
import { CoupleFrontEnd } from "./spi-parts.ts";

const ofType = <T extends ProbeLine["type"]>(lines: readonly ProbeLine[], type: T) =>
  lines.filter((line): line is Extract<ProbeLine, { type: T }> => line.type === type);

function good(heard: HeardLine): ProbeLine {
  if (heard.outcome !== "good") throw new Error(`not a good line: ${JSON.stringify(heard)}`);
  return heard.line;
}

/** A board with one sensor at the cabinet's place and what else is told, and the host's side of the line. */
function bench(options: ConstructorParameters<typeof EmulatedBoard>[0] = {}) {
  const board = new EmulatedBoard(options);
  const cabinet = board.addSensor([0x18, 4, 2, 0, 0, 1], 5.0625);
  const lines = new BoardLines();
  const listen = (seconds: number) => lines.push(board.run(seconds)).map(good);
  const ask = (command: BoardCommand, seconds = 0.3) => {
    board.send(commandText(command));
    return listen(seconds);
  };
  return { board, cabinet, lines, listen, ask };
}

/** No part's data sheet was broken. */
function expectNoViolations(board: EmulatedBoard): void {
  expect(board.spi.violations).toEqual([]);
  expect(board.memory?.violations ?? []).toEqual([]);
  expect(board.wire.violations).toEqual([]);
}

/** What the front end's chip says of a couple: it takes 41.276 µV for each kelvin between the ends (data sheet of the 31855 type). */
const asTheChipSays = (celsius: number, cold: number) =>
  cold + (typeKMillivolts(celsius) - typeKMillivolts(cold)) / 0.041276;

test("a thermocouple is found at the boiler, and its millivolts mean the temperature by the curve, cold ends allowed for", () => {
  for (const [celsius, cold] of [
    [20, 20],
    [96, 31.5],
    [210, -8.25],
    [415, 48],
  ]) {
    const couple = new CoupleFrontEnd(asTheChipSays(celsius, cold), cold);
    const { board, listen } = bench({ couple });
    const heard = listen(1.2);
    const [{ probes, boardId }] = ofType(heard, "hello");
    const probeId = `${boardId}-k0`;
    expect(probes).toContainEqual({ probeId, role: "boiler", unit: "mV", resolution: 0.0103 });
    const [reading] = ofType(heard, "reading").filter((line) => line.probeId === probeId);
    // Half of the chip's step is 0.125 K, its own temperature's 0.03 K, the cold ends' square law 0.1 K.
    expect(Math.abs((typeKCelsius(reading.value, 0) ?? Number.NaN) - celsius), `${celsius} °C`).toBeLessThan(0.27);
    expectNoViolations(board);
  }
});

// Data sheet of the 31855 type, tables "Thermocouple Temperature Data Format" and "Reference Junction Temperature Data Format".
test("every temperature of the front end's data sheet is read out of its bits", () => {
  for (const { celsius, bits } of frontEndCouple) {
    const couple = new CoupleFrontEnd(celsius, 25);
    couple.selected();
    const sent = Array.from({ length: 14 }, () => {
      const bit = couple.bitOut();
      couple.bitIn();
      return bit;
    });
    expect(sent.join(""), `${celsius} °C`).toBe(bits);
    const { listen } = bench({ couple: new CoupleFrontEnd(celsius, 25) });
    const [reading] = ofType(listen(1.2), "reading").filter(({ unit }) => unit === "mV");
    // 1.000 mV of the cold ends at 25 °C by IEC 60584-1, and 41.276 µV for each kelvin from there.
    expect(reading.value, `${celsius} °C`).toBeCloseTo(1 + (celsius - 25) * 0.041276, 2);
  }
  for (const { celsius, bits } of frontEndOwn) {
    const couple = new CoupleFrontEnd(celsius + 40, celsius);
    couple.selected();
    const sent = Array.from({ length: 28 }, () => {
      const bit = couple.bitOut();
      couple.bitIn();
      return bit;
    });
    expect(sent.slice(16).join(""), `${celsius} °C`).toBe(bits);
  }
});

test("an open couple, a shorted one, a chip that is gone and a damaged answer are faults, each by its name", () => {
  const couple = new CoupleFrontEnd(150, 25);
  const { board, listen, ask } = bench({ couple });
  listen(0.3);
  ask({ ask: "interval", seconds: 1 }, 1.5);
  const faultsIn = (seconds: number) =>
    ofType(listen(seconds), "fault").flatMap(({ probeId, fault }) => (probeId.endsWith("-k0") ? [fault] : []));
  expect(faultsIn(1)).toEqual([]);
  couple.fault = 1;
  expect(faultsIn(1)).toEqual(["open"]);
  couple.fault = 2;
  expect(faultsIn(1)).toEqual(["shorted"]);
  couple.fault = 4;
  expect(faultsIn(1)).toEqual(["shorted"]);
  couple.fault = 0;
  couple.disturbedAnswers = 2;
  expect(faultsIn(1)).toEqual([]);
  couple.disturbedAnswers = 3;
  expect(faultsIn(1)).toEqual(["garbled"]);
  couple.disturbedAnswers = 0;
  board.spi.parts[0] = null;
  expect(faultsIn(1)).toEqual(["absent"]);
});

test("a board without such parts names neither and refuses their commands", () => {
  const { listen, ask } = bench();
  const heard = listen(1.2);
  expect(ofType(heard, "hello")[0].probes).toHaveLength(1);
  expect(ofType(heard, "memory")).toEqual([]);
  for (const command of [{ ask: "keep", isOn: true }, { ask: "read-out" }, { ask: "erase" }] as const) {
    expect(ofType(ask(command), "refused")).toHaveLength(1);
  }
});

test("told to, a board keeps its lines, and reads them out as they were, while it goes on measuring", () => {
  const { board, lines, listen, ask } = bench({ memory: {} });
  expect(ofType(listen(0.3), "memory")).toMatchObject([{ state: "resting", usedBytes: 0, sizeBytes: 2 ** 20 }]);
  ask({ ask: "interval", seconds: 1 }, 2);
  expect(ofType(ask({ ask: "keep", isOn: true }), "memory")).toMatchObject([{ state: "keeping" }]);
  const kept = listen(20);
  board.send(commandText({ ask: "read-out" }));
  const again = lines.push(board.run(3));
  const repeated = again.flatMap((line) => (line.outcome === "good" && line.isRepeat ? [line.line] : []));
  for (const line of kept) expect(repeated).toContainEqual(line);
  const fresh = again.flatMap((line) => (line.outcome === "good" && !line.isRepeat ? [line.line] : []));
  expect(ofType(fresh, "reading").length).toBeGreaterThanOrEqual(2);
  const [sent] = ofType(fresh, "memory");
  expect(sent).toMatchObject({ state: "sent" });
  expect(lines.counts).toMatchObject({ damaged: 0, missed: 0 });
  // Lines sent again are not kept again.
  ask({ ask: "resend", fromSequence: 1 }, 1);
  const text = Buffer.from(board.memory?.bytes ?? []).toString("latin1");
  const keptLines = text.split("\n").filter((line) => line.startsWith("reading"));
  expect(keptLines.length).toBeGreaterThanOrEqual(20);
  expect(new Set(keptLines).size).toBe(keptLines.length);
  // What is kept no more is not kept.
  ask({ ask: "keep", isOn: false });
  const [before] = ofType(ask({ ask: "identify" }), "memory");
  listen(3);
  expect(ofType(ask({ ask: "identify" }), "memory")[0].usedBytes).toBe(before.usedBytes);
  expectNoViolations(board);
});

test("kept over restarts: what was cut off costs its own line, and an emptied memory begins anew", () => {
  const first = bench({ memory: {} });
  first.listen(0.3);
  first.ask({ ask: "interval", seconds: 1 });
  first.ask({ ask: "keep", isOn: true });
  first.listen(6);
  // The power fails at a random moment, and again: nothing said "stop".
  const second = bench({ memory: { bytes: first.board.memory?.bytes }, eeprom: first.board.eeprom });
  expect(ofType(second.listen(0.3), "memory")).toMatchObject([{ state: "keeping" }]);
  second.listen(5.013);
  const memory = second.board.memory as NonNullable<typeof second.board.memory>;
  // A line whose end was not written, as a power failure in the middle of a page leaves it.
  const end = memory.bytes.indexOf(0xff, memory.bytes.findLastIndex((byte) => byte !== 0xff) - 1);
  memory.bytes.fill(0xff, end - 20);
  // And a page of which only the middle was written.
  memory.bytes[((end - 20) | 255) + 8] = 0x41;
  const third = bench({
    memory: { bytes: memory.bytes },
    eeprom: second.board.eeprom,
    resetFlags: startedBy.brownOut,
  });
  third.listen(3);
  third.board.send(commandText({ ask: "read-out" }));
  const heard = new BoardLines().push(third.board.run(4));
  const damaged = heard.filter((line) => line.outcome === "damaged");
  expect(damaged).toHaveLength(1);
  const boots = new Set(heard.flatMap((line) => (line.outcome === "good" ? [line.line.boot] : [])));
  expect([...boots].sort()).toEqual([1, 2, 3]);
  expect(third.board.memory?.violations).toEqual([]);
  third.listen(0.1);
  third.ask({ ask: "keep", isOn: false });
  third.board.send(commandText({ ask: "erase" }));
  const erased = third.listen(3);
  expect(ofType(erased, "memory")).toMatchObject([{ state: "erased", usedBytes: 0 }]);
  expect(third.board.memory?.bytes.every((byte) => byte === 0xff)).toBe(true);
  expectNoViolations(third.board);
});

test("a restart in the middle of erasing leaves the rest to be found, and to be erased", () => {
  const bytes = new Uint8Array(2 ** 18).fill(0xff);
  // Forty kilobytes of lines: ten sectors, four seconds to erase.
  bytes.fill(0x41, 0, 40_960);
  for (let i = 80; i < 40_960; i += 80) bytes[i] = 0x0a;
  const first = bench({ memory: { capacity: 18, bytes } });
  expect(ofType(first.listen(0.3), "memory")).toMatchObject([{ usedBytes: 40_960 }]);
  first.ask({ ask: "erase" }, 1.5);
  const second = bench({ memory: { capacity: 18, bytes, busyMs: 300 }, eeprom: first.board.eeprom });
  const [rest] = ofType(second.listen(0.8), "memory");
  expect(rest.usedBytes).toBeGreaterThan(0);
  expect(rest.usedBytes).toBeLessThan(40_960);
  second.board.send(commandText({ ask: "read-out" }));
  const out = Buffer.from(second.board.run(9)).toString("latin1");
  expect(out).not.toContain("\xff");
  expect(ofType(second.ask({ ask: "erase" }, 5), "memory")).toMatchObject([{ state: "erased", usedBytes: 0 }]);
  expect(bytes.every((byte) => byte === 0xff)).toBe(true);
  expectNoViolations(second.board);
});

test("a full memory says so, keeps what it has, and goes on sending", () => {
  const bytes = new Uint8Array(2 ** 16).fill(0xff);
  bytes.fill(0x0a, 0, 65_536 - 1024);
  const { board, listen, ask } = bench({ memory: { capacity: 16, bytes } });
  listen(0.3);
  ask({ ask: "keep", isOn: true });
  ask({ ask: "interval", seconds: 1 });
  const heard = listen(20);
  expect(ofType(heard, "reading").length).toBeGreaterThanOrEqual(19);
  const [full] = ofType(ask({ ask: "identify" }), "memory");
  expect(full.state).toBe("full");
  expect(full.usedBytes).toBeLessThanOrEqual(65_536);
  expectNoViolations(board);
});

test("days alone, read out and imported: every round at its instant, the boiler's millivolts as °C", async () => {
  const folder = mkdtempSync(path.join(tmpdir(), "coldfall-alone-"));
  try {
    const store = path.join(folder, "workshop.coldfall");
    const couple = new CoupleFrontEnd(asTheChipSays(180, 30), 30);
    const first = bench({ couple, memory: {} });
    first.listen(0.3);
    first.ask({ ask: "interval", seconds: 60 });
    first.ask({ ask: "keep", isOn: true });
    first.listen(600);
    const second = bench({ couple, memory: { bytes: first.board.memory?.bytes }, eeprom: first.board.eeprom });
    second.listen(900.5);
    second.board.send(commandText({ ask: "read-out" }));
    const file = path.join(folder, "alone.txt");
    writeFileSync(file, second.board.run(5));
    const run = (...args: readonly string[]) => coldfall([...args, "--store", store]);
    const boardId = "b00020418";
    await run("fridges", "add", "Larch");
    await run("probes", "put", second.cabinet.id);
    await run("probes", "place", second.cabinet.id, "--fridge", "Larch", "--position", "cabinet");
    await run("probes", "curve", `${boardId}-k0`, "--type-k", "1");
    const readOut = "2026-06-07T18:00:00Z";
    const imported = await run("import", file, "--fridge", "Larch", "--read-out", readOut);
    expect(imported).toMatchObject({ exitCode: 0 });
    await using opened = await openStore(store);
    const [{ id }] = (await opened.runs.list()).runs;
    const cabinet = await opened.readings.series(id, "cabinet");
    const boiler = await opened.readings.series(id, "boiler");
    // Ten rounds of the first start and fifteen of the second, and the one at each start.
    expect(cabinet.unixMs.length).toBeGreaterThanOrEqual(25);
    expect(boiler.unixMs).toEqual(cabinet.unixMs);
    expect(new Set(cabinet.values)).toEqual(new Set([5.0625]));
    for (const celsius of boiler.values) expect(Math.abs(celsius - 180)).toBeLessThan(0.3);
    const steps = Array.from(cabinet.unixMs.slice(1), (at, i) => at - cabinet.unixMs[i]).slice(-12);
    for (const step of steps) expect(Math.abs(step - 60_000)).toBeLessThan(50);
    expect((await opened.events.list(id)).map(({ kind }) => kind)).toContain("board-restarted");
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}, 60_000);
