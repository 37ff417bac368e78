import { describe, expect, test } from "vitest";
import { words } from "../../src/report/index.ts";
import { morningPage, morningText, type Night } from "../../src/report/recording/index.ts";
import { msPerHour } from "../../src/schema/index.ts";
import { noAlarms, watch } from "../../src/science/live/index.ts";
import { uncheckedItems } from "../../src/science/plan/index.ts";
import { judged, simulated } from "../science/simulated-runs.ts";

const run = simulated(9, {
  schedule: [
    { source: "off", hours: 1 },
    { source: "mains", hours: 8 },
    { source: "off", hours: 3 },
  ],
  doors: [{ atHours: 6, seconds: 60 }],
  faults: [{ name: "mains-element", size: 0.3 }],
});
const analysis = judged(run);
const startMs = run.recording.unixMs[0];
const silent = watch(watch(noAlarms, { kind: "heard", unixMs: startMs + 3 * msPerHour, board: "b7" }).state, {
  kind: "tick",
  unixMs: startMs + 3.2 * msPerHour,
}).raised;
const night: Night = {
  run: "2026-06-10-abc",
  fridge: "Larch <90 l>",
  endedMs: startMs + 12 * msPerHour,
  isWatched: true,
  lastMs: startMs + 12 * msPerHour,
  happenings: [
    { kind: "board-restarted", fromMs: startMs + 3.5 * msPerHour, toMs: null, position: null },
    ...[0, 1, 2, 3, 4].map((hours) => ({
      kind: "line-damaged",
      fromMs: startMs + hours * msPerHour,
      toMs: null,
      position: null,
    })),
    { kind: "probe-silent", fromMs: startMs + 7 * msPerHour, toMs: startMs + 7.5 * msPerHour, position: "cabinet" },
  ],
  alarms: silent,
  unchecked: uncheckedItems({ dial: "coldest", checkedBy: "the workshop" }, ["mains"]),
};
const context = { language: "en", inputs: [], utcOffsetMinutes: 120, sourceMarks: [] } as const;
const text = morningText(analysis, context, night, { colour: false, width: 92 });

describe("the morning page", () => {
  test("begins with the verdict", () => {
    expect(text.split("\n").slice(0, 4).join("\n")).toMatch(
      /The night of Larch <90 l> on one page[\s\S]*On mains +WEAK/,
    );
  });

  test("tells stretches, events and what the recorder noted in order of time", () => {
    const timeline = text.slice(text.indexOf("What happened when"), text.indexOf("Alarms"));
    const order = [
      ", off.",
      "on mains: weak",
      "the probe board restarted",
      "door opened",
      "a probe said nothing (cabinet)",
    ];
    const places = order.map((part) => timeline.indexOf(part));
    expect(places.every((place) => place > 0)).toBe(true);
    expect(places).toEqual(places.toSorted((a, b) => a - b));
  });

  test("tells what happened again and again once, with its count", () => {
    expect(text.match(/arrived damaged/g)).toHaveLength(1);
    expect(text).toMatch(/5 times: a line from the board arrived damaged/);
  });

  test("names its alarms, what to check next with the caution, and what was not ticked", () => {
    expect(text).toMatch(/board silent: Board b7 has said nothing/);
    expect(text).toMatch(/What to check next[\s\S]*! Caution, mains voltage/);
    expect(text).toMatch(
      /Not ticked before the run[\s\S]*· Tilt \(run sheet: tiltSidewaysDegrees and tiltLengthwaysDegrees\)/,
    );
    expect(text).not.toMatch(/· Dial/);
  });

  test("says so when recording still goes on", () => {
    const going = morningText(analysis, context, { ...night, endedMs: null }, { colour: false, width: 92 });
    expect(going).toMatch(/Recording goes on; this is as of/);
    expect(text).not.toMatch(/goes on/);
  });

  test("as HTML it holds the same timeline, and the drawing of the run", () => {
    const page = morningPage({ analysis, context, night });
    expect(page).toContain("The night of Larch &lt;90 l&gt; on one page");
    expect(page).toContain("5\u00a0times: a line from the board arrived damaged");
    expect(page).toContain("<svg");
    expect(page).not.toContain("<script");
  });

  test("of a run without a reading there is a page, too", () => {
    const empty = { ...analysis, sources: [], stretches: [], events: [], keepsUp: [], causes: [], nextChecks: [] };
    const bare = { ...night, happenings: [], alarms: [], unchecked: [] };
    expect(morningText(empty, context, bare, { colour: false, width: 92 })).toMatch(/No alarm was raised/);
    const unwatched = morningText(empty, context, { ...bare, isWatched: false }, { colour: false, width: 400 });
    expect(unwatched).not.toMatch(/No alarm was raised/);
    expect(unwatched).toMatch(/Nobody watched: alarms are raised only while "coldfall record" listens/);
    const gap = { kind: "unwatched", fromMs: startMs + msPerHour, toMs: startMs + 3 * msPerHour, position: null };
    const inPart = morningText(empty, context, { ...bare, happenings: [gap] }, { colour: false, width: 400 });
    expect(inPart).toMatch(/ to .*, nobody watched for alarms\.\n/);
    expect(inPart).toMatch(/No alarm was raised while somebody watched;/);
    expect(morningPage({ analysis: empty, context, night: bare })).toContain("Everything on the checklist was ticked.");
  });
});

test("what a page advises of a source that nobody named can be done to a run in the store", () => {
  for (const language of ["en", "de"] as const)
    expect(words(language).checks["say-the-source"].text).toMatch(/coldfall source .* --fridge .* --run .* --at /);
});
