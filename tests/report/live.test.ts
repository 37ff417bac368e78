import { beforeAll, describe, expect, test } from "vitest";
import { handOf, say, words } from "../../src/report/index.ts";
import { alarmText, liveLine, liveText, tellAlarm } from "../../src/report/recording/index.ts";
import { msPerHour } from "../../src/schema/index.ts";
import {
  type Alarm,
  type AlarmSayings,
  type LiveEstimate,
  type LiveHeadSayings,
  type LiveProofSayings,
  LiveRun,
  noAlarms,
  watch,
} from "../../src/science/live/index.ts";
import { knownGood, simulated } from "../science/simulated-runs.ts";

const context = { language: "en", utcOffsetMinutes: 120, fridge: "Larch" } as const;
const options = { colour: false, width: 92 };
const unwrapped = (printed: string) => printed.replaceAll(/\s+/g, " ");

/** A run on one source, told after so many hours. */
function toldAfter(source: "gas" | "mains", hours: number, outage?: { atHours: number; hours: number }): LiveEstimate {
  const { recording } = simulated(9, {
    schedule: [
      { source: "off", hours: 1 },
      { source, hours: 7 },
    ],
    outages: outage === undefined ? [] : [outage],
  });
  const run = new LiveRun({ knownGood });
  const startMs = recording.unixMs[0];
  run.switchTo("off", startMs);
  run.switchTo(source, startMs + msPerHour);
  recording.unixMs.forEach((unixMs, i) => {
    if (unixMs > startMs + hours * msPerHour) return;
    for (const position of ["evaporator", "cabinet", "ambient"] as const) {
      run.add({ unixMs, position, value: recording.columns[position]?.[i] ?? Number.NaN });
    }
  });
  return run.tell(startMs + hours * msPerHour);
}

const stopAlarm = (estimate: LiveEstimate): readonly Alarm[] =>
  watch(watch(noAlarms, { kind: "source", unixMs: estimate.sinceMs, source: "gas" }).state, {
    kind: "cooling",
    unixMs: estimate.nowMs,
    stoppedSinceMs: estimate.stopped?.startMs ?? null,
    doubt: estimate.stopped?.doubt ?? null,
  }).raised;

describe("on mains with cold proven", () => {
  let estimate: LiveEstimate;
  beforeAll(() => {
    estimate = toldAfter("mains", 2.5);
  });

  test("the picture says that one can go home and when the strength is known", () => {
    const text = unwrapped(liveText(estimate, context, [], options));
    expect(text).toMatch(/You can go home: mains makes cold\. How strong: known by \d\d:\d\d\./);
    expect(text).toMatch(/● cold +proven at \d\d:\d\d: the fins are \d\.\d K colder than the cabinet air/);
    expect(text).toMatch(/○ strength +can be known by \d\d:\d\d/);
  });

  test("the caution for the night stands with it", () => {
    expect(unwrapped(liveText(estimate, context, [], options))).toContain(
      "close its gas valve before an electric night",
    );
  });

  test("it draws the readings so far, no line wider than the terminal", () => {
    const lines = liveText(estimate, context, [], { colour: false, width: 70 }).split("\n");
    expect(lines.some((line) => /[\u2800-\u28ff]{3}/.test(line))).toBe(true);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(70);
  });

  test("plain lines hold one line each, with the caution in full whenever something new is said", () => {
    const first = liveLine(estimate, context, null);
    expect(first.trimEnd()).not.toContain("\n");
    expect(first).toContain("close its gas valve before an electric night");
    expect(liveLine(estimate, context, estimate)).not.toContain("Common practice");
  });
});

test("later the numbers stand there with their intervals, as clock times where they are times", () => {
  const text = unwrapped(liveText(toldAfter("mains", 5), context, [], options));
  expect(text).toMatch(/On mains good so far: cooling strength \d+ % \(\d+ to \d+\) of known-good\./);
  expect(text).toMatch(/cold began +\d\d:\d\d, \d+ min .*after switching on/);
  expect(text).toMatch(/initial fall +\d\.\d+ K per hour \(\d\.\d+ to \d\.\d+\)/);
  expect(text).toMatch(/at 5 °C +\d\d:\d\d \(\d\d:\d\d to \d\d:\d\d\)/);
  expect(text).toMatch(/Let it run until \d\d:\d\d, for rate constant and depth/);
});

test("on gas nobody is sent home", () => {
  const text = unwrapped(liveText(toldAfter("gas", 2.5), context, [], options));
  expect(text).toContain("Gas makes cold; stay with it.");
  expect(text).toContain("Never leave gas burning unattended");
  expect(text).not.toMatch(/go home/);
});

test("a flame that went out is told with what not to do, on top and at its alarm", () => {
  const estimate = toldAfter("gas", 6.5, { atHours: 5, hours: 2 });
  const alarms = stopAlarm(estimate);
  const text = unwrapped(liveText(estimate, context, alarms, options));
  expect(text).toMatch(
    /Cooling has stopped on gas, about \d\d:\d\d\. The flame may have gone out\. A thermostat .* looks the same\./,
  );
  for (const meaning of [/do not relight/i, /no switches/, /no flame/, /it is no alarm/, /late, by an hour or so/]) {
    expect(text).toMatch(meaning);
  }
  expect(text).toMatch(/Alarms.*cooling stopped: .*Not acknowledged\. Caution: see cooling that stopped on gas/);
  // Where nothing above says it, the alarm says it itself.
  const calm = toldAfter("mains", 2.5);
  expect(unwrapped(liveText(calm, context, alarms, options))).toMatch(/Alarms.*Do not relight from here/);
  expect(alarmText(alarms[0], { language: "en", utcOffsetMinutes: 120 })).toMatch(
    /The flame may have gone out\. .*Do not relight from here.*licensed/,
  );
});

test("an alarm tells whether it lasts and who has seen it", () => {
  const alarm: Alarm = {
    kind: "disk-low",
    subject: "",
    reason: { code: "disk-low", freeMegabytes: 120, limitMegabytes: 500 },
    cautions: [],
    raisedMs: Date.parse("2026-06-04T01:00:00Z"),
    clearedMs: Date.parse("2026-06-04T02:00:00Z"),
    acknowledgedMs: Date.parse("2026-06-04T05:00:00Z"),
    acknowledgedBy: "Kim",
    isHeldBack: false,
  };
  const { text, state, caution } = tellAlarm(alarm, { language: "en", utcOffsetMinutes: 120 });
  expect(text.replaceAll("\u00a0", " ")).toMatch(/^4 June 03:00, disk nearly full: Only 120 MB are free/);
  expect(state.replaceAll("\u00a0", " ")).toBe("Over since 4 June 04:00. Acknowledged 4 June 07:00 by Kim.");
  expect(caution).toBeNull();
});

describe("every saying of a live run", () => {
  const hand = handOf("en", 120);
  const { live, alarms } = words("en");
  const strength = { value: 0.9, low: 0.8, high: 1, confidence: 0.95, unit: "1" } as const;
  const heads: LiveHeadSayings = {
    "nothing-yet": {},
    "too-little-yet": { source: null },
    "looks-off": {},
    settling: {},
    "warming-back": { sinceMs: 0 },
    "heating-up": { source: "gas", coldFromMs: 0, coldByMs: 1 },
    "probes-exchanged": { source: "mains" },
    "no-cold-yet": { source: null, hours: 2, deadAtMs: 0 },
    "makes-cold": { source: "dc12", strengthByMs: null },
    "strength-so-far": { source: "mains", strength, verdict: "weak" },
    "does-not-cool": { source: "gas", hours: 4.5 },
    stopped: { source: null, sinceMs: 0, doubt: "heat-goes-on" },
  };
  const proofs: LiveProofSayings = {
    "heat-by-watts": { watts: 124 },
    "heat-by-boiler": { kelvin: 90 },
    "heat-by-flue": { kelvin: 90 },
    "heat-by-cold": {},
    "heat-needs-watts": { source: "mains" },
    "heat-needs-flue-probe": {},
    "cold-by-fins": { kelvin: 2 },
    "cold-by-cabinet": { kelvin: 2 },
    "strength-told": { strength, verdict: "sound" },
    "no-known-good": { source: "gas" },
    "source-not-told": {},
    "not-cold-in-time": { hours: 4.5 },
    "no-fins-no-ambient": {},
  };
  const reasons: AlarmSayings = {
    "cooling-stopped": { source: "mains", sinceMs: 0, doubt: null },
    "cabinet-warm": { celsius: 9, limitCelsius: 8, sinceMs: 0 },
    "probe-lost": { position: "cabinet", lastMs: 0 },
    "board-silent": { board: "b1", lastMs: 0 },
    "disk-low": { freeMegabytes: 1, limitMegabytes: 2 },
    "readings-odd": { position: "cabinet", why: "power-on-value", value: null, sinceMs: 0 },
  };
  const holes = /undefined|NaN|null|\[object|Infinity|\bsafe\b/;

  for (const [code, values] of Object.entries(heads)) {
    test(`${code} is a whole sentence`, () => {
      expect(say(live.heads, { code, ...values } as never, hand)).toMatch(/^[\p{Lu}].*\.$/u);
      expect(say(live.heads, { code, ...values } as never, hand)).not.toMatch(holes);
    });
  }
  test("no cold after the last instant to wait for names none", () => {
    const late = { code: "no-cold-yet", source: "gas", hours: 5, deadAtMs: null } as const;
    expect(say(live.heads, late, hand).replaceAll("\u00a0", " ")).toMatch(
      /^No cold yet on gas after 5 h\. That is longer [^:]*\.$/,
    );
  });
  test("proofs complete a sentence", () => {
    for (const [code, values] of Object.entries(proofs)) {
      const text = say(live.proofs, { code, ...values } as never, hand);
      expect(text, code).toMatch(/^[\p{Ll}\d].*[^.]$/u);
      expect(text, code).not.toMatch(holes);
    }
  });
  test("alarms are whole sentences", () => {
    for (const [code, values] of Object.entries(reasons)) {
      const text = say(alarms.reasons, { code, ...values } as never, hand);
      expect(text, code).toMatch(/^[\p{Lu}].*\.$/u);
      expect(text, code).not.toMatch(holes);
    }
  });
});
