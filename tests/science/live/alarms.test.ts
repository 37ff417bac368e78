import { fc, test as propTest } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { energySources, msPerMinute, positions } from "../../../src/schema/index.ts";
import {
  type Alarm,
  type AlarmInput,
  type AlarmLimits,
  type AlarmState,
  noAlarms,
  usualAlarmLimits,
  watch,
} from "../../../src/science/live/index.ts";

const start = Date.parse("2026-06-04T20:00:00Z");
const at = (minutes: number) => start + minutes * msPerMinute;

/** Watches one input after the other; what was raised and cleared, with the minute. */
function watched(inputs: readonly AlarmInput[], limits: Partial<AlarmLimits> = {}, from: AlarmState = noAlarms) {
  const raised: (Alarm & { minute: number })[] = [];
  const cleared: (Alarm & { minute: number })[] = [];
  let state = from;
  for (const input of inputs) {
    const step = watch(state, input, { ...usualAlarmLimits, ...limits });
    state = step.state;
    const minute = (input.unixMs - start) / msPerMinute;
    raised.push(...step.raised.map((alarm) => ({ ...alarm, minute })));
    cleared.push(...step.cleared.map((alarm) => ({ ...alarm, minute })));
  }
  return { state, raised, cleared };
}

const on = (source: "gas" | "mains" | "off", minute = 0): AlarmInput => ({
  kind: "source",
  unixMs: at(minute),
  source,
});
const cabinet = (minute: number, value: number): AlarmInput => ({
  kind: "reading",
  unixMs: at(minute),
  position: "cabinet",
  value,
  board: "b1",
});
const tick = (minute: number): AlarmInput => ({ kind: "tick", unixMs: at(minute) });
const stopped = (minute: number, sinceMinute: number | null): AlarmInput => ({
  kind: "cooling",
  unixMs: at(minute),
  stoppedSinceMs: sinceMinute === null ? null : at(sinceMinute),
  doubt: null,
});
const minutes = (from: number, to: number, step = 1) =>
  Array.from({ length: Math.floor((to - from) / step) + 1 }, (_, i) => from + i * step);
const names = (alarms: readonly { kind: string; minute: number }[]) =>
  alarms.map(({ kind, minute }) => `${kind} ${minute}`);

describe("cooling that stopped", () => {
  test("on gas says not to relight, not to switch, and that this is no gas alarm, in the same object", () => {
    const { raised } = watched([on("gas"), stopped(60, 30)]);
    expect(raised).toMatchObject([
      {
        kind: "cooling-stopped",
        reason: { code: "cooling-stopped", source: "gas", sinceMs: at(30) },
        cautions: ["stopped-on-gas", "gas"],
      },
    ]);
  });

  test("on a source that nobody told carries the caution of gas, too", () => {
    expect(watched([stopped(60, 30)]).raised[0].cautions).toContain("stopped-on-gas");
  });

  test("on electricity warns of a fridge that lights gas by itself", () => {
    const { raised } = watched([on("mains"), stopped(60, 30)]);
    expect(raised[0].cautions).toEqual(["night", "mains"]);
  });

  test("is over when cooling is back or the fridge is switched off", () => {
    expect(names(watched([on("gas"), stopped(60, 30), stopped(70, null)]).cleared)).toEqual(["cooling-stopped 70"]);
    expect(names(watched([on("gas"), stopped(60, 30), on("off", 65)]).cleared)).toEqual(["cooling-stopped 65"]);
  });
});

test("cooling that stopped though the heat goes on is told with what heat without cold does to the unit", () => {
  const { raised } = watched([on("gas"), { ...stopped(60, 30), doubt: "heat-goes-on" } as AlarmInput]);
  expect(raised[0].reason).toMatchObject({ doubt: "heat-goes-on" });
  expect(raised[0].cautions).toEqual(["no-cold", "stopped-on-gas", "gas"]);
});

describe("a cabinet too warm", () => {
  const cold = minutes(0, 10).map((minute) => cabinet(minute, 5));

  test("is no alarm before it has been cold", () => {
    expect(watched([on("mains"), ...minutes(0, 300).map((minute) => cabinet(minute, 20))]).raised).toEqual([]);
  });

  test("is one once it stays above its limit for longer than the stated time", () => {
    const { raised } = watched([on("mains"), ...cold, ...minutes(11, 120).map((minute) => cabinet(minute, 9))]);
    expect(names(raised)).toEqual(["cabinet-warm 71"]);
  });

  test("wavering about the limit counts on, but an hour just below the limit does not", () => {
    const wavering = minutes(11, 120).map((minute) => cabinet(minute, minute % 3 === 0 ? 8.2 : 7.9));
    expect(names(watched([on("mains"), ...cold, ...wavering]).raised)).toEqual(["cabinet-warm 72"]);
    const below = [cabinet(11, 8.2), ...minutes(12, 120).map((minute) => cabinet(minute, 7.9))];
    expect(watched([on("mains"), ...cold, ...below]).raised).toEqual([]);
  });

  test("is over only a kelvin below the limit", () => {
    const warm = minutes(11, 80).map((minute) => cabinet(minute, 9));
    const { cleared } = watched([on("mains"), ...cold, ...warm, cabinet(90, 7.5), cabinet(100, 7.1), cabinet(110, 7)]);
    expect(names(cleared)).toEqual(["cabinet-warm 110"]);
  });

  test("is no alarm while the fridge is off and warms back", () => {
    const off = [on("mains"), ...cold, on("off", 11), ...minutes(12, 200).map((minute) => cabinet(minute, 15))];
    expect(watched(off).raised).toEqual([]);
  });
});

describe("boards and probes", () => {
  test("a board that says nothing for five minutes is silent, and its probes are not lost one by one", () => {
    const { raised, cleared } = watched([cabinet(0, 5), ...minutes(1, 30).map(tick), cabinet(31, 5)]);
    expect(names(raised)).toEqual(["board-silent 5"]);
    expect(raised[0].subject).toBe("b1");
    expect(names(cleared)).toEqual(["board-silent 31"]);
  });

  test("on gas a silent board carries the caution of gas", () => {
    expect(watched([on("gas"), cabinet(0, 5), tick(6)]).raised[0].cautions).toEqual(["gas"]);
  });

  test("a probe that falls silent while its board goes on is lost", () => {
    const going = minutes(1, 30).map((minute): AlarmInput => ({ kind: "heard", unixMs: at(minute), board: "b1" }));
    expect(names(watched([cabinet(0, 5), ...going]).raised)).toEqual(["probe-lost 10"]);
  });

  test("a board no longer listened to is not silent", () => {
    expect(watched([cabinet(0, 5), { kind: "dismissed", unixMs: at(1), board: "b1" }, tick(60)]).raised).toEqual([]);
  });

  test("impossible readings for five minutes are an alarm, over after five minutes of good ones", () => {
    const bad = minutes(1, 8).map((minute) => cabinet(minute, 85));
    const { raised, cleared } = watched([cabinet(0, 5), ...bad, ...minutes(9, 20).map((minute) => cabinet(minute, 5))]);
    expect(names(raised)).toEqual(["readings-odd 6"]);
    expect(raised[0].reason).toMatchObject({ position: "cabinet", why: "power-on-value", value: 85 });
    expect(names(cleared)).toEqual(["readings-odd 14"]);
  });

  test("a single impossible reading now and then is none", () => {
    expect(watched(minutes(0, 120).map((minute) => cabinet(minute, minute % 10 === 0 ? -127 : 5))).raised).toEqual([]);
  });
});

test("a disk is low below its limit and well again only with as much more as stated", () => {
  const disk = (minute: number, freeMegabytes: number): AlarmInput => ({
    kind: "disk",
    unixMs: at(minute),
    freeMegabytes,
  });
  const { raised, cleared } = watched([disk(0, 501), disk(1, 499), disk(2, 600), disk(3, 749), disk(4, 750)]);
  expect(names(raised)).toEqual(["disk-low 1"]);
  expect(names(cleared)).toEqual(["disk-low 4"]);
});

describe("latching", () => {
  const key = { kind: "cooling-stopped", subject: "mains" } as const;
  const acknowledged = (minute: number): AlarmInput => ({
    kind: "acknowledged",
    unixMs: at(minute),
    alarm: key,
    by: "Kim",
  });

  test("an alarm stays when its cause is over, and does not speak again when it comes back, but is known to last", () => {
    const heard = (minute: number): AlarmInput => ({ kind: "heard", unixMs: at(minute), board: "b1" });
    const silentTwice = [heard(0), tick(5), heard(30), tick(34)];
    const { state, raised } = watched(silentTwice);
    expect(names(raised)).toEqual(["board-silent 5"]);
    expect(state.alarms).toMatchObject([{ clearedMs: at(30) }]);
    const back = watch(state, tick(60));
    expect(back.raised).toEqual([]);
    expect(back.resumed).toMatchObject([{ kind: "board-silent", clearedMs: null, raisedMs: at(5) }]);
  });

  test("a second stop speaks though nobody saw the first: a thermostat's hold must not hush the flame that dies later", () => {
    const night = [on("gas"), stopped(60, 30), stopped(70, null), stopped(71, null)];
    const { state, raised } = watched([...night, stopped(240, 200), stopped(241, 200)]);
    expect(names(raised)).toEqual(["cooling-stopped 60", "cooling-stopped 240"]);
    expect(raised[1].reason).toMatchObject({ sinceMs: at(200) });
    expect(state.alarms).toMatchObject([{ raisedMs: at(240), clearedMs: null, acknowledgedMs: null }]);
    expect(watch(watched(night).state, stopped(240, 200)).anew).toHaveLength(1);
  });

  test("a stop that flickers within a quarter of an hour speaks once", () => {
    const flicker = [
      on("gas"),
      stopped(60, 30),
      stopped(62, null),
      stopped(64, 30),
      stopped(66, null),
      stopped(70, 30),
    ];
    expect(names(watched([...flicker, stopped(90, 30)]).raised)).toEqual(["cooling-stopped 60"]);
  });

  test("acknowledged while it lasts it is kept quietly until it is over, then it is gone", () => {
    const seen = watched([on("mains"), stopped(60, 30), acknowledged(65), stopped(66, 30)]);
    expect(seen.state.alarms).toMatchObject([{ acknowledgedMs: at(65), acknowledgedBy: "Kim" }]);
    const over = watched([stopped(70, null)], {}, seen.state);
    expect(over.state.alarms).toEqual([]);
    expect(over.raised).toEqual([]);
  });

  test("after that a new stop is a new alarm, but not within a quarter of an hour", () => {
    const before = [on("mains"), stopped(60, 30), acknowledged(61), stopped(62, null)];
    expect(names(watched([...before, stopped(70, 69), stopped(74, 69), stopped(75, 69)]).raised)).toEqual([
      "cooling-stopped 60",
      "cooling-stopped 75",
    ]);
  });
});

test("a flame that dies is told although nobody has seen yet that mains stopped in the night", () => {
  const night = [on("mains"), stopped(60, 30), stopped(120, null)];
  const { raised } = watched([...night, on("gas", 600), stopped(700, 690)]);
  expect(names(raised)).toEqual(["cooling-stopped 60", "cooling-stopped 700"]);
  expect(raised[1].reason).toMatchObject({ source: "gas" });
  expect(raised[1].cautions).toEqual(["stopped-on-gas", "gas"]);
});

describe("the night", () => {
  // From 22 to 6 by a clock two hours ahead of UTC: 20:00 to 04:00 UTC. The inputs begin at 20:00 UTC.
  const night = { heldBack: { fromHour: 22, toHour: 6 }, utcOffsetMinutes: 120 };

  test("holds an alarm back until it is over, then it speaks once", () => {
    const { state, raised } = watched([on("mains"), stopped(60, 30), ...minutes(61, 479, 10).map(tick)], night);
    expect(raised).toEqual([]);
    expect(state.alarms).toMatchObject([{ isHeldBack: true }]);
    expect(names(watched([tick(480), tick(481)], night, state).raised)).toEqual(["cooling-stopped 480"]);
  });

  test("an alarm whose cause was over by morning is still told", () => {
    const { raised } = watched([on("mains"), stopped(60, 30), stopped(70, null), tick(480)], night);
    expect(raised).toMatchObject([{ kind: "cooling-stopped", clearedMs: at(70) }]);
  });

  test("never holds back what is about gas", () => {
    expect(names(watched([on("gas"), stopped(60, 30)], night).raised)).toEqual(["cooling-stopped 60"]);
    const heldBack = [on("mains"), stopped(60, 30), stopped(70, null)];
    expect(names(watched([...heldBack, on("gas", 100), stopped(160, 150)], night).raised)).toEqual([
      "cooling-stopped 160",
    ]);
  });
});

test("a clock set back a day waits for nothing that lies in the future", () => {
  const day = 24 * 60;
  const { raised } = watched([cabinet(0, 5), ...minutes(-day, -day + 6).map(tick)]);
  expect(names(raised)).toEqual([`board-silent ${-day + 5}`]);
});

describe("a board that sends every ten minutes", () => {
  const slow = { firstPauseMinutes: 30 };
  const packs = minutes(0, 120, 10).flatMap((minute) => [
    ...minutes(minute, minute + 9).map(tick),
    cabinet(minute + 9.5, 5),
  ]);

  test("is not silent in between, nor are its probes lost, but after three of its own pauses", () => {
    const { state, raised } = watched([...packs, ...minutes(130, 158).map(tick)], slow);
    expect(raised).toEqual([]);
    expect(names(watched(minutes(159, 170).map(tick), slow, state).raised)).toEqual(["board-silent 160"]);
  });

  test("one long pause does not make it a slow board", () => {
    const quick = [...minutes(0, 60).map((minute) => cabinet(minute, 5)), cabinet(180, 5)];
    const { state } = watched(quick, slow);
    expect(names(watched(minutes(181, 190).map(tick), slow, state).raised)).toEqual(["board-silent 185"]);
  });
});

describe("what nobody listened to", () => {
  const listening = (minute: number): AlarmInput => ({ kind: "listening", unixMs: at(minute) });
  const evaporator = (minute: number): AlarmInput =>
    ({ ...cabinet(minute, -10), position: "evaporator" }) as AlarmInput;
  const both = minutes(0, 20).flatMap((minute) => [cabinet(minute, 5), evaporator(minute)]);

  test("was not silent: a watch that goes on after hours gives board and probes their time to speak", () => {
    expect(names(watched([...both, cabinet(300, 5)]).raised)).toEqual(["probe-lost 300"]);
    const { state, raised } = watched([...both, listening(300), cabinet(300, 5), evaporator(300)]);
    expect(raised).toEqual([]);
    expect(names(watched([tick(304), tick(305)], {}, state).raised)).toEqual(["board-silent 305"]);
    expect(
      names(
        watched(
          minutes(301, 310).map((minute) => cabinet(minute, 5)),
          {},
          state,
        ).raised,
      ),
    ).toEqual(["probe-lost 310"]);
  });

  test("is not lost either when a board comes back: its probes speak one after the other", () => {
    const { state, raised } = watched([...both, tick(25), cabinet(60, 5), evaporator(60)]);
    expect(names(raised)).toEqual(["board-silent 25"]);
    // One that does not come back with it is.
    const { raised: later } = watched(
      minutes(61, 71).map((minute) => cabinet(minute, 5)),
      {},
      state,
    );
    expect(names(later)).toEqual(["probe-lost 70"]);
  });

  test("a board that was silent before stays so, and its alarm speaks no second time", () => {
    const { state, raised } = watched([...both, tick(30), listening(300), ...minutes(300, 320).map(tick)]);
    expect(names(raised)).toEqual(["board-silent 30"]);
    expect(state.alarms).toMatchObject([{ kind: "board-silent", clearedMs: null }]);
  });
});

// Any sequence -----------------------------------------------------------------------------------------

const instants = fc.integer({ min: -30, max: 600 }).map((minute) => at(minute));
const inputs: fc.Arbitrary<AlarmInput> = fc.oneof(
  fc.record({
    kind: fc.constant("reading" as const),
    unixMs: instants,
    position: fc.constantFrom(...positions),
    value: fc.oneof(fc.double({ min: -150, max: 350 }), fc.constantFrom(85, -127, Number.NaN, 5, 12)),
    board: fc.constantFrom("b1", "b2"),
  }),
  fc.record({ kind: fc.constant("heard" as const), unixMs: instants, board: fc.constantFrom("b1", "b2") }),
  fc.record({ kind: fc.constant("listening" as const), unixMs: instants }),
  fc.record({ kind: fc.constant("dismissed" as const), unixMs: instants, board: fc.constantFrom("b1", "b2") }),
  fc.record({ kind: fc.constant("source" as const), unixMs: instants, source: fc.constantFrom(...energySources) }),
  fc.record({
    kind: fc.constant("cooling" as const),
    unixMs: instants,
    stoppedSinceMs: fc.option(instants, { nil: null }),
    doubt: fc.constantFrom("first-hold" as const, "heat-goes-on" as const, null),
  }),
  fc.record({ kind: fc.constant("disk" as const), unixMs: instants, freeMegabytes: fc.integer({ min: 0, max: 2000 }) }),
  fc.record({
    kind: fc.constant("acknowledged" as const),
    unixMs: instants,
    alarm: fc.record({
      kind: fc.constantFrom("cooling-stopped" as const, "board-silent" as const, "disk-low" as const),
      subject: fc.constantFrom("", "b1", "b2"),
    }),
  }),
  fc.record({ kind: fc.constant("tick" as const), unixMs: instants }),
);
const sequences = fc.array(inputs, { maxLength: 120 });
const nights = fc.constantFrom<Partial<AlarmLimits>>({}, { heldBack: { fromHour: 22, toHour: 6 } });

propTest.prop([sequences, nights])("never are two alarms latched for the same subject", (sequence, limits) => {
  let state = noAlarms;
  for (const input of sequence) {
    state = watch(state, input, { ...usualAlarmLimits, ...limits }).state;
    const keys = state.alarms.map(({ kind, subject }) => `${kind} ${subject}`);
    expect(new Set(keys).size).toBe(keys.length);
  }
});

propTest.prop([sequences, nights])("the state written as JSON and read again goes on the same", (sequence, limits) => {
  let state = noAlarms;
  let restarted = noAlarms;
  for (const input of sequence) {
    const step = watch(state, input, { ...usualAlarmLimits, ...limits });
    const again = watch(JSON.parse(JSON.stringify(restarted)) as AlarmState, input, { ...usualAlarmLimits, ...limits });
    expect(again).toEqual(step);
    state = step.state;
    restarted = again.state;
  }
});

propTest.prop([sequences])(
  "in order of time one subject never speaks twice within a quarter of an hour",
  (sequence) => {
    const spoke = new Map<string, number>();
    let state = noAlarms;
    for (const input of sequence.toSorted((a, b) => a.unixMs - b.unixMs)) {
      const step = watch(state, input);
      state = step.state;
      for (const { kind, subject } of step.raised) {
        const key = `${kind} ${subject}`;
        expect(input.unixMs - (spoke.get(key) ?? Number.NEGATIVE_INFINITY)).toBeGreaterThanOrEqual(15 * msPerMinute);
        spoke.set(key, input.unixMs);
      }
    }
  },
);

propTest.prop([sequences, nights])("cooling that stops on gas never comes without its caution", (sequence, limits) => {
  let state = noAlarms;
  for (const input of sequence) {
    state = watch(state, input, { ...usualAlarmLimits, ...limits }).state;
    for (const { reason, cautions } of state.alarms) {
      if (reason.code !== "cooling-stopped" || reason.source === "mains" || reason.source === "dc12") continue;
      expect(cautions).toContain("stopped-on-gas");
    }
  }
});
