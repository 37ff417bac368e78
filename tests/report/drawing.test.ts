import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { hourAxis, roundAxis, stepDecimals } from "../../src/report/drawing/axis.ts";
import { endNames, widthOfText } from "../../src/report/drawing/chart-panel.ts";
import { inks, papers } from "../../src/report/drawing/inks.ts";
import { namePlaces } from "../../src/report/drawing/name-places.ts";
import { drawnRun, runDrawing } from "../../src/report/drawing/run-drawing.ts";
import type { Scene } from "../../src/report/drawing/scene.ts";
import { type LetteredEvent, stretchDrawing } from "../../src/report/drawing/stretch-drawing.ts";
import { thin } from "../../src/report/drawing/thin.ts";
import { handOf, languageCodes, words } from "../../src/report/index.ts";
import { rejectedParts, tellRejected } from "../../src/report/rejected-telling.ts";
import type { Rejection } from "../../src/science/findings.ts";
import { isKnown } from "../../src/science/index.ts";
import { weakOnGas } from "./fixture.ts";
import { expectWordsApart } from "./words-apart.ts";

const teller = { words: words("en"), hand: handOf("en", 120) };
const events: LetteredEvent[] = weakOnGas.events.map((event, i) => ({ ...event, letter: "AB"[i] }));
const run = drawnRun(weakOnGas, weakOnGas.stretches[0].log, events);
const gas = weakOnGas.stretches[0];

describe("thinning", () => {
  property.prop([
    fc.array(fc.oneof(fc.double({ min: -40, max: 60, noNaN: true }), fc.constant(Number.NaN)), {
      minLength: 100,
      maxLength: 400,
    }),
    fc.integer({ min: 2, max: 20 }),
  ])("keeps the coldest, the warmest, the first and the last reading, in order", (readings, buckets) => {
    const values = Float64Array.from(readings);
    const kept = thin(values, buckets);
    expect(kept).toEqual([...new Set(kept)].sort((a, b) => a - b));
    const finite = readings.filter(Number.isFinite);
    const shown = kept.map((i) => values[i]).filter(Number.isFinite);
    expect(kept[0]).toBe(0);
    expect(kept.at(-1)).toBe(values.length - 1);
    if (finite.length > 0) {
      expect(Math.min(...shown)).toBe(Math.min(...finite));
      expect(Math.max(...shown)).toBe(Math.max(...finite));
    }
  });

  test("keeps a gap open: no line is drawn over missing readings", () => {
    const values = Float64Array.from({ length: 1000 }, (_, i) => (i >= 500 && i < 520 ? Number.NaN : 5));
    expect(thin(values, 20).some((i) => Number.isNaN(values[i]))).toBe(true);
  });

  test("leaves few points of many", () => {
    expect(thin(new Float64Array(100_000).fill(1), 200).length).toBeLessThanOrEqual(800);
  });
});

describe("axes", () => {
  property.prop([fc.double({ min: -50, max: 50, noNaN: true }), fc.double({ min: 0, max: 100, noNaN: true })])(
    "hold their values and end on round ticks",
    (low, span) => {
      const axis = roundAxis(low, low + span, 6);
      expect(axis.low).toBeLessThanOrEqual(low + 1e-6);
      expect(axis.high).toBeGreaterThanOrEqual(low + span - 1e-6);
      expect(axis.ticks.length).toBeGreaterThanOrEqual(2);
      expect(axis.ticks.length).toBeLessThanOrEqual(8);
      expect(axis.share(axis.low)).toBeCloseTo(0, 9);
      expect(axis.share(axis.high)).toBeCloseTo(1, 9);
    },
  );

  property.prop([fc.double({ min: -50, max: 50, noNaN: true }), fc.double({ min: 0.01, max: 100, noNaN: true })])(
    "no two ticks are written alike",
    (low, span) => {
      const { ticks, decimals } = roundAxis(low, low + span, 7);
      expect(decimals).toBe(stepDecimals(ticks[1] - ticks[0]));
      expect(new Set(ticks.map((tick) => tick.toFixed(decimals))).size).toBe(ticks.length);
    },
  );

  test("a cabinet that holds is drawn as one: the temperatures of a run span two kelvin at the least", () => {
    const held = (values: Float64Array, level: number) => values.map((_, i) => level + (i % 2) * 0.06);
    const [stretch] = run.stretches;
    const { curves } = stretch;
    const settled = {
      ...stretch,
      curves: {
        ...curves,
        cabinet: held(curves.cabinet, 25.5),
        evaporator: held(curves.evaporator, 25.5),
        ambient: held(curves.ambient, 25.5),
      },
    };
    const marks = runDrawing({ ...run, stretches: [settled] }, teller, 120, 720)?.marks ?? [];
    const ticks = marks.flatMap((mark) => (mark.kind === "text" && mark.anchor === "end" ? [Number(mark.text)] : []));
    expect(Math.max(...ticks) - Math.min(...ticks)).toBeGreaterThanOrEqual(2);
    expect(new Set(ticks).size).toBe(ticks.length);
  });

  test("of the time of day fall on round hours of the clock", () => {
    expect(hourAxis(0, 20, 8, -7).ticks.map((hours) => hours + 7)).toEqual([9, 12, 15, 18, 21, 24, 27]);
  });
});

for (const width of [340, 720]) {
  const scenes: [string, Scene | null][] = [
    ...weakOnGas.stretches.map((stretch, i): [string, Scene | null] => [
      `stretch ${i}`,
      stretchDrawing(stretch, events, teller, width),
    ]),
    ["run", runDrawing(run, teller, 120, width)],
  ];
  for (const [name, scene] of scenes) {
    test(`in the drawing of ${name} at ${width} px all words are inside and none covers another`, () => {
      if (scene === null) throw new Error("nothing drawn");
      expectWordsApart(scene);
    });
  }
}

test("a stretch's drawing has curve, fit, band, known-good, residuals, start of cold and its event", () => {
  const scene = stretchDrawing(gas, events, teller, 720);
  const paths = scene?.marks.flatMap((mark) => (mark.kind === "path" ? [mark.ink] : []));
  expect(paths).toEqual(
    expect.arrayContaining(["cabinet", "evaporator", "ambient", "fitted", "band", "knownGood", "residual", "event"]),
  );
  const texts = scene?.marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : []));
  expect(texts).toEqual(
    expect.arrayContaining([
      "temperature, °C",
      "readings less fit, K",
      "hours after lighting",
      "cold began",
      "A",
      "cabinet",
      "fitted",
    ]),
  );
});

test.each(languageCodes)(
  "in %s the start of cold is named beside the figures of the axis, not over them",
  (language) => {
    const told = { words: words(language), hand: handOf(language, 120) };
    const { deadTime } = gas.fit;
    if (!isKnown(deadTime)) throw new Error("the fixture's onset is known");
    const early = { ...gas, fit: { ...gas.fit, deadTime: { ...deadTime, value: 0.05 } } };
    const scene = stretchDrawing(early, [], told, 340);
    const texts = scene?.marks.filter((mark) => mark.kind === "text") ?? [];
    const named = texts.find(({ text }) => text === told.words.report.chart.coldBegan);
    const figures = texts.filter(({ anchor }) => anchor === "end");
    expect(figures.length).toBeGreaterThan(2);
    expect((named?.x ?? 0) - widthOfText(named?.text ?? "") / 2).toBeGreaterThan(
      Math.max(...figures.map(({ x }) => x)),
    );
  },
);

test("the drawing of a run is shaded where the fridge was off and nowhere else", () => {
  const marks = runDrawing(run, teller, 120, 720)?.marks ?? [];
  const shaded = marks.flatMap((mark) => (mark.kind === "path" && mark.ink === "stretch" ? [mark.d] : []));
  const off = run.stretches.filter(({ source }) => source === "off");
  expect(off.length).toBeGreaterThan(0);
  expect(off.length).toBeLessThan(run.stretches.length / 2);
  expect(shaded).toHaveLength(off.length);
});

describe("names along the top", () => {
  const half = 20;
  test("every heated stretch of a run is named on a telephone too", () => {
    const marks = runDrawing(run, teller, 120, 340)?.marks ?? [];
    const texts = marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : []));
    for (const { source } of run.stretches)
      if (source !== "off") expect(texts).toContain(teller.words.names.onSource(source));
  });

  test("a heated stretch keeps its name where the one off beside it has to give way, whichever comes first", () => {
    for (const offFirst of [true, false]) {
      const spans = [
        { from: 0, to: 25, half, isOff: offFirst },
        { from: 25, to: 60, half, isOff: !offFirst },
      ];
      const places = namePlaces(spans, 0, 62, 8);
      expect(places.map((place) => place !== null)).toEqual([!offFirst, offFirst]);
    }
  });

  property.prop([
    fc.array(fc.record({ length: fc.integer({ min: 1, max: 120 }), isOff: fc.boolean() }), {
      minLength: 1,
      maxLength: 9,
    }),
  ])("none covers another or stands outside, and one is left out only where there is no room", (lengths) => {
    const ends = lengths.map((_, i) => lengths.slice(0, i + 1).reduce((sum, { length }) => sum + length, 0));
    const spans = lengths.map(({ length, isOff }, i) => ({ from: ends[i] - length, to: ends[i], half, isOff }));
    const right = Math.max(ends[ends.length - 1], 2 * half);
    const places = namePlaces(spans, 0, right, 8);
    expect(places.some((place) => place !== null)).toBe(true);
    const shown = places.flatMap((place) => (place === null ? [] : [place])).sort((a, b) => a - b);
    for (const [i, place] of shown.entries()) {
      expect(place).toBeGreaterThanOrEqual(half);
      expect(place).toBeLessThanOrEqual(right - half);
      if (i > 0) expect(place - shown[i - 1]).toBeGreaterThanOrEqual(2 * half + 8);
    }
  });
});

describe("readings set aside", () => {
  const hour = 3_600_000;
  const fromMs = gas.startMs;
  const setAside = (readings: number, stepMs: number, value?: number): Rejection => ({
    log: gas.log,
    position: value === undefined ? "time" : "cabinet",
    reason: "spike",
    readings,
    unixMs: Float64Array.from({ length: readings }, (_, i) => fromMs + i * stepMs),
    values: new Float64Array(value === undefined ? 0 : readings).fill(value ?? 0),
  });
  /** Middles of the crosses of one sort. */
  const crossesOf = (rejected: readonly Rejection[]) => {
    const scene = runDrawing({ ...run, rejected }, teller, 120, 720);
    const path = scene?.marks.find((mark) => mark.kind === "path" && mark.ink === "rejected");
    const corners =
      path?.kind === "path"
        ? path.d
            .split(/[ML]/)
            .slice(1)
            .map((pair) => pair.split(" ").map(Number))
        : [];
    const middles = corners.flatMap(([x, y], i) => (i % 4 === 0 ? [[x + 3.5, y + 3.5]] : []));
    return { middles, plot: scene?.clips.main, scene };
  };

  test("each has a cross at its instant, at its value where the axis reaches it", () => {
    const { middles, plot } = crossesOf([setAside(4, 2 * hour, 20)]);
    if (plot === undefined) throw new Error("nothing drawn");
    expect(middles).toHaveLength(4);
    const last = Math.max(...run.stretches.map(({ endMs }) => endMs));
    middles.forEach(([x, y], i) => {
      expect(x).toBeCloseTo(plot.left + (plot.width * i * 2 * hour) / (last - fromMs), 0);
      expect(y).toBeGreaterThan(plot.top + 4);
      expect(y).toBeLessThan(plot.top + plot.height - 4);
    });
  });

  for (const [value, edge] of [
    [85, "top"],
    [-127, "foot"],
    [undefined, "foot"],
  ] as const) {
    test(`one of ${value ?? "a whole row"} has its cross at the ${edge} of the plot, and the axis stays as it was`, () => {
      const { middles, plot, scene } = crossesOf([setAside(1, hour, value)]);
      if (plot === undefined) throw new Error("nothing drawn");
      expect(middles[0][1]).toBeCloseTo(edge === "top" ? plot.top + 3.5 : plot.top + plot.height - 3.5, 0);
      const withoutCrosses = (one: Scene | null | undefined) =>
        one?.marks.filter((mark) => mark.kind !== "path" || mark.ink !== "rejected");
      expect(withoutCrosses(scene)).toEqual(runDrawing({ ...run, rejected: [] }, teller, 120, 720)?.marks);
    });
  }

  test("of ten thousand some hundred crosses stand for all, the first and the last among them", () => {
    const { middles } = crossesOf([setAside(10_000, 4000, 20)]);
    expect(middles.length).toBeGreaterThan(50);
    expect(middles.length).toBeLessThan(300);
    const { middles: ends } = crossesOf([setAside(2, 9999 * 4000, 20)]);
    expect([middles[0], middles.at(-1)]).toEqual(ends);
  });

  test("parts add up to all readings, however they lie", () => {
    const gaps = [1, 1, 1, 700, 1, 1, 9000, 40, 40];
    let at = fromMs;
    const unixMs = Float64Array.from([at, ...gaps.map((gap) => (at += gap * 1000))]);
    const parts = rejectedParts({ unixMs, values: unixMs.map((_, i) => i) });
    expect(parts.map(({ readings }) => readings)).toEqual([4, 3, 3]);
    expect(parts[1]).toMatchObject({ fromMs: unixMs[4], toMs: unixMs[6], lowest: 4, highest: 6 });
  });

  test("the sentence names the first times and how many follow, in either language", () => {
    const rejection = setAside(60, hour / 5, 85);
    expect(tellRejected(rejection, teller)).toMatch(/When: 4.June.07:00; .*; 57 times more up to 4.June.18:48/);
    const german = { words: words("de"), hand: handOf("de", 120) };
    expect(tellRejected(rejection, german)).toMatch(/Wann: 4..Juni.07:00; .*; noch 57-mal bis 4..Juni.18:48/);
  });

  test("one of a line that is not drawn has no cross", () => {
    expect(crossesOf([{ ...setAside(3, hour, 20), position: "boiler" }]).middles).toEqual([]);
  });
});

for (const [where, value] of [
  ["top", 30],
  ["bottom", 0],
] as const) {
  test(`names of lines that all end at the ${where} are spread and stay beside the panel`, () => {
    const panel = {
      box: { left: 0, top: 0, width: 100, height: 200 },
      x: hourAxis(0, 1, 2),
      y: roundAxis(0, 30, 4),
      clip: "main",
    };
    const ends = (["cabinet", "fitted", "evaporator", "ambient"] as const).map((ink) => ({ ink, name: ink, value }));
    const lines = endNames(panel, ends).flatMap((mark) => (mark.kind === "text" ? [mark.y] : []));
    const sorted = lines.sort((a, b) => a - b);
    sorted.slice(1).forEach((y, i) => {
      expect(y - sorted[i]).toBeGreaterThanOrEqual(14);
    });
    expect(sorted[0]).toBeGreaterThan(0);
    expect(sorted[3]).toBeLessThan(210);
  });
}

test("a stretch without readings has no drawing", () => {
  const empty = Object.fromEntries(
    Object.entries(gas.curves).map(([name]) => [name, name === "knownGood" ? null : new Float64Array()]),
  );
  expect(stretchDrawing({ ...gas, curves: empty as unknown as typeof gas.curves }, events, teller, 720)).toBeNull();
});

test("lines in one drawing differ in dashes or width, not in colour alone", () => {
  const { cabinet, evaporator, ambient, fitted, knownGood } = inks;
  const looks = [cabinet, evaporator, ambient, fitted, knownGood].map(({ width, dash }) =>
    JSON.stringify([width, dash]),
  );
  expect(new Set(looks).size).toBe(looks.length);
});

// WCAG 2.2: relative luminance and contrast ratio as defined there; 1.4.3 wants 4.5 : 1 for text.
function contrast(one: string, other: string): number {
  const luminance = (colour: string) => {
    const [r, g, b] = [1, 3, 5].map((at) => {
      const channel = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
      return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const [light, dark] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (light + 0.05) / (dark + 0.05);
}

test("the contrast formula gives 21 for black on white, as WCAG states", () => {
  expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 6);
});

for (const paper of ["light", "dark"] as const) {
  test(`words and lines in every ink stand out on ${paper} paper, shaded or not`, () => {
    for (const name of [
      "cabinet",
      "evaporator",
      "ambient",
      "fitted",
      "knownGood",
      "axis",
      "event",
      "rejected",
      "residual",
    ] as const) {
      expect(contrast(inks[name][paper], papers[paper]), name).toBeGreaterThanOrEqual(4.5);
      expect(contrast(inks[name][paper], inks.stretch[paper]), name).toBeGreaterThanOrEqual(3);
      expect(contrast(inks[name][paper], inks.band[paper]), name).toBeGreaterThanOrEqual(3);
    }
  });
}
