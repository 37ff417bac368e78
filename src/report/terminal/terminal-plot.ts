// Lines over hours as braille dots for the terminal. They are told apart by their pattern and by the names at their
// right ends; colour only helps. What to plot is composed in terminal-chart.ts and comparison/comparison-text.ts.

import { type Axis, decimalsOf, tickFigure } from "../drawing/axis.ts";
import type { Hand } from "../hand.ts";
import { type BrailleCanvas, brailleCanvas } from "./braille.ts";
import { padStart, wrap } from "./text-layout.ts";

export interface PlotLine<Ink> {
  readonly ink: Ink;
  /** At its right end and in the legend; lines of one name are one entry. */
  readonly name: string;
  readonly sample: string;
  /** Which dots are drawn, counted along the time axis. */
  readonly pattern: (column: number) => boolean;
  readonly hours: Float64Array;
  readonly values: Float64Array;
}

export interface Plot<Ink> {
  readonly title: string;
  readonly hoursTitle: string;
  readonly x: Axis;
  readonly y: Axis;
  /** The most important last: it is drawn over the others. */
  readonly lines: readonly PlotLine<Ink>[];
  /** What is drawn over the lines. */
  readonly over?: (canvas: BrailleCanvas<Ink>, dotOf: (value: number) => number) => void;
  /** Marked on the time axis. */
  readonly onset: { readonly hours: number; readonly name: string } | null;
  /** Further entries of the legend: sample, name, ink. */
  readonly further?: readonly { readonly sample: string; readonly name: string; readonly ink: Ink }[];
}

const onsetMark = "▲";
const plotRows = 13;
const labelColumns = 11;
const tickColumns = 5;

/** How many characters of a line of this width the lines themselves take. */
export const plotWidth = (width: number) => Math.max(20, width - tickColumns - 1 - labelColumns);

/** Lines of text, none wider than `width`. */
export function terminalPlot<Ink>(
  plot: Plot<Ink>,
  hand: Hand,
  width: number,
  paint: (text: string, ink: Ink) => string,
): string[] {
  const { x, y, lines, onset } = plot;
  const wide = plotWidth(width);
  const canvas = brailleCanvas<Ink>(wide, plotRows);
  for (const line of lines) drawLine(canvas, line, x, y);
  plot.over?.(canvas, (value) => dotOf(y.share(value), canvas.dotsHigh));

  const labels = endLabels(lines, y);
  const rows = canvas.rows(paint).map((row, index) => {
    const tick = y.ticks.find((value) => rowOf(y.share(value)) === index);
    const figure = tick === undefined ? "" : tickFigure(y, hand)(tick);
    const label = labels.get(index);
    const named = label === undefined ? "" : ` ${paint(label.name, label.ink)}`;
    return `${padStart(figure, tickColumns)}${tick === undefined ? "│" : "┤"}${row}${named}`;
  });
  const indent = " ".repeat(tickColumns + 1);
  return [
    plot.title,
    ...rows,
    ...timeAxis(x, wide, onset?.hours ?? null, hand),
    indent + padStart(plot.hoursTitle, Math.floor((wide + plot.hoursTitle.length) / 2)),
    ...legend(plot, width - indent.length, paint).map((line) => indent + line),
  ];
}

const rowOf = (share: number) => Math.min(plotRows - 1, Math.max(0, Math.round((1 - share) * (plotRows - 1))));
const dotOf = (share: number, high: number) => Math.round((1 - share) * (high - 4) + 1.5);

/** Each dot column shows the span of its readings, so that no extreme is lost. */
function drawLine<Ink>(canvas: BrailleCanvas<Ink>, line: PlotLine<Ink>, x: Axis, y: Axis): void {
  const { hours, values, ink, pattern } = line;
  const lows = new Float64Array(canvas.dotsWide).fill(Number.POSITIVE_INFINITY);
  const highs = new Float64Array(canvas.dotsWide).fill(Number.NEGATIVE_INFINITY);
  for (let i = 0; i < hours.length; i++) {
    if (!Number.isFinite(values[i])) continue;
    const column = Math.min(canvas.dotsWide - 1, Math.floor(x.share(hours[i]) * canvas.dotsWide));
    if (column < 0) continue;
    lows[column] = Math.min(lows[column], values[i]);
    highs[column] = Math.max(highs[column], values[i]);
  }
  for (let column = 0; column < canvas.dotsWide; column++) {
    if (!(lows[column] <= highs[column]) || !pattern(column)) continue;
    const ends = [dotOf(y.share(highs[column]), canvas.dotsHigh), dotOf(y.share(lows[column]), canvas.dotsHigh)];
    for (let row = Math.min(...ends); row <= Math.max(...ends); row++) canvas.dot(column, row, ink);
  }
}

/** Names at the right end of the lines, moved to the next free row where two would meet. */
function endLabels<Ink>(lines: readonly PlotLine<Ink>[], y: Axis): Map<number, PlotLine<Ink>> {
  const labels = new Map<number, PlotLine<Ink>>();
  const ends = onePerName(lines)
    .map((line) => ({ line, share: y.share(line.values.findLast(Number.isFinite) ?? 0) }))
    .sort((a, b) => b.share - a.share);
  let free = 0;
  ends.forEach(({ line, share }, index) => {
    const row = Math.min(Math.max(rowOf(share), free), plotRows - (ends.length - index));
    labels.set(row, line);
    free = row + 1;
  });
  return labels;
}

const onePerName = <Named extends { readonly name: string }>(all: readonly Named[]) =>
  all.filter(({ name }, index) => all.findIndex((one) => one.name === name) === index);

function timeAxis(x: Axis, wide: number, onset: number | null, hand: Hand): string[] {
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
  if (onset !== null && onset >= x.low && onset <= x.high) line[columnOf(onset)] = onsetMark;
  const indent = " ".repeat(tickColumns);
  return [`${indent}└${line.join("")}`, `${indent} ${figures.join("").trimEnd()}`];
}

function legend<Ink>(
  { lines, onset, further = [] }: Plot<Ink>,
  width: number,
  paint: (text: string, ink: Ink) => string,
): string[] {
  const entries = [...onePerName(lines).toReversed(), ...further].map(({ sample, name, ink }) =>
    `${paint(sample, ink)} ${name}`.replaceAll(" ", "\u00a0"),
  );
  const all = onset === null ? entries : [...entries, `${onsetMark} ${onset.name}`.replaceAll(" ", "\u00a0")];
  return wrap(all.join("  "), width).map((line) => line.trimStart());
}
