// How far below ambient the cabinet stands once it has settled, and the duty of a cycling thermostat.

import { msPerHour } from "../../schema/index.ts";
import type { RunEvent } from "../findings.ts";
import { type Answer, estimate, unknown } from "../numbers/estimate.ts";
import { fitStraightLine } from "../numbers/straight-line.ts";
import { meanBetween, type StretchView } from "../readings/stretch-view.ts";

/** A part counts as settled when the cabinet moves less than this against the ambient, K/h. */
const stillSlope = 0.4;
const settledHours = 1.5;

/** The cycling that ends this stretch's pull-down, if any. */
export const cyclingIn = (view: StretchView, events: readonly RunEvent[]): RunEvent | null =>
  events.find(
    (event) => event.kind === "cycling" && event.startMs >= view.stretch.startMs && event.startMs < view.stretch.endMs,
  ) ?? null;

/** Ambient minus cabinet over the settled end of the stretch, or over the cycling part. */
export function belowAmbient(view: StretchView, events: readonly RunEvent[]): Answer {
  const { ambient } = view;
  if (ambient === null) return unknown({ code: "no-ambient" });
  const cycling = cyclingIn(view, events);
  const from = cycling === null ? view.endHours - settledHours : (cycling.startMs - view.stretch.startMs) / msPerHour;
  const until = cycling === null ? view.endHours : (cycling.endMs - view.stretch.startMs) / msPerHour;
  const depthAt = (row: number) => ambient[row] - view.cabinet[row];
  const found = meanBetween(view, Math.max(0, from), until, depthAt, 5);
  if (found === null || view.endHours < settledHours) return unknown({ code: "not-settled" });
  if (cycling === null) {
    const rows = [...view.hours.keys()].filter(
      (row) => view.hours[row] >= from && view.hours[row] <= until && Number.isFinite(depthAt(row)),
    );
    const line = fitStraightLine(
      rows.map((row) => view.hours[row]),
      rows.map(depthAt),
    );
    if (line === null || !(Math.abs(line.slope) < stillSlope)) return unknown({ code: "not-settled" });
  }
  const { mean, standardError, readings } = found;
  return estimate("K", mean, mean - 2 * standardError, mean + 2 * standardError, { standardError, readings });
}

/** Share of the time that the thermostat lets the heat through. */
export function duty(view: StretchView, events: readonly RunEvent[]): Answer {
  const cycling = cyclingIn(view, events);
  if (cycling === null || cycling.size === null) return unknown({ code: "no-cycling" });
  // A cycle counted in or out at either end.
  const cycles = cycling.reason.code === "thermostat-cycles" ? Math.max(1, cycling.reason.cycles) : 1;
  const error = (0.5 * cycling.size * (1 - cycling.size)) / cycles;
  return estimate("1", cycling.size, Math.max(0, cycling.size - 2 * error), Math.min(1, cycling.size + 2 * error), {
    standardError: error,
  });
}
