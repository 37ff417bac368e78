// A stretch as a chart of braille dots for the terminal. Lines are told apart by their pattern and by the
// names at their right ends; colour only helps.

import type { StretchFinding } from "../science/index.ts";
import { isKnown } from "../science/index.ts";
import { type Axis, atLeast, decimalsOf, hourAxis, roundAxis } from "./axis.ts";
import { type BrailleCanvas, brailleCanvas } from "./braille.ts";
import type { Teller } from "./telling.ts";
import { padEnd, padStart, visibleLength, wrap } from "./text-layout.ts";

export type ChartInk = "cabinet" | "evaporator" | "ambient" | "fitted";
export type Paint = (text: string, ink: ChartInk) => string;

/** Which dots of a line are drawn, counted along the time axis. */
const patterns: { readonly [I in Exclude<ChartInk, "fitted">]: (x: number) => boolean } = {
  ambient: (x) => x % 4 === 0,
  evaporator: (x) => x % 8 < 5,
  cabinet: () => true,
};
const samples: { readonly [I in ChartInk]: string } = {
  cabinet: "⠒⠒⠒⠒",
  evaporator: "⠒⠒⠂⠒⠒⠂",
  ambient: "⠂⠂⠂⠂",
  fitted: "+ + +",
};
const fittedMark = "+";
const onsetMark = "▲";
const chartRows = 13;
/** The temperature axis spans at least this. */
const leastKelvin = 6;
const labelColumns = 11;
const tickColumns = 5;

/** Lines of text, none wider than `width`; empty when the stretch has nothing to draw. */
export function terminalChart(stretch: StretchFinding, teller: Teller, width: number, paint: Paint): string[] {
  const { curves } = stretch;
  const drawn = (["ambient", "evaporator", "cabinet"] as const).filter((ink) => curves[ink].some(Number.isFinite));
  const lastHour = curves.hours.at(-1);
  if (drawn.length === 0 || lastHour === undefined || !(lastHour > 0)) return [];
  const seen = drawn.flatMap((ink) => [...curves[ink]].filter(Number.isFinite));
  const wide = Math.max(20, width - tickColumns - 1 - labelColumns);
  const y = roundAxis(...atLeast(leastKelvin, Math.min(...seen), Math.max(...seen)), 6);
  const x = hourAxis(0, lastHour, Math.floor(wide / 7));
  const canvas = brailleCanvas<ChartInk>(wide, chartRows);
  for (const ink of drawn) drawLine(canvas, curves.hours, curves[ink], x, y, ink);
  markFit(canvas, curves.hours, curves.fitted, x, y);

  const { chart } = teller.words.report;
  const onset = stretch.source !== "off" && isKnown(stretch.fit.deadTime) ? stretch.fit.deadTime.value : null;
  const labels = endLabels(stretch, drawn, y);
  const plot = canvas.rows(paint).map((row, index) => {
    const tick = y.ticks.find((value) => rowOf(y.share(value)) === index);
    const figure = tick === undefined ? "" : teller.hand.number(tick, y.decimals);
    const label = labels.get(index);
    const named = label === undefined ? "" : ` ${paint(chart.lines[label], label)}`;
    return `${padStart(figure, tickColumns)}${tick === undefined ? "│" : "┤"}${row}${named}`;
  });
  const title = stretch.source === "off" ? chart.hoursOff : chart.hours(stretch.source);
  const indent = " ".repeat(tickColumns + 1);
  const hasFit = curves.fitted.some(Number.isFinite);
  return [
    chart.temperature,
    ...plot,
    ...timeAxis(x, wide, onset, teller),
    indent + padStart(title, Math.floor((wide + title.length) / 2)),
    ...legend(drawn, hasFit, onset !== null, teller, width - indent.length, paint).map((line) => indent + line),
  ];
}

const rowOf = (share: number) => Math.min(chartRows - 1, Math.max(0, Math.round((1 - share) * (chartRows - 1))));
const dotOf = (share: number, high: number) => Math.round((1 - share) * (high - 4) + 1.5);

/** Each dot column shows the span of its readings, so that no extreme is lost. */
function drawLine(
  canvas: BrailleCanvas<ChartInk>,
  hours: Float64Array,
  values: Float64Array,
  x: Axis,
  y: Axis,
  ink: Exclude<ChartInk, "fitted">,
): void {
  const lows = new Float64Array(canvas.dotsWide).fill(Number.POSITIVE_INFINITY);
  const highs = new Float64Array(canvas.dotsWide).fill(Number.NEGATIVE_INFINITY);
  for (let i = 0; i < hours.length; i++) {
    if (!Number.isFinite(values[i])) continue;
    const column = Math.min(canvas.dotsWide - 1, Math.floor(x.share(hours[i]) * canvas.dotsWide));
    lows[column] = Math.min(lows[column], values[i]);
    highs[column] = Math.max(highs[column], values[i]);
  }
  for (let column = 0; column < canvas.dotsWide; column++) {
    if (!(lows[column] <= highs[column]) || !patterns[ink](column)) continue;
    const top = dotOf(y.share(highs[column]), canvas.dotsHigh);
    const bottom = dotOf(y.share(lows[column]), canvas.dotsHigh);
    for (let row = top; row <= bottom; row++) canvas.dot(column, row, ink);
  }
}

/** The fit is a row of marks over the cabinet's line: where it fits, the marks sit on the line. */
function markFit(canvas: BrailleCanvas<ChartInk>, hours: Float64Array, fitted: Float64Array, x: Axis, y: Axis): void {
  const every = 10;
  let nextColumn = every / 2;
  for (let i = 0; i < hours.length; i++) {
    const column = Math.floor(x.share(hours[i]) * canvas.dotsWide);
    if (column < nextColumn) continue;
    nextColumn += every;
    if (Number.isFinite(fitted[i]))
      canvas.mark(column, dotOf(y.share(fitted[i]), canvas.dotsHigh), fittedMark, "fitted");
  }
}

/** Names at the right end of the lines, moved to the next free row where two would meet. */
function endLabels(
  stretch: StretchFinding,
  drawn: readonly Exclude<ChartInk, "fitted">[],
  y: Axis,
): Map<number, ChartInk> {
  const labels = new Map<number, ChartInk>();
  const ends = drawn
    .map((ink) => ({ ink, end: stretch.curves[ink].findLast(Number.isFinite) ?? 0 }))
    .sort((a, b) => b.end - a.end);
  let free = 0;
  ends.forEach(({ ink, end }, index) => {
    const row = Math.min(Math.max(rowOf(y.share(end)), free), chartRows - (ends.length - index));
    labels.set(row, ink);
    free = row + 1;
  });
  return labels;
}

function timeAxis(x: Axis, wide: number, onset: number | null, { hand }: Teller): string[] {
  const line = new Array<string>(wide).fill("─");
  const figures = new Array<string>(wide + 4).fill(" ");
  const columnOf = (hours: number) => Math.min(wide - 1, Math.floor(x.share(hours) * wide));
  for (const tick of x.ticks) {
    const column = columnOf(tick);
    const figure = hand.number(tick, decimalsOf(tick));
    line[column] = "┬";
    [...figure].forEach((character, i) => {
      figures[Math.max(0, column - Math.floor(figure.length / 2)) + i] = character;
    });
  }
  if (onset !== null && onset >= 0 && onset <= x.high) line[columnOf(onset)] = onsetMark;
  const indent = " ".repeat(tickColumns);
  return [`${indent}└${line.join("")}`, `${indent} ${figures.join("").trimEnd()}`];
}

function legend(
  drawn: readonly ChartInk[],
  hasFit: boolean,
  hasOnset: boolean,
  { words }: Teller,
  width: number,
  paint: Paint,
): string[] {
  const { lines, coldBegan } = words.report.chart;
  const inks: readonly ChartInk[] = [...drawn.toReversed(), ...(hasFit ? ["fitted" as const] : [])];
  const entries = inks.map((ink) => `${paint(samples[ink], ink)} ${lines[ink]}`.replaceAll(" ", "\u00a0"));
  const all = hasOnset ? [...entries, `${onsetMark}\u00a0${coldBegan}`.replaceAll(" ", "\u00a0")] : entries;
  const widest = Math.max(...all.map(visibleLength));
  return wrap(all.map((entry) => padEnd(entry, Math.min(widest, 0))).join("  "), width).map((line) => line.trimStart());
}
