// The drawings of a comparison as scenes: before and after laid on the start of cold, and the ratios against the margin.

import type { SourceChange } from "../../science/before-after/index.ts";
import { type Axis, decimalsOf, downwards, hourAxis, roundAxis, roundAxisOf, tickFigure } from "../drawing/axis.ts";
import {
  acrossOf,
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
} from "../drawing/chart-panel.ts";
import type { Ink } from "../drawing/inks.ts";
import { type Box, type Mark, pathThrough, type Scene, type Tallness } from "../drawing/scene.ts";
import type { Teller } from "../teller.ts";
import { curveLines, type RatioBar } from "./comparison-telling.ts";

/** Kelvin below ambient over hours since the start of cold; more is further down, as it is on a thermometer. */
export function curveAxes(
  change: SourceChange,
  teller: Teller,
  ticks: { x: number; y: number },
): { x: Axis; y: Axis } | null {
  const curves = curveLines(change, teller).map(({ curve }) => curve);
  const values = curves.flatMap(({ belowAmbient }) => [...belowAmbient].filter(Number.isFinite));
  const hours = curves.flatMap(({ hours: all }) => [all[0], all.at(-1) ?? Number.NaN]).filter(Number.isFinite);
  if (values.length === 0 || hours.length === 0) return null;
  const [first, last] = [Math.min(...hours), Math.max(...hours)];
  if (!(last > first)) return null;
  // A cabinet lags behind the room it stands in: a little above ambient needs no room of its own.
  const low = values.some((value) => value < -leastAbove) ? values.reduce((least, value) => Math.min(least, value)) : 0;
  const high = values.reduce((most, value) => Math.max(most, value), leastKelvin);
  return { x: hourAxis(first, last, ticks.x), y: downwards(roundAxisOf("K", teller.hand, low, high, ticks.y)) };
}

/** The temperature axis spans at least this. */
const leastKelvin = 6;
/** How far above ambient a cabinet has to be for the axis to show it, K. */
const leastAbove = 2;

/**
 * @param width of the drawing, px; 340 serves a telephone, 720 paper and screens.
 * @returns null when the source has no readings to draw.
 */
export function curvesDrawing(
  change: SourceChange,
  teller: Teller,
  width: number,
  tallness: Tallness = "usual",
): Scene | null {
  const { comparison, report } = teller.words;
  const lines = curveLines(change, teller).filter(({ curve }) => curve.belowAmbient.some(Number.isFinite));
  const left = 42;
  const right = Math.max(widthOfText(comparison.lines.before), widthOfText(comparison.lines.after)) + 14;
  const plotWidth = width - left - right;
  const usualHeight = width < 500 ? 220 : 280;
  const axes = curveAxes(change, teller, { x: Math.floor(plotWidth / 55), y: 7 });
  if (axes === null) return null;
  const panel: Panel = {
    box: { left, top: 44, width: plotWidth, height: tallness === "low" ? lowHeight : usualHeight },
    ...axes,
    clip: "main",
  };
  const hasOnset = lines.some(({ curve }) => curve.isFromOnset);
  const ends = (["after", "before"] as const).flatMap((ink) => {
    const last = lines.findLast(({ when }) => when === ink)?.curve.belowAmbient.findLast(Number.isFinite);
    return last === undefined ? [] : [{ ink, name: comparison.lines[ink], value: last }];
  });
  return {
    width,
    height: panel.box.top + panel.box.height + 46,
    clips: { main: panel.box },
    marks: [
      ...yAxis(panel, comparison.curvesAxis(teller.hand), tickFigure(panel.y, teller.hand), topLine),
      ...lines.map(({ when, curve }) => line(panel, when, curve.hours, curve.belowAmbient)),
      ...xAxis(panel, comparison.curvesHours, (value) => teller.hand.number(value, decimalsOf(value))),
      ...(hasOnset ? upright(panel, "axis", 0, report.chart.coldBegan, 0) : []),
      ...endNames(panel, ends),
    ],
  };
}

/** Room for the names at the lines' ends, px. */
const lowHeight = 154;

/** In per cent: where a change counts as the same, and from where on as worse or better. */
export const ratioLimits = (margin: number) => ({
  same: [100 * (1 - margin), 100 / (1 - margin)] as const,
  changed: [100 * (1 - margin / 2), 100 / (1 - margin / 2)] as const,
});

/** Open ends are drawn to the edge of the drawing. */
export function ratioAxis(bars: readonly RatioBar[], margin: number, ticks: number): Axis {
  const { same } = ratioLimits(margin);
  const ends = bars
    .flatMap(({ ratio: { low, high, value } }) => [low ?? value, value, high ?? value])
    .map((end) => 100 * end);
  return roundAxis(Math.min(...ends, same[0] - 10), Math.max(...ends, same[1] + 10), ticks);
}

/** Every bar has its name and its figure in a row of their own, above the strip in which it is drawn. */
const nameHeight = 22;
const stripHeight = 26;
const barHeight = nameHeight + stripHeight;

/** Each ratio's interval, its value marked, against what counts as the same. @returns null without any. */
export function ratiosDrawing(bars: readonly RatioBar[], margin: number, teller: Teller, width: number): Scene | null {
  if (bars.length === 0) return null;
  const { hand, words: own } = teller;
  const x = ratioAxis(bars, margin, Math.floor(width / 70));
  const box = { left: 14, top: 4, width: width - 28, height: bars.length * barHeight };
  const panel: Panel = { box, x, y: roundAxis(0, 1, 2), clip: "main" };
  return {
    width,
    height: box.top + box.height + 46,
    clips: { main: box },
    marks: [
      ...bars.flatMap((bar, index) => barMarks(bar, { ...panel, box: stripOf(box, index) }, margin, teller)),
      ...xAxis(panel, own.comparison.ratiosAxis, (value) => hand.number(value, x.decimals)),
    ],
  };
}

const stripOf = ({ left, top, width }: Box, index: number): Box => ({
  left,
  top: top + index * barHeight + nameHeight,
  width,
  height: stripHeight,
});

function barMarks({ name, ratio }: RatioBar, strip: Panel, margin: number, { hand }: Teller): Mark[] {
  const { left, top, width, height } = strip.box;
  const at = (share: number | null, open: number) => acrossOf(strip, share === null ? open : 100 * share);
  const [low, high] = [at(ratio.low, strip.x.low), at(ratio.high, strip.x.high)];
  const middle = top + height / 2;
  const end = (across: number, isOpen: boolean) =>
    isOpen ? [] : [straight("after", [across, middle - 5], [across, middle + 5])];
  const through = (ink: Ink, percent: number) =>
    straight(ink, [acrossOf(strip, percent), top], [acrossOf(strip, percent), top + height]);
  const { same, changed } = ratioLimits(margin);
  return [
    shade(strip, "same", same[0], same[1]),
    through("axis", 100),
    ...changed.map((percent) => through("limit", percent)),
    words(name, left, top - 6, "start", "axis", { bold: true }),
    words(hand.brief(ratio), left + width, top - 6, "end"),
    straight("after", [low, middle], [high, middle]),
    ...end(low, ratio.low === null),
    ...end(high, ratio.high === null),
    { kind: "path", d: diamond(acrossOf(strip, 100 * ratio.value), middle), ink: "after", filled: true },
  ];
}

const diamond = (x: number, y: number) =>
  `${pathThrough([
    [x - 6, y],
    [x, y - 6],
    [x + 6, y],
    [x, y + 6],
  ])}Z`;
