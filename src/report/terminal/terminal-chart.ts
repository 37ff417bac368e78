// A stretch as a chart for the terminal: temperatures, and the fit as marks on the cabinet's line.

import type { StretchFinding } from "../../science/index.ts";
import { isKnown } from "../../science/index.ts";
import { type Axis, atLeast, hourAxis, roundAxisOf } from "../drawing/axis.ts";
import type { Teller } from "../teller.ts";
import type { BrailleCanvas } from "./braille.ts";
import { plotWidth, terminalPlot } from "./terminal-plot.ts";

export type ChartInk = "cabinet" | "evaporator" | "ambient" | "fitted";
export type Paint = (text: string, ink: ChartInk) => string;

/** Which dots of a line are drawn, counted along the time axis. */
const patterns: { readonly [I in Exclude<ChartInk, "fitted">]: (column: number) => boolean } = {
  ambient: (column) => column % 4 === 0,
  evaporator: (column) => column % 8 < 5,
  cabinet: () => true,
};
const samples: { readonly [I in ChartInk]: string } = {
  cabinet: "⠒⠒⠒⠒",
  evaporator: "⠒⠒⠂⠒⠒⠂",
  ambient: "⠂⠂⠂⠂",
  fitted: "+ + +",
};
const fittedMark = "+";
/** The temperature axis spans at least this. */
const leastKelvin = 6;

/** Lines of text, none wider than `width`; empty when the stretch has nothing to draw. */
export function terminalChart(stretch: StretchFinding, teller: Teller, width: number, paint: Paint): string[] {
  const { curves } = stretch;
  const drawn = (["ambient", "evaporator", "cabinet"] as const).filter((ink) => curves[ink].some(Number.isFinite));
  const lastHour = curves.hours.at(-1);
  if (drawn.length === 0 || lastHour === undefined || !(lastHour > 0)) return [];
  const seen = drawn.flatMap((ink) => [...curves[ink]].filter(Number.isFinite));
  const x = hourAxis(0, lastHour, Math.floor(plotWidth(width) / 7));
  const { chart } = teller.words.report;
  return terminalPlot<ChartInk>(
    {
      title: chart.temperature(teller.hand),
      hoursTitle: stretch.source === "off" ? chart.hoursOff : chart.hours(stretch.source),
      x,
      y: roundAxisOf("Cel", teller.hand, ...atLeast(leastKelvin, Math.min(...seen), Math.max(...seen)), 6),
      lines: drawn.map((ink) => ({
        ink,
        name: chart.lines[ink],
        sample: samples[ink],
        pattern: patterns[ink],
        hours: curves.hours,
        values: curves[ink],
      })),
      over: (canvas, dotOf) => markFit(canvas, curves.hours, curves.fitted, x, dotOf),
      onset:
        stretch.source !== "off" && isKnown(stretch.fit.deadTime)
          ? { hours: stretch.fit.deadTime.value, name: chart.coldBegan }
          : null,
      further: curves.fitted.some(Number.isFinite)
        ? [{ sample: samples.fitted, name: chart.lines.fitted, ink: "fitted" }]
        : [],
    },
    teller.hand,
    width,
    paint,
  );
}

/** The fit is a row of marks over the cabinet's line: where it fits, the marks sit on the line. */
function markFit(
  canvas: BrailleCanvas<ChartInk>,
  hours: Float64Array,
  fitted: Float64Array,
  x: Axis,
  dotOf: (value: number) => number,
): void {
  const every = 10;
  let nextColumn = every / 2;
  for (let i = 0; i < hours.length; i++) {
    const column = Math.floor(x.share(hours[i]) * canvas.dotsWide);
    if (column < nextColumn) continue;
    nextColumn += every;
    if (Number.isFinite(fitted[i])) canvas.mark(column, dotOf(fitted[i]), fittedMark, "fitted");
  }
}
