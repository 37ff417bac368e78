import { fc, test } from "@fast-check/vitest";
import { expect } from "vitest";
import { BoardClock, type ClockEvent } from "../../src/ingest/board-clock.ts";

const evening = Date.parse("2026-06-04T20:00:00Z");
const second = 1000;
const minute = 60 * second;
const hour = 60 * minute;

/** Places a line every `step`, the host's clock told by `host`. */
function record(
  clock: BoardClock,
  options: { boot?: number; from?: number; to: number; step?: number; host: (uptimeMs: number) => number },
) {
  const { boot = 1, from = 0, to, step = 10 * second, host } = options;
  const unixMs: number[] = [];
  const events: ClockEvent[] = [];
  for (let uptimeMs = from; uptimeMs <= to; uptimeMs += step) {
    const placed = clock.place({ boot, uptimeMs }, host(uptimeMs));
    unixMs.push(placed.unixMs);
    events.push(...placed.events);
  }
  return { unixMs, events };
}

const farthestFromEven = (unixMs: readonly number[], step = 10 * second) =>
  Math.max(...unixMs.map((at, i) => Math.abs(at - unixMs[0] - i * step)));

test("with a host that is right, the axis is the board's uptime to the millisecond", () => {
  const { unixMs, events } = record(new BoardClock(), {
    to: 12 * hour,
    host: (uptimeMs) => evening + uptimeMs + (uptimeMs % 70),
  });
  expect(farthestFromEven(unixMs)).toBe(0);
  expect(events).toEqual([]);
});

for (const [what, jump] of [
  ["forward by an hour", hour],
  ["back by an hour", -hour],
  ["forward by seven years", 7 * 365.25 * 24 * hour],
  ["back by twenty seconds", -20 * second],
] as const) {
  test(`a host's clock set ${what} does not bend the axis, and is told once`, () => {
    const { unixMs, events } = record(new BoardClock(), {
      to: 6 * hour,
      host: (uptimeMs) => evening + uptimeMs + (uptimeMs > 2 * hour ? jump : 0),
    });
    expect(farthestFromEven(unixMs)).toBe(0);
    expect(events).toEqual([{ kind: "host-clock-moved", unixMs: evening + 2 * hour + 10 * second, byMs: jump }]);
  });
}

test("a restart after the host's clock was set stays on the axis", () => {
  const clock = new BoardClock();
  const host = (atMs: number) => evening + atMs + (atMs > hour ? 5 * hour : 0);
  record(clock, { to: 2 * hour, host });
  const after = record(clock, { boot: 2, to: hour, host: (uptimeMs) => host(2 * hour + 30 * second + uptimeMs) });
  expect(after.unixMs[0]).toBe(evening + 2 * hour + 30 * second);
  expect(after.events).toEqual([{ kind: "restarted", unixMs: after.unixMs[0], fromBoot: 1, toBoot: 2 }]);
});

test("a laptop that sleeps for an hour with the board on hands its lines over late, and they keep their place", () => {
  const wake = 3 * hour;
  const { unixMs, events } = record(new BoardClock(), {
    to: 6 * hour,
    host: (uptimeMs) => evening + (uptimeMs > 2 * hour && uptimeMs < wake ? wake : uptimeMs),
  });
  expect(farthestFromEven(unixMs)).toBe(0);
  expect(events).toEqual([]);
});

test("a laptop that sleeps and loses the lines leaves a gap as long as the sleep", () => {
  const clock = new BoardClock();
  record(clock, { to: 2 * hour, host: (uptimeMs) => evening + uptimeMs });
  const { unixMs, events } = record(clock, { from: 7 * hour, to: 8 * hour, host: (uptimeMs) => evening + uptimeMs });
  expect(unixMs[0]).toBe(evening + 7 * hour);
  expect(events).toEqual([]);
});

for (const drift of [0.005, -0.005, 0.00005]) {
  test(`a board's clock that runs wrong by ${drift * 100} % is followed smoothly: no reading is more than 4 s off after a night`, () => {
    const { unixMs, events } = record(new BoardClock(), {
      to: 12 * hour,
      host: (uptimeMs) => evening + uptimeMs * (1 + drift),
    });
    const off = unixMs.map((at, i) => Math.abs(at - evening - i * 10 * second * (1 + drift)));
    expect(Math.max(...off)).toBeLessThan(4 * second);
    expect(events).toEqual([]);
    const steps = unixMs.slice(1).map((at, i) => at - unixMs[i]);
    expect(Math.max(...steps.map((step) => Math.abs(step / (10 * second) - 1)))).toBeLessThan(0.0061);
  });
}

test("readings of one round get the same instant, and so do lines that are sent again", () => {
  const clock = new BoardClock();
  const { unixMs } = record(clock, { to: hour, host: (uptimeMs) => evening + uptimeMs * 1.004 });
  expect(clock.place({ boot: 1, uptimeMs: hour }, evening + 3 * hour).unixMs).toBe(unixMs[360]);
  expect(clock.place({ boot: 1, uptimeMs: 300 * 10 * second }, evening + 3 * hour).unixMs).toBe(unixMs[300]);
  record(clock, { boot: 2, to: minute, host: (uptimeMs) => evening + 2 * hour + uptimeMs });
  // Of an earlier start only its last offset is kept.
  expect(clock.place({ boot: 1, uptimeMs: hour }, evening + 3 * hour).unixMs).toBe(unixMs[360]);
});

test("a recording that goes on after a kill keeps the axis, whatever the host's clock says by then", () => {
  const clock = new BoardClock({ boot: 1, uptimeMs: hour, unixMs: evening + hour, hostUnixMs: evening + hour });
  const { unixMs } = record(clock, {
    from: hour + minute,
    to: 2 * hour,
    host: (uptimeMs) => evening + uptimeMs - 24 * hour,
  });
  expect(unixMs[0]).toBe(evening + hour + minute);
});

test("a recording that goes on knows how far the host's clock was off, for the board's next start", () => {
  const clock = new BoardClock({ boot: 1, uptimeMs: hour, unixMs: evening + hour, hostUnixMs: evening + 6 * hour });
  expect(clock.place({ boot: 2, uptimeMs: 100 }, evening + 6 * hour + minute).unixMs).toBe(evening + hour + minute);
});

test("four lines that are late alike are no clock that was set", () => {
  const { unixMs, events } = record(new BoardClock(), {
    to: 6 * hour,
    step: minute,
    host: (uptimeMs) =>
      evening + uptimeMs + (uptimeMs > 3 * hour && uptimeMs <= 3 * hour + 4 * minute ? 30 * second : 0),
  });
  expect(farthestFromEven(unixMs, minute)).toBe(0);
  expect(events).toEqual([]);
});

test("after a restart with a host's clock that stands before the last reading, time still goes forward and the gap is said to be unknown", () => {
  const clock = new BoardClock();
  record(clock, { to: hour, host: (uptimeMs) => evening + uptimeMs });
  const { unixMs, events } = record(clock, { boot: 2, to: hour, host: (uptimeMs) => evening - 24 * hour + uptimeMs });
  expect(unixMs[0]).toBe(evening + hour + 1);
  expect(events.map(({ kind }) => kind)).toEqual(["restarted", "unknown-gap"]);
  expect(farthestFromEven(unixMs)).toBe(0);
});

test.prop([
  fc.array(fc.tuple(fc.integer({ min: 1, max: 100_000 }), fc.integer({ min: -1e12, max: 1e12 })), { minLength: 2 }),
])("whatever the host's clock does, a later uptime gets a later instant, within 0.6 % of the time between", (steps) => {
  const clock = new BoardClock();
  let uptimeMs = 0;
  let last = clock.place({ boot: 1, uptimeMs }, evening).unixMs;
  for (const [elapsed, hostOff] of steps) {
    uptimeMs += elapsed;
    const { unixMs } = clock.place({ boot: 1, uptimeMs }, evening + uptimeMs + hostOff);
    expect(unixMs).toBeGreaterThan(last);
    expect(Math.abs(unixMs - last - elapsed)).toBeLessThanOrEqual(0.006 * elapsed + 0.5);
    last = unixMs;
  }
});
