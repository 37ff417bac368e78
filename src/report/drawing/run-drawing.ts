// The drawing of a whole run: every stretch side by side over the time of day, named along the top, with
// the events as letters and the readings set aside as crosses.

import { msPerDay, msPerHour, msPerMinute } from "../../schema/index.ts";
import { type Analysis, keepExtremes, type Rejection, type StretchFinding } from "../../science/index.ts";
import type { Teller } from "../teller.ts";
import { atLeast, hourAxis, leastTemperatureSpan, roundAxisOf, tickFigure } from "./axis.ts";
import {
  acrossOf,
  crosses,
  endNames,
  line,
  type Panel,
  shade,
  straight,
  topLine,
  upright,
  widthOfText,
  words,
  xAxis,
  yAxis,
} from "./chart-panel.ts";
import { namePlaces } from "./name-places.ts";
import type { Mark, Scene, Tallness } from "./scene.ts";
import type { LetteredEvent } from "./stretch-drawing.ts";

/** The readings of a run, its stretches one after the other; hours from the first stretch's start. */
export interface RunCurves {
  readonly startMs: number;
  readonly hours: Float64Array;
  readonly evaporator: Float64Array;
  readonly cabinet: Float64Array;
  readonly ambient: Float64Array;
}

/** Puts the stretches of one log into one series; a gap stays a gap. */
export function runCurves(stretches: readonly StretchFinding[]): RunCurves {
  const ordered = [...stretches].sort((a, b) => a.startMs - b.startMs);
  const startMs = ordered[0].startMs;
  const joined = (pick: (stretch: StretchFinding) => Float64Array) =>
    Float64Array.from(ordered.flatMap((stretch) => [...pick(stretch), Number.NaN]));
  return {
    startMs,
    hours: joined((stretch) => stretch.curves.hours.map((h) => h + (stretch.startMs - startMs) / msPerHour)),
    evaporator: joined((stretch) => stretch.curves.evaporator),
    cabinet: joined((stretch) => stretch.curves.cabinet),
    ambient: joined((stretch) => stretch.curves.ambient),
  };
}

/** The lines there are to draw. */
const runInks = (curves: RunCurves) => runPositions.filter((ink) => curves[ink].some(Number.isFinite));

/** What there is to draw of one log. */
export interface DrawnRun {
  readonly stretches: readonly StretchFinding[];
  readonly events: readonly LetteredEvent[];
  readonly rejected: readonly Rejection[];
}

/** An analysis' findings about one of its logs. */
export const drawnRun = (analysis: Analysis, log: string, events: readonly LetteredEvent[]): DrawnRun => ({
  stretches: analysis.stretches.filter((stretch) => stretch.log === log),
  events: events.filter((event) => event.log === log),
  rejected: analysis.rejected.filter((rejection) => rejection.log === log),
});

/** How the lines of the drawing are told apart, for its caption. */
export const runPatterns = (run: DrawnRun) => [
  ...runInks(runCurves(run.stretches)),
  ...(run.rejected.some(isMarked) ? (["rejected"] as const) : []),
];

/** Those of lines that are drawn, and whole rows; of other probes only the list tells. */
const isMarked = ({ position, unixMs }: Rejection) =>
  unixMs.length > 0 && (position === "time" || runPositions.some((drawn) => drawn === position));

const runPositions = ["cabinet", "evaporator", "ambient"] as const;

/**
 * @param utcOffsetMinutes of the log's own clock, which the time axis shows.
 * @returns null when there are no readings to draw.
 */
export function runDrawing(
  { stretches, events, rejected }: DrawnRun,
  teller: Teller,
  utcOffsetMinutes: number,
  width: number,
  tallness: Tallness = "usual",
): Scene | null {
  const curves = runCurves(stretches);
  const drawn = runInks(curves);
  const lastHour = (Math.max(...stretches.map((stretch) => stretch.endMs)) - curves.startMs) / msPerHour;
  if (drawn.length === 0 || !(lastHour > 0)) return null;

  const { chart } = teller.words.report;
  const left = 42;
  const right = Math.max(...drawn.map((ink) => widthOfText(chart.lines[ink]))) + 14;
  const plotWidth = width - left - right;
  const usualHeight = width < 500 ? 200 : 240;
  const seen = drawn.flatMap((ink) => [...curves[ink]].filter(Number.isFinite));
  const panel: Panel = {
    box: { left, top: 78, width: plotWidth, height: tallness === "low" ? lowHeight : usualHeight },
    x: hourAxis(0, lastHour, Math.floor(plotWidth / 60), hoursToMidnight(curves.startMs, utcOffsetMinutes)),
    y: roundAxisOf(
      "Cel",
      teller.hand,
      ...atLeast(
        leastTemperatureSpan,
        seen.reduce((a, b) => Math.min(a, b)),
        seen.reduce((a, b) => Math.max(a, b)),
      ),
      6,
    ),
    clip: "main",
  };
  const timeFigure = (hours: number) => teller.hand.clock(curves.startMs + hours * msPerHour);
  return {
    width,
    height: panel.box.top + panel.box.height + 46,
    clips: { main: panel.box },
    marks: [
      ...stretchBands(stretches, curves.startMs, panel, teller, width),
      ...yAxis(panel, chart.temperature(teller.hand), tickFigure(panel.y, teller.hand), topLine),
      ...drawn.toReversed().map((ink) => line(panel, ink, curves.hours, curves[ink])),
      ...rejected.filter(isMarked).map((rejection) => rejectedMarks(rejection, curves.startMs, panel)),
      ...xAxis(panel, chart.clock(teller.hand.offset()), timeFigure),
      ...events.flatMap(({ letter, startMs }) =>
        upright(panel, "event", (startMs - curves.startMs) / msPerHour, letter, 0),
      ),
      ...endNames(
        panel,
        drawn.map((ink) => ({ ink, name: chart.lines[ink], value: curves[ink].findLast(Number.isFinite) ?? 0 })),
      ),
    ],
  };
}

/** Room for the names at the lines' ends, px. */
const lowHeight = 120;

/** Where thousands lie together, the first, lowest, highest and last of each short span stand for them. */
function rejectedMarks({ unixMs, values }: Rejection, startMs: number, panel: Panel): Mark {
  const heights = values.length === 0 ? new Float64Array(unixMs.length) : values;
  const whole = { fromUnixMs: Number.NEGATIVE_INFINITY, toUnixMs: Number.POSITIVE_INFINITY };
  const { indices } = keepExtremes(unixMs, heights, whole, Math.ceil(panel.box.width / 5));
  const hours = Float64Array.from(indices, (i) => (unixMs[i] - startMs) / msPerHour);
  // Of a whole row there is no value: its cross stands at the foot.
  return crosses(
    panel,
    "rejected",
    hours,
    Float64Array.from(indices, (i) => values[i] ?? Number.NaN),
  );
}

/**
 * Every stretch's name over its span; shaded where nothing heated. A name that has no room moves up a row, and is left to
 * the table where that row is taken too.
 */
function stretchBands(
  stretches: readonly StretchFinding[],
  startMs: number,
  panel: Panel,
  { words: own }: Teller,
  drawingWidth: number,
): Mark[] {
  const { left, top, height } = panel.box;
  const spans = [...stretches]
    .sort((a, b) => a.startMs - b.startMs)
    .map((stretch) => {
      const hours = { from: (stretch.startMs - startMs) / msPerHour, to: (stretch.endMs - startMs) / msPerHour };
      const name = own.names.onSource(stretch.source);
      const [from, to] = [acrossOf(panel, hours.from), acrossOf(panel, hours.to)];
      return { hours, name, from, to, half: widthOfText(name) / 2, isOff: stretch.source === "off" };
    });
  const inRow = (row: readonly (typeof spans)[number][], down: number) => {
    const places = namePlaces(row, left, drawingWidth, 5);
    return {
      titles: row.flatMap(({ name }, i): Mark[] => {
        const middle = places[i];
        return middle === null ? [] : [words(name, middle, down, "middle", "axis", { bold: true })];
      }),
      left: row.filter((_, i) => places[i] === null),
    };
  };
  const lower = inRow(spans, top - 24);
  const upper = inRow(lower.left, top - 42);
  return [
    ...spans.flatMap(({ hours, from, isOff }) => [
      ...(isOff ? [shade(panel, "stretch", hours.from, hours.to)] : []),
      straight("axis", [from, top - 22], [from, top + height]),
    ]),
    ...lower.titles,
    ...upper.titles,
  ];
}

/** Hours from an instant back to the last midnight of the log's clock, as a negative number. */
function hoursToMidnight(unixMs: number, utcOffsetMinutes: number): number {
  const local = unixMs + utcOffsetMinutes * msPerMinute;
  return -(((local % msPerDay) + msPerDay) % msPerDay) / msPerHour;
}
