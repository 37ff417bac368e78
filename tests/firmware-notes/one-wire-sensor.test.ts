// The simulated sensor itself: without it a firmware that breaks the bus's times would pass the contract test.

import { readFileSync } from "node:fs";
import path from "node:path";
import { expect, test } from "vitest";
import { OneWireBus, OneWireSensor, wireCrc } from "./one-wire-sensor.ts";

/** A bus whose time is a number, and a master that pulls for so long and lets go for so long. */
function benchOfOne() {
  let now = 1;
  let level = true;
  const due: { at: number; then: () => void }[] = [];
  const clock = {
    nowMicros: () => now,
    after: (micros: number, then: () => void) => void due.push({ at: now + micros, then }),
  };
  const wait = (micros: number) => {
    const end = now + micros;
    for (;;) {
      due.sort((a, b) => a.at - b.at);
      if (due.length === 0 || due[0].at > end) break;
      now = due[0].at;
      due.shift()?.then();
    }
    now = end;
  };
  const bus = new OneWireBus(clock, (isHigh) => {
    level = isHigh;
  });
  const sensor = new OneWireSensor(clock, [1, 2, 3, 4, 5, 6], 10.125);
  bus.sensors.push(sensor);
  const slot = (low: number, high: number) => {
    bus.masterPulls();
    wait(low);
    bus.masterLetsGo();
    wait(high);
  };
  const isLow = () => !level;
  return { bus, sensor, wait, slot, isLow };
}

test("a sensor answers a reset of 480 µs with a presence pulse, and one of 400 µs not at all", () => {
  const right = benchOfOne();
  right.slot(480, 70);
  expect(right.isLow()).toBe(true);
  right.wait(410);
  expect(right.isLow()).toBe(false);
  expect(right.bus.violations).toEqual([]);
  const short = benchOfOne();
  short.slot(400, 70);
  expect(short.isLow()).toBe(false);
  expect(short.bus.violations[0]).toMatch(/neither a 0 nor a 1 nor a reset: 400/);
});

for (const [low, high, why] of [
  [30, 40, /neither a 0 nor a 1/],
  [6, 20, /slot too short/],
  [70, 0.2, /recovery/],
] as const) {
  test(`a slot of ${low} µs low and ${high} µs high is noted as outside the data sheet`, () => {
    const { bus, slot } = benchOfOne();
    slot(low, high);
    slot(6, 64);
    expect(bus.violations.join()).toMatch(why);
  });
}

// Application Note 27 of the one-wire bus, and the catalogue's check value; the copies say how they were obtained.
const { crc8 } = JSON.parse(readFileSync(path.join(import.meta.dirname, "../reference/sensors.json"), "utf8")).oneWire;

test("the sensor's CRC-8 is that of the one-wire application note", () => {
  const bytes = (hex: string) => hex.split(" ").map((byte) => Number.parseInt(byte, 16));
  expect(wireCrc([...Buffer.from("123456789")])).toBe(Number.parseInt(crc8.check123456789, 16));
  expect(wireCrc(bytes(crc8.rom.bytesInOrderSent))).toBe(Number.parseInt(crc8.rom.crc, 16));
  expect(wireCrc(bytes(crc8.scratchpad.bytesInOrderSent))).toBe(Number.parseInt(crc8.scratchpad.crc, 16));
});
