// The contract of the line format: the reference firmware, compiled and emulated, with simulated sensors at its pins,
// against the program's own reader. Nothing in between is a stand-in.

import { readFileSync } from "node:fs";
import path from "node:path";
import { expect, test } from "vitest";
import { BoardClock } from "../../src/ingest/board-clock.ts";
import { type BoardCommand, commandText, commandWords } from "../../src/ingest/board-command.ts";
import { BoardLines, type HeardLine } from "../../src/ingest/board-lines.ts";
import type { ProbeLine } from "../../src/ingest/probe-line.ts";
import { thermistorByB } from "../../src/science/sensors/thermistor.ts";
import { lineFormatVersion } from "../ingest/probe-line-text.ts";
import { EmulatedBoard, startedBy } from "./emulated-board.ts";

const serials = {
  evaporator: [0x17, 4, 2, 0, 0, 1],
  cabinet: [0x18, 4, 2, 0, 0, 1],
  ambient: [0x99, 0xff, 2, 7, 0, 1],
};

/** A board with three sensors, and the host's side of the line. */
function bench(options: ConstructorParameters<typeof EmulatedBoard>[0] = {}) {
  const board = new EmulatedBoard(options);
  const lines = new BoardLines();
  const listen = (seconds: number) => lines.push(board.run(seconds)).map(good);
  const ask = (command: BoardCommand) => board.send(commandText(command));
  return {
    board,
    lines,
    listen,
    ask,
    evaporator: board.addSensor(serials.evaporator, -8.25),
    cabinet: board.addSensor(serials.cabinet, 5.0625),
    ambient: board.addSensor(serials.ambient, 25.5),
  };
}

/** The same, up and reading every second. */
function benchEverySecond(options: ConstructorParameters<typeof EmulatedBoard>[0] = {}) {
  const started = bench(options);
  // A command that comes before the port is up is lost, as on a real board.
  const [hello] = ofType(started.listen(0.3), "hello");
  started.ask({ ask: "interval", seconds: 1 });
  started.listen(1.2);
  return { ...started, hello };
}

function good(heard: HeardLine): ProbeLine {
  if (heard.outcome !== "good") throw new Error(`not a good line: ${JSON.stringify(heard)}`);
  return heard.line;
}

const ofType = <T extends ProbeLine["type"]>(lines: readonly ProbeLine[], type: T) =>
  lines.filter((line): line is Extract<ProbeLine, { type: T }> => line.type === type);

test("a started board says hello with its probes, then sends each probe's reading, numbered without a gap", () => {
  const { board, lines, listen, evaporator, cabinet, ambient } = bench();
  const heard = listen(11.5);
  expect(heard[0]).toMatchObject({
    type: "hello",
    formatVersion: lineFormatVersion,
    reason: "power-on",
    intervalSeconds: 10,
    boot: 1,
    sequence: 1,
  });
  const [hello] = ofType(heard, "hello");
  expect(hello.probes.map(({ probeId }) => probeId).sort()).toEqual([evaporator.id, cabinet.id, ambient.id].sort());
  expect(hello.probes[0]).toMatchObject({ role: null, unit: "Cel", resolution: 0.0625 });
  const readings = ofType(heard, "reading");
  expect(readings).toHaveLength(6);
  for (const sensor of [evaporator, cabinet, ambient]) {
    const own = readings.filter(({ probeId }) => probeId === sensor.id);
    expect(own.map(({ value, unit }) => [value, unit])).toEqual([
      [sensor.celsius, "Cel"],
      [sensor.celsius, "Cel"],
    ]);
    expect(own[1].uptimeMs - own[0].uptimeMs).toBeGreaterThan(9_800);
  }
  // One round, one instant.
  expect(new Set(readings.map(({ uptimeMs }) => uptimeMs)).size).toBe(2);
  expect(heard.map(({ sequence }) => sequence)).toEqual([1, 2, 3, 4, 5, 6, 7]);
  expect(lines.counts).toMatchObject({ good: 7, damaged: 0, missed: 0, repeated: 0 });
  expect(board.wire.violations).toEqual([]);
});

// Data sheet of the 18B20 type, table "Temperature/Data Relationship"; the copy names how it was obtained.
const codes: { celsius: number; hex: string }[] = JSON.parse(
  readFileSync(path.join(import.meta.dirname, "../reference/sensors.json"), "utf8"),
).oneWire.temperatureCodes.rows;

test("every temperature of the data sheet's table comes through, but for the 85 °C of a sensor that has not measured", () => {
  // A board takes eight sensors: the table in two halves.
  for (const half of [codes.slice(0, 5), codes.slice(5)]) {
    const board = new EmulatedBoard();
    const sensors = half.map(({ celsius }, i) => board.addSensor([i, 1, 2, 3, 4, 5], celsius));
    const heard = new BoardLines().push(board.run(1.2)).map(good);
    for (const sensor of sensors) {
      const own = heard.filter((line) => "probeId" in line && line.probeId === sensor.id);
      if (sensor.celsius === 85) expect(own).toMatchObject([{ type: "fault", fault: "not-measured" }]);
      else expect(own).toMatchObject([{ type: "reading", value: sensor.celsius }]);
    }
    expect(board.wire.violations).toEqual([]);
  }
});

test("a new interval is heard, kept to the millisecond on average, and outlives a restart", () => {
  const { board, listen, ask } = bench();
  listen(1);
  ask({ ask: "interval", seconds: 2 });
  const heard = listen(9);
  expect(ofType(heard, "heard")[0].command).toBe(commandWords({ ask: "interval", seconds: 2 }));
  const rounds = [...new Set(ofType(heard, "reading").map(({ uptimeMs }) => uptimeMs))].slice(1);
  expect(rounds.length).toBeGreaterThanOrEqual(4);
  expect((rounds[rounds.length - 1] - rounds[0]) / (rounds.length - 1)).toBeCloseTo(2000, -1);
  const again = bench({ eeprom: board.eeprom });
  expect(again.listen(0.5)[0]).toMatchObject({ type: "hello", intervalSeconds: 2 });
});

test("each start has the next number and says what started it; the board keeps its name", () => {
  const { board, listen } = bench();
  const [first] = listen(0.3);
  let { eeprom } = board;
  for (const [i, [flags, reason]] of (
    [
      [startedBy.brownOut, "brown-out"],
      [startedBy.watchdog, "watchdog"],
      [startedBy.resetPin, "reset-pin"],
      [0, "other"],
    ] as const
  ).entries()) {
    const next = bench({ eeprom, resetFlags: flags });
    expect(next.listen(0.3)[0]).toMatchObject({
      type: "hello",
      boot: i + 2,
      reason,
      sequence: 1,
      boardId: first.boardId,
    });
    eeprom = next.board.eeprom;
  }
});

test("a power failure while the count of starts is written does not bring a number back", () => {
  const { board, listen } = bench();
  listen(0.3);
  const second = bench({ eeprom: board.eeprom });
  expect(second.listen(0.3)[0].boot).toBe(2);
  // The two records of the count stand at 8 and 16 (kept.c); number 2 is in the even one.
  second.board.eeprom.memory[8] ^= 0xff;
  const third = bench({ eeprom: second.board.eeprom });
  expect(third.listen(0.3)[0].boot).toBe(2);
  expect(bench({ eeprom: third.board.eeprom }).listen(0.3)[0].boot).toBe(3);
});

test("a restart is seen on the time axis, and the readings after it lie behind those before", () => {
  const { board, listen } = bench();
  const clock = new BoardClock();
  const host = Date.parse("2026-06-04T20:00:00Z");
  const before = listen(2).map((line) => clock.place(line, host + line.uptimeMs).unixMs);
  const after = bench({ eeprom: board.eeprom, resetFlags: startedBy.brownOut })
    .listen(2)
    .map((line) => clock.place(line, host + 7_000 + line.uptimeMs));
  expect(after[0].events).toMatchObject([{ kind: "restarted", fromBoot: 1, toBoot: 2 }]);
  expect(after.slice(1).flatMap(({ events }) => events)).toEqual([]);
  expect(after[0].unixMs).toBeGreaterThan(Math.max(...before));
});

test("a sensor that is cut off is told as absent, and one put in its place is found", () => {
  const { board, listen, cabinet } = benchEverySecond();
  listen(2);
  cabinet.isConnected = false;
  const heard = listen(2);
  expect(ofType(heard, "fault")[0]).toMatchObject({ probeId: cabinet.id, fault: "absent" });
  expect(ofType(heard, "reading").length).toBeGreaterThanOrEqual(2);
  const spare = board.addSensor([0x77, 1, 2, 3, 0, 1], 6.5);
  const later = listen(3);
  const [hello] = ofType(later, "hello");
  expect(hello.reason).toBe("probes-changed");
  expect(hello.probes.map(({ probeId }) => probeId)).toEqual(expect.arrayContaining([spare.id, cabinet.id]));
  expect(
    ofType(later, "reading")
      .filter(({ probeId }) => probeId === spare.id)
      .at(-1)?.value,
  ).toBe(6.5);
});

test("a damaged answer, a power failure while measuring, a shorted wire: each is told as such, never as a temperature", () => {
  const { board, listen, evaporator, cabinet } = benchEverySecond();
  listen(2);
  evaporator.disturbedAnswers = 50;
  // A round lasts from about 0.0 to 0.8 of a second.
  const rounds = listen(1.5);
  expect(ofType(rounds, "fault")).toContainEqual(expect.objectContaining({ probeId: evaporator.id, fault: "garbled" }));
  evaporator.disturbedAnswers = 0;
  for (let i = 0; i < 20; i++) {
    cabinet.losePower();
    listen(0.1);
  }
  cabinet.losePower();
  const failures = listen(1.2).concat(listen(1));
  expect(ofType(failures, "reading").filter(({ value }) => value === 85)).toEqual([]);
  board.wire.isShorted = true;
  const shorted = listen(2.5);
  expect(ofType(shorted, "fault").filter(({ fault }) => fault === "shorted").length).toBeGreaterThanOrEqual(3);
  expect(ofType(shorted, "reading").length).toBeLessThanOrEqual(3);
});

test("an answer that is damaged once is asked for again, and the reading comes through", () => {
  const { listen, evaporator } = benchEverySecond();
  const ofEvaporator = (lines: readonly ProbeLine[]) =>
    lines.flatMap((line) => ("probeId" in line && line.probeId === evaporator.id ? [line.type] : []));
  evaporator.disturbedAnswers = 2;
  expect(ofEvaporator(listen(1.5))).not.toContain("fault");
  expect(evaporator.disturbedAnswers).toBeLessThan(0);
  evaporator.disturbedAnswers = 3;
  expect(ofEvaporator(listen(1.5))).toContain("fault");
});

test("a sensor set to coarse steps is set to 12 bits before it measures", () => {
  const { board, listen } = bench();
  const coarse = board.addSensor([0x55, 1, 2, 3, 0, 1], 4.0625, { configuration: 0x1f });
  const own = ofType(listen(1.5), "reading").filter(({ probeId }) => probeId === coarse.id);
  expect(own.map(({ value }) => value)).toEqual([4.0625]);
});

test("the board answers identify with a hello, flashes its light when asked, and refuses what it does not know", () => {
  const { board, listen, ask } = bench();
  listen(0.5);
  expect(board.lightFlashes).toBe(0);
  ask({ ask: "identify" });
  const answers = listen(0.5);
  expect(ofType(answers, "heard")[0].command).toBe("identify");
  expect(ofType(answers, "hello")[0].reason).toBe("asked");
  ask({ ask: "light", seconds: 2 });
  listen(3);
  expect(board.lightFlashes).toBeGreaterThanOrEqual(7);
  expect(board.lightFlashes).toBeLessThanOrEqual(9);
  for (const text of [
    "interval 0",
    "interval 3601",
    "interval 1O",
    "dance",
    "light",
    "intervals 5",
    "resend 4294967296",
  ]) {
    board.send(`${text}\n`);
    expect(ofType(listen(0.3), "refused")[0]?.command).toBe(text);
  }
});

test("lines lost on the way come again on request under their own numbers, and what was not lost is known as repeated", () => {
  const { board, lines, listen, ask } = benchEverySecond();
  listen(2);
  const lost = new BoardLines().push(board.run(2)).length;
  expect(lost).toBeGreaterThanOrEqual(3);
  listen(1);
  expect(lines.counts.missed).toBe(lost);
  ask({ ask: "resend", fromSequence: 1 });
  const again = lines.push(board.run(0.5));
  expect(lines.counts).toMatchObject({ missed: 0, damaged: 0 });
  expect(again.filter((line) => line.outcome === "good" && line.isRepeat).length).toBeGreaterThanOrEqual(6);
});

test("a thermistor is found, measured in ohms, and told as open or shorted", () => {
  // 10 kΩ at 25 °C with B = 3950 K has 33,620.6 Ω at 0 °C; with 10 kΩ above it 5 V divide to 3.8538 V.
  const { board, listen, hello } = benchEverySecond({ thermistorVolts: (5 * 33_620.6) / 43_620.6 });
  const heard = listen(1.5);
  const [listed] = hello.probes.filter(({ unit }) => unit === "Ohm");
  expect(listed.probeId).toBe(`${hello.boardId}-a0`);
  const [reading] = ofType(heard, "reading").filter(({ unit }) => unit === "Ohm");
  // The converter's step of 1/1024 is 0.55 % of the resistance here, or 0.11 K.
  expect(thermistorByB(reading.value, { ohmsAt25: 10_000, b: 3950 })).toBeCloseTo(0, 0);
  expect(Math.abs(reading.value / 33_620.6 - 1)).toBeLessThan(0.006);
  board.thermistorVolts = 5;
  listen(1);
  expect(ofType(listen(1.2), "fault")[0]).toMatchObject({ probeId: listed.probeId, fault: "open" });
  board.thermistorVolts = 0;
  listen(1);
  expect(ofType(listen(1.2), "fault")[0]).toMatchObject({ probeId: listed.probeId, fault: "shorted" });
});

test("a board without any probe says so, and is named when its first probe comes", () => {
  const board = new EmulatedBoard();
  const lines = new BoardLines();
  const [hello] = lines.push(board.run(0.3)).map(good);
  expect(hello).toMatchObject({ type: "hello", boardId: "unnamed", probes: [] });
  const sensor = board.addSensor(serials.cabinet, 5);
  board.send(commandText({ ask: "identify" }));
  const [named] = ofType(lines.push(board.run(0.3)).map(good), "hello");
  expect(named.boardId).toBe("b00020418");
  expect(named.probes.map(({ probeId }) => probeId)).toEqual([sensor.id]);
});
