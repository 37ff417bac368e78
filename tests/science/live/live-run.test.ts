import { beforeAll, describe, expect, test } from "vitest";
import { energySources, type HeatSource, msPerHour, positions, type Recording } from "../../../src/schema/index.ts";
import { type Answer, analyse, isKnown } from "../../../src/science/index.ts";
import { cautionsOnSource, type LiveEstimate, LiveRun } from "../../../src/science/live/index.ts";
import { knownGood, simulated, stretchIn } from "../simulated-runs.ts";

/** Plays a recording into a live run, and tells after each of the given hours since its start. */
function played(
  recording: Recording,
  tellAtHours: readonly number[],
  options: { known?: boolean; until?: number } = {},
) {
  const run = new LiveRun(options.known ? { knownGood } : {});
  const { unixMs, columns, sourceCodes } = recording;
  const told: LiveEstimate[] = [];
  const stops: LiveEstimate["stopped"][] = [];
  let code = 0;
  for (let i = 0; i < unixMs.length; i++) {
    const hours = (unixMs[i] - unixMs[0]) / msPerHour;
    if (hours > (options.until ?? Number.POSITIVE_INFINITY)) break;
    const now = sourceCodes?.[i] ?? 0;
    if (now !== code) run.switchTo(energySources[now - 1], unixMs[i]);
    code = now;
    for (const position of positions) {
      const value = columns[position]?.[i];
      if (value !== undefined) run.add({ unixMs: unixMs[i], position, value });
    }
    if (!tellAtHours.some((at) => Math.abs(at - hours) < 1e-9)) continue;
    told.push(run.tell(unixMs[i]));
    stops.push(run.stopped());
  }
  return { run, told, stops };
}

const known = (answer: Answer) => {
  if (!isKnown(answer)) throw new Error(`not known: ${answer.why.code}`);
  return answer;
};

/** Within the interval of the finished log's own number; unknown where that is. */
function expectWithin(live: Answer, finished: Answer): void {
  if (!isKnown(finished)) {
    expect(live).toMatchObject({ why: { code: finished.why.code } });
    return;
  }
  const { low, high } = finished;
  const { value } = known(live);
  if (low !== null) expect(value).toBeGreaterThanOrEqual(low);
  if (high !== null) expect(value).toBeLessThanOrEqual(high);
}

describe("at the end of a stretch the live numbers agree with those of the finished log", () => {
  for (const [seed, hours, faults] of [
    [11, 7, []],
    [12, 7, [{ name: "mains-element", size: 0.25 }]],
    // Longer than 8 h, rows are joined two by two.
    [13, 14, []],
  ] as const) {
    test(`run ${seed}, ${hours} h on mains, a reading every 10 s`, () => {
      const schedule = [
        { source: "off", hours: 1 },
        { source: "mains", hours },
      ] as const;
      const { recording } = simulated(seed, { schedule, samplingSeconds: 10, faults });
      const [live] = played(recording, [1 + hours], { known: true }).told;
      const finished = stretchIn(analyse([recording], { knownGood, baselineKind: "own", margin: 0.15 }), "mains");
      expect([finished.fit.initialSlope, finished.fit.deadTime, finished.coolingStrength].every(isKnown)).toBe(true);
      expectWithin(live.rate, finished.fit.rateConstant);
      expectWithin(live.slope, finished.fit.initialSlope);
      expectWithin(live.finding?.fit.depth ?? finished.fit.deadTime, finished.fit.depth);
      expectWithin(live.onset, finished.fit.deadTime);
      expectWithin(live.finding?.coolingStrength ?? finished.fit.deadTime, finished.coolingStrength);
      expect(live.finding?.verdict).toBe(finished.verdict);
    });
  }
});

describe("a night on mains", () => {
  const tellAt = [0.5, 1.25, 2.5, 3.25, 4.5, 6.5, 9];
  let told: readonly LiveEstimate[] = [];
  const at = (hours: number) => told[tellAt.indexOf(hours)];
  beforeAll(() => {
    const { recording } = simulated(9, {
      samplingSeconds: 30,
      schedule: [
        { source: "off", hours: 1 },
        { source: "mains", hours: 8 },
      ],
    });
    ({ told } = played(recording, tellAt, { known: true }));
  });
  const switchedOn = () => at(1.25).sinceMs;

  test("while it is off it settles", () => {
    expect(at(0.5).head.saying).toEqual({ code: "settling" });
    expect(at(0.5).proofs).toBeNull();
  });

  test("in the first half hour nothing can be said, but when it can", () => {
    expect(at(1.25).head.saying).toMatchObject({ code: "heating-up", source: "mains" });
    const { heat, cold, strength } = at(1.25).proofs ?? {};
    expect(heat).toMatchObject({ state: "expected", needs: { code: "heat-needs-watts", source: "mains" } });
    expect(cold).toMatchObject({ state: "expected" });
    expect(strength).toMatchObject({
      state: "expected",
      fromMs: expect.closeTo(switchedOn() + 2.5 * msPerHour, -5),
      byMs: expect.closeTo(switchedOn() + 3 * msPerHour, -5),
    });
  });

  test("with cold proven one can go home, and knows when the strength will be known", () => {
    const { head, proofs } = at(2.5);
    expect(head).toMatchObject({ saying: { code: "makes-cold", source: "mains" }, cautions: ["night"] });
    expect(proofs?.cold).toMatchObject({ state: "proven", by: { code: "cold-by-fins" } });
    expect(proofs?.heat).toMatchObject({ state: "proven", by: { code: "heat-by-cold" } });
    expect(proofs?.strength).toMatchObject({ state: "expected" });
    // As soon as the fit sees the onset, the strength is due two hours after it.
    const onsetMs = switchedOn() + known(at(3.25).onset).value * msPerHour;
    expect(at(3.25).proofs?.strength).toMatchObject({
      state: "expected",
      byMs: expect.closeTo(onsetMs + 2 * msPerHour, -5),
    });
  });

  test("two hours after the onset the strength is there, and the run should go on for the curve", () => {
    const { head, goals, runUntilMs } = at(4.5);
    expect(head.saying).toMatchObject({ code: "strength-so-far", source: "mains", verdict: "sound" });
    expect(goals.map(({ goal, isThere }) => [goal, isThere])).toEqual([
      ["strength", true],
      ["curve", false],
      ["better-curve", false],
    ]);
    expect(runUntilMs).toBe(goals[1].atMs);
  });

  test("rate, settled temperature and time to 5 °C come one after the other", () => {
    expect(isKnown(at(3.25).slope)).toBe(true);
    expect(isKnown(at(3.25).rate)).toBe(false);
    expect(isKnown(at(4.5).to5)).toBe(true);
    expect(isKnown(at(4.5).settled)).toBe(false);
    expect(isKnown(at(6.5).settled)).toBe(true);
    expect(isKnown(at(9).rate)).toBe(true);
  });

  test("their intervals narrow, and hold what came to be", () => {
    const width = (answer: Answer) => (known(answer).high ?? Number.POSITIVE_INFINITY) - (known(answer).low ?? 0);
    expect(width(at(4.5).slope)).toBeLessThan(width(at(3.25).slope));
    expect(width(at(9).settled)).toBeLessThan(width(at(6.5).settled));
    expectWithin(at(9).settled, at(6.5).settled);
    expectWithin(at(9).to5, at(4.5).to5);
  });
});

describe("heat", () => {
  const schedule = [
    { source: "off", hours: 1 },
    { source: "mains", hours: 2 },
  ] as const;

  test("is proven by watts that somebody read", () => {
    const { recording } = simulated(3, { schedule });
    const { run } = played(recording, [], { until: 1.2 });
    const nowMs = recording.unixMs[0] + 1.2 * msPerHour;
    run.noteWatts({ unixMs: nowMs, watts: 124 });
    expect(run.tell(nowMs).proofs?.heat).toEqual({
      state: "proven",
      atMs: nowMs,
      by: { code: "heat-by-watts", watts: 124 },
    });
  });

  test("is proven by a boiler probe long before there is cold", () => {
    const { recording } = simulated(3, { schedule, probes: { boiler: {} } });
    const [told] = played(recording, [1.4]).told;
    expect(told.proofs?.heat).toMatchObject({ state: "proven", by: { code: "heat-by-boiler" } });
    expect(told.proofs?.cold).toMatchObject({ state: "expected" });
  });

  test("is not proven by a boiler that is only still hot", () => {
    const { recording } = simulated(3, {
      schedule: [
        { source: "mains", hours: 4 },
        { source: "off", hours: 0.5 },
        { source: "gas", hours: 1 },
      ],
      probes: { boiler: {} },
      outages: [{ atHours: 4.5, hours: 1 }],
    });
    const [told] = played(recording, [5.2]).told;
    expect(told.source).toBe("gas");
    expect(told.proofs?.heat.state).toBe("expected");
  });
});

test("gas is never said to be left alone, and carries its caution", () => {
  const { recording } = simulated(4, {
    schedule: [
      { source: "off", hours: 1 },
      { source: "gas", hours: 2 },
    ],
  });
  const [told] = played(recording, [2.5]).told;
  expect(told.head).toMatchObject({ saying: { code: "makes-cold", source: "gas" }, cautions: ["gas"] });
});

test("whoever goes home from a fridge on 12 V reads what its element does to a battery", () => {
  const { recording } = simulated(4, {
    schedule: [
      { source: "off", hours: 1 },
      { source: "dc12", hours: 2 },
    ],
  });
  const [told] = played(recording, [2.5]).told;
  expect(told.head).toMatchObject({ saying: { code: "makes-cold", source: "dc12" }, cautions: ["night", "dc12"] });
});

test("without a known-good run the strength is said not to come", () => {
  const { recording } = simulated(4, {
    schedule: [
      { source: "off", hours: 1 },
      { source: "mains", hours: 2 },
    ],
  });
  const [told] = played(recording, [2.5]).told;
  expect(told.proofs?.strength).toEqual({ state: "not-coming", why: { code: "no-known-good", source: "mains" } });
});

test("a source without heat is called dead only after four hours, and then to be switched off", () => {
  const { recording } = simulated(5, {
    schedule: [
      { source: "off", hours: 1 },
      { source: "mains", hours: 6 },
    ],
    outages: [{ atHours: 1, hours: 6 }],
  });
  const told = played(recording, [2.5, 4.5, 5.5]).told;
  expect(told.map(({ head }) => head.saying.code)).toEqual(["no-cold-yet", "no-cold-yet", "does-not-cool"]);
  expect(told[1].runUntilMs).toBe(told[1].finding === null ? null : told[1].finding.startMs + 4 * msPerHour);
  expect(told[2]).toMatchObject({ runUntilMs: null, head: { cautions: ["no-cold", "mains"] } });
});

test("exchanged probes are told while somebody is still there, and no number is told of them", () => {
  const { recording } = simulated(6, {
    schedule: [
      { source: "off", hours: 1 },
      { source: "mains", hours: 4 },
    ],
  });
  const { evaporator, cabinet, ...others } = recording.columns;
  const columns = { ...others, evaporator: cabinet, cabinet: evaporator } as Recording["columns"];
  const [evening] = played({ ...recording, columns }, [3]).told;
  expect(evening.head).toEqual({
    saying: { code: "probes-exchanged", source: "mains" },
    cautions: ["cooling-unit", "night"],
  });
  for (const answer of [evening.onset, evening.slope, evening.rate, evening.settled, evening.to5])
    expect(isKnown(answer)).toBe(false);
  const [asItIs] = played(recording, [3]).told;
  expect(asItIs.head.saying.code).not.toBe("probes-exchanged");
});

describe("cooling that stops on gas", () => {
  const { recording } = simulated(6, {
    schedule: [
      { source: "off", hours: 1 },
      { source: "gas", hours: 7 },
    ],
    outages: [{ atHours: 5, hours: 3 }],
  });
  const { told, stops } = played(recording, [4.9, 6]);
  const [before, after] = told;

  test("is the same asked by itself", () => {
    expect(stops).toEqual(told.map(({ stopped }) => stopped));
  });

  test("is seen within the hour, with the caution not to relight", () => {
    expect(before.stopped).toBeNull();
    expect(after.stopped).toMatchObject({ startMs: expect.any(Number) });
    expect(after.head).toMatchObject({ saying: { code: "stopped", source: "gas" } });
    expect(after.head.cautions).toContain("stopped-on-gas");
  });

  test("ends every projection", () => {
    expect(isKnown(after.settled)).toBe(false);
    expect(after.runUntilMs).toBeNull();
  });
});

test("single impossible readings and sensor codes change nothing", () => {
  const { recording } = simulated(7, {
    schedule: [
      { source: "off", hours: 1 },
      { source: "mains", hours: 4 },
    ],
  });
  const spoilt = new LiveRun();
  const clean = new LiveRun();
  const source: HeatSource = "mains";
  for (const run of [spoilt, clean]) {
    run.switchTo("off", recording.unixMs[0]);
    run.switchTo(source, recording.unixMs[0] + msPerHour);
  }
  recording.unixMs.forEach((unixMs, i) => {
    for (const position of ["evaporator", "cabinet", "ambient"] as const) {
      const reading = { unixMs, position, value: recording.columns[position]?.[i] ?? Number.NaN };
      clean.add(reading);
      spoilt.add(reading);
      if (i % 17 === 0) spoilt.add({ unixMs: unixMs + 1000, position, value: [85, -127, Number.NaN][i % 3] });
    }
  });
  const nowMs = recording.unixMs[recording.unixMs.length - 1];
  const [a, b] = [spoilt.tell(nowMs), clean.tell(nowMs)];
  expect(a.slope).toEqual(b.slope);
  expect(a.proofs).toEqual(b.proofs);
});

test("what is told is remembered until a minute or a new row has passed", () => {
  const { recording } = simulated(8, {
    schedule: [
      { source: "off", hours: 1 },
      { source: "mains", hours: 1 },
    ],
  });
  const { run } = played(recording, []);
  const nowMs = recording.unixMs[recording.unixMs.length - 1];
  const first = run.tell(nowMs);
  const value = (first.latest.cabinet?.value ?? Number.NaN) + 0.125;
  run.add({ unixMs: nowMs + 1000, position: "cabinet", value });
  expect(run.tell(nowMs + 1000).finding).toBe(first.finding);
  expect(run.tell(nowMs + 1000).latest.cabinet?.value).toBe(value);
  run.add({ unixMs: nowMs + 61_000, position: "cabinet", value });
  expect(run.tell(nowMs + 61_000).finding).not.toBe(first.finding);
});

test("a run without any reading says so", () => {
  expect(new LiveRun().tell(0)).toMatchObject({ head: { saying: { code: "nothing-yet" } }, finding: null });
});

test("the cautions of a source stand with a run from the moment it is switched to, before any reading", () => {
  const run = new LiveRun();
  run.switchTo("gas", 0);
  expect(run.tell(0).head).toEqual({ saying: { code: "nothing-yet" }, cautions: ["gas", "two-sources"] });
  run.switchTo("off", 1000);
  expect(run.tell(1000).head).toEqual({ saying: { code: "nothing-yet" }, cautions: [] });
  for (const source of ["mains", "dc12"] as const) expect(cautionsOnSource(source)).toContain(source);
});

test("after a switch, readings of before are not said to be none", () => {
  const { recording } = simulated(4, { schedule: [{ source: "off", hours: 1 }] });
  const { run } = played(recording, []);
  const nowMs = recording.unixMs[recording.unixMs.length - 1] + 1000;
  run.switchTo("gas", nowMs);
  expect(run.tell(nowMs).head).toEqual({
    saying: { code: "too-little-yet", source: "gas" },
    cautions: ["gas", "two-sources"],
  });
});

describe("a night on a source that nobody named, which loses its supply from 4 to 7 h after the start", () => {
  const tellAt = Array.from({ length: 39 }, (_, quarter) => quarter / 4 + 0.25);
  const { recording } = simulated(1, {
    schedule: [
      { source: "off", hours: 1 },
      { source: "mains", hours: 9 },
    ],
    outages: [{ atHours: 4, hours: 3 }],
    samplingSeconds: 30,
  });
  const { told, stops: askedAlone } = played({ ...recording, sourceCodes: null }, tellAt);
  const startMs = recording.unixMs[0];
  const between = (from: number, to: number) =>
    told.filter(({ nowMs }) => nowMs >= startMs + from * msPerHour && nowMs <= startMs + to * msPerHour);

  test("the cooling has stopped for as long as the supply is out, with the caution not to relight", () => {
    const stops = between(5.25, 7);
    expect(stops.length).toBeGreaterThan(6);
    for (const { head, stopped } of stops) {
      expect(head).toMatchObject({ saying: { code: "stopped", source: null }, cautions: ["stopped-on-gas", "gas"] });
      expect(stopped?.startMs).toBe(stops[0].stopped?.startMs);
    }
    expect(between(8.25, 9.75).filter(({ stopped }) => stopped === null)).toHaveLength(7);
    expect(askedAlone).toEqual(told.map(({ stopped }) => stopped));
  });

  test("no sentence denies the readings, or waits for an instant that has passed", () => {
    for (const { head, nowMs } of told) {
      expect(head.saying.code).not.toBe("nothing-yet");
      if (head.saying.code === "no-cold-yet") expect(head.saying.deadAtMs ?? nowMs + 1).toBeGreaterThan(nowMs);
    }
  });

  test("what is told since the switching on counts from the stretch that the readings show", () => {
    for (const { finding, sinceMs } of between(8.25, 9.75)) {
      expect(sinceMs).toBe(finding?.startMs);
      expect(sinceMs).toBeGreaterThan(startMs + 6.5 * msPerHour);
    }
  });
});
