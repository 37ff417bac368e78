// Everything one log tells before it is compared with anything: its stretches, each with its fit, its fin difference,
// and the conditions it ran under.

import type { HeatSource, Recording } from "../../schema/index.ts";
import type { Rejection, RunEvent } from "../findings.ts";
import { isKnown, type Unknown } from "../numbers/estimate.ts";
import { type CabinetFit, fitCabinet } from "../pull-down/cabinet-fit.ts";
import { usualWarmingRate } from "../pull-down/pull-down-fit.ts";
import { type JudgedFit, judgedFit } from "../pull-down/pull-down-numbers.ts";
import { cleanRecording } from "../readings/cleaning.ts";
import { stoppedForGood } from "../readings/events/cooling-stopped.ts";
import { findExhaustOnProbe, shareOf, withoutExhaust } from "../readings/events/exhaust-on-probe.ts";
import { findEvents, pullDownEnd } from "../readings/events/find-events.ts";
import { heatSourceOf, type Series, type Stretch } from "../readings/series.ts";
import { meanAmbient, meanBetween, type StretchView, viewOf } from "../readings/stretch-view.ts";
import { findStretches } from "../readings/stretches.ts";
import { workingSeries } from "../readings/working-series.ts";
import type { UnknownSaying } from "../sayings.ts";
import { type CabinetLift, cabinetLift } from "./cabinet-lift.ts";
import { frostMelted } from "./frost.ts";
import { type ProbeOffset, probeOffset } from "./probe-offset.ts";
import { type FinsAbove, finsAboveCabinet } from "./slow-cabinet.ts";
import { warmGoodsAmong } from "./warm-goods.ts";
import { warmingRate } from "./warming-rate.ts";

/** One log, cleaned and cut into stretches, with what happened in them. */
export interface RunSeen {
  readonly series: Series;
  readonly stretches: readonly Stretch[];
  readonly events: readonly RunEvent[];
  readonly rejections: readonly Rejection[];
}

/** What is seen of a run, with all that can be said of each stretch. */
export interface RunEvidence extends Omit<RunSeen, "stretches"> {
  readonly recording: Recording;
  readonly stretches: readonly StretchEvidence[];
  readonly offset: ProbeOffset;
  /** Why nothing that rests on the log's time can be believed; null where it can. */
  readonly timeDoubt: UnknownSaying | null;
}

/** One stretch with all that can be said of it alone. */
export interface StretchEvidence {
  readonly run: { readonly log: string; readonly recording: Recording };
  readonly stretch: Stretch;
  readonly source: HeatSource | null;
  readonly view: StretchView;
  readonly offset: ProbeOffset;
  readonly events: readonly RunEvent[];
  /** How the cabinet relaxes towards ambient, 1/h: of this run when it shows it. */
  readonly warmingRate: number;
  /** How far above ambient this run's cabinet would settle with the fridge off; null when it does not show it. */
  readonly lift: CabinetLift | null;
  /** How far this run's fins stood above the cabinet's probe with the fridge off; null when it does not show it. */
  readonly finsAbove: FinsAbove | null;
  /** Ambient minus cabinet as the run's first heating began, K. */
  readonly beganBelow: number;
  /** Whether frost melted on this run's fins with the fridge off; null when it does not show it. */
  readonly frostMelted: boolean | null;
  /** When its cooling stopped and did not come back, ms; null where it went on. */
  readonly stoppedMs: number | null;
  /** Whether goods put in warm may still have cooled in it: a fall then ends deeper than its curve says. */
  readonly warmGoods: boolean;
  /** The fit over the whole pull-down part. */
  readonly fitted: FittedStretch | Unknown;
  /** Mean ambient over the pull-down part, °C; NaN without the probe. */
  readonly ambient: number;
  /** What warm exhaust on the ambient probe leaves open of it, K; 0 without any. */
  readonly ambientError: number;
  /** Ambient minus cabinet at the switch-on, K. */
  readonly startBelowAmbient: number;
  /** Mean volts at the terminals, or as typed in on the run sheet; null when nobody knows. */
  readonly supplyVolts: number | null;
}

export interface FittedStretch {
  readonly cabinetFit: CabinetFit;
  readonly judged: JudgedFit;
}

/** Where a log's stretches begin and end and what happened in them: a tenth of the work, as nothing is fitted. */
export function runSeen(recording: Recording): RunSeen {
  const cleaned = cleanRecording(recording);
  const asRead = workingSeries(cleaned.recording);
  const stretches = findStretches(asRead, recording.sourceMarks);
  const exhausts = findExhaustOnProbe(asRead, stretches);
  const series = withoutExhaust(asRead, exhausts);
  const found = findEvents(series, stretches);
  const events = [...cleaned.events, ...exhausts, ...found].sort((a, b) => a.startMs - b.startMs);
  return { series, stretches, events, rejections: cleaned.rejections };
}

/** Reads one log as far as it can be read alone. */
export function runEvidence(recording: Recording): RunEvidence {
  const { series, stretches, events, rejections } = runSeen(recording);
  const offset = probeOffset(series, stretches);
  const views = stretches.map((stretch) => viewOf(series, stretch, events, pullDownEnd(stretch, events, series)));
  const ownRate = ownWarmingRate(views);
  const relaxing = ownRate ?? usualWarmingRate;
  const doubt = timeDoubt(rejections, recording.unixMs.length);
  const lift = doubt === null ? cabinetLift(views, ownRate, isInVan(recording)) : null;
  const finsAbove = finsAboveCabinet(views, offset);
  const melted = frostMelted(views, offset);
  const alone = views.map((view) => stretchEvidence(recording, view, offset, events, relaxing, doubt));
  const falls = alone.flatMap(({ fitted }) => ("why" in fitted ? [] : [fitted]));
  const holdsGoods = warmGoodsAmong(falls, recording.sheet, ownRate);
  const beganBelow = alone.find(({ stretch }) => stretch.heated)?.startBelowAmbient ?? 0;
  return {
    recording,
    series,
    events,
    rejections,
    offset,
    timeDoubt: doubt,
    stretches: alone.map((one) => ({
      ...one,
      lift,
      finsAbove,
      frostMelted: melted,
      warmGoods: holdsGoods("why" in one.fitted ? null : one.fitted),
      beganBelow,
    })),
  };
}

const isInVan = ({ sheet, columns }: Recording): boolean =>
  columns.room === undefined && sheet?.setting !== undefined && sheet.setting !== "bench";

/** A tenth of the rows out of their order, and nothing that rests on time can be believed. */
const mostOutOfOrder = 0.1;

function timeDoubt(rejections: readonly Rejection[], rows: number): UnknownSaying | null {
  const outOfOrder = rejections
    .filter(({ reason }) => reason === "out-of-order" || reason === "clock-jump")
    .reduce((sum, { readings }) => sum + readings, 0);
  const share = rows > 0 ? outOfOrder / rows : 0;
  return share > mostOutOfOrder ? { code: "time-unreliable", share } : null;
}

/** The first rate of warming back that a stretch of this run shows; null where none does. */
function ownWarmingRate(views: readonly StretchView[]): number | null {
  for (const view of views) {
    if (view.stretch.heated) continue;
    const rate = warmingRate(view);
    if (isKnown(rate)) return rate.value;
  }
  return null;
}

function stretchEvidence(
  recording: Recording,
  view: StretchView,
  offset: ProbeOffset,
  events: readonly RunEvent[],
  relaxing: number,
  doubt: UnknownSaying | null,
): Omit<StretchEvidence, "lift" | "finsAbove" | "frostMelted" | "warmGoods" | "beganBelow"> {
  const source = heatSourceOf(view.stretch);
  const start = meanBetween(view, 0, 0.25, depthAt(view), 1);
  return {
    run: { log: recording.name, recording },
    stretch: view.stretch,
    source,
    view,
    offset,
    events,
    warmingRate: relaxing,
    stoppedMs: stoppedForGood(events, view.stretch),
    fitted: view.stretch.heated
      ? doubt === null
        ? fittedStretch(view, relaxing)
        : { why: doubt }
      : { why: { code: "is-off" } },
    ambient: meanAmbient(view, 0, view.endHours),
    ambientError: exhaustError(view, events),
    startBelowAmbient: start?.mean ?? 0,
    supplyVolts: supplyVolts(recording, view, source),
  };
}

function fittedStretch(view: StretchView, relaxing: number): FittedStretch | Unknown {
  if (!view.cabinet.some(Number.isFinite)) return { why: { code: "no-cabinet" } };
  if (view.stretch.startState === "switched-while-cold") return { why: { code: "switched-while-cold" } };
  const settled = startsSettled(view);
  if (settled !== null) return { why: settled };
  const cabinetFit = fitCabinet(view, relaxing);
  return "why" in cabinetFit ? cabinetFit : { cabinetFit, judged: judgedFit(cabinetFit) };
}

/** Kelvin below ambient at a row; NaN without the probe. */
const depthAt = (view: StretchView) => (row: number) => (view.ambient?.[row] ?? Number.NaN) - view.cabinet[row];

/** Ends this much less below ambient than it began, K: it has warmed. */
const hasWarmed = 1;

/** A cabinet that begins about as cold as it ends, or colder, shows no pull-down; null where it began warm enough. */
function startsSettled(view: StretchView): UnknownSaying | null {
  const below = depthAt(view);
  const first = meanBetween(view, 0, 0.25, below, 1);
  const last = meanBetween(view, view.endHours - 0.5, view.endHours, below, 1);
  if (first === null || last === null) return null;
  const isSettled = first.mean > 5 && last.mean - first.mean < 0.25 * last.mean;
  return isSettled ? { code: "starts-settled", warms: first.mean - last.mean > hasWarmed } : null;
}

function exhaustError({ stretch }: StretchView, events: readonly RunEvent[]): number {
  const within = events.filter(({ startMs, endMs }) => startMs < stretch.endMs && endMs > stretch.startMs);
  return Math.max(0, ...within.map((event) => shareOf(event).error));
}

function supplyVolts(recording: Recording, view: StretchView, source: HeatSource | null): number | null {
  if (source === "gas") return null;
  const measured = meanBetween(view, 0, view.endHours, (row) => view.supply[row], 3);
  if (measured !== null && measured.mean > 5) return measured.mean;
  return source === null ? null : (recording.sheet?.supplyVolts?.[source] ?? null);
}
