// How deep one stretch brought the cabinet under full cooling, read three ways: from the end of its curve, from what a
// thermostat held over its duty, from where it stood still. depth-law.ts draws its law through these.

import { msPerHour } from "../../schema/index.ts";
import type { FittedStretch, StretchEvidence } from "../evidence/run-evidence.ts";
import { belowAmbient, cyclingIn, duty } from "../evidence/settled-depth.ts";
import { estimate, isKnown } from "../numbers/estimate.ts";
import { slowEnd } from "../pull-down/slow-end.ts";
import { meanBetween } from "../readings/stretch-view.ts";

/** A point is a stretch: how deep it settled, or would have settled, under full cooling. */
export interface SettledDepth {
  readonly log: string;
  readonly startMs: number;
  /** Mean ambient of the stretch, °C. */
  readonly ambient: number;
  /** Kelvin below ambient. */
  readonly depth: number;
  /** Of this depth as a measurement; the spread from run to run comes on top. */
  readonly standardError: number;
  /** Where the number comes from: the fitted curve's end, a settled cabinet, or a thermostat's share of full heat. */
  readonly from: "fit" | "settled" | "duty";
}

/** How deep one stretch settled, or would have settled, under full cooling; null when it does not show it. */
export function settledDepth(evidence: StretchEvidence): SettledDepth | null {
  const { ambient, ambientError, stretch, run } = evidence;
  const found = evidence.warmGoods
    ? (depthPastGoods(evidence) ?? heldDepth(evidence))
    : (fittedDepth(evidence) ?? heldDepth(evidence) ?? stillDepth(evidence));
  if (found === null) return null;
  const standardError = Math.hypot(found.standardError, ambientError);
  return { log: run.log, startMs: stretch.startMs, ambient, ...found, standardError };
}

/** How deep a stretch came that tells no settled depth for the goods in it, K: they kept it from going deeper. */
export function depthAtLeast(evidence: StretchEvidence): number | null {
  if (!evidence.warmGoods || settledDepth(evidence) !== null) return null;
  const { view } = evidence;
  const below = (row: number) => (view.ambient?.[row] ?? Number.NaN) - view.cabinet[row];
  return meanBetween(view, view.endHours - lastHours, view.endHours, below)?.mean ?? null;
}

/** Its last readings, h. */
const lastHours = 0.5;

type Depth = Pick<SettledDepth, "depth" | "standardError" | "from">;

/**
 * What one mode misses of the depth, relative: a share of what the stretch did not see of the curve, on average too
 * little, and an error of its own. Simulated fridges, tests/bench/hot-day-study.ts.
 */
const unseenMiss = { share: 0.17, error: 0.14 } as const;

/** Two probes some 0.2 K off each, and air that wanders, K. */
const probesError = 0.4;

/** Shorter curves are no guide to their end, h after the onset. */
const leastFittedHours = 4;

/** The end of the fitted curve; truer than the last readings, which a falling cabinet or a drifting ambient move. */
function fittedDepth(evidence: StretchEvidence): Depth | null {
  const { fitted } = evidence;
  if ("why" in fitted) return null;
  const { fit, hoursAfterOnset } = fitted.cabinetFit;
  if (hoursAfterOnset < leastFittedHours) return null;
  const { rate, depth: end } = fit.pullDown;
  const own = endError(evidence, fitted, end);
  if (own === null) return null;
  const unseen = Math.exp(-rate * hoursAfterOnset);
  const modelError = Math.hypot(probesError, end * unseenMiss.error * unseen);
  return { depth: end * (1 + unseenMiss.share * unseen), standardError: Math.hypot(own, modelError), from: "fit" };
}

/** The cabinet of a fall that goods slowed is at its end when no more than this is left, K. */
const leastLeft = 0.7;

/** Goods long cold: the curve's end is then that of its slow mode. */
function depthPastGoods({ fitted }: StretchEvidence): Depth | null {
  if ("why" in fitted) return null;
  const { fit } = fitted.cabinetFit;
  const end = slowEnd(fit);
  if (end === null || !(end.left < leastLeft)) return null;
  const depth = fit.pullDown.depth + end.further;
  return { depth, standardError: Math.hypot(probesError, end.left, end.further / 2), from: "fit" };
}

/** What the readings leave open of a curve's end; null when they leave it anywhere. */
function endError(evidence: StretchEvidence, { judged }: FittedStretch, end: number): number | null {
  const { depth } = judged.numbers;
  if (isKnown(depth)) return depth.standardError ?? 0;
  // A soft start may move the curve's end within the error of what was not seen.
  if (depth.why.code === "soft-start-possible") return 0;
  // An open profile may leave it anywhere; where the cabinet nearly stands still, an end close by is the better guess.
  const still = stillDepth(evidence);
  const isNear = still !== null && Math.abs(end - still.depth) < 3 * still.standardError;
  return isNear ? Math.hypot(still.standardError, (end - still.depth) / 2) : null;
}

/**
 * A cabinet that moves up to 0.4 K per hour still counts as settled, in air that moves too: it may have this far to go,
 * or still hold this much of the source before, K. Simulated fridges, tests/bench/hot-day-study.ts.
 */
const stillMovingError = 1.4;

/** A cabinet that stands at ambient is told from one whose cold has yet to begin after so long, h. */
const latestOnsetHours = 6;

function stillDepth({ view, events, fitted }: StretchEvidence): Depth | null {
  const why = "why" in fitted ? fitted.why.code : null;
  if (cyclingIn(view, events) !== null || (why === "no-onset" && view.endHours < latestOnsetHours)) return null;
  const settled = belowAmbient(view, events);
  if (!isKnown(settled)) return null;
  const standardError = Math.hypot(stillMovingError, settled.standardError ?? 0.3);
  return { depth: settled.value, standardError, from: "settled" };
}

/** Under a thermostat: what full heat would reach is what it held over the share of the heat it needed, roughly. */
const dutyError = 0.15;

function heldDepth({ view, events }: StretchEvidence): Depth | null {
  const share = duty(view, events);
  const held = belowAmbient(view, events);
  if (!isKnown(share) || !isKnown(held) || !(share.value > leastDuty)) return null;
  const depth = held.value / share.value;
  const error = Math.hypot(dutyError * (1 - share.value), (share.standardError ?? 0) / share.value);
  return { depth, standardError: depth * Math.hypot(error, 0.03), from: "duty" };
}

/** Below this the share says little about full heat. */
const leastDuty = 0.35;

/** The temperature that the thermostat held, °C; null when it did not cycle. */
export function heldTemperature({ view, events }: StretchEvidence) {
  const cycling = cyclingIn(view, events);
  const depth = cycling === null ? null : belowAmbient(view, events);
  if (cycling === null || depth === null || !isKnown(depth)) return null;
  const values = [...view.hours.keys()]
    .filter((row) => view.stretch.startMs + view.hours[row] * msPerHour >= cycling.startMs)
    .map((row) => view.cabinet[row])
    .filter(Number.isFinite);
  if (values.length === 0) return null;
  const held = values.reduce((sum, value) => sum + value, 0) / values.length;
  const error = depth.standardError ?? 0.3;
  return estimate("Cel", held, held - 2 * error, held + 2 * error, { standardError: error, readings: values.length });
}
