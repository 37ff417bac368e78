// Drawings in words, for those who cannot see them, and the letters under which drawings and lists know events.

import type { AlignedCurve } from "../../science/before-after/index.ts";
import type { Analysis } from "../../science/index.ts";
import { tellRejected } from "../rejected-telling.ts";
import type { Teller } from "../teller.ts";
import { plain } from "../terminal/text-layout.ts";
import { type DrawnRun, type RunCurves, runCurves } from "./run-drawing.ts";
import type { LetteredEvent } from "./stretch-drawing.ts";

/** The readings of a stretch or a run: where each line begins and ends, where it is coldest, and what the fit misses. */
export function describeReadings(
  curves: Pick<RunCurves, "hours" | "cabinet" | "evaporator" | "ambient"> & { readonly residual?: Float64Array },
  { words, hand }: Teller,
): string {
  const { chart } = words.report;
  const lines = (["cabinet", "evaporator", "ambient"] as const).flatMap((name) => {
    const values = curves[name];
    const first = values.find(Number.isFinite);
    const last = values.findLast(Number.isFinite);
    if (first === undefined || last === undefined) return [];
    let coldest = values.findIndex(Number.isFinite);
    values.forEach((value, i) => {
      if (value < values[coldest]) coldest = i;
    });
    const celsius = (value: number) => hand.quantity(value, "Cel", 1);
    const extra = name === "ambient" ? "" : chart.lowest(celsius(values[coldest]), hand.span(curves.hours[coldest]));
    return [chart.goes(chart.lines[name], celsius(first), celsius(last), extra)];
  });
  const residuals = [...(curves.residual ?? [])].filter(Number.isFinite);
  const missed = Math.sqrt(residuals.reduce((sum, value) => sum + value ** 2, 0) / residuals.length);
  const fit = residuals.length === 0 ? [] : [chart.fitsWithin(hand.quantity(missed, "K", 2))];
  return lines.length === 0 ? chart.noReadings : [...lines, ...fit].join(" ");
}

/** A whole run: its readings, and those that were set aside. */
export const describeRun = ({ stretches, rejected }: DrawnRun, teller: Teller): string =>
  [
    describeReadings(runCurves(stretches), teller),
    ...rejected.map((rejection) => plain(tellRejected(rejection, teller))),
  ].join(" ");

/** How far below ambient a line of a comparison ends, and when. */
export function describeAligned(
  { name, curve }: { readonly name: string; readonly curve: AlignedCurve },
  { words: { comparison }, hand }: Teller,
): string {
  const last = curve.belowAmbient.findLastIndex(Number.isFinite);
  const end = hand.quantity(curve.belowAmbient[last], "K", 1);
  const after = hand.span(curve.hours[last]);
  return curve.isFromOnset ? comparison.reaches(name, end, after) : comparison.reachesFromSwitchOn(name, end, after);
}

/** An analysis' events with their letters, in the order in which they are listed. */
export const letteredEvents = ({ events }: Analysis): readonly LetteredEvent[] =>
  events.map(({ log, startMs, endMs }, index) => ({ letter: letterOf(index), log, startMs, endMs }));

/** A to Z, then AA, AB ... */
export function letterOf(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : letterOf(Math.floor(index / 26) - 1) + last;
}
