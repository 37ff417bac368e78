// The drawing of one stretch: temperatures with the fitted curve and its band above, what the fit misses
// below, start of cold and events marked. Composed as a scene; scene-to-svg.ts and the PDF draw it.

import { msPerHour } from "../../schema/index.ts";
import type { Answer, StretchCurves, StretchFinding } from "../../science/index.ts";
import { isKnown } from "../../science/index.ts";
import type { Teller } from "../teller.ts";
import { atLeast, decimalsOf, hourAxis, roundAxisOf, tickFigure } from "./axis.ts";
import {
  band,
  endNames,
  line,
  type Panel,
  shade,
  straight,
  topLine,
  upright,
  widthOfText,
  xAxis,
  yAxis,
} from "./chart-panel.ts";
import type { Ink } from "./inks.ts";
import type { Mark, Scene, Tallness } from "./scene.ts";

/** An event as drawings know it: the letter under which it is listed. */
export interface LetteredEvent {
  readonly letter: string;
  readonly log: string;
  readonly startMs: number;
  readonly endMs: number;
}

/**
 * @param width of the drawing, px; 340 serves a telephone, 720 paper and screens.
 * @param tallness a low one leaves out what the fit misses.
 * @returns null when the stretch has no readings to draw.
 */
export function stretchDrawing(
  stretch: StretchFinding,
  events: readonly LetteredEvent[],
  teller: Teller,
  width: number,
  tallness: Tallness = "usual",
): Scene | null {
  const { curves } = stretch;
  const lastHour = curves.hours.at(-1) ?? 0;
  const lines = linesToDraw(stretch);
  if (!(lastHour > 0) || lines.length === 0) return null;

  const { chart } = teller.words.report;
  const names = lines.map(({ ink }) => chart.lines[ink]);
  const left = 42;
  const right = Math.max(...names.map(widthOfText)) + 14;
  const top = 44;
  const usualHeight = width < 500 ? 230 : 310;
  const mainHeight = tallness === "low" ? lowHeight : usualHeight;
  const plotWidth = width - left - right;
  const x = hourAxis(0, lastHour, Math.floor(plotWidth / 55));
  const y = roundAxisOf("Cel", teller.hand, ...atLeast(leastKelvin, ...rangeOf(lines.map(({ ys }) => ys))), 7);
  const main: Panel = { box: { left, top, width: plotWidth, height: mainHeight }, x, y, clip: "main" };
  const hourFigure = (value: number) => teller.hand.number(value, decimalsOf(value));
  const hoursTitle = stretch.source === "off" ? chart.hoursOff : chart.hours(stretch.source);

  const showsMisses = tallness === "usual" && curves.residual.some(Number.isFinite);
  const misses = showsMisses ? residualPanel(main, curves, teller) : null;
  const below =
    misses === null
      ? []
      : [
          ...yAxis(misses, chart.residual(teller.hand), tickFigure(misses.y, teller.hand)),
          straight("axis", [left, zeroOf(misses)], [left + plotWidth, zeroOf(misses)]),
          line(misses, "residual", curves.hours, curves.residual),
          ...xAxis(misses, hoursTitle, hourFigure),
        ];
  const lowest = misses ?? main;
  return {
    width,
    height: lowest.box.top + lowest.box.height + 46,
    clips: misses === null ? { main: main.box } : { main: main.box, misses: misses.box },
    marks: [
      ...eventShades(stretch, events, main),
      ...yAxis(main, chart.temperature(teller.hand), tickFigure(y, teller.hand), topLine),
      ...bandOf(main, curves),
      ...lines.toReversed().map(({ ink, xs, ys }) => line(main, ink, xs, ys)),
      ...xAxis(main, hoursTitle, misses === null ? hourFigure : null),
      ...uprights(stretch, events, main, chart.coldBegan),
      ...endNames(
        main,
        lines.map(({ ink, ys }, index) => ({ ink, name: names[index], value: ys.findLast(Number.isFinite) ?? 0 })),
      ),
      ...below,
    ],
  };
}

/** Room for five names at the lines' ends, and as tall with its axes as a low drawing of the whole run, px. */
const lowHeight = 154;

/** The temperature axis spans at least this. */
const leastKelvin = 6;

type LineInk = "cabinet" | "evaporator" | "ambient" | "fitted" | "knownGood";
export interface Line {
  readonly ink: LineInk & Ink;
  readonly xs: Float64Array;
  readonly ys: Float64Array;
}

/** The lines there are to draw, the most important first. */
export function linesToDraw(stretch: StretchFinding): Line[] {
  const { curves, fit } = stretch;
  const measured = (["fitted", "cabinet", "evaporator", "ambient"] as const).map((ink) => ({
    ink,
    xs: curves.hours,
    ys: curves[ink],
  }));
  const knownGood = knownGoodLine(curves, fit.deadTime);
  const all: Line[] = knownGood === null ? measured : [...measured, knownGood];
  return all.filter(({ ys }) => ys.some(Number.isFinite));
}

/** As far below this stretch's ambient as known-good runs were below theirs, counted from the start of cold. */
function knownGoodLine({ knownGood, hours, ambient }: StretchCurves, deadTime: Answer): Line | null {
  if (knownGood === null || !isKnown(deadTime)) return null;
  const xs = knownGood.hoursSinceOnset.map((h) => h + deadTime.value);
  const last = hours.at(-1) ?? 0;
  let row = 0;
  const ys = xs.map((x, i) => {
    while (row < hours.length - 1 && hours[row] < x) row++;
    return x > last ? Number.NaN : ambient[row] - knownGood.belowAmbient[i];
  });
  return { ink: "knownGood", xs, ys };
}

function rangeOf(series: readonly Float64Array[]): [number, number] {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const values of series) {
    for (const value of values) {
      if (!Number.isFinite(value)) continue;
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
  }
  return [low, high];
}

function residualPanel(main: Panel, curves: StretchCurves, { hand }: Teller): Panel {
  const [low, high] = rangeOf([curves.residual]);
  const reach = Math.max(Math.abs(low), Math.abs(high), 0.1);
  const { left, top, width, height } = main.box;
  const box = { left, top: top + height + 40, width, height: 74 };
  return { box, x: main.x, y: roundAxisOf("K", hand, -reach, reach, 4), clip: "misses" };
}

const zeroOf = ({ box, y }: Panel) => box.top + (1 - y.share(0)) * box.height;

function bandOf(main: Panel, { hours, bandLow, bandHigh }: StretchCurves): Mark[] {
  const area = band(main, "band", hours, bandLow, bandHigh);
  return area === null ? [] : [area];
}

/** Events that touch the stretch, in hours from its start. */
const eventsWithin = ({ log, startMs, endMs }: StretchFinding, events: readonly LetteredEvent[]) =>
  events
    .filter((event) => event.log === log && event.endMs >= startMs && event.startMs <= endMs)
    .map(({ letter, startMs: from, endMs: to }) => ({
      letter,
      from: Math.max(0, (from - startMs) / msPerHour),
      to: (Math.min(to, endMs) - startMs) / msPerHour,
    }));

const eventShades = (stretch: StretchFinding, events: readonly LetteredEvent[], main: Panel): Mark[] =>
  eventsWithin(stretch, events).map(({ from, to }) => shade(main, "stretch", from, to));

function uprights(stretch: StretchFinding, events: readonly LetteredEvent[], main: Panel, coldBegan: string): Mark[] {
  const { deadTime } = stretch.fit;
  const lettered = eventsWithin(stretch, events).flatMap(({ letter, from }) => upright(main, "event", from, letter, 0));
  if (stretch.source === "off" || !isKnown(deadTime)) return lettered;
  return [...upright(main, "axis", deadTime.value, coldBegan, 0), ...lettered];
}
