// A trip as a drawing: the cabinet's curve with its band over the time of day, and below it the strip of hours, each span
// a box that is empty, half or wholly filled as the cabinet lies against 8 °C, with its energy and its temperature.

import { msPerDay, msPerHour, msPerMinute } from "../../schema/index.ts";
import type { Trip } from "../../science/hot-days/index.ts";
import { hourAxis, roundAxisOf, tickFigure } from "../drawing/axis.ts";
import {
  acrossOf,
  band,
  downOf,
  endNames,
  letterSize,
  line,
  type Panel,
  straight,
  topLine,
  widthOfText,
  words,
  xAxis,
  yAxis,
} from "../drawing/chart-panel.ts";
import { type Box, boxPath, type Mark, pathThrough, type Scene } from "../drawing/scene.ts";
import type { Teller } from "../teller.ts";
import type { Mark as Against8, HourTelling } from "./hot-day-telling.ts";

/**
 * @param hours the trip's, told.
 * @param utcOffsetMinutes of the clock that the time axis shows.
 * @param width of the drawing, px; 340 serves a telephone, 720 paper and screens.
 * @returns null when nothing can be said of the trip.
 */
export function tripDrawing(
  trip: Trip,
  hours: readonly HourTelling[],
  teller: Teller,
  utcOffsetMinutes: number,
  width: number,
): Scene | null {
  const { curves } = trip;
  const { hotDay, report } = teller.words;
  if (!curves.cabinet.some(Number.isFinite)) return null;
  const names = hotDay.trip.lines;
  const left = 42;
  const plotWidth = width - left - Math.max(widthOfText(names.cabinet), widthOfText(names.ambient)) - 14;
  const seen = [...curves.ambient, ...curves.low, ...curves.high].filter(Number.isFinite);
  const lastHour = curves.hours[curves.hours.length - 1];
  const panel: Panel = {
    box: { left, top: 32, width: plotWidth, height: width < 500 ? 200 : 250 },
    x: hourAxis(0, lastHour, Math.floor(plotWidth / 60), hoursToMidnight(trip.startMs, utcOffsetMinutes)),
    y: roundAxisOf("Cel", teller.hand, Math.min(...seen), Math.max(...seen), 7),
    clip: "main",
  };
  const area = band(panel, "band", curves.hours, curves.low, curves.high);
  const stripTop = panel.box.top + panel.box.height + 46;
  const strip = stripOf(hours, trip.startMs, panel, stripTop);
  const last = (values: Float64Array) => values.findLast(Number.isFinite) ?? 0;
  return {
    width,
    height: stripTop + strip.height,
    clips: { main: panel.box },
    marks: [
      ...yAxis(panel, report.chart.temperature(teller.hand), tickFigure(panel.y, teller.hand), topLine),
      ...(area === null ? [] : [area]),
      ...[5, 8].map((limit) =>
        straight("limit", [left, downOf(panel, limit)], [left + plotWidth, downOf(panel, limit)]),
      ),
      line(panel, "ambient", curves.hours, curves.ambient),
      line(panel, "cabinet", curves.hours, curves.cabinet),
      ...xAxis(panel, report.chart.clock(teller.hand.offset()), (hour) =>
        teller.hand.clock(trip.startMs + hour * msPerHour),
      ),
      ...endNames(panel, [
        { ink: "cabinet", name: names.cabinet, value: last(curves.cabinet) },
        { ink: "ambient", name: names.ambient, value: last(curves.ambient) },
      ]),
      ...strip.marks,
    ],
  };
}

/** Narrower spans could not be told apart, px. */
const leastSpan = 11;
const boxHeight = 13;

function stripOf(hours: readonly HourTelling[], startMs: number, panel: Panel, top: number) {
  const perHour = acrossOf(panel, 1) - acrossOf(panel, 0);
  const together = [1, 2, 3, 4, 6, 12, 24].find((count) => count * perHour >= leastSpan) ?? 48;
  const rows = {
    letter: top + letterSize,
    box: top + letterSize + 8,
    beyond: top + letterSize + 30,
    figure: top + letterSize + 47,
  };
  let figureFree = 0;
  // The last hour ends the trip and has no span of its own.
  const spans = Array.from({ length: Math.ceil((hours.length - 1) / together) }, (_, at) =>
    hours.slice(at * together, Math.min((at + 1) * together, hours.length - 1)),
  );
  const marks = spans.flatMap((span, at): Mark[] => {
    const from = acrossOf(panel, (span[0].hour.unixMs - startMs) / msPerHour);
    const to = from + span.length * perHour;
    const worst = span.reduce((a, b) => (rank[b.mark] > rank[a.mark] ? b : a));
    const beyond = span.some(({ hour }) => hour.isExtrapolated) ? [waveMark(from, to, rows.beyond)] : [];
    const shown = from >= figureFree && at % figureEvery(together) === 0;
    if (shown) figureFree = from + widthOfText(worst.cabinet) + 4;
    const figure = shown ? [words(worst.cabinet, (from + to) / 2, rows.figure, "middle", "axis")] : [];
    return [
      ...boxMarks({ left: from + 0.5, top: rows.box, width: to - from - 1, height: boxHeight }, worst.mark),
      ...beyond,
      ...figure,
    ];
  });
  return { marks: [...energyLetters(hours, startMs, panel, rows.letter), ...marks], height: letterSize + 54 };
}

/** Each energy source's letter over the middle of its hours, where they are wide enough for it. */
function energyLetters(hours: readonly HourTelling[], startMs: number, panel: Panel, y: number): Mark[] {
  const across = ({ hour }: HourTelling) => acrossOf(panel, (hour.unixMs - startMs) / msPerHour);
  const starts = hours.slice(0, -1).flatMap(({ letter }, at) => (letter === hours[at - 1]?.letter ? [] : [at]));
  return starts.flatMap((at, index) => {
    const [from, to] = [across(hours[at]), across(hours[starts[index + 1] ?? hours.length - 1])];
    return to - from < leastSpan ? [] : [words(hours[at].letter, (from + to) / 2, y, "middle", "axis", { bold: true })];
  });
}

const figureEvery = (together: number) => (together === 1 ? 3 : 1);
const rank: { readonly [M in Against8]: number } = { below: 0, across: 1, above: 2, unknown: 3 };

/** Empty, half-filled from below, full, or crossed out. */
function boxMarks(box: Box, mark: Against8): Mark[] {
  const { left, top, width, height } = box;
  const frame: Mark = { kind: "path", d: boxPath(box), ink: "axis" };
  if (mark === "below") return [frame];
  if (mark === "unknown") {
    const cross = pathThrough([
      [left, top],
      [left + width, top + height],
      null,
      [left, top + height],
      [left + width, top],
    ]);
    return [frame, { kind: "path", d: cross, ink: "axis" }];
  }
  const filled = mark === "above" ? box : { left, top: top + height / 2, width, height: height / 2 };
  return [{ kind: "path", d: boxPath(filled), ink: "axis", filled: true }, frame];
}

/** A wave under the hours beyond what the runs saw. */
function waveMark(from: number, to: number, y: number): Mark {
  const middle = (from + to) / 2;
  const quarter = (to - from) / 4;
  const d = pathThrough([
    [from, y],
    [from + quarter, y - 3],
    [middle, y],
    [to - quarter, y + 3],
    [to, y],
  ]);
  return { kind: "path", d, ink: "axis" };
}

/** Hours from an instant back to the last midnight of the clock shown, as a negative number. */
function hoursToMidnight(unixMs: number, utcOffsetMinutes: number): number {
  const local = unixMs + utcOffsetMinutes * msPerMinute;
  return -(((local % msPerDay) + msPerDay) % msPerDay) / msPerHour;
}
